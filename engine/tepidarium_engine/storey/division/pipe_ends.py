"""Joining a tail to the pipe of a piece: both are cut back a little and a curve of the bend radius goes between."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise, product

import numpy as np
import shapely
from shapely import LineString

from ...elementwise import Array
from ...plan.pipes.curve_table import CurveTable, Pieces, Pose
from ...plan.pipes.fillets import rounded
from ...plan.pipes.pipe_path import LEAST_PIECE_LENGTH, Arc, Line, PipePath

__all__ = ["Joint", "bent_lane", "joined_ends", "stretch_of"]

_BACK = (0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0, 8.0)
"""How far tails are cut back before the piece, in bend radii."""
_ON = (0.0, 0.5, 1.0, 2.0, 3.0, 4.5, 6.0)
"""How far into the piece its own pipe is replaced, in bend radii."""
_DETOUR = 1.6
_REPLACED = 0.2
"""What a metre of pipe that is taken out counts, beside a metre of detour."""
_CHORD_ERROR = 5e-4
_SLACK = 0.004
"""By which two tails may be nearer than their pitch [m]."""


def bent_lane(corners: Array, bend_radius: float) -> PipePath | None:
    """A lane as a pipe; None where its legs are too short for the bend radius."""
    points = [(float(x), float(y)) for x, y in corners]
    if sum(math.dist(a, b) for a, b in pairwise(points)) < 1e-4:
        return None
    bends = rounded(points, bend_radius)
    return None if bends.unresolved else bends.path


def stretch_of(path: PipePath, start: float, end: float) -> tuple[Line | Arc, ...]:
    """The pieces of a path between two distances along it [m]."""
    found: list[Line | Arc] = []
    before, beyond = np.searchsorted(path.offsets, (start, end), side="right").tolist()
    first = max(0, before - 1)
    for piece, at in zip(path.pieces[first:beyond], path.offsets[first:].tolist(), strict=False):
        low, high = max(start, at) - at, min(end, at + piece.length) - at
        if high - low >= LEAST_PIECE_LENGTH:
            found.append(_part(piece, low / piece.length, high / piece.length))
    return tuple(found)


def _part(piece: Line | Arc, low: float, high: float) -> Line | Arc:
    if low <= 0.0 and high >= 1.0:
        return piece
    if isinstance(piece, Arc):
        return replace(
            piece, start_angle=piece.start_angle + low * piece.sweep, sweep=(high - low) * piece.sweep
        )
    (x0, y0), (x1, y1) = piece.start, piece.end
    dx, dy = x1 - x0, y1 - y0
    return Line((x0 + low * dx, y0 + low * dy), (x0 + high * dx, y0 + high * dy))


def joined_ends(
    tails: tuple[PipePath, PipePath],
    laid: PipePath,
    bend_radius: float,
    pitch: float,
    *,
    floor: shapely.Geometry | None = None,
) -> tuple[PipePath, float] | None:
    """The whole pipe: in by the first tail, through the piece, out by the second one, and what of its length
    is laid in the piece [m]; None where no curve fits. See ``Joint``."""
    return Joint(tails, laid, bend_radius, pitch).on(floor)


class Joint:
    """Where two tails meet the pipe of a piece, for one floor after the other: curves are drawn once.

    Tails run from the entry to the piece, both. ``onward``: how far into the piece its own pipe may be replaced, in
    bend radii; ``most_back``: how far before it tails may be cut back [m].
    """

    def __init__(
        self,
        tails: tuple[PipePath, PipePath],
        laid: PipePath,
        bend_radius: float,
        pitch: float,
        *,
        onward: Sequence[float] = _ON,
        most_back: float = math.inf,
    ) -> None:
        self._tails, self._laid, self._radius, self._pitch = tails, laid, bend_radius, pitch
        reach = min(laid.length, 0.1 + max(onward) * bend_radius)
        least = min(tail.length for tail in tails) - 1e-3
        self._inside = _first_of(laid, reach), _first_of(laid.reversed(), reach)
        self._backs = {cut for back in _BACK if (cut := min(back * bend_radius, most_back)) <= least}
        self._ons = [into for on in onward if 2.0 * (into := on * bend_radius) <= 0.2 * laid.length]
        self._cuts = sorted(
            (_REPLACED * (cut + into), cut, into) for cut in self._backs for into in self._ons
        )
        self._distances: dict[tuple[int, int], float] = {}

    @cached_property
    def _curves(self) -> _Curves:
        leaving = {cut: [_pose(tail, tail.length - cut) for tail in self._tails] for cut in self._backs}
        entering = {into: [_pose(path, into) for path in self._inside] for into in self._ons}
        each = (zip(leaving[cut], entering[into], strict=True) for _, cut, into in self._cuts)
        return _Curves([both for pairs in each for both in pairs], self._radius)

    def on(self, floor: shapely.Geometry | None) -> tuple[PipePath, float] | None:
        """The whole pipe, with curves on the ``floor``, where one is given, and what of its length is laid in the
        piece [m]; None where no curve fits."""
        best: tuple[float, tuple[int, int], float, float] | None = None
        for number, (replaced, cut, into) in enumerate(self._cuts):
            most = math.inf if best is None else best[0] - replaced
            if most <= 0.0:
                break
            there, back = (self._curves.between(2 * number + side, most, floor) for side in (0, 1))
            for (one, curve), (other, back_curve) in product(there, back):
                if best is not None and one + other + replaced >= best[0]:
                    continue
                if self._apart((curve, back_curve), cut, into) >= self._pitch - _SLACK:
                    best = (one + other + replaced, (curve, back_curve), cut, into)
        return None if best is None else self._whole(*best[1:])

    def _whole(self, rows: tuple[int, int], cut: float, into: float) -> tuple[PipePath, float]:
        tails, laid = self._tails, self._laid
        first, last = map(self._curves.pieces, rows)
        tail = stretch_of(tails[0], 0.0, tails[0].length - cut)
        through = stretch_of(laid, into, laid.length - into)
        away = PipePath(stretch_of(tails[1], 0.0, tails[1].length - cut) + last).reversed().pieces
        return PipePath(tail + first + through + away), laid.length - 2.0 * into

    def _apart(self, rows: tuple[int, int], cut: float, into: float) -> float:
        """Least distance between two curves with what goes before and after them [m]."""
        if rows not in self._distances:
            lines = []
            for tail, path, row in zip(self._tails, self._inside, rows, strict=True):
                before = stretch_of(tail, max(0.0, tail.length - cut - 0.1), tail.length - cut)
                after = stretch_of(path, into, into + 0.02)
                lines.append(_line(before + self._curves.pieces(row) + after))
            self._distances[rows] = float(shapely.distance(lines[0], lines[1]))
        return self._distances[rows]


def _first_of(path: PipePath, length: float) -> PipePath:
    return PipePath(stretch_of(path, 0.0, length))


class _Curves:
    """Curves between pairs of poses, by their row in a table."""

    def __init__(self, pairs: Sequence[tuple[Pose, Pose]], radius: float) -> None:
        apart = np.array([math.dist(start.place, end.place) for start, end in pairs])
        poses = [pose for pair in pairs for pose in pair]
        first = 2 * np.arange(len(pairs))
        self._table = CurveTable.between(poses, (first, first + 1), radius, _DETOUR * apart + 1e-3)
        self._detours = (self._table.total - apart[self._table.pair]).tolist()
        self._lines: dict[int, LineString] = {}

    def between(self, pair: int, most: float, floor: shapely.Geometry | None) -> list[tuple[float, int]]:
        """Of a pair: detours of less than ``most`` [m], and their curves, the shortest first."""
        first, beyond = np.searchsorted(self._table.pair, (pair, pair + 1)).tolist()
        rows = [row for row in range(first, beyond) if self._detours[row] < most]
        free = [row for row in rows if floor is None or shapely.covers(floor, self._line(row))]
        return sorted(((self._detours[row], row) for row in free), key=lambda each: each[0])

    def pieces(self, row: int) -> Pieces:
        return self._table.pieces(row)

    def _line(self, row: int) -> LineString:
        if row not in self._lines:
            self._lines[row] = _line(self.pieces(row))
        return self._lines[row]


def _line(pieces: Pieces) -> LineString:
    return LineString(PipePath(pieces).polyline(_CHORD_ERROR))


def _pose(path: PipePath, at: float) -> Pose:
    if at > path.length - LEAST_PIECE_LENGTH:
        return Pose(path.end, path.pieces[-1].end_heading)
    pieces = stretch_of(path, at, path.length)
    return Pose(pieces[0].start, pieces[0].start_heading)
