"""The way between the caller's frame and the one in which a circuit is laid.

There the entry comes in from below, walls that are meant to be level or upright are so exactly, and the lower left
corner is (0, 0): the same room gives the same pipe wherever it lies, however it is turned, and though its corners are
drawn a fraction of a millimetre off.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TypeVar, cast

import numpy as np
import shapely
from shapely import LinearRing, LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ..judging.route_check import RouteCheck
from ..model.field import Entry
from ..outlines.overlays import intersection
from ..outlines.polygons import RoomOutline
from ..outlines.room_frame import RoomFrame
from ..outlines.settling import MOST_SETTLED, levelled_frame, settled
from ..pipes.pipe_path import LEAST_PIECE_LENGTH, Line, PipePath
from ..tolerances import GRID

__all__ = ["Home", "home_frame"]

_Geometry = TypeVar("_Geometry", LineString, Polygon)

_SAME_WALL = 5e-3
"""An entry this near to several walls comes in through the longest [m]."""


@dataclass(frozen=True)
class Home:
    """``polygon`` [m] is the room in the frame in which it is laid; ``frame`` and ``origin`` [m] lead there.

    ``outline`` [m] is that of the room as it was drawn, seen from ``origin``. ``exchanged``: the x axis is the y axis
    of the room's own frame, but for the sense, and the other way round.
    """

    polygon: Polygon
    outline: LinearRing
    frame: RoomFrame
    origin: Point
    exchanged: bool

    def local(self, geometry: _Geometry) -> _Geometry:
        """A line or area of the caller's frame."""
        moved = shapely.transform(geometry, lambda points: points - self.origin)
        return cast(_Geometry, self.frame.to_local(moved))

    def local_place(self, place: Point) -> Point:
        x, y = self.frame.on_grid(np.array([place]) - self.origin, GRID)[0].tolist()
        return x, y

    def place(self, place: Point) -> Point:
        """A place of the room's own frame in the caller's."""
        x, y = (self.frame.outer_points(np.array([place]))[0] + self.origin).tolist()
        return x, y

    def direction(self, direction: Point) -> Point:
        """A direction of the room's own frame in the caller's."""
        (x, y), (c, s) = direction, self.frame.axis
        return (c * x - s * y, s * x + c * y)

    def area(self, area: Polygon) -> Polygon:
        """An area of the room's own frame in the caller's."""
        moved: Polygon = shapely.transform(area, lambda points: self.frame.outer_points(points) + self.origin)
        return moved

    def carried(self, path: PipePath) -> PipePath:
        """A pipe of the room's own frame in the caller's."""
        return path.turned(self.frame.axis).moved(self.frame.origin).moved(self.origin)

    def path(self, path: PipePath) -> PipePath:
        """The same; its ends lie on the outline as it was drawn."""
        near = path.turned(self.frame.axis).moved(self.frame.origin)
        return self._from_wall_to_wall(near).moved(self.origin)

    def entry(self, entry: Entry) -> Entry:
        """An entry of the room's own frame in the caller's."""
        first, last = (self._on_outline(end) for end in entry.ends)
        return Entry(self._on_outline(entry.place), (first, last), self.direction(entry.inward))

    def check(self, check: RouteCheck, length: float) -> RouteCheck:
        """What was judged in the room's own frame, with the places of the caller's; ``length`` [m] is that of the pipe
        whose ends were made to lie on the outline."""
        bare_spots, left_out = (
            tuple(replace(spot, place=self.place(spot.place)) for spot in spots)
            for spots in (check.measures.bare_spots, check.measures.left_out)
        )
        return replace(
            check, measures=replace(check.measures, length=length, bare_spots=bare_spots, left_out=left_out)
        )

    def _on_outline(self, place: Point) -> Point:
        x, y = self.frame.outer_points(np.array([place]))[0].tolist()
        near = self.outline.interpolate(self.outline.project(shapely.Point(x, y)))
        return near.x + self.origin[0], near.y + self.origin[1]

    def _from_wall_to_wall(self, path: PipePath) -> PipePath:
        """The path with its ends made to lie on the outline: those of a settled room may miss it."""
        first, last = path.pieces[0], path.pieces[-1]
        # In the least of rooms a pipe is one half circle.
        if not isinstance(first, Line) or not isinstance(last, Line) or first is last:
            return path
        start = Line(self._met(first.end, first.start), first.end)
        end = Line(last.start, self._met(last.start, last.end))
        return PipePath((start, *path.pieces[1:-1], end))

    def _met(self, inner: Point, end: Point) -> Point:
        """Where the line that comes from ``inner`` meets the outline near its ``end`` [m]."""
        share = 1.0 + 2.0 * MOST_SETTLED / max(math.dist(inner, end), MOST_SETTLED)
        beyond = tuple(a + share * (b - a) for a, b in zip(inner, end, strict=True))
        points = shapely.get_coordinates(intersection(self.outline, LineString([inner, beyond])))
        found = min(
            (tuple(point) for point in points.tolist()), key=lambda point: math.dist(point, end), default=end
        )
        near = math.dist(found, end) <= 2.0 * MOST_SETTLED and math.dist(found, inner) > LEAST_PIECE_LENGTH
        return found if near else end


def home_frame(room: RoomOutline, entry: Point) -> Home:
    """The frame of a room with an ``entry`` [m] on its outline, in the caller's frame."""
    own = levelled_frame(room.polygon)
    local = own.local_points(np.array([entry]) - room.origin)[0]
    frame = _entered_from_below(own, room.polygon, local)
    drawn = frame.to_local(room.polygon)
    # Normalized, so that it does not count where the caller's rings start and which void comes first.
    polygon = shapely.orient_polygons(shapely.normalize(settled(drawn)))
    along = own.axis[0] * frame.axis[0] + own.axis[1] * frame.axis[1]
    return Home(polygon, room.polygon.exterior, frame, room.origin, abs(along) < 0.5)


def _entered_from_below(frame: RoomFrame, room: Polygon, entry: Array) -> RoomFrame:
    """The frame turned by quarters so that the wall of the entry lies below, and moved to the room's lower left."""
    ring = frame.local_points(shapely.get_coordinates(shapely.orient_polygons(room).exterior))
    edges = np.diff(ring, axis=0)
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    walls = shapely.linestrings(np.stack((ring[:-1], ring[1:]), axis=1))
    away = shapely.distance(walls, shapely.Point(entry))
    near = np.flatnonzero(away <= away.min() + _SAME_WALL)
    wall = min(near.tolist(), key=lambda number: (-round(float(lengths[number]), 2), number))
    # Inside lies to the left of a wall: it runs along x when the entry comes in from below.
    quarters = round(math.atan2(edges[wall, 1], edges[wall, 0]) / (math.pi / 2.0))
    turned = _quarter_turned(frame, quarters)
    low = turned.local_points(shapely.get_coordinates(room.exterior)).min(axis=0)
    x, y = turned.outer_points(low[None, :])[0].tolist()
    return RoomFrame((x, y), turned.axis)


def _quarter_turned(frame: RoomFrame, quarters: int) -> RoomFrame:
    x, y = frame.axis
    for _ in range(quarters % 4):
        x, y = -y, x
    return RoomFrame(frame.origin, (x, y))
