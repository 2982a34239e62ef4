"""An area and what a line along an axis cuts of it: chords, the area below one, both pieces.

An area without voids is parted by any single chord, and prefix sums over its ring tell the area below at once.
Round a void the chords that part it have to be tried.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple, Protocol

import numpy as np
import shapely
from shapely import LineString, MultiLineString, Polygon

from ..elementwise import Array

__all__ = ["Cut", "Halves", "Sheet", "sheet_of"]

_HAIR = 1e-7
_LEAST_CHORD = 0.02
"""Of a line in an area; shorter ones are corners [m]."""
_BESIDE = 1e-4


@dataclass(frozen=True, slots=True)
class Cut:
    """A line ``x = at`` (axis 0) or ``y = at`` (axis 1) and which of its chords in the area are cut."""

    axis: int
    chords: tuple[int, ...]
    of: int
    at: float


class Halves(NamedTuple):
    """What a cut leaves: the piece below its first chord, the other one, and what was cut."""

    lower: Polygon
    upper: Polygon
    line: shapely.Geometry


class Sheet(Protocol):
    """An area to be cut."""

    @property
    def area(self) -> Polygon: ...

    def families(self, axis: int, at: float) -> list[tuple[tuple[int, ...], int]]:
        """Chords of a line that may leave two pieces, and how many there are in all."""
        ...

    def below(self, cut: Cut) -> tuple[float, float] | None:
        """Area of the lower piece [m2] and length of what is cut [m], if there are exactly two pieces."""
        ...

    def halves(self, cut: Cut) -> Halves | None:
        """Both pieces, if there are exactly two."""
        ...


def sheet_of(area: Polygon) -> Sheet:
    return _Voided(area) if area.interiors else _Plain(area)


class _Crossing(NamedTuple):
    """Where the ring passes a line: on which edge, at what place along the line, and whether it goes below."""

    edge: int
    along: float
    downward: bool


class _Chord(NamedTuple):
    """From where the ring goes below the line to where it comes back."""

    down: _Crossing
    up: _Crossing

    @property
    def length(self) -> float:
        return abs(self.down.along - self.up.along)


@dataclass(frozen=True)
class _Plain:
    """An area without voids."""

    area: Polygon

    @cached_property
    def _points(self) -> Array:
        """Corners counter-clockwise, one a row, the first repeated at the end."""
        points: Array = shapely.get_coordinates(shapely.orient_polygons(self.area).exterior)
        return points

    @cached_property
    def _swept(self) -> Array:
        """Twice the area between the origin and the ring up to each corner."""
        x, y = self._points.T
        return np.concatenate(([0.0], np.cumsum(x[:-1] * y[1:] - x[1:] * y[:-1])))

    def families(self, axis: int, at: float) -> list[tuple[tuple[int, ...], int]]:
        count = len(self._chords(axis, at))
        return [((index,), count) for index in range(count)]

    def below(self, cut: Cut) -> tuple[float, float] | None:
        chord = self._chord(cut)
        if chord is None:
            return None
        (x0, y0), (x1, y1) = (self._place(cut, crossing) for crossing in chord)
        ring, swept = self._points, self._swept
        first, last = chord.down.edge + 1, chord.up.edge
        (ax, ay), (bx, by) = ring[first].tolist(), ring[last].tolist()
        twice = float(swept[last] - swept[first]) + (float(swept[-1]) if last < first else 0.0)
        twice += (x0 * ay - ax * y0) + (bx * y1 - x1 * by) + (x1 * y0 - x0 * y1)
        return twice / 2.0, chord.length

    def halves(self, cut: Cut) -> Halves | None:
        chord = self._chord(cut)
        if chord is None:
            return None
        down, up = (self._place(cut, crossing) for crossing in chord)
        lower = self._piece(down, chord.down.edge, chord.up.edge, up)
        upper = self._piece(up, chord.up.edge, chord.down.edge, down)
        return Halves(lower, upper, LineString([down, up])) if lower.area > 0.0 < upper.area else None

    def _piece(self, start: Sequence[float], first: int, last: int, end: Sequence[float]) -> Polygon:
        """From a place on edge ``first`` along the ring to one on edge ``last``, and straight back."""
        count = len(self._points) - 1
        corners = [self._points[at % count] for at in range(first + 1, last + 1 + count * (last < first))]
        return Polygon(_apart([start, *(corner.tolist() for corner in corners), end]))

    def _place(self, cut: Cut, crossing: _Crossing) -> tuple[float, float]:
        return (cut.at, crossing.along) if cut.axis == 0 else (crossing.along, cut.at)

    def _chord(self, cut: Cut) -> _Chord | None:
        chords = self._chords(cut.axis, cut.at)
        return chords[cut.chords[0]] if len(chords) == cut.of and len(cut.chords) == 1 else None

    def _chords(self, axis: int, at: float) -> list[_Chord]:
        level = self._points[:, axis] - at
        above = level >= 0.0
        edges = np.flatnonzero(above[:-1] != above[1:])
        share = level[edges] / (level[edges] - level[edges + 1])
        other = self._points[:, 1 - axis]
        along = other[edges] + share * (other[edges + 1] - other[edges])
        order = np.argsort(along, kind="stable")
        met = [
            _Crossing(edge, place, downward)
            for edge, place, downward in zip(
                edges[order].tolist(), along[order].tolist(), above[edges[order]].tolist(), strict=True
            )
        ]
        pairs = zip(met[::2], met[1::2], strict=True)
        chords = [_Chord(*(pair if pair[0].downward else pair[::-1])) for pair in pairs]
        return [
            chord
            for chord in chords
            if chord.length > _LEAST_CHORD and chord.down.downward > chord.up.downward
        ]


def _apart(points: Sequence[Sequence[float]]) -> list[Sequence[float]]:
    """Without points that repeat the one before."""
    kept = [points[0]]
    for point in points[1:]:
        if abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) > _HAIR:
            kept.append(point)
    return kept


@dataclass(frozen=True)
class _Voided:
    """An area with voids: a cut from wall to wall may have to pass them."""

    area: Polygon

    def families(self, axis: int, at: float) -> list[tuple[tuple[int, ...], int]]:
        count = len(self._chords(axis, at))
        singles = [(index,) for index in range(count)]
        pairs = [(index, index + 1) for index in range(count - 1)]
        whole = [tuple(range(count))] if count > 2 else []
        return [(chords, count) for chords in (*singles, *pairs, *whole)]

    def below(self, cut: Cut) -> tuple[float, float] | None:
        halves = self.halves(cut)
        return None if halves is None else (halves.lower.area, halves.line.length)

    def halves(self, cut: Cut) -> Halves | None:
        chords = self._chords(cut.axis, cut.at)
        if len(chords) != cut.of or not chords:
            return None
        taken = [chords[index] for index in cut.chords]
        pieces = self._split(taken)
        if len(pieces) != 2:
            return None
        middle = shapely.line_interpolate_point(taken[0], 0.5, normalized=True)
        shift = (-_BESIDE, 0.0) if cut.axis == 0 else (0.0, -_BESIDE)
        below = shapely.Point(middle.x + shift[0], middle.y + shift[1])
        lower, upper = pieces if shapely.contains(pieces[0], below) else pieces[::-1]
        return Halves(lower, upper, shapely.intersection(lower.boundary, upper.boundary))

    def _chords(self, axis: int, at: float) -> list[LineString]:
        """Stretches of the line in the area, in order."""
        x0, y0, x1, y1 = self.area.bounds
        ends = ((at, y0 - 1.0), (at, y1 + 1.0)) if axis == 0 else ((x0 - 1.0, at), (x1 + 1.0, at))
        met = shapely.get_parts(shapely.intersection(LineString(ends), self.area))
        lines = [line for line in met if isinstance(line, LineString) and line.length > _LEAST_CHORD]
        return sorted(lines, key=lambda line: line.bounds)

    def _split(self, lines: Sequence[LineString]) -> list[Polygon]:
        """Faces of the area with all the lines drawn in at once: one after the other never gets past a void."""
        drawn = shapely.union_all(
            [self.area.boundary, MultiLineString([_lengthened(line) for line in lines])]
        )
        faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(drawn)))
        inside = [face for face in faces if shapely.contains(self.area, shapely.point_on_surface(face))]
        return sorted(inside, key=lambda face: face.bounds)


def _lengthened(line: LineString) -> LineString:
    """A hair longer at both ends, so that it surely meets what it ends on."""
    (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
    dx, dy = (x1 - x0) * _HAIR / line.length, (y1 - y0) * _HAIR / line.length
    return LineString([(x0 - dx, y0 - dy), (x1 + dx, y1 + dy)])
