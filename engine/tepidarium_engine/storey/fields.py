"""The fields that movement joints leave of a room, and how many circuits each takes."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString, MultiLineString, Polygon

from ..checking import Point
from ..elementwise import Array
from ..plan.outlines.overlays import union
from ..plan.outlines.polygons import served_area
from .records import Segment

__all__ = ["FULL", "circuits_of_fields", "joint_fields", "more_circuits"]

FULL = 0.985
"""Share of the permitted length that circuits have on average where none is too long."""
_REACH = 1e-3
"""By which joints are lengthened, so that one that ends on a wall does, and by which they may miss a corner [m]."""


def joint_fields(room: Polygon, joints: Sequence[Segment]) -> list[Polygon]:
    """The parts of a room between its joints, in order of place."""
    if not joints:
        return [room]
    corners = shapely.get_coordinates(room)
    lines = MultiLineString([_longer(joint, corners) for joint in joints if math.dist(*joint) > 0.0])
    drawn = union([room.boundary, lines])
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(drawn)))
    inside = [face for face in faces if shapely.contains(room, shapely.point_on_surface(face))]
    kept = [face for face in inside if face.area > 0.01]
    return sorted(kept, key=lambda face: tuple(round(number, 6) for number in face.bounds))


def _longer(joint: Segment, corners: Array) -> LineString:
    """A joint that goes on a little beyond its ends; one at a corner of the room stays there, as a joint beside the
    corner would part nothing."""
    return LineString([_end(joint[0], joint[1], corners), _end(joint[1], joint[0], corners)])


def _end(end: Point, other: Point, corners: Array) -> Point:
    away = np.hypot(corners[:, 0] - end[0], corners[:, 1] - end[1])
    nearest = int(away.argmin())
    if away[nearest] <= _REACH:
        return float(corners[nearest, 0]), float(corners[nearest, 1])
    share = _REACH / math.dist(end, other)
    return end[0] + share * (end[0] - other[0]), end[1] + share * (end[1] - other[1])


def circuits_of_fields(
    fields: Sequence[Polygon], spacing: float, clearance: float, length: float, count: int | None
) -> list[int] | None:
    """Number of circuits in each field: so many that none is longer than ``length`` [m], or ``count`` in all;
    None where there are fewer than fields."""
    needs = [served_area(field, spacing, clearance) / spacing / length for field in fields]
    if count is None:
        counts = [max(1, math.ceil(need - 1e-9)) for need in needs]
        target = sum(counts)
    else:
        counts, target = [1] * len(fields), count
    if target < len(fields):
        return None
    while sum(counts) < target:
        fullest = max(range(len(fields)), key=lambda index: (round(needs[index] / counts[index], 9), -index))
        counts[fullest] += 1
    return counts


def more_circuits(count: int, length: float, longest: float) -> int:
    """Number of circuits in place of ``count`` whose mean ``length`` [m] is too great for the ``longest`` [m] that is
    permitted: one more at least."""
    return max(count + 1, math.ceil(count * length / (FULL * longest) - 1e-9))
