"""A room's own frame: where its pattern is computed, so that neither place nor direction of the drawing count."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from shapely import LinearRing, Polygon

from ...checking import Point
from ...elementwise import Array
from ..tolerances import BLUR, GRID, TURN, stepped
from .overlays import placed

__all__ = ["RoomFrame", "room_frame"]

_SAME_DIRECTION = math.radians(1.0)
"""Walls that differ by less count as parallel."""
_SAME_ANGLE, _AS_LONG = 1e-6, 1e-5
"""Of two walls, so that what decides between equals is not the last bit [rad], [m]."""

_REMEMBERED = 256
"""Rooms: each is put into its frame several times."""


@dataclass(frozen=True, slots=True)
class RoomFrame:
    """Local point = (point - ``origin``) turned back by the angle whose cosine and sine ``axis`` holds.

    The local x axis runs along the walls that make up the greatest length (modulo quarter turns); ``origin``
    [m] is the point of the caller's frame that becomes (0, 0).
    """

    origin: Point
    axis: Point

    def to_local(self, geometry: shapely.Geometry) -> shapely.Geometry:
        """The geometry in the local frame, at whole multiples of ``BLUR``."""
        return placed(geometry, lambda points: self.on_grid(points, BLUR))

    def from_local(self, geometry: shapely.Geometry) -> shapely.Geometry:
        """The geometry in the caller's frame."""
        return placed(geometry, self.outer_points)

    def local_place(self, place: Point, origin: Point) -> Point:
        """A place of the drawing [m], in which the room's frame of reference lies at ``origin`` [m], in the local frame
        at whole multiples of ``BLUR``."""
        x, y = self.on_grid(np.array([place]) - origin, BLUR)[0].tolist()
        return x, y

    def local_points(self, points: Array) -> Array:
        """Points [m], one a row, in the local frame."""
        c, s = self.axis
        x, y = points[:, 0] - self.origin[0], points[:, 1] - self.origin[1]
        return _points(c * x + s * y, c * y - s * x)

    def on_grid(self, points: Array, step: float) -> Array:
        """Points [m], one a row, in the local frame, at whole multiples of ``step`` [m]."""
        return stepped(self.local_points(points), step)

    def outer_points(self, points: Array) -> Array:
        """Local points [m], one a row, in the caller's frame."""
        c, s = self.axis
        x, y = points[:, 0], points[:, 1]
        return _points(self.origin[0] + c * x - s * y, self.origin[1] + s * x + c * y)


def _points(x: Array, y: Array) -> Array:
    """One a row; for a few points that takes half the time of the library's way."""
    points = np.empty((len(x), 2))
    points[:, 0], points[:, 1] = x, y
    return points


@lru_cache(maxsize=_REMEMBERED)
def room_frame(room: Polygon) -> RoomFrame:
    """The frame of a valid room [m].

    The same room gives the same local room whatever point its rings start with, in whatever direction they
    run, wherever it lies and by however many quarter turns it is turned: of the four directions of the frame
    the one is taken whose list of local corners, voids included, comes first in order.
    """
    rings = [_corners(ring) for ring in (room.exterior, *room.interiors)]
    corners = rings[0]
    base = corners[0]
    c, s = _wall_direction(corners - base)
    turned = [_placed(corners, base, axis) for axis in ((c, s), (-s, c), (-c, -s), (s, -c))]
    return min(turned, key=lambda frame: _reading(frame, rings))


def _corners(ring: LinearRing) -> Array:
    """Corners counter-clockwise without the closing point."""
    points: Array = shapely.get_coordinates(ring)[:-1]
    return points if ring.is_ccw else points[::-1]


def _wall_direction(corners: Array) -> Point:
    """Unit vector along the walls of the greatest total length, quarter turns aside."""
    edges = np.roll(corners, -1, axis=0) - corners
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    quarter = math.pi / 2.0
    angles = np.mod(np.arctan2(edges[:, 1], edges[:, 0]), quarter)
    angles[angles > quarter - _SAME_ANGLE] -= quarter
    apart = np.abs(np.remainder(angles[:, None] - angles + quarter / 2.0, quarter) - quarter / 2.0)
    shared = ((apart < _SAME_DIRECTION) * lengths).sum(axis=1)
    order = np.lexsort(
        (stepped(angles, _SAME_ANGLE), -stepped(lengths, _AS_LONG), -stepped(shared, _AS_LONG))
    )
    angle = float(stepped(angles[order[:1]], TURN)[0])
    return math.cos(angle), math.sin(angle)


def _placed(corners: Array, base: Array, axis: Point) -> RoomFrame:
    """The frame of this direction with the outline's lower left at (0, 0)."""
    centred = RoomFrame((float(base[0]), float(base[1])), axis)
    low = centred.local_points(corners).min(axis=0)
    origin = centred.outer_points(low[None, :])[0]
    return RoomFrame((float(origin[0]), float(origin[1])), axis)


def _reading(frame: RoomFrame, rings: list[Array]) -> list[list[tuple[float, float]]]:
    """Local corners on the grid: the outline, then the voids in order, each from its lowest."""
    lists = []
    for ring in rings:
        points = [(x, y) for x, y in frame.on_grid(ring, GRID).tolist()]
        first = points.index(min(points))
        lists.append(points[first:] + points[:first])
    return [lists[0], *sorted(lists[1:])]
