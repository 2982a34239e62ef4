"""The pieces of a pipe as columns of numbers: places and directions for many positions at once."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ...checking import Point
from ...elementwise import Array
from .pipe_path import Arc, Line

__all__ = ["Index", "Mask", "PipeTable"]

Index = npt.NDArray[np.intp]
Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class PipeTable:
    """One row a piece, in the order of flow. Lengths and places in metres, angles in radians.

    ``heading`` and ``last_heading`` are unit vectors of the direction of travel at the ends of a piece,
    ``angle`` is the first of them as an angle. ``radius`` and ``sweep`` are 0 for a line; an arc's ``centre``
    is kept, as a place worked out from the ends would not lie on the circle to the last bit.
    ``offsets`` has one entry more: where each piece starts along the pipe, and the total.
    """

    start: Array
    end: Array
    heading: Array
    last_heading: Array
    centre: Array
    angle: Array
    radius: Array
    sweep: Array
    length: Array
    offsets: Array

    @classmethod
    def of(cls, pieces: Iterable[Line | Arc], moved_by: Point) -> PipeTable:
        """The pieces, all moved by a vector [m]: first moved, then worked with, so that nothing is blurred."""
        x, y = moved_by
        rows = [
            _line_row(piece, x, y) if isinstance(piece, Line) else _arc_row(piece, x, y) for piece in pieces
        ]
        columns = np.array(rows, dtype=np.float64)
        a, b, c, d, e = (np.ascontiguousarray(columns[:, first : first + 2]) for first in range(0, 10, 2))
        angle, radius, sweep, length = columns[:, 10:].T.copy()
        return cls(a, b, c, d, e, angle, radius, sweep, length, np.concatenate(([0.0], np.cumsum(length))))

    @property
    def total(self) -> float:
        """Length of the pipe as the positions have it [m]."""
        return float(self.offsets[-1])

    def cut(self, chord_error: float, longest: float) -> tuple[Index, Array]:
        """Pieces cut evenly into stretches: the piece of each, and the positions of all their ends [m].

        No stretch is longer than ``longest`` [m], and its chord strays by at most ``chord_error`` [m]: a chord
        over the angle ``a`` strays by ``2 radius sin(a / 4) ** 2``. Every end of a piece is one of a stretch,
        and the reversed pipe has the same ones.
        """
        count = np.maximum(1.0, np.ceil(self.length / longest - 1e-9))
        arcs = np.flatnonzero(self.radius)
        radii, which = np.unique(self.radius[arcs], return_inverse=True)
        shares = (chord_error / (2.0 * radii)).tolist() if math.isfinite(chord_error) else [0.5] * len(radii)
        widest = np.array([4.0 * math.asin(math.sqrt(min(0.5, share))) for share in shares])
        count[arcs] = np.maximum(count[arcs], np.ceil(np.abs(self.sweep[arcs]) / widest[which] - 1e-9))
        counts = count.astype(np.intp)
        piece = np.repeat(np.arange(len(counts)), counts)
        share = (np.arange(len(piece)) - np.repeat(np.cumsum(counts) - counts, counts)) / counts[piece]
        ends = self.offsets[piece] + share * np.diff(self.offsets)[piece]
        return piece, np.append(ends, self.offsets[-1:])

    def piece_at(self, positions: Array) -> Index:
        """The piece at each position [m]; at a joint the later one."""
        found = np.searchsorted(self.offsets, positions, side="right") - 1
        return np.clip(found, 0, len(self.length) - 1)

    def poses(self, positions: Array, piece: Index | None = None) -> tuple[Array, Array]:
        """Points [m] and unit vectors of the direction of travel at distances along the pipe [m]."""
        piece = self.piece_at(positions) if piece is None else piece
        along = positions - self.offsets[piece]
        tangents = self.heading[piece]
        points = self.start[piece] + along[:, None] * tangents
        bent = np.flatnonzero(self.radius[piece])
        arc = piece[bent]
        turned = self.angle[arc] + np.copysign(along[bent] / self.radius[arc], self.sweep[arc])
        # By the C library and not by numpy, whose sine may differ between processors in the last bit.
        angles = turned.tolist()
        tangents[bent, 0] = np.fromiter(map(math.cos, angles), np.float64, len(angles))
        tangents[bent, 1] = np.fromiter(map(math.sin, angles), np.float64, len(angles))
        outward = np.copysign(self.radius[arc], self.sweep[arc])
        points[bent, 0] = self.centre[arc, 0] + outward * tangents[bent, 1]
        points[bent, 1] = self.centre[arc, 1] - outward * tangents[bent, 0]
        return points, tangents


def _line_row(line: Line, x: float, y: float) -> tuple[float, ...]:
    x0, y0, x1, y1 = line.start[0] + x, line.start[1] + y, line.end[0] + x, line.end[1] + y
    dx, dy = x1 - x0, y1 - y0
    length = math.hypot(dx, dy)
    if length == 0.0:  # moving it has swallowed it; only a path that is refused as broken has such pieces
        return (x0, y0, x1, y1, 1.0, 0.0, 1.0, 0.0, x0, y0, 0.0, 0.0, 0.0, line.length)
    way = (dx / length, dy / length)
    return (x0, y0, x1, y1, *way, *way, x0, y0, math.atan2(dy, dx), 0.0, 0.0, length)


def _arc_row(arc: Arc, x: float, y: float) -> tuple[float, ...]:
    cx, cy, radius, sweep = arc.centre[0] + x, arc.centre[1] + y, arc.radius, arc.sweep
    first, last = arc.start_angle, arc.start_angle + sweep
    (ax, ay), (bx, by) = (math.cos(first), math.sin(first)), (math.cos(last), math.sin(last))
    hand = math.copysign(1.0, sweep)
    ends = (cx + radius * ax, cy + radius * ay, cx + radius * bx, cy + radius * by)
    headings = (-hand * ay, hand * ax, -hand * by, hand * bx)
    heading = first + math.copysign(math.pi / 2.0, sweep)
    return (*ends, *headings, cx, cy, heading, radius, sweep, radius * abs(sweep))
