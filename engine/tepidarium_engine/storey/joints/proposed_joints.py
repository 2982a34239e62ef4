"""Movement joints as a screed layer would make them: straight, square to the walls, from corners that part the floor,
and no more than the rules ask for.

Who plans the building decides on joints; these are proposals.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.polygons import RoomOutline
from ...plan.outlines.room_frame import room_frame
from ...practice.screed import Binder
from ..division.fields import joint_fields
from ..model.records import Segment
from .joint_rules import (
    DOORWAY_SOURCE,
    FIELD_RULES,
    LEAST_FIELD,
    Broken,
    JointReason,
    ScreedField,
)
from .joint_shapes import chords, is_field

__all__ = ["ProposedJoint", "doorway_joints", "field_joints", "proposed_joints"]

_LEAST_PART = (2.0, 0.5)
"""Area [m2] and width [m] of what a joint may leave where a field is too long or too large."""
_MOST = 32
_SHIFTS = (0.0, -0.05, 0.05, -0.1, 0.1)
"""Of a joint between equal parts, in lengths of the field."""
_NEAR = 0.12
"""How far from there walls and other joints still draw a joint to themselves, in lengths of the field."""
_LENGTH, _UNEVEN, _IN_DOORWAY, _ALIGNED = 0.05, 0.1, 0.2, -0.03
"""What makes one joint better than another that helps as much: its length in sides of a square as large as the field,
uneven parts, an end in a doorway, and that it goes on from a corner or another joint."""
_JAMB = 0.1
"""Nearer to a jamb an end stands beside the doorway [m]."""
_AT_DOORWAY = 0.5
"""A joint that lies so near to the middle of a doorway is the doorway's [m]."""
_OFF_SQUARE = math.sin(math.radians(10.0))
"""How far from square to a wall a joint across the mouth of a wing may run."""
_SAME_PLACE = 1e-6
_ROUNDED = 1e-5
"""What the frame of a room may shift a corner by, with what follows from it [m]."""
_GAIN = 1e-4
"""A joint must bring a field nearer to the rules by as much."""
_DIGITS = 9
"""To which places of doorways are rounded in the frame of a room [m], so that those of rooms that are alike are the
same."""
_REMEMBERED = 256
"""Rooms."""


@dataclass(frozen=True, slots=True)
class ProposedJoint:
    """A joint from wall to wall; ``value`` passes the ``limit`` of the rule (area [m2], side [m], ratio [1]),
    both None for a corner or doorway."""

    line: Segment
    reason: JointReason
    value: float | None
    limit: float | None
    source: str

    @property
    def middle(self) -> Point:
        (ax, ay), (bx, by) = self.line
        return ((ax + bx) / 2.0, (ay + by) / 2.0)


class _Cut(NamedTuple):
    """Straight pieces on one line, and what makes it better than others."""

    lines: tuple[Segment, ...]
    why: Broken
    bonus: float
    least: tuple[float, float]
    balanced: bool


def proposed_joints(
    room: RoomOutline, binder: Binder, *, joints: Sequence[Segment] = (), doorways: Sequence[Segment] = ()
) -> tuple[ProposedJoint, ...]:
    """Joints that the rules ask for beside the ``joints`` given, in the room and in its ``doorways``; all in the
    caller's frame [m]."""
    return (*field_joints(room, binder, joints, doorways), *doorway_joints(joints, doorways))


def field_joints(
    room: RoomOutline, binder: Binder, joints: Sequence[Segment], doorways: Sequence[Segment]
) -> tuple[ProposedJoint, ...]:
    """Those in the room alone; none ends in one of its ``doorways`` if that can be.

    Each field that breaks a rule is parted by the joint that helps most, and its parts are looked at again. No joint
    leaves a piece that is no field.
    """
    frame, origin = room_frame(room.polygon), room.origin

    def local(line: Segment) -> Segment:
        a, b = frame.local_points(np.array(line) - origin).tolist()
        return ((a[0], a[1]), (b[0], b[1]))

    def outer(line: Segment) -> Segment:
        a, b = (_on_wall(room.polygon, (x, y)) for x, y in frame.outer_points(np.array(line)).tolist())
        return ((a[0] + origin[0], a[1] + origin[1]), (b[0] + origin[0], b[1] + origin[1]))

    openings = tuple(map(_rounded, map(local, doorways)))
    fields = joint_fields(frame.to_local(room.polygon), [local(joint) for joint in joints])
    return tuple(
        ProposedJoint(outer(line), cut.why.reason, cut.why.value, cut.why.limit, FIELD_RULES[binder].source)
        for cut in _cuts(tuple(fields), openings, binder)
        for line in cut.lines
    )


def _rounded(line: Segment) -> Segment:
    (ax, ay), (bx, by) = line
    return ((round(ax, _DIGITS), round(ay, _DIGITS)), (round(bx, _DIGITS), round(by, _DIGITS)))


@lru_cache(maxsize=_REMEMBERED)
def _cuts(fields: tuple[Polygon, ...], openings: tuple[Segment, ...], binder: Binder) -> tuple[_Cut, ...]:
    """Through the fields of a room in its own frame, one after the other."""
    left, found = list(fields), list[_Cut]()
    while left and sum(len(cut.lines) for cut in found) < _MOST:
        cut, parts = _best_cut(ScreedField(left.pop(0), FIELD_RULES[binder]), openings)
        if cut is not None:
            found.append(cut)
            left += parts
    return tuple(found)


def _on_wall(room: Polygon, end: Point) -> Point:
    """The end of a joint on the very corner or wall that it comes from: the room's own frame is rounded."""
    corners = shapely.get_coordinates(room)
    away = np.hypot(corners[:, 0] - end[0], corners[:, 1] - end[1])
    nearest = int(away.argmin())
    if away[nearest] < _ROUNDED:
        return float(corners[nearest, 0]), float(corners[nearest, 1])
    point = shapely.Point(end)
    ring = min((room.exterior, *room.interiors), key=lambda ring: float(shapely.distance(ring, point)))
    if shapely.distance(ring, point) < _ROUNDED:
        point = shapely.line_interpolate_point(ring, shapely.line_locate_point(ring, point))
    return float(point.x), float(point.y)


def doorway_joints(joints: Sequence[Segment], doorways: Sequence[Segment]) -> tuple[ProposedJoint, ...]:
    """A joint between the jambs of each doorway in which none of the ``joints`` lies."""
    drawn = shapely.MultiLineString(list(joints))
    return tuple(
        ProposedJoint(doorway, "doorway", None, None, DOORWAY_SOURCE)
        for doorway in doorways
        if not shapely.dwithin(drawn, LineString(doorway).centroid, _AT_DOORWAY)
    )


def _best_cut(field: ScreedField, openings: Sequence[Segment]) -> tuple[_Cut | None, list[Polygon]]:
    """The cut that helps a field most, with its parts; none where the field keeps the rules or nothing helps. Corners
    come first: a joint beside one would leave it to crack."""
    for cuts in (_corner_cuts(field), _across(field)):
        best: tuple[float, tuple[Segment, ...]] = (math.inf, ())
        found: tuple[_Cut, list[Polygon]] | None = None
        for cut in cuts:
            parts = joint_fields(field.floor, cut.lines)
            if len(parts) < 2 or not all(is_field(part, *cut.least) for part in parts):
                continue
            # by floor: many small fields that nearly keep a rule are better than a large one that does not
            shares = [ScreedField(part, field.rule).weight * part.area for part in parts]
            weight = math.fsum(shares) / field.floor.area
            key = (round(weight + _cost(field.floor, cut, parts, openings), 6), cut.lines)
            if weight <= field.weight - _GAIN and key < best:
                best, found = key, (cut, parts)
        if found is not None:
            return found
    return None, []


def _cost(floor: Polygon, cut: _Cut, parts: Sequence[Polygon], openings: Sequence[Segment]) -> float:
    length = math.fsum(math.dist(*line) for line in cut.lines)
    areas = [part.area for part in parts]
    ends = [end for line in cut.lines for end in line]
    return (
        _LENGTH * length / math.sqrt(floor.area)
        + (_UNEVEN * (max(areas) - min(areas)) / floor.area if cut.balanced else 0.0)
        + _IN_DOORWAY * sum(_stands_in(end, opening) for end in ends for opening in openings)
        + cut.bonus
    )


def _stands_in(end: Point, opening: Segment) -> bool:
    """Whether the end of a joint stands in a doorway."""
    line, point = LineString(opening), shapely.Point(end)
    beside = min(math.dist(end, jamb) for jamb in opening) < _JAMB
    return bool(shapely.dwithin(line, point, _JAMB)) and not beside


def _corner_cuts(field: ScreedField) -> Iterator[_Cut]:
    """On from the corners of a field, and from corner to corner across the mouth of a wing."""
    broken = next((each for each in field.broken if each.reason == "re_entrant_corner"), None)
    if broken is None:
        return
    places = [corner.place for corner in field.corners]
    mouths = [pair for pair in pairwise((*places, places[0])) if _is_mouth(field.floor, pair)]
    for line in (*(line for corner in field.corners for line in corner.lines), *mouths):
        if math.dist(*line) <= field.longest_joint:
            yield _Cut((line,), broken, 0.0, LEAST_FIELD, balanced=False)


def _across(field: ScreedField) -> Iterator[_Cut]:
    """Across a field that is too long, too large or too narrow."""
    for broken in field.broken:
        least = LEAST_FIELD if broken.reason == "field_ratio" else _LEAST_PART
        for place, bonus in _places(field, broken.parts):
            for lines in _lines_at(field, place):
                if math.fsum(math.dist(*line) for line in lines) <= field.longest_joint:
                    yield _Cut(lines, broken, bonus, least, balanced=True)


def _places(field: ScreedField, parts: int) -> Iterator[tuple[float, float]]:
    """Where a field may be parted across its longer side [m], with what speaks for it: at the border nearest to the
    middle of equal parts, beside it, and where a wall or another joint ends near there."""
    rectangle = field.rectangle
    low, length = rectangle.low[rectangle.axis], max(rectangle.sides)
    border = low + (parts // 2) / parts * length
    for shift in _SHIFTS:
        yield border + shift * length, 0.0
    corners = shapely.get_coordinates(field.floor)[:, rectangle.axis]
    for place in sorted({round(float(corner), 6) for corner in corners}):
        if abs(place - border) <= _NEAR * length:
            yield place, _ALIGNED


def _lines_at(field: ScreedField, place: float) -> Iterator[tuple[Segment, ...]]:
    """Straight across the field: each stretch from wall to wall, and all of them where a void parts them."""
    axis = field.rectangle.axis
    ends = [list(field.floor.bounds[:2]), list(field.floor.bounds[2:])]
    ends[0][axis] = ends[1][axis] = place
    found = list(chords(field.floor, LineString(ends)))
    for line in found:
        yield (line,)
    if len(found) > 1:
        yield tuple(found)


def _is_mouth(floor: Polygon, line: Segment) -> bool:
    """Whether a line between two corners runs through the floor, square to a wall at both of them."""
    along = shapely.line_interpolate_point(LineString(line), [0.1, 0.5, 0.9], normalized=True)
    ring = shapely.get_coordinates(floor.exterior).tolist()
    edges = list(pairwise(ring))
    return bool(shapely.contains_properly(floor, along).all()) and all(
        any(
            _square(line, edge)
            for edge in edges
            if min(math.dist(end, corner) for corner in edge) < _SAME_PLACE
        )
        for end in line
    )


def _square(line: Segment, edge: Sequence[Sequence[float]]) -> bool:
    (ax, ay), (bx, by) = line
    (cx, cy), (dx, dy) = edge
    along = abs((bx - ax) * (dx - cx) + (by - ay) * (dy - cy))
    return along <= _OFF_SQUARE * math.dist(*line) * math.dist(*edge)
