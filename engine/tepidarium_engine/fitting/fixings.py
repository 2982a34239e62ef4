"""Where the fixings of a drawn pipe go: at the ends and crowns of its bends, and between them on the straights."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from ..plan.pipes.pipe_path import Arc, PipePath

__all__ = ["FIXING_SOURCE", "FixingMark", "fixing_marks"]

FIXING_SOURCE = (
    "EN 1264-4:2001, fixing of pipes (at most 500 mm); ends of bends and crowns by common practice"
)

_BEND = math.radians(20.0)
"""A turn by less is held by the fixings of the straights."""
_CROWN = math.radians(120.0)
"""A bend by more is held at its crown, too."""
_SAME = 0.05
"""Fixings nearer than this to one before are one [m]."""


class FixingMark(NamedTuple):
    """A fixing ``mark`` [m] along the pipe; whether it holds a bend or a straight."""

    mark: float
    at_bend: bool


def fixing_marks(path: PipePath, distance: float) -> tuple[FixingMark, ...]:
    """All fixings in order; no two neighbours, nor an end of the pipe and the next one, are further apart than
    ``distance`` [m]. The ends are held by the manifold."""
    bends = _apart(_bend_marks(path))
    anchors = [0.0, *bends, path.length]
    found = [FixingMark(mark, True) for mark in bends]
    for before, after in pairwise(anchors):
        count = math.ceil((after - before) / distance - 1e-9)
        found += [FixingMark(before + (after - before) * step / count, False) for step in range(1, count)]
    return tuple(sorted(found))


def _bend_marks(path: PipePath) -> Iterator[float]:
    for piece, start in zip(path.pieces, path.offsets.tolist(), strict=False):
        if isinstance(piece, Arc) and abs(piece.sweep) >= _BEND:
            yield start
            if abs(piece.sweep) > _CROWN:
                yield start + piece.length / 2.0
            yield start + piece.length


def _apart(marks: Iterator[float]) -> Sequence[float]:
    kept: list[float] = []
    for mark in marks:
        if not kept or mark - kept[-1] >= _SAME:
            kept.append(mark)
    return kept
