"""Rooms with the walls that were meant to be level or upright made so, on lines of whole millimetres."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely import Polygon

from ..tolerances import stepped
from .room_frame import RoomFrame, room_frame

__all__ = ["MOST_SETTLED", "levelled_frame", "settled"]

_LEVEL = math.radians(1.0)
"""Walls that lean less are meant to be level or upright."""
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


def settled(room: Polygon) -> Polygon:
    """The room, which lies in a frame of its own, settled; as it was where a corner would move further than
    ``MOST_SETTLED`` [m]."""
    rings = [shapely.get_coordinates(ring) for ring in (room.exterior, *room.interiors)]
    found = [ring.copy() for ring in rings]
    for axis in (0, 1):
        places: list[tuple[float, int, int]] = []
        for number, ring in enumerate(rings):
            edges = np.diff(ring, axis=0)
            level = np.abs(edges[:, axis]) < math.tan(_LEVEL) * np.abs(edges[:, 1 - axis])
            level &= np.abs(edges[:, axis]) < _ONE_LINE
            corners = {
                corner for at in np.flatnonzero(level).tolist() for corner in (at, (at + 1) % (len(ring) - 1))
            }
            places += [(float(ring[corner, axis]), number, corner) for corner in corners]
        places.sort()
        start = 0
        while start < len(places):
            end = start + 1
            while end < len(places) and places[end][0] - places[start][0] < _ONE_LINE:
                end += 1
            mean = math.fsum(place for place, _, _ in places[start:end]) / (end - start)
            line = float(stepped(np.array([mean]), _STEP)[0])
            for _, number, corner in places[start:end]:
                found[number][corner, axis] = line
            start = end
    for ring in found:
        ring[-1] = ring[0]
    moved = max(float(np.abs(new - old).max()) for new, old in zip(found, rings, strict=True))
    polygon = Polygon(found[0], found[1:])
    sound = moved <= MOST_SETTLED and polygon.is_valid and shapely.minimum_clearance(polygon) >= _STEP / 2.0
    return polygon if sound else room
