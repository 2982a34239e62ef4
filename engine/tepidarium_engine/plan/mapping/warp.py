"""A room stretched beside outside walls, so that pipe laid in it at one spacing lies closer there.

EN 1264-1 calls the strip along outside walls with closer pipe a peripheral area. One circuit serves both it
and the rest: the pattern is laid at the plain spacing in the stretched room and carried back.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
import shapely
from shapely import LineString, MultiPolygon, Point, Polygon

from ...elementwise import Array
from ..model.field import Entry
from ..outlines.overlays import difference, intersection, union
from ..outlines.pipe_zone import PipeZone

__all__ = ["AxisWarp", "Warp"]

_SAME_PLACE = 5e-3
"""Walls that lie so near to the room's outermost reach along an axis stand on it [m]."""
_AT_MARK = 1e-9
_SAME_SLOPE = 1e-6
_Geometry = TypeVar("_Geometry", Point, LineString, Polygon, MultiPolygon)
Span = tuple[float, float]


@dataclass(frozen=True)
class AxisWarp:
    """A continuous map of one coordinate that rises everywhere, straight between ``knots`` [m].

    ``slopes``: what a metre becomes before the first knot, between the knots, and after the last one; all
    positive. ``start`` [m] is the image of the first knot.
    """

    knots: tuple[float, ...] = (0.0,)
    slopes: tuple[float, ...] = (1.0, 1.0)
    start: float = 0.0

    @cached_property
    def images(self) -> Array:
        """Where the knots come to lie [m]."""
        steps = np.diff(self.knots) * self.slopes[1:-1]
        images: Array = self.start + np.concatenate(([0.0], np.cumsum(steps)))
        return images

    def forward(self, values: Array) -> Array:
        return _piecewise(values, np.array(self.knots), self.images, np.array(self.slopes))

    def back(self, values: Array) -> Array:
        return _piecewise(values, self.images, np.array(self.knots), 1.0 / np.array(self.slopes))

    def slope_at(self, value: float) -> float:
        """What a metre becomes at a place; at a knot, of what lies beyond it."""
        return self.slopes[int(np.searchsorted(self.knots, value, side="right"))]

    @classmethod
    def on_lines(cls, lines: Array | None, spacing: float) -> AxisWarp:
        """The map that lays lines, in order, one ``spacing`` [m] apart; the first one stays."""
        if lines is None:
            return cls()
        knots, slopes = [float(lines[0])], [1.0]
        for place, gap in zip(lines[1:].tolist(), np.diff(lines).tolist(), strict=True):
            if abs(slopes[-1] - spacing / gap) < _SAME_SLOPE and len(knots) > 1:
                knots[-1] = place
            else:
                knots.append(place)
                slopes.append(spacing / gap)
        return cls(tuple(knots), (*slopes, 1.0), knots[0])

    def shrunk(self, scale: float) -> AxisWarp:
        """This map followed by a division by ``scale``."""
        return AxisWarp(self.knots, tuple(slope / scale for slope in self.slopes), self.start / scale)


def _piecewise(values: Array, knots: Array, images: Array, slopes: Array) -> Array:
    piece = np.searchsorted(knots, values, side="right")
    base = np.maximum(piece - 1, 0)
    mapped: Array = images[base] + slopes[piece] * (values - knots[base])
    return mapped


@dataclass(frozen=True)
class Warp:
    """A map of each axis on its own: lines parallel to an axis stay so, no order of places changes.

    ``unserved`` are the numbers of outside walls that such a map cannot serve: those not parallel to an axis,
    and those beyond which the room goes on. ``excess`` [m2] is floor that lies in a strip without being near
    to one of the walls that are served.
    """

    x: AxisWarp = AxisWarp()
    y: AxisWarp = AxisWarp()
    unserved: tuple[int, ...] = ()
    excess: float = 0.0

    @classmethod
    def beside_walls(
        cls, room: Polygon, walls: Sequence[LineString], *, width: float, spacing: float, plain_spacing: float
    ) -> Warp:
        """Strips ``width`` [m] wide from the outside ``walls`` inwards get ``spacing`` [m] where pipe is laid
        at ``plain_spacing`` [m].

        ``room`` and ``walls``, straight stretches of its outline, are in the room's own frame. Strips that
        overlap are one. All lengths are positive and ``spacing`` is not more than ``plain_spacing``.
        """
        low_x, low_y, high_x, high_y = room.bounds
        reach = ((low_x, high_x), (low_y, high_y))
        strips: tuple[list[Span], list[Span]] = ([], [])
        near, unserved = [], []
        for number, wall in enumerate(walls):
            place = _place_at_edge(wall, reach)
            if place is None:
                unserved.append(number)
                continue
            axis, at_low = place
            low, high = reach[axis]
            strips[axis].append((low, min(low + width, high)) if at_low else (max(high - width, low), high))
            near.append(shapely.buffer(wall, width, cap_style="flat"))
        x, y = (_axis_warp(spans, plain_spacing / spacing) for spans in strips)
        return cls(x, y, tuple(unserved), _excess(room, strips, near))

    @classmethod
    def on_lines(cls, xs: Array | None, ys: Array | None, spacing: float) -> Warp:
        """The map that lays lines square to either axis, in order, one ``spacing`` [m] apart."""
        return cls(AxisWarp.on_lines(xs, spacing), AxisWarp.on_lines(ys, spacing))

    @property
    def densest(self) -> float:
        """What a metre becomes at most along either axis."""
        return max(*self.x.slopes, *self.y.slopes)

    def shrunk(self, scales: Span) -> Warp:
        """This map followed by a division by the scales of a spacing fit."""
        return Warp(self.x.shrunk(scales[0]), self.y.shrunk(scales[1]), self.unserved, self.excess)

    def forward_points(self, points: Array) -> Array:
        """Points of the room [m], one a row, in the stretched room."""
        return np.column_stack((self.x.forward(points[:, 0]), self.y.forward(points[:, 1])))

    def back(self, points: Array) -> Array:
        """Points of the stretched room [m], one a row, in the room."""
        return np.column_stack((self.x.back(points[:, 0]), self.y.back(points[:, 1])))

    def back_line(self, points: Array) -> Array:
        """The corners in the room of a line through the given points of the stretched room [m].

        There are more of them where the line passes the edge of a strip on the slant: it is bent there.
        """
        return self.back(_with_crossings(points, self.x.images, self.y.images))

    def forward(self, geometry: _Geometry) -> _Geometry:
        """A point, line or area of the room in the stretched room."""

        def image(line: shapely.Geometry) -> Array:
            points: Array = shapely.get_coordinates(line)
            return self.forward_points(
                _with_crossings(points, np.array(self.x.knots), np.array(self.y.knots))
            )

        return _rebuilt(geometry, image)

    def forward_zone(self, zone: PipeZone) -> PipeZone:
        """Where the centre line may lie in the stretched room."""
        shell = None if zone.shell is None else self.forward(zone.shell)
        return PipeZone(shell, tuple(map(self.forward, zone.voids)), tuple(map(self.forward, zone.enclosed)))

    def forward_entry(self, entry: Entry) -> Entry:
        """The entry in the stretched room; ``inward`` stays square to the wall."""
        places = self.forward_points(np.array([entry.place, *entry.ends])).tolist()
        place, first, last = ((x, y) for x, y in places)
        x = entry.inward[0] / self.x.slope_at(entry.place[0])
        y = entry.inward[1] / self.y.slope_at(entry.place[1])
        length = float(np.hypot(x, y))
        return Entry(place, (first, last), (x / length, y / length))


def _place_at_edge(wall: LineString, reach: tuple[Span, Span]) -> tuple[int, bool] | None:
    """The axis that a wall is square to and whether it stands at the low end of the room's reach."""
    points = shapely.get_coordinates(wall)
    for axis, (low, high) in enumerate(reach):
        for at_low, end in ((True, low), (False, high)):
            if np.abs(points[:, axis] - end).max() <= _SAME_PLACE:
                return axis, at_low
    return None


def _axis_warp(spans: list[Span], slope: float) -> AxisWarp:
    """The map with this slope within the spans and slope 1 outside; the lower end of the lowest stays."""
    if not spans:
        return AxisWarp()
    merged: list[Span] = []
    for low, high in sorted(spans):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    knots = tuple(end for span in merged for end in span)
    slopes = (1.0, *(slope if index % 2 == 0 else 1.0 for index in range(len(knots) - 1)), 1.0)
    return AxisWarp(knots, slopes, knots[0])


def _excess(room: Polygon, strips: tuple[list[Span], list[Span]], near: list[Polygon]) -> float:
    low_x, low_y, high_x, high_y = room.bounds
    boxes = [shapely.box(low, low_y, high, high_y) for low, high in strips[0]]
    boxes += [shapely.box(low_x, low, high_x, high) for low, high in strips[1]]
    stretched = intersection(room, union(boxes))
    return float(difference(stretched, union(near)).area)


def _with_crossings(points: Array, marks_x: Array, marks_y: Array) -> Array:
    """The line with a further point wherever it passes a mark of either axis between two points."""
    for axis, marks in ((0, marks_x), (1, marks_y)):
        for mark in marks.tolist():
            beyond = points[:, axis] - mark
            crossed = np.flatnonzero((beyond[:-1] * beyond[1:] < 0.0) & (np.abs(beyond[:-1]) > _AT_MARK))
            crossed = crossed[np.abs(beyond[crossed + 1]) > _AT_MARK]
            if len(crossed):
                share = (beyond[crossed] / (beyond[crossed] - beyond[crossed + 1]))[:, None]
                met = points[crossed] + share * (points[crossed + 1] - points[crossed])
                met[:, axis] = mark
                points = np.insert(points, crossed + 1, met, axis=0)
    return points


def _rebuilt(geometry: _Geometry, image: Callable[[shapely.Geometry], Array]) -> _Geometry:
    """The geometry with each of its lines replaced."""
    if isinstance(geometry, MultiPolygon):
        return MultiPolygon([_rebuilt(part, image) for part in geometry.geoms])
    if isinstance(geometry, Polygon):
        return Polygon(image(geometry.exterior), [image(ring) for ring in geometry.interiors])
    return type(geometry)(image(geometry))
