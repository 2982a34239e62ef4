"""From the middle line of a pair to its two pipes."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString

from ...checking import Point
from ...errors import InvariantError
from ...plan.pipes.fillets import distinct, rounded
from ...plan.pipes.pipe_path import PipePath
from ..model.tail_records import TailRules

__all__ = ["has_length", "pair_pipes"]

_ASTRAY = 2e-5
"""Corners nearer to the line past them are rounding [m]."""
_BACK = 1e-9
"""By how much the cosine of a turn straight back may differ from -1."""


def has_length(corners: Sequence[Point]) -> bool:
    """Whether a way leads anywhere."""
    return len(distinct(corners)) > 1


def pair_pipes(corners: Sequence[Point], rules: TailRules) -> tuple[PipePath, PipePath] | None:
    """Flow, on the right, and return, from the field back; ``None`` where a bend does not fit. A way has a length:
    without one it has no direction, and raises ``InvariantError``."""
    if not has_length(corners):
        raise InvariantError("the way of a pair of pipes must have a length")
    line = shapely.simplify(LineString(distinct(corners)), _ASTRAY)
    middle = [(x, y) for x, y in shapely.get_coordinates(line).tolist()]
    if _turns_back(middle):
        return None
    half = rules.tail_pitch / 2.0
    flow = rounded(_shifted(middle, -half), rules.bend_radius)
    back = rounded(_shifted(middle, half), rules.bend_radius)
    if flow.unresolved or back.unresolved:
        return None
    return flow.path, back.path.reversed()


def _turns_back(points: Sequence[Point]) -> bool:
    """Whether a line goes back the way it came at a corner: no pair of pipes can be beside it there."""
    ways = np.diff(np.array(points), axis=0)
    before, after = ways[:-1], ways[1:]
    ahead = (before * after).sum(axis=1)
    lengths = np.hypot(*before.T) * np.hypot(*after.T)
    return bool((ahead < (_BACK - 1.0) * lengths).any())


def _shifted(points: Sequence[Point], left: float) -> list[Point]:
    """The line moved ``left`` [m] of itself, corners mitred."""
    normals = []
    for (x0, y0), (x1, y1) in itertools.pairwise(points):
        length = math.hypot(x1 - x0, y1 - y0)
        normals.append((-(y1 - y0) / length, (x1 - x0) / length))
    moved = []
    for (x, y), before, after in zip(points, [normals[0], *normals], [*normals, normals[-1]], strict=True):
        share = left / (1.0 + before[0] * after[0] + before[1] * after[1])
        moved.append((x + share * (before[0] + after[0]), y + share * (before[1] + after[1])))
    return moved
