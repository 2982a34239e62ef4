"""The shape of a field of screed as joints see it: the rectangle that it is about, and the corners that part it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.overlays import intersection
from ..model.records import Segment

__all__ = ["Corner", "FittedRectangle", "chords", "fitted_rectangle", "is_field", "re_entrant_corners"]

_JOG = 1.0
"""Corners beside a shorter edge than this are a jog or a chimney, not a corner that parts the floor [m] (common
practice, no source)."""
_MOST_CORNERS = 12
"""Of a field that are looked at: those between the longest walls."""
_LEAST_TURN = 0.5
"""Sine of the turn at a corner that reaches into the floor, at least."""
_MOST_LINES = 8
"""Of each direction that a rectangle is looked for between."""
_SAME_LINE = 0.05
"""Walls that lie nearer to one line than this count as on it [m]."""
_ALONG_AXIS = 0.1
"""Slope of an edge that still counts as along an axis."""
_SLACK = 1e-6


class FittedRectangle(NamedTuple):
    """The rectangle along the axes [m] that is most like a field: neither niches and bays nor what a chimney takes
    count."""

    low: Point
    high: Point

    @property
    def sides(self) -> Point:
        """Along x and along y [m]."""
        return self.high[0] - self.low[0], self.high[1] - self.low[1]

    @property
    def axis(self) -> int:
        """0 where it is longer along x, else 1."""
        return 0 if self.sides[0] >= self.sides[1] else 1

    @property
    def ratio(self) -> float:
        return max(self.sides) / min(self.sides)


class Corner(NamedTuple):
    """A corner that reaches into a field, and the straight lines on from it to the next wall, along the axes."""

    place: Point
    lines: tuple[Segment, ...]


def fitted_rectangle(field: Polygon) -> FittedRectangle:
    """The rectangle along the axes whose overlap with the field over what both cover is greatest, voids filled."""
    whole = Polygon(field.exterior)
    xs, ys = _lines(whole, 0), _lines(whole, 1)
    cells = shapely.area(
        intersection(whole, shapely.box(xs[:-1, None], ys[None, :-1], xs[1:, None], ys[None, 1:]))
    )
    within = np.pad(np.cumsum(np.cumsum(cells, axis=0), axis=1), ((1, 0), (1, 0)))
    x0, x1 = np.triu_indices(len(xs), 1)
    y0, y1 = np.triu_indices(len(ys), 1)
    x0, x1, y0, y1 = x0[:, None], x1[:, None], y0[None, :], y1[None, :]
    covered = within[x1, y1] - within[x0, y1] - within[x1, y0] + within[x0, y0]
    area = (xs[x1] - xs[x0]) * (ys[y1] - ys[y0])
    alike = np.round(covered / (area + whole.area - covered), 9)
    row, column = np.unravel_index(int(alike.argmax()), alike.shape)
    left, right, low, high = x0[row, 0], x1[row, 0], y0[0, column], y1[0, column]
    return FittedRectangle((float(xs[left]), float(ys[low])), (float(xs[right]), float(ys[high])))


def _lines(field: Polygon, axis: int) -> Array:
    """Places on an axis at which walls square to it stand, those with most wall, and both ends of the field."""
    points = shapely.get_coordinates(field.exterior)
    edges = np.diff(points, axis=0)
    square = np.abs(edges[:, axis]) <= _ALONG_AXIS * np.abs(edges[:, 1 - axis])
    places = (points[:-1, axis] + points[1:, axis])[square] / 2.0
    lengths = np.abs(edges[square, 1 - axis])
    low, high = float(points[:, axis].min()), float(points[:, axis].max())
    order = np.lexsort((np.round(places, 4), -np.round(lengths, 4)))
    found = [low, high]
    for place in places[order].tolist():
        if len(found) < _MOST_LINES and min(abs(place - other) for other in found) > _SAME_LINE:
            found.append(place)
    return np.array(sorted(found))


def is_field(part: Polygon, least_area: float, least_width: float) -> bool:
    """Whether a part of the floor is worth a field of its own, and no sliver: by its area [m2] and its width [m]."""
    return part.area >= least_area and min(fitted_rectangle(part).sides) >= least_width - _SLACK


def re_entrant_corners(field: Polygon) -> tuple[Corner, ...]:
    """Corners of the outline that reach into the field, in the order of the outline."""
    ring = shapely.get_coordinates(shapely.orient_polygons(field).exterior)[:-1].tolist()
    found: list[tuple[float, int, Point]] = []
    for number, (before, here, after) in enumerate(
        zip([ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True)
    ):
        ax, ay, bx, by = here[0] - before[0], here[1] - before[1], after[0] - here[0], after[1] - here[1]
        lengths = math.hypot(ax, ay), math.hypot(bx, by)
        if min(lengths) >= _JOG - _SLACK and ax * by - ay * bx <= -_LEAST_TURN * lengths[0] * lengths[1]:
            found.append((-round(min(lengths), 4), number, (here[0], here[1])))
    kept = sorted(sorted(found)[:_MOST_CORNERS], key=lambda corner: corner[1])
    return tuple(Corner(place, tuple(_rays(field, place))) for _, _, place in kept)


def _rays(field: Polygon, start: Point) -> Iterator[Segment]:
    """From a corner along each axis into the field, to the next wall."""
    reach = 2.0 * math.hypot(field.bounds[2] - field.bounds[0], field.bounds[3] - field.bounds[1])
    for dx, dy in ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)):
        end = (start[0] + reach * dx, start[1] + reach * dy)
        first = next(chords(field, LineString([start, end])), None)
        if first is not None and math.dist(first[0], start) < _SLACK and _inside(field, first):
            yield first


def _inside(field: Polygon, line: Segment) -> bool:
    """Whether a line runs through the field and not along its edge."""
    return bool(shapely.contains_properly(field, shapely.Point(np.mean(line, axis=0))))


def chords(field: Polygon, line: LineString) -> Iterator[Segment]:
    """What of a line lies in a field, in the order of the line, each piece from edge to edge."""
    for part in shapely.get_parts(intersection(line, field)):
        if isinstance(part, LineString) and part.length > _SLACK:
            ends = shapely.get_coordinates(part).tolist()
            yield ((ends[0][0], ends[0][1]), (ends[-1][0], ends[-1][1]))
