"""Where the pipes come into a room: from a point, a doorway or the place of the manifold to the outline."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from ...checking import Point
from ...errors import FaultList
from ..tolerances import stepped
from .route_records import RoutesInputs

__all__ = ["LARGEST_SHIFT", "EntryPlace", "main_entry", "second_entry"]

LARGEST_SHIFT = 0.05
"""How far from the outline a point may lie to be taken for one of the outline [m]: the thickness of plaster."""
_STEP = 1e-3
"""Of entries along their wall [m]: floors are not measured finer."""
_DOORWAY_SHARE = 0.5
"""Of a doorway's width that the pair of pipes takes at most, unless the pitch is given."""


class EntryPlace(NamedTuple):
    """``place`` [m] on the outline; ``shift`` [m] is how far it lies from where it was asked for."""

    place: Point
    tail_pitch: float
    shift: float
    pointer: str


class _Nearest(NamedTuple):
    place: Point
    distance: float


def main_entry(inputs: RoutesInputs, faults: FaultList) -> EntryPlace | None:
    """The entry of the first circuit; None when a fault was noted."""
    given = [name for name in ("entry", "doorway", "manifold_place") if getattr(inputs, name) is not None]
    if len(given) != 1:
        faults.add(
            f"/{given[1]}" if given else "/entry",
            "one_of",
            "give exactly one of entry (a point of the outline), doorway (its two jambs) and manifold_place",
        )
        return None
    pitch = inputs.pipe_spacing if inputs.tail_pitch is None else inputs.tail_pitch
    if inputs.doorway is not None:
        return _in_doorway(inputs, inputs.doorway, pitch, faults)
    if inputs.manifold_place is not None:
        return EntryPlace(_nearest(inputs, inputs.manifold_place).place, pitch, 0.0, "/manifold_place")
    return _on_outline(inputs, inputs.entry or (0.0, 0.0), "/entry", pitch, faults)


def second_entry(inputs: RoutesInputs, faults: FaultList) -> EntryPlace | None:
    """The entry of the second circuit; None without one, or when a fault was noted."""
    if inputs.second_entry is None:
        return None
    pitch = inputs.pipe_spacing if inputs.tail_pitch is None else inputs.tail_pitch
    return _on_outline(inputs, inputs.second_entry, "/second_entry", pitch, faults)


def _on_outline(
    inputs: RoutesInputs, point: Point, pointer: str, pitch: float, faults: FaultList
) -> EntryPlace | None:
    nearest = _nearest(inputs, point)
    x, y = nearest.place
    on_outline = faults.require(
        nearest.distance <= LARGEST_SHIFT,
        pointer,
        "off_outline",
        f"lies {nearest.distance:.3f} m from the outline; the nearest point of it is [{x:.3f}, {y:.3f}]. "
        "If the pipes come in elsewhere, give manifold_place",
        LARGEST_SHIFT,
    )
    return EntryPlace(nearest.place, pitch, nearest.distance, pointer) if on_outline else None


def _in_doorway(
    inputs: RoutesInputs, doorway: tuple[Point, ...], pitch: float, faults: FaultList
) -> EntryPlace | None:
    """Halfway between the jambs."""
    jambs = [
        _on_outline(inputs, jamb, f"/doorway/{number}", pitch, faults) for number, jamb in enumerate(doorway)
    ]
    if jambs[0] is None or jambs[1] is None:
        return None
    width = math.dist(jambs[0].place, jambs[1].place)
    if inputs.tail_pitch is None:
        pitch = min(pitch, _DOORWAY_SHARE * width)
    wide_enough = faults.require(
        pitch + inputs.pipe.outside_diameter <= width,
        "/doorway",
        "too_narrow",
        f"is {width:.3f} m wide, too narrow for flow and return {pitch:.3f} m apart: take a wider "
        "doorway, or a smaller pitch of the tails",
        pitch + inputs.pipe.outside_diameter,
    )
    faults.require(
        pitch > inputs.pipe.outside_diameter,
        "/doorway" if inputs.tail_pitch is None else "/tail_pitch",
        "pipes_overlap",
        "must be more than the outside diameter of the pipe, or flow and return touch",
        inputs.pipe.outside_diameter,
    )
    middle = ((doorway[0][0] + doorway[1][0]) / 2.0, (doorway[0][1] + doorway[1][1]) / 2.0)
    return _on_outline(inputs, middle, "/doorway", pitch, faults) if wide_enough else None


def _nearest(inputs: RoutesInputs, point: Point) -> _Nearest:
    """The point of the outline nearest to a point; of equals the first along the outline."""
    places = [_nearest_on(start, end, point) for start, end in _edges(_counter_clockwise(inputs.outline))]
    return min(places, key=lambda nearest: round(nearest.distance, 9))


def _counter_clockwise(outline: tuple[Point, ...]) -> tuple[Point, ...]:
    doubled = math.fsum(ax * by - bx * ay for (ax, ay), (bx, by) in _edges(outline))
    return outline if doubled > 0.0 else outline[::-1]


def _edges(outline: tuple[Point, ...]) -> Iterator[tuple[Point, Point]]:
    yield from pairwise((*outline, outline[0]))


def _nearest_on(start: Point, end: Point, point: Point) -> _Nearest:
    """The place on an edge nearest to a point, in whole millimetres from the edge's start: no pipe is placed finer."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = math.hypot(dx, dy)
    if length == 0.0:
        return _Nearest(start, math.dist(start, point))
    along = min(length, max(0.0, ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / length))
    away = math.dist(_on_edge(start, (dx, dy), along / length), point)
    whole = min(length, stepped(along, _STEP))
    return _Nearest(_on_edge(start, (dx, dy), whole / length), away)


def _on_edge(start: Point, edge: Point, share: float) -> Point:
    return (start[0] + share * edge[0], start[1] + share * edge[1])
