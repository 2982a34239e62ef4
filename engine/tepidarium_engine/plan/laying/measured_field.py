"""Length of pipe in a room, measured on a route that could be laid."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import NamedTuple

import shapely

from ...checking import Point
from ...pipe import Pipe
from ..outlines.polygons import RoomOutline
from .laying import Laid, LayingTask, Pattern, lay

__all__ = ["MeasuredField", "measured_field", "usual_entry"]


class MeasuredField(NamedTuple):
    """``length`` [m] of the pipe in the field and its bends, counted as right angles; none of both when no
    route was found, and then ``refusal`` tells why."""

    length: float | None
    right_angle_bends: int | None
    refusal: str | None


def measured_field(
    room: RoomOutline,
    pipe: Pipe,
    *,
    pipe_spacing: float,
    wall_clearance: float,
    entry: Point | None,
    pattern: Pattern,
    quick: bool,
) -> MeasuredField:
    """Lay the room as one circuit, entered at the place of the outline nearest to ``entry`` (in the caller's
    frame), and measure it; lengths in metres."""
    task = LayingTask(
        pipe_spacing=pipe_spacing,
        wall_clearance=wall_clearance,
        bend_radius=pipe.bend_radius,
        tail_pitch=pipe_spacing,
        entry=usual_entry(room) if entry is None else entry,
        pattern=pattern,
        quick=quick,
    )
    return _measured(lay(room, task))


def _measured(laid: Laid) -> MeasuredField:
    if laid.path is None or laid.check is None:
        return MeasuredField(None, None, laid.refusal.code if laid.refusal else "no_route")
    bends = laid.check.measures.bends
    return MeasuredField(laid.path.length, bends.right_angle + 2 * bends.u_turn, None)


def usual_entry(room: RoomOutline) -> Point:
    """Where pipes come in when nobody says: the middle of the longest wall, of equal ones the lowest, then the
    leftmost, in the caller's frame (common practice, no source: most doors are in long inner walls)."""
    points = shapely.get_coordinates(room.polygon.exterior).tolist()
    walls = [
        (-round(math.dist(a, b), 5), round((a[1] + b[1]) / 2.0, 5), round((a[0] + b[0]) / 2.0, 5), a, b)
        for a, b in pairwise(points)
    ]
    _, _, _, (ax, ay), (bx, by) = min(walls)
    return ((ax + bx) / 2.0 + room.origin[0], (ay + by) / 2.0 + room.origin[1])
