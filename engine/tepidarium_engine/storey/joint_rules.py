"""Movement joints that the rules of the trade ask for: where a screed should be parted, and why.

The rules are those of heated screeds: fields of limited area, side and ratio, parted from re-entrant corners on
and in doorways. Who plans the building decides on joints; these are proposals.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np
import shapely
from shapely import LineString, Polygon

from ..checking import Point
from ..plan.outlines.overlays import intersection
from ..plan.outlines.polygons import RoomOutline
from ..plan.outlines.room_frame import room_frame
from ..practice.screed import Binder
from .fields import joint_fields
from .records import Segment

__all__ = ["FIELD_RULES", "FieldRule", "JointReason", "ProposedJoint", "doorway_joints", "proposed_joints"]

JointReason = Literal["field_area", "field_side", "field_ratio", "re_entrant_corner", "doorway"]


@dataclass(frozen=True, slots=True)
class FieldRule:
    """Limits of a field of screed: ``area`` [m2], longest ``side`` [m], ``ratio`` of the sides; None where the
    rule has no such limit. ``corners``: whether joints start from re-entrant corners."""

    area: float | None
    side: float | None
    ratio: float | None
    corners: bool
    source: str


_CEMENT = FieldRule(
    40.0,
    8.0,
    2.0,
    True,
    "EN 1264-4, movement joints: 40 m2 and 8 m for heated cement screed; ratio 2:1 and re-entrant corners are "
    "common practice with DIN 18560-2",
)
_CALCIUM_SULPHATE = FieldRule(
    None,
    10.0,
    None,
    False,
    "Joint guidance of the calcium sulphate screed trade: 10 m edge length under rigid coverings, 20 m under resilient "
    "ones",
)
FIELD_RULES: dict[Binder, FieldRule] = {
    "cement": _CEMENT,
    "calcium_sulphate": _CALCIUM_SULPHATE,
    "calcium_sulphate_flowing": _CALCIUM_SULPHATE,
}
_DOORWAY_SOURCE = "EN 1264-4, movement joints: doorways; common practice with DIN 18560-2"
_JOG = 0.5
"""Corners beside a shorter edge than this are a jog or a chimney, not a corner that parts the floor [m]."""
_LEAST_PART = 1.0
"""No joint is proposed that cuts off less floor [m2]."""
_MOST = 32
_SLACK = 1e-6


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


def proposed_joints(
    room: RoomOutline, binder: Binder, *, joints: Sequence[Segment] = (), doorways: Sequence[Segment] = ()
) -> tuple[ProposedJoint, ...]:
    """Joints that the rules ask for beside the ``joints`` given; all in the caller's frame [m].

    Each field that breaks a rule is parted, and its parts are looked at again: first by the shortest joint from
    a re-entrant corner, then square to the longer side of its rectangle. A doorway gets a joint between its
    jambs unless one of the ``joints`` lies there.
    """
    frame, origin = room_frame(room.polygon), room.origin

    def local(line: Segment) -> Segment:
        return (frame.local_place(line[0], origin), frame.local_place(line[1], origin))

    def outer(line: Segment) -> Segment:
        a, b = (frame.outer_points(np.array(line)) + origin).tolist()
        return ((a[0], a[1]), (b[0], b[1]))

    rule = FIELD_RULES[binder]
    found: list[ProposedJoint] = []
    fields = joint_fields(frame.to_local(room.polygon), [local(joint) for joint in joints])
    while fields and len(found) < _MOST:
        field = fields.pop(0)
        for proposal in _broken(field, rule):
            parts = joint_fields(field, [proposal.line])
            if len(parts) > 1 and min(part.area for part in parts) >= _LEAST_PART:
                found.append(proposal)
                fields += parts
                break
    asked = [
        ProposedJoint(outer(each.line), each.reason, each.value, each.limit, each.source) for each in found
    ]
    return (*asked, *doorway_joints(joints, doorways))


def doorway_joints(joints: Sequence[Segment], doorways: Sequence[Segment]) -> tuple[ProposedJoint, ...]:
    """A joint between the jambs of each doorway in which none of the ``joints`` lies."""
    drawn = shapely.MultiLineString(list(joints))
    return tuple(
        ProposedJoint(doorway, "doorway", None, None, _DOORWAY_SOURCE)
        for doorway in doorways
        if not shapely.dwithin(drawn, shapely.LineString(doorway).centroid, _JOG)
    )


def _broken(field: Polygon, rule: FieldRule) -> Iterator[ProposedJoint]:
    """Joints for a field that breaks a rule, the best first."""
    corners = sorted(_from_corners(field), key=lambda line: (round(math.dist(*line), 6), line))
    if rule.corners:
        for line in corners:
            yield ProposedJoint(line, "re_entrant_corner", None, None, rule.source)
    x0, y0, x1, y1 = field.bounds
    short, long = sorted((x1 - x0, y1 - y0))
    broken: tuple[tuple[JointReason, float, float | None], ...] = (
        ("field_side", long, rule.side),
        ("field_area", float(field.area), rule.area),
        ("field_ratio", long / short, rule.ratio),
    )
    for reason, value, limit in broken:
        if limit is None or value <= limit + _SLACK:
            continue
        count = max(2, math.ceil(value / limit - _SLACK))
        for line in _across(field, 0 if x1 - x0 >= y1 - y0 else 1, count):
            yield ProposedJoint(line, reason, value, limit, rule.source)


def _across(field: Polygon, axis: int, count: int) -> Iterator[Segment]:
    """Square to the longer side, at the border nearest to the middle of ``count`` equal parts, then beside it."""
    low, high = field.bounds[axis], field.bounds[axis + 2]
    middle = (count // 2) / count
    for share in (middle, middle - 0.05, middle + 0.05, middle - 0.1, middle + 0.1):
        at = low + share * (high - low)
        ends = [list(field.bounds[:2]), list(field.bounds[2:])]
        ends[0][axis] = ends[1][axis] = at
        yield from _chords(field, LineString(ends))


def _from_corners(field: Polygon) -> Iterator[Segment]:
    """From each re-entrant corner of the outline on, in the direction of either edge, to the next edge."""
    ring = shapely.get_coordinates(shapely.orient_polygons(field).exterior)[:-1].tolist()
    reach = 2.0 * math.hypot(field.bounds[2] - field.bounds[0], field.bounds[3] - field.bounds[1])
    for before, here, after in zip([ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True):
        ax, ay, bx, by = here[0] - before[0], here[1] - before[1], after[0] - here[0], after[1] - here[1]
        lengths = math.hypot(ax, ay), math.hypot(bx, by)
        if min(lengths) < _JOG or ax * by - ay * bx > -0.5 * lengths[0] * lengths[1]:
            continue
        for x, y, length in ((ax, ay, lengths[0]), (-bx, -by, lengths[1])):
            end = (here[0] + reach * x / length, here[1] + reach * y / length)
            first = next(iter(_chords(field, LineString([here, end]))), None)
            if first is not None:
                yield first


def _chords(field: Polygon, line: LineString) -> Iterator[Segment]:
    """What of a line lies in a field, in the order of the line, each piece from edge to edge."""
    parts = shapely.get_parts(intersection(line, field))
    for part in parts:
        if isinstance(part, LineString) and part.length > _SLACK:
            yield from pairwise([(float(x), float(y)) for x, y in part.coords])
