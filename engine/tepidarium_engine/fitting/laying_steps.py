"""A drawn pipe as straights and turns that a fitter can follow.

Turns so slight that nobody sees them become part of the straight, as long as that strays by no more than a few
millimetres; lengths stay those of the pipe.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..checking import Point
from ..plan.pipes.pipe_path import Arc, Line, PipePath

__all__ = ["Step", "steps_of"]

_SLIGHT = math.radians(12.0)
"""Turns by less may become part of a straight."""
_SHORTEST = 0.001
"""Shorter pieces become part of the next step [m]."""
_STRAYING = 0.003
"""By how much a straight may stray from the pipe [m]."""


@dataclass(frozen=True, slots=True)
class Step:
    """A straight (``arc`` None) or a turn, ``at`` [m] along the drawn pipe."""

    at: float
    length: float
    start: Point
    end: Point
    arc: Arc | None = None

    @property
    def heading(self) -> float:
        """Direction of travel at the start [rad]."""
        if self.arc is not None:
            return self.arc.start_heading
        return math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0])


def steps_of(path: PipePath) -> tuple[Step, ...]:
    """All steps in order; their lengths add up to that of the pipe."""
    return tuple(_steps(path.pieces, path.offsets.tolist()))


def _steps(pieces: Sequence[Line | Arc], offsets: Sequence[float]) -> Iterator[Step]:
    first, at = 0, 0.0
    while first < len(pieces):
        count = _straight_run(pieces[first:])
        run = pieces[first : first + max(1, count)]
        first += len(run)
        end = offsets[first]
        if end - at < _SHORTEST and first < len(pieces):
            continue
        arc = run[0] if count == 0 and isinstance(run[0], Arc) else None
        yield Step(at, end - at, run[0].start, run[-1].end, arc)
        at = end


def _straight_run(pieces: Sequence[Line | Arc]) -> int:
    """How many pieces from the first on are one straight; 0 for a turn."""
    best = 1 if isinstance(pieces[0], Line) else 0
    points = [pieces[0].start]
    for number, piece in enumerate(pieces, start=1):
        if isinstance(piece, Arc) and abs(piece.sweep) > _SLIGHT:
            break
        points += [piece.middle, piece.end] if isinstance(piece, Arc) else [piece.end]
        if not _straight(points):
            break
        best = number
    return best


def _straight(points: Sequence[Point]) -> bool:
    """Whether all points lie near the chord, one after the other along it."""
    (ax, ay), (bx, by) = points[0], points[-1]
    length = math.hypot(bx - ax, by - ay)
    if length < _STRAYING:
        return False
    ux, uy = (bx - ax) / length, (by - ay) / length
    return all(abs((x - ax) * uy - (y - ay) * ux) <= _STRAYING for x, y in points)
