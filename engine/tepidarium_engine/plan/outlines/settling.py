"""Rooms with the walls that were meant to be level or upright made so, on lines of whole millimetres.

The rooms of a storey are settled in one frame: walls that were meant to be parallel from room to room are so.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import Polygon

from ...elementwise import Array
from ..tolerances import stepped
from .room_frame import RoomFrame, room_frame

__all__ = ["MOST_SETTLED", "common_frame", "levelled_frame", "settled"]

_LEVEL = math.radians(1.0)
"""Walls that lean less are meant to be level or upright."""
_ALIKE = 8e-3
"""Rooms that lean less against each other are meant to lie square [rad], if they lean by less than ``_LEANING``."""
_LEANING = 0.02
"""Ends of a level wall that is built or measured askew are apart by less [m]: common practice, no source."""
_ASKEW = 0.7e-3
"""From which on they are put on the line of the inner one instead of the mean [m]: neither moves too far then."""
_ONE_LINE = 1.5e-3
"""Ends of such walls whose places differ by less lie on one line [m]."""
_STEP = 1e-3
"""These lines lie on whole multiples of it [m]: floors are not measured finer."""
MOST_SETTLED = 1.2e-3
"""By how much a corner moves at most [m]: pipe keeps its clearance to 2 mm."""


def levelled_frame(room: Polygon) -> RoomFrame:
    """The room's frame, turned so that its walls are level on average."""
    frame = room_frame(room)
    edges = np.concatenate(
        [
            np.diff(frame.local_points(shapely.get_coordinates(ring)), axis=0)
            for ring in shapely.get_rings(room)
        ]
    )
    quarter = math.pi / 2.0
    lean, weight = 0.0, 0.0
    for x, y in edges.tolist():
        angle = math.remainder(math.atan2(y, x), quarter)
        if abs(angle) < _LEVEL:
            square = x * x + y * y
            lean, weight = lean + angle * square, weight + square
    return _turned(frame, lean / weight if weight else 0.0)


def _turned(frame: RoomFrame, angle: float) -> RoomFrame:
    (c, s), (u, v) = frame.axis, (math.cos(angle), math.sin(angle))
    return RoomFrame(frame.origin, (c * u - s * v, s * u + c * v))


def common_frame(rooms: Sequence[Polygon]) -> tuple[RoomFrame, list[int]]:
    """The frame of the largest room and of those that lie square to it, level on average, and the numbers of these."""
    frames = [levelled_frame(room) for room in rooms]
    areas = [round(room.area, 3) for room in rooms]
    largest = areas.index(max(areas))
    angles = [math.atan2(frame.axis[1], frame.axis[0]) for frame in frames]
    leans = [math.remainder(angle - angles[largest], math.pi / 2.0) for angle in angles]
    boxes = shapely.bounds(np.array(rooms, dtype=object))
    sizes = np.hypot(boxes[:, 2] - boxes[:, 0], boxes[:, 3] - boxes[:, 1]).tolist()
    most = [min(_ALIKE, _LEANING / size) for size in sizes]
    square = [number for number, lean in enumerate(leans) if abs(lean) < most[number]]
    total = math.fsum(areas[number] for number in square)
    mean = math.fsum(areas[number] * leans[number] for number in square) / total
    return _turned(frames[largest], mean), square


def settled(room: Polygon) -> Polygon:
    """The room, which lies in a frame of its own or of its storey, settled; as it was where a corner would move further
    than ``MOST_SETTLED`` [m], but for walls that are askew."""
    straight = _straightened(room)
    rings = _rings(straight)
    found = [ring.copy() for ring in rings]
    for axis in (0, 1):
        places = sorted(
            (float(ring[corner, axis]), number, corner)
            for number, ring in enumerate(rings)
            for corner in _on_level_walls(ring, axis)
        )
        start = 0
        while start < len(places):
            end = start + 1
            while end < len(places) and places[end][0] - places[start][0] < _ONE_LINE:
                end += 1
            mean = math.fsum(place for place, _, _ in places[start:end]) / (end - start)
            line = stepped(mean, _STEP)
            for _, number, corner in places[start:end]:
                found[number][corner, axis] = line
            start = end
    for ring in found:
        ring[-1] = ring[0]
    moved = max(float(np.abs(new - old).max()) for new, old in zip(found, rings, strict=True))
    polygon = Polygon(found[0], found[1:])
    return polygon if moved <= MOST_SETTLED and _is_sound(polygon) else straight


def _is_sound(room: Polygon) -> bool:
    return bool(room.is_valid and shapely.minimum_clearance(room) >= _STEP / 2.0)


def _straightened(room: Polygon) -> Polygon:
    """The room with level walls that are askew on the line of their inner end: pipe beside them then runs straight and
    keeps its clearance. As it was where that would make more of it."""
    rings = _rings(room)
    found = [
        _without_lean(ring, inside_left=bool(shapely.is_ccw(shapely.linearrings(ring))) == (not number))
        for number, ring in enumerate(rings)
    ]
    polygon = Polygon(found[0], found[1:])
    within = shapely.covers(shapely.buffer(room, _STEP, join_style="mitre"), polygon)
    return polygon if within and _is_sound(polygon) else room


def _without_lean(ring: Array, *, inside_left: bool) -> Array:
    """A closed ring with the ends of each wall that is askew moved in."""
    points, count = ring[:-1].copy(), len(ring) - 1
    for _ in range(count):
        before = points.copy()
        for axis in (0, 1):
            for start in range(count):
                end = (start + 1) % count
                across = abs(points[end, axis] - points[start, axis])
                along = points[end, 1 - axis] - points[start, 1 - axis]
                if _ASKEW <= across < min(_LEANING, math.tan(_LEVEL) * abs(along)):
                    upwards = (along > 0.0) == ((axis == 1) == inside_left)
                    inner = max if upwards else min
                    points[[start, end], axis] = inner(points[start, axis], points[end, axis])
        if np.array_equal(points, before):
            break
    return np.concatenate((points, points[:1]))


def _rings(room: Polygon) -> list[Array]:
    return [shapely.get_coordinates(ring) for ring in (room.exterior, *room.interiors)]


def _on_level_walls(ring: Array, axis: int) -> list[int]:
    """Corners of a closed ring at walls along which the coordinate ``axis`` is meant to stay the same."""
    edges = np.abs(np.diff(ring, axis=0))
    level = (edges[:, axis] < math.tan(_LEVEL) * edges[:, 1 - axis]) & (edges[:, axis] < _ONE_LINE)
    starts = np.flatnonzero(level)
    return sorted({*starts.tolist(), *((starts + 1) % (len(ring) - 1)).tolist()})
