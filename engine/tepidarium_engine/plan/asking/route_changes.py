"""What may help against each refusal of a room: the same request with one thing changed."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType
from typing import NamedTuple

import shapely
from shapely import LinearRing, LineString

from ...checking import Point
from ...errors import Fault
from ..laying.spacing_limits import bends_fit
from ..lengths.lengths import laid_diameter
from .floor_findings import in_millimetres
from .route_records import RoutesInputs

__all__ = ["PLACE", "Change", "changes_for"]

_MORE_PAIRS = 3
"""Of pipes that a wider doorway takes beside the first: a room may be divided."""
_SHIFTS = (0.2, 0.6)
"""By which an entry is moved along its wall [m], to either side."""
_LONGEST_WALLS = 2
"""Walls in whose middle an entry is tried."""
_SPACINGS = (0.9, 1.1)
"""Shares of the spacing."""
_SHARES = (0.9, 0.75, 0.6)
"""Of clearances, bend radii and pitches."""
_SPACING_STEP, _STEP = 0.005, 0.001
"""Of spacings that are advised, and of other lengths [m]: as people set them."""
_LEAST_SPACING = 0.05
"""Closest spacing that is advised [m]: common practice, no source."""
_CLEAR_OF_WALLS = 0.05
"""Least clear distance of pipe from walls and other upright parts [m]: EN 1264-4."""
_LEAST_BEND = 3.0
"""Tightest bend that is advised, in outside diameters: common practice for bends by hand, no source."""
_LEAST_PITCH = 1.25
"""Closest pitch of tails that is advised, in outside diameters."""
PLACE = re.compile(r" near \[[^\]]*\]$")


_VALUE = re.compile(r"(\d[\d.e-]*) m ")
_SHORT_OF_WALL = MappingProxyType({"no_division_entry_too_narrow": 0.5, "no_division_joint_at_entry": 1.0})
"""Refusals of an entry, and what share of the missing length [m] it has to be moved by."""


class Change(NamedTuple):
    """A request with one thing changed; ``words`` say what."""

    words: str
    inputs: RoutesInputs


def changes_for(fault: Fault, inputs: RoutesInputs) -> Iterator[tuple[Iterator[Change], bool]]:
    """Kinds of changes that may help against a refusal, in the order in which they are tried, each from the smallest
    on, and whether the largest helps if any does."""
    for make in _BY_CODE.get(f"{fault.code} {fault.pointer}", _BY_CODE.get(fault.code, ())):
        yield make(inputs, fault), make in _MONOTONE


def _whole(length: float, step: float) -> float:
    return round(math.floor(length / step + 1e-6) * step, 6)


def _other_spacings(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    """Spacings near the one asked for at which the pipe can turn."""
    seen = {inputs.pipe_spacing}
    for share in _SPACINGS:
        spacing = _whole(share * inputs.pipe_spacing + _SPACING_STEP / 2.0, _SPACING_STEP)
        if spacing in seen or spacing < max(_LEAST_SPACING, 1.5 * laid_diameter(inputs.pipe)):
            continue
        seen.add(spacing)
        if bends_fit(inputs.pipe.bend_radius, spacing, inputs.pattern):
            yield Change(
                f"a pipe spacing of {in_millimetres(spacing)}", replace(inputs, pipe_spacing=spacing)
            )


def _closer_spacings(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    """Closer ones only, as wider pipe does not fit where this one does not: from a bound that was computed on."""
    bound = fault.limit if fault.pointer == "/pipe_spacing" and fault.limit else inputs.pipe_spacing
    for share in (1.0, *_SHARES):
        spacing = _whole(share * bound, _STEP)
        usual = max(_LEAST_SPACING, 1.5 * laid_diameter(inputs.pipe)) <= spacing < inputs.pipe_spacing
        if usual and bends_fit(inputs.pipe.bend_radius, spacing, inputs.pattern):
            yield Change(
                f"a pipe spacing of {in_millimetres(spacing)}", replace(inputs, pipe_spacing=spacing)
            )


def _smaller_clearances(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    """Clearances that still keep the pipe clear of walls."""
    least = _CLEAR_OF_WALLS + laid_diameter(inputs.pipe) / 2.0
    shares = [_whole(share * inputs.wall_clearance, _STEP) for share in _SHARES]
    for clearance in (*(each for each in shares if each > least), least):
        if clearance < inputs.wall_clearance - _STEP:
            words = f"a wall clearance of {in_millimetres(clearance)}"
            yield Change(words, replace(inputs, wall_clearance=clearance))


def _tighter_bends(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    radius, least = inputs.pipe.bend_radius, _LEAST_BEND * inputs.pipe.outside_diameter
    for share in _SHARES:
        tighter = _whole(share * radius, _STEP)
        if tighter >= least:
            pipe = replace(inputs.pipe, minimum_bend_radius=tighter)
            yield Change(f"a pipe that may be bent to {in_millimetres(tighter)}", replace(inputs, pipe=pipe))


def _closer_pitches(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    """Pitches of the tails; without one given several circuits come in 50 mm apart, and one at the spacing."""
    usual = inputs.tail_pitch or inputs.pipe_spacing
    least = _LEAST_PITCH * laid_diameter(inputs.pipe)
    for share in _SHARES:
        pitch = _whole(share * usual, _STEP)
        if pitch >= least:
            words = f"a tail pitch of {in_millimetres(pitch)}"
            yield Change(words, replace(inputs, tail_pitch=pitch))


def _moved_entries(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    """The entry along its wall, then in the middle of the longest walls."""
    if inputs.entry is None and inputs.doorway is None:
        return
    ring = shapely.orient_polygons(shapely.Polygon(inputs.outline)).exterior
    jambs = inputs.doorway or (inputs.entry or (0.0, 0.0),)
    at = [float(ring.project(shapely.Point(jamb))) for jamb in jambs]
    corners = [float(ring.project(shapely.Point(corner))) for corner in ring.coords[:-1]]
    for shift in (sign * away for away in (*_needed_shifts(fault), *_SHIFTS) for sign in (1.0, -1.0)):
        low, high = sorted((at[0], at[0] + shift))
        if low < 0.0 or high > ring.length or any(low + _STEP < corner < high for corner in corners):
            continue
        side = "left" if shift > 0.0 else "right"
        where = f"{abs(shift):.2f} m further to the {side}, as seen from inside"
        yield _entered(inputs, ring, [each + shift for each in at], where)
    walls = [(a, b - a) for a, b in pairwise((*corners, ring.length))]
    for start, length in sorted(walls, key=lambda wall: (-round(wall[1], 3), wall[0]))[:_LONGEST_WALLS]:
        shift = start + length / 2.0 - sum(at) / len(at)
        yield _entered(inputs, ring, [each + shift for each in at], "in the middle of a long wall")


def _needed_shifts(fault: Fault) -> Iterator[float]:
    """How far the entry lies from where its pipes find room [m], where the refusal tells."""
    if fault.code in _SHORT_OF_WALL and fault.limit is not None:
        missing = fault.limit - float(_VALUE.findall(fault.detail)[0])
        least = math.ceil(missing * _SHORT_OF_WALL[fault.code] * 100.0 + 1.0) / 100.0
        yield from (least, least + _SHIFTS[0])


def _entered(inputs: RoutesInputs, ring: LinearRing, at: list[float], where: str) -> Change:
    places = [_place_at(ring, each) for each in at]
    named = " and ".join(f"[{x:.3f}, {y:.3f}]" for x, y in places)
    if inputs.doorway is None:
        return Change(f"the entry {where}, at {named}", replace(inputs, entry=places[0]))
    return Change(f"the doorway {where}, from {named}", replace(inputs, doorway=tuple(places)))


def _place_at(ring: LinearRing, at: float) -> Point:
    """The place [m] so far along the ring, as texts name it."""
    place = shapely.line_interpolate_point(ring, at % ring.length)
    return (round(float(place.x), 3), round(float(place.y), 3))


def _wider_doorways(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    """The doorway as wide as its pipes are, or as one to three circuits more are, on both sides alike."""
    if inputs.doorway is None or fault.limit is None:
        return
    (ax, ay), (bx, by) = inputs.doorway
    width = math.hypot(bx - ax, by - ay)
    pitch = inputs.tail_pitch or inputs.pipe_spacing
    for pairs in range(_MORE_PAIRS + 1):
        more = math.ceil((fault.limit - width + 2.0 * pairs * pitch) * 100.0 + 1e-6) / 100.0
        if width > 0.0 and more > 0.0:
            x, y = (bx - ax) / width * more / 2.0, (by - ay) / width * more / 2.0
            doorway = ((ax - x, ay - y), (bx + x, by + y))
            yield Change(f"a doorway {more:.2f} m wider", replace(inputs, doorway=doorway))


def _other_second_entries(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    if inputs.second_entry is None:
        return
    for change in _moved_entries(replace(inputs, entry=inputs.second_entry, doorway=None), fault):
        words = change.words.replace("the entry", "the second entry", 1)
        yield Change(words, replace(inputs, second_entry=change.inputs.entry))


def _other_counts(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    """The number of circuits that the refusal asks for, or one or two more."""
    if fault.code.endswith("too_few_circuits"):
        wanted = [math.ceil(fault.limit or 1.0)]
    else:
        wanted = [inputs.circuits + more for more in (1, 2)] if inputs.circuits else []
    for count in wanted:
        yield Change(f"{count} circuits", replace(inputs, circuits=count))


def _moved_joints(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    """The joint beside the field that is too narrow, moved away from it, from wall to wall as before."""
    ring, place = LinearRing(inputs.outline), PLACE.search(fault.detail)
    if place is None or fault.limit is None:
        return
    inside = shapely.Point([float(each) for each in place[0].split("[")[1].rstrip("]").split(", ")])
    lines = [LineString(joint) for joint in inputs.movement_joints]
    number = min(range(len(lines)), key=lambda index: (round(lines[index].distance(inside), 6), index))
    joint, near = inputs.movement_joints[number], lines[number].interpolate(lines[number].project(inside))
    length = near.distance(inside)
    if length == 0.0:
        return
    x, y = (near.x - inside.x) / length, (near.y - inside.y) / length
    missing = fault.limit - float(_VALUE.findall(fault.detail)[0])
    for more in (0.0, 0.5, 1.0):
        away = math.ceil((missing + more * inputs.pipe_spacing) * 100.0 + 1.0) / 100.0
        moved = [(px + away * x, py + away * y) for px, py in joint]
        moved[0], moved[-1] = (
            _place_at(ring, ring.project(shapely.Point(end))) for end in (moved[0], moved[-1])
        )
        ends = " to ".join(f"[{px:.3f}, {py:.3f}]" for px, py in (moved[0], moved[-1]))
        joints = (*inputs.movement_joints[:number], tuple(moved), *inputs.movement_joints[number + 1 :])
        words = f"the movement joint {away:.2f} m further away, from {ends}"
        yield Change(words, replace(inputs, movement_joints=joints))


def _longer_circuits(inputs: RoutesInputs, fault: Fault) -> Iterator[Change]:
    if inputs.maximum_circuit_length is not None:
        for share in (1.1, 1.25, 1.5):
            length = math.ceil(share * inputs.maximum_circuit_length)
            yield Change(
                f"circuits of up to {length} m", replace(inputs, maximum_circuit_length=float(length))
            )


_Maker = Callable[[RoutesInputs, Fault], Iterator[Change]]
_NARROW: tuple[_Maker, ...] = (_closer_spacings, _smaller_clearances, _tighter_bends)
_MONOTONE = frozenset(
    {_closer_spacings, _smaller_clearances, _tighter_bends, _closer_pitches, _longer_circuits}
)
"""Of which the largest change helps if any does."""
_ROOM: tuple[_Maker, ...] = (_other_spacings, _moved_entries, _smaller_clearances, _tighter_bends)
_ROOM_EDGE: tuple[_Maker, ...] = (_smaller_clearances, _tighter_bends, _moved_entries)
"""Of 480 refused rooms of the fuzzer, another spacing helped 5 of 131 that were too tight at their edge."""
_DIVISION: tuple[_Maker, ...] = (_moved_entries, _other_counts, _longer_circuits)
_BY_CODE: Mapping[str, tuple[_Maker, ...]] = MappingProxyType(
    {
        "no_pipe_fits": _NARROW,
        "too_narrow /outline": _NARROW,
        "too_narrow /doorway": (_wider_doorways, _closer_pitches),
        "clearance_fills_room": (_smaller_clearances,),
        "no_cut": (_other_second_entries,),
        "same_field": (_other_second_entries,),
        "outside_strip": (_other_second_entries,),
        "inside_strip": (_moved_entries,),
        "no_route_too_narrow": _NARROW,
        "no_route_no_room_for_pipe": _NARROW,
        "no_route_wall_clearance": _ROOM_EDGE,
        "no_route_bend_radius": (_tighter_bends, _smaller_clearances, _moved_entries),
        "no_route_pipe_distance": _ROOM,
        "no_route_tail_distance": (_closer_pitches, _moved_entries),
        "no_route_crosses_itself": _ROOM,
        "no_division_entry_too_narrow": (_moved_entries, _closer_pitches, _longer_circuits),
        "no_division_doorway_too_narrow": (_wider_doorways, _closer_pitches, _longer_circuits),
        "no_division_field_too_narrow": (_moved_joints, _closer_spacings),
        "no_division_joint_at_entry": (_moved_entries, _closer_pitches),
        "no_division_too_few_circuits": (_other_counts,),
        "no_division_too_many_circuits": (_longer_circuits, _other_spacings),
        "no_division_circuit_too_long": (_other_counts, _longer_circuits),
        "no_division_no_way_for_tails": _DIVISION,
        "no_division_bend_radius": (_tighter_bends, *_DIVISION),
        "no_division_pipe_distance": _DIVISION,
        "no_division_circuits_too_near": _DIVISION,
        "no_division_crosses_itself": _DIVISION,
        "no_division_too_narrow": _DIVISION,
        "no_division_wall_clearance": _DIVISION,
        "no_division_outside_floor": _DIVISION,
        "no_division_tail_distance": (_closer_pitches, *_DIVISION),
    }
)
"""What helps against each refusal for which a change can be computed; with its field where a code has two of them."""
