"""An area and what a line along an axis cuts of it: chords, the area below one, both pieces.

Prefix sums over the rings tell the area below chords at once. An area without voids is parted by any single
chord; round a void the chords that part it together have to be tried.
"""

from __future__ import annotations

from bisect import bisect
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, MultiLineString, Polygon

from ...elementwise import Array

__all__ = ["Cut", "Halves", "Sheet"]

_HAIR = 1e-7
_LEAST_CHORD = 0.02
"""Of a line in an area; shorter ones are corners [m]."""


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


class _Crossing(NamedTuple):
    """Where a ring passes a line: on which edge, at what place along the line, and whether it goes below."""

    edge: int
    along: float
    downward: bool


class _Chord(NamedTuple):
    """From where a ring goes below the line to where one comes back."""

    down: _Crossing
    up: _Crossing

    @property
    def length(self) -> float:
        return abs(self.down.along - self.up.along)


_Edge = list[tuple[_Crossing, _Crossing]]
"""The edge of a piece: stretches of rings, each from one crossing to another; chords join them."""


@dataclass(frozen=True)
class Sheet:
    """An area to be cut."""

    area: Polygon

    def families(self, axis: int, at: float) -> list[tuple[tuple[int, ...], int]]:
        """Chords of a line that may leave two pieces, and how many there are in all."""
        count = len(self._chords(axis, at))
        chosen: list[tuple[int, ...]] = [(index,) for index in range(count)]
        if self.area.interiors:
            chosen += [(index, index + 1) for index in range(count - 1)]
            chosen += [tuple(range(count))] if count > 2 else []
        return [(chords, count) for chords in chosen]

    def below(self, cut: Cut) -> tuple[float, float] | None:
        """Area of the lower piece [m2] and length of what is cut [m], if there are exactly two pieces."""
        chosen = self._chosen(cut)
        edges = self._edges(chosen)
        if edges is None:
            return None
        area = self._swept_by(cut, edges[0])
        untouched = self._untouched(edges)
        if untouched:
            area -= sum(void.area for void in _within(self._drawn(cut, edges[0]), untouched))
        return area, sum(chord.length for chord in chosen)

    def halves(self, cut: Cut) -> Halves | None:
        """Both pieces, if there are exactly two."""
        chosen = self._chosen(cut)
        edges = self._edges(chosen)
        if edges is None:
            return None
        untouched = self._untouched(edges)
        lower, upper = (self._piece(cut, edge, untouched) for edge in edges)
        lines = [LineString([self._place(cut, end) for end in chord]) for chord in chosen]
        line = lines[0] if len(lines) == 1 else MultiLineString(lines)
        return Halves(lower, upper, line) if lower.area > 0.0 < upper.area else None

    @cached_property
    def _rings(self) -> list[Array]:
        """Corners of all rings with the area on their left, one a row, the first repeated at the end."""
        area = shapely.orient_polygons(self.area)
        return [shapely.get_coordinates(ring) for ring in (area.exterior, *area.interiors)]

    @cached_property
    def _points(self) -> Array:
        """Corners of all rings, one after the other."""
        points: Array = np.concatenate(self._rings)
        return points

    @cached_property
    def _starts(self) -> list[int]:
        """Number of the first corner of each ring, and of all."""
        return [0, *np.cumsum([len(ring) for ring in self._rings]).tolist()]

    @cached_property
    def _swept(self) -> Array:
        """Twice the area between the origin and the rings up to each corner."""
        x, y = self._points.T
        return np.concatenate(([0.0], np.cumsum(x[:-1] * y[1:] - x[1:] * y[:-1])))

    def _ring_of(self, crossing: _Crossing) -> int:
        return bisect(self._starts, crossing.edge) - 1

    def _place(self, cut: Cut, crossing: _Crossing) -> tuple[float, float]:
        return (cut.at, crossing.along) if cut.axis == 0 else (crossing.along, cut.at)

    def _chosen(self, cut: Cut) -> list[_Chord]:
        """The chords that are cut; none where the line has not as many in all."""
        chords = self._chords(cut.axis, cut.at)
        return [chords[index] for index in cut.chords] if len(chords) == cut.of else []

    @cached_property
    def _ring_edges(self) -> list[tuple[int, list[float], list[float]]]:
        """Number, start and end of the edges of all rings."""
        points = self._points.tolist()
        within = (range(start, end - 1) for start, end in pairwise(self._starts))
        return [(edge, points[edge], points[edge + 1]) for edges in within for edge in edges]

    def _chords(self, axis: int, at: float) -> list[_Chord]:
        met = []
        for edge, start, end in self._ring_edges:
            before, after = start[axis] - at, end[axis] - at
            if (before >= 0.0) != (after >= 0.0):
                share, x, y = before / (before - after), start[1 - axis], end[1 - axis]
                met.append(_Crossing(edge, x + share * (y - x), before >= 0.0))
        met.sort(key=lambda crossing: crossing.along)
        pairs = zip(met[::2], met[1::2], strict=True)
        chords = [_Chord(*(pair if pair[0].downward else pair[::-1])) for pair in pairs]
        return [
            chord
            for chord in chords
            if chord.length > _LEAST_CHORD and chord.down.downward > chord.up.downward
        ]

    def _edges(self, chosen: Sequence[_Chord]) -> tuple[_Edge, _Edge] | None:
        """The edges of the lower and the upper piece, if there are exactly two pieces, each with a wall."""
        if not any(self._ring_of(end) == 0 for chord in chosen for end in chord):
            return None
        if len(chosen) == 1:
            down, up = chosen[0]
            return ([(down, up)], [(up, down)]) if self._ring_of(down) == self._ring_of(up) else None
        lower, upper = self._edge(chosen, chosen[0].down), self._edge(chosen, chosen[0].up)
        whole = len(lower) == len(upper) == len(chosen)
        apart = all(start.downward for start, _ in lower) and not any(start.downward for start, _ in upper)
        return (lower, upper) if whole and apart else None

    def _edge(self, chosen: Sequence[_Chord], start: _Crossing) -> _Edge:
        """The edge of the piece to the left of who goes on along the ring from the end of a chord."""
        across = {chord.down: chord.up for chord in chosen} | {chord.up: chord.down for chord in chosen}
        order = sorted(across)
        at = start
        edge: _Edge = []
        while not edge or at != start:
            own = [one for one in order if self._ring_of(one) == self._ring_of(at)]
            end = own[(own.index(at) + 1) % len(own)]
            edge.append((at, end))
            at = across[end]
        return edge

    def _untouched(self, edges: tuple[_Edge, _Edge]) -> list[Polygon]:
        """The voids that no chord meets."""
        if not self.area.interiors:
            return []
        met = {self._ring_of(start) for edge in edges for start, _ in edge}
        return [Polygon(ring) for number, ring in enumerate(self._rings) if number and number not in met]

    def _swept_by(self, cut: Cut, edge: _Edge) -> float:
        """Area within the edge of a piece [m2]."""
        twice = 0.0
        for number, (start, end) in enumerate(edge):
            (x0, y0), (x1, y1) = self._place(cut, start), self._place(cut, end)
            x2, y2 = self._place(cut, edge[(number + 1) % len(edge)][0])
            first, last = start.edge + 1, end.edge
            (ax, ay), (bx, by) = self._points[first].tolist(), self._points[last].tolist()
            twice += float(self._swept[last] - self._swept[first])
            if last < first:
                ring = self._ring_of(start)
                twice += float(self._swept[self._starts[ring + 1] - 1] - self._swept[self._starts[ring]])
            twice += (x0 * ay - ax * y0) + (bx * y1 - x1 * by) + (x1 * y2 - x2 * y1)
        return twice / 2.0

    def _drawn(self, cut: Cut, edge: _Edge) -> Polygon:
        points: list[Sequence[float]] = []
        for start, end in edge:
            ring = self._ring_of(start)
            low, count = self._starts[ring], len(self._rings[ring]) - 1
            first, last = start.edge + 1 - low, end.edge - low
            corners = range(first, last + 1 + count * (last < first))
            points.append(self._place(cut, start))
            points += [self._points[low + at % count].tolist() for at in corners]
            points.append(self._place(cut, end))
        return Polygon(_apart(points))

    def _piece(self, cut: Cut, edge: _Edge, untouched: Sequence[Polygon]) -> Polygon:
        piece = self._drawn(cut, edge)
        voids = _within(piece, untouched)
        return Polygon(piece.exterior, [void.exterior for void in voids]) if voids else piece


def _within(piece: Polygon, voids: Sequence[Polygon]) -> list[Polygon]:
    return [void for void in voids if shapely.contains_xy(piece, *void.exterior.coords[0][:2])]


def _apart(points: Sequence[Sequence[float]]) -> list[Sequence[float]]:
    """Without points that repeat the one before."""
    kept = [points[0]]
    for point in points[1:]:
        if abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) > _HAIR:
            kept.append(point)
    return kept
