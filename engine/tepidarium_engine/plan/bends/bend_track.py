"""A pipe being repaired: its pieces beside a chain of chords, in which stretches are replaced."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate

import numpy as np
import numpy.typing as npt
import shapely

from ...elementwise import Array
from ..pipes.curve_table import Pose
from ..pipes.pipe_path import LEAST_PIECE_LENGTH, TANGENT_TOLERANCE, Arc, Line, PipePath
from ..pipes.pipe_table import Index

__all__ = ["CHORD_ERROR", "Cut", "Spot", "Track", "chords_of", "merged_spots", "widest_step"]

CHORD_ERROR = 5e-4
"""How far the chords that stand for arcs stray from them at most [m]."""
_SAME_LINE = 1e-7
"""Lines that meet with a smaller kink are one [rad]."""

Piece = Line | Arc
Cut = tuple[float, float]
"""Where a stretch of pipe starts and ends [m along it]."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A stretch of pipe from ``start`` to ``end`` [m along it] that cannot stay; ``radius`` [m] is its least."""

    start: float
    end: float
    radius: float


@dataclass(frozen=True)
class Track:
    """``starts`` [m]: where each piece starts along the pipe, and the total; ``at`` and ``points``: vertices
    of the chain of chords, all ends of pieces among them."""

    pieces: tuple[Piece, ...]
    starts: tuple[float, ...]
    at: Array
    points: Array

    @classmethod
    def of(cls, path: PipePath) -> Track:
        at = path.positions(CHORD_ERROR)
        pieces = tuple(_joined(path.pieces))
        starts = tuple(accumulate((piece.length for piece in pieces), initial=0.0))
        return cls(pieces, starts, at, path.points_at(at))

    @property
    def length(self) -> float:
        return self.starts[-1]

    @cached_property
    def chord_boxes(self) -> tuple[Array, Array]:
        """Lower left and upper right corner of the box round each chord [m], one a row."""
        return np.minimum(self.points[:-1], self.points[1:]), np.maximum(self.points[:-1], self.points[1:])

    def chord_lines(self, chords: Index) -> npt.NDArray[np.object_]:
        """Chords as line strings."""
        lines: npt.NDArray[np.object_] = shapely.linestrings(
            np.stack((self.points[chords], self.points[chords + 1]), axis=1)
        )
        return lines

    def pose(self, at: float) -> Pose:
        """Place and direction of travel at a distance along the pipe [m]."""
        known = self._poses.get(at)
        if known is None:
            index = self._piece(at)
            part = _part(self.pieces[index], at - self.starts[index], math.inf)
            known = self._poses[at] = Pose(part.start, part.start_heading)
        return known

    @cached_property
    def _poses(self) -> dict[float, Pose]:
        return {}

    def stretch(self, start: float, end: float) -> tuple[Array, Array]:
        """Vertices from one distance along the pipe to another: the distances [m] and the points [m]."""
        first = np.searchsorted(self.at, start + LEAST_PIECE_LENGTH, side="right")
        inner = slice(first, max(first, np.searchsorted(self.at, end - LEAST_PIECE_LENGTH, side="left")))
        at = np.concatenate(([start], self.at[inner], [end]))
        ends = np.array([self.pose(start).place, self.pose(end).place])
        return at, np.concatenate((ends[:1], self.points[inner], ends[1:]))

    def replaced(self, start: float, end: float, pieces: Sequence[Piece]) -> Track:
        """With other pieces from ``start`` to ``end`` [m]."""
        first, last = self._piece(start), self._piece(end)
        before = _part(self.pieces[first], 0.0, start - self.starts[first])
        after = _part(self.pieces[last], end - self.starts[last], math.inf)
        # One piece more on either side may go on in a new one; beyond it all stays as it is.
        kept, beyond = max(0, first - 1), last + 2
        new = _joined([*self.pieces[kept:first], before, *pieces, after, *self.pieces[last + 1 : beyond]])
        starts = [*self.starts[:kept], *accumulate((one.length for one in new), initial=self.starts[kept])]
        if beyond < len(self.pieces):
            by = starts[-1] - self.starts[beyond]
            starts += [at + by for at in self.starts[beyond + 1 :]]
        along, points = chords_of(pieces)
        head, tail = self.at < start - LEAST_PIECE_LENGTH, self.at > end + LEAST_PIECE_LENGTH
        longer = along[-1] - (end - start)
        return replace(
            self,
            pieces=(*self.pieces[:kept], *new, *self.pieces[beyond:]),
            starts=tuple(starts),
            at=np.concatenate((self.at[head], start + along, self.at[tail] + longer)),
            points=np.concatenate((self.points[head], points, self.points[tail])),
        )

    def tight_spots(self, bend_radius: float) -> list[Spot]:
        """Where the pipe bends tighter or has a kink."""
        found: list[Spot] = []
        heading: float | None = None
        for piece, start, end in zip(self.pieces, self.starts, self.starts[1:], strict=False):
            ahead = piece.start_heading
            if (
                heading is not None
                and abs(math.remainder(ahead - heading, 2.0 * math.pi)) > TANGENT_TOLERANCE
            ):
                found.append(Spot(start, start, 0.0))
            heading = ahead
            if isinstance(piece, Arc):
                heading += piece.sweep
                if piece.radius < bend_radius:
                    found.append(Spot(start, end, piece.radius))
        return found

    def _piece(self, at: float) -> int:
        return min(max(bisect_right(self.starts, at) - 1, 0), len(self.pieces) - 1)


def merged_spots(spots: Iterable[Spot], apart: float) -> list[Spot]:
    """In the order of flow; spots less than ``apart`` [m] from each other are one."""
    merged: list[Spot] = []
    for spot in sorted(spots, key=lambda spot: spot.start):
        if merged and spot.start - merged[-1].end < apart:
            last = merged[-1]
            merged[-1] = Spot(last.start, max(last.end, spot.end), min(last.radius, spot.radius))
        else:
            merged.append(spot)
    return merged


def widest_step(radius: float) -> float:
    """The angle over which a chord strays from an arc by ``CHORD_ERROR`` [rad]."""
    return 4.0 * math.asin(math.sqrt(min(0.5, CHORD_ERROR / (2.0 * radius))))


def chords_of(pieces: Sequence[Piece]) -> tuple[Array, Array]:
    """Distances along the pieces [m] and points [m] of vertices that stray by at most ``CHORD_ERROR``."""
    along, points, start = [0.0], [pieces[0].start], 0.0
    for piece in pieces:
        if isinstance(piece, Arc):
            step = widest_step(piece.radius)
            count = max(1, math.ceil(abs(piece.sweep) / step - 1e-9))
            (x, y), radius = piece.centre, piece.radius
            first, sweep, length = piece.start_angle, piece.sweep, piece.length
            angles = [first + sweep * index / count for index in range(1, count + 1)]
            points.extend([(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles])
            along.extend([start + length * index / count for index in range(1, count + 1)])
        else:
            length = piece.length
            points.append(piece.end)
            along.append(start + length)
        start += length
    return np.array(along), np.array(points)


def _part(piece: Piece, start: float, end: float) -> Piece:
    """The piece from one distance along it to another [m]."""
    start, end = max(start, 0.0), min(end, piece.length)
    if isinstance(piece, Line):
        (x, y), (dx, dy) = piece.start, (piece.end[0] - piece.start[0], piece.end[1] - piece.start[1])
        a, b = start / piece.length, end / piece.length
        first = piece.start if start <= 0.0 else (x + a * dx, y + a * dy)
        return Line(first, piece.end if end >= piece.length else (x + b * dx, y + b * dy))
    share, turned = (end - start) / piece.length, piece.sweep * (start / piece.length)
    return Arc(piece.centre, piece.radius, piece.start_angle + turned, piece.sweep * share)


def _joined(pieces: Sequence[Piece]) -> list[Piece]:
    """Without pieces of no length; pieces of one line or one circle become one."""
    whole: list[Piece] = []
    for piece in pieces:
        if piece.length < LEAST_PIECE_LENGTH:
            continue
        one = _as_one(whole[-1], piece) if whole else None
        if one is None:
            whole.append(piece)
        else:
            whole[-1] = one
    return whole


def _as_one(first: Piece, second: Piece) -> Piece | None:
    if isinstance(first, Line) and isinstance(second, Line):
        kink = math.remainder(second.start_heading - first.end_heading, 2.0 * math.pi)
        return Line(first.start, second.end) if abs(kink) < _SAME_LINE else None
    if isinstance(first, Arc) and isinstance(second, Arc):
        same = first.radius == second.radius and first.sweep * second.sweep > 0.0
        same = same and math.dist(first.centre, second.centre) < LEAST_PIECE_LENGTH
        if same and abs(first.sweep + second.sweep) <= 2.0 * math.pi:
            return Arc(first.centre, first.radius, first.start_angle, first.sweep + second.sweep)
    return None
