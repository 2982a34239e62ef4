"""Where in a counterflow the flow turns into the return.

Flow and return lie beside each other all the way in, so each place on the flow has its neighbour on the return: pairs
that enclose each other like brackets. The core is what most of them enclose.
"""

from __future__ import annotations

import math

import numpy as np
import scipy

from ..plan.pipes.pipe_path import Arc, PipePath

__all__ = ["core_mark"]

_STEP = 0.1
"""Distance of the places that are compared [m]."""
_REACH = 1.3
"""Pipe within so many spacings is a neighbour."""
_AGAINST = -0.9
"""Cosine of the angle between pipes that run against each other."""
_AWAY = 2.5
"""Neighbours are further apart than this along the pipe, in spacings."""
_TURN = math.radians(150.0)


def core_mark(path: PipePath, pipe_spacing: float) -> float | None:
    """Distance along the drawn pipe [m]; None where nothing runs beside each other."""
    count = max(2, math.ceil(path.length / _STEP))
    at = np.linspace(0.0, path.length, count)
    points, headings = path.poses_at(at)
    pairs = scipy.spatial.cKDTree(points).query_pairs(_REACH * pipe_spacing, output_type="ndarray")
    first, second = np.minimum(pairs[:, 0], pairs[:, 1]), np.maximum(pairs[:, 0], pairs[:, 1])
    against = (headings[first] * headings[second]).sum(axis=1) < _AGAINST
    kept = against & (at[second] - at[first] > _AWAY * pipe_spacing)
    if not kept.any():
        return None
    change = np.bincount(first[kept], minlength=count) - np.bincount(second[kept], minlength=count)
    depth = np.cumsum(change)
    deepest = np.flatnonzero(depth == depth.max())
    low, high = float(at[deepest[0]]), float(at[min(deepest[-1] + 1, count - 1)])
    return _turn_within(path, low, high)


def _turn_within(path: PipePath, low: float, high: float) -> float:
    """The middle of the sharpest turn there, if one turns the pipe back; else the middle."""
    turns = [
        (abs(piece.sweep), -start, start + piece.length / 2.0)
        for piece, start in zip(path.pieces, path.offsets.tolist(), strict=False)
        if isinstance(piece, Arc) and abs(piece.sweep) >= _TURN and low <= start + piece.length / 2.0 <= high
    ]
    return max(turns)[2] if turns else (low + high) / 2.0
