"""Requests that are refused, at random: ordinary rooms with one thing that does not go."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace

from tepidarium_engine.pipe import Pipe
from tepidarium_engine.routes import RoutesInputs

__all__ = ["KINDS", "refused_room"]

Lot = random.Random


def _room(lot: Lot, width: float, depth: float) -> RoutesInputs:
    outline = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    return RoutesInputs(outline, lot.choice((0.1, 0.15, 0.2)), entry=(round(width / 2.0, 3), 0.0), quick=True)


def _usual(lot: Lot) -> RoutesInputs:
    return _room(lot, round(lot.uniform(3.0, 5.0), 2), round(lot.uniform(2.5, 4.5), 2))


def _slot(lot: Lot) -> RoutesInputs:
    """Too narrow for its spacing."""
    room = _room(lot, round(lot.uniform(2.0, 5.0), 2), 1.0)
    spacing = lot.choice((0.2, 0.25, 0.3))
    width = 0.15 + 0.6 * spacing - round(lot.uniform(0.005, 0.04), 3)
    outline = tuple((x, y * width) for x, y in room.outline)
    pipe = Pipe(0.014, 0.002, minimum_bend_radius=0.05)
    return replace(room, outline=outline, pipe_spacing=spacing, pipe=pipe)


def _kept_clear(lot: Lot) -> RoutesInputs:
    """A clearance that leaves no floor."""
    room = _room(lot, round(lot.uniform(2.0, 4.0), 2), round(lot.uniform(1.0, 1.6), 2))
    return replace(room, wall_clearance=round(room.outline[2][1] / 2.0 + lot.uniform(0.0, 0.2), 3))


def _doorway(lot: Lot) -> RoutesInputs:
    """A doorway too narrow for flow and return at their pitch."""
    room = _usual(lot)
    pitch = round(lot.uniform(0.1, 0.2), 3)
    half = (pitch + 0.016) / 2.0 - lot.uniform(0.005, 0.03)
    middle = room.outline[1][0] / 2.0
    return replace(
        room,
        entry=None,
        tail_pitch=pitch,
        doorway=((round(middle - half, 3), 0.0), (round(middle + half, 3), 0.0)),
    )


def _doorway_of_several(lot: Lot) -> RoutesInputs:
    room, count = _usual(lot), lot.choice((2, 3))
    middle, half = room.outline[1][0] / 2.0, lot.uniform(0.035, 0.07)
    return replace(
        room,
        entry=None,
        circuits=count,
        doorway=((round(middle - half, 3), 0.0), (round(middle + half, 3), 0.0)),
    )


def _niche(lot: Lot) -> RoutesInputs:
    """Several circuits that come in at the back of a niche, which is narrower than their pipes are side by side."""
    room = _usual(lot)
    middle, half, back = room.outline[1][0] / 2.0, lot.uniform(0.05, 0.07), -lot.uniform(0.5, 0.8)
    left, right, back = round(middle - half, 3), round(middle + half, 3), round(back, 3)
    start, *others = room.outline
    outline = (start, (left, 0.0), (left, back), (right, back), (right, 0.0), *others)
    return replace(room, outline=outline, circuits=lot.choice((2, 3)), entry=(round(middle, 3), back))


def _at_a_joint(lot: Lot) -> RoutesInputs:
    """A joint that meets the wall where the pipes come in."""
    room = _usual(lot)
    x = round(room.outline[1][0] / 2.0 + lot.uniform(-0.05, 0.05), 3)
    return replace(room, movement_joints=(((x, 0.0), (x, room.outline[2][1])),))


def _beside_a_joint(lot: Lot) -> RoutesInputs:
    """A joint that leaves too narrow a field along a wall."""
    room = _usual(lot)
    x = round(room.outline[1][0] - lot.uniform(0.1, 0.2), 3)
    return replace(room, movement_joints=(((x, 0.0), (x, room.outline[2][1])),))


def _joints(lot: Lot) -> RoutesInputs:
    """Fewer circuits than fields."""
    room = _usual(lot)
    width, depth = room.outline[2]
    joints = tuple(((share * width, 0.0), (share * width, depth)) for share in (0.3, 0.7))
    return replace(room, circuits=2, movement_joints=joints)


def _one_place(lot: Lot) -> RoutesInputs:
    """Two entries that no cut parts."""
    room = _usual(lot)
    x, _ = room.entry or (0.0, 0.0)
    return replace(room, second_entry=(round(x + lot.uniform(0.01, 0.08), 3), 0.0))


KINDS: dict[str, Callable[[Lot], RoutesInputs]] = {
    "slot": _slot,
    "kept clear": _kept_clear,
    "doorway": _doorway,
    "doorway of several": _doorway_of_several,
    "niche": _niche,
    "at a joint": _at_a_joint,
    "beside a joint": _beside_a_joint,
    "joints": _joints,
    "one place": _one_place,
}


def refused_room(kind: str, number: int) -> RoutesInputs:
    """The request of a kind with this number."""
    return KINDS[kind](random.Random(f"{kind} {number}"))
