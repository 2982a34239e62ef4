"""Places on a pipe and straight stretches near them: how far, and what is seen square to the pipe."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...elementwise import Array
from ..pipes.pipe_table import Index
from .pipe_stretches import Near, Places, Stretches, allowed_shares, too_near_along

__all__ = ["LinePairs"]


@dataclass(frozen=True, slots=True)
class LinePairs:
    """``x`` and ``y`` are the first end of each stretch as seen from the place, ``dx`` and ``dy`` the way to its
    other end [m]."""

    places: Places
    stretches: Stretches
    pairs: Near
    x: Array
    y: Array
    dx: Array
    dy: Array

    @classmethod
    def of(cls, places: Places, stretches: Stretches, near: Near) -> LinePairs:
        place, stretch = places.paired(stretches, near)
        (x0, y0), (x1, y1) = stretches.start.T.copy(), stretches.end.T.copy()
        px, py = places.points.T.copy()
        x, y = x0[stretch] - px[place], y0[stretch] - py[place]
        return cls(places, stretches, (place, stretch), x, y, (x1 - x0)[stretch], (y1 - y0)[stretch])

    def squared(self) -> Array:
        """Squared distance [m2], to what is far enough along the pipe; infinite if nothing is."""
        squares = ((self.stretches.end - self.stretches.start) ** 2).sum(axis=1)
        nearest = -(self.x * self.dx + self.y * self.dy) / np.maximum(squares, 1e-300)[self.pairs[1]]
        near = np.flatnonzero(too_near_along(self.places, self.stretches, self.pairs))
        low, high = allowed_shares(self.places, self.stretches, (self.pairs[0][near], self.pairs[1][near]))
        cut = np.clip(nearest[near], low, high)
        nearest = np.clip(nearest, 0.0, 1.0)
        nearest[near] = cut
        squared: Array = (self.x + nearest * self.dx) ** 2 + (self.y + nearest * self.dy) ** 2
        squared[near[low >= high]] = math.inf
        return squared

    def seen(self) -> tuple[Index, Array, Array]:
        """What is met square to the pipe: the place, how far to its left [m], and the position there [m]."""
        place, stretch = self.pairs
        tangent_x, tangent_y = self.places.tangents.T.copy()[:, place]
        before = self.x * tangent_x + self.y * tangent_y
        step = self.dx * tangent_x + self.dy * tangent_y
        met = np.flatnonzero((before * (before + step) <= 0.0) & (step != 0.0))
        share = -before[met] / step[met]
        side = (self.y[met] + share * self.dy[met]) * tangent_x[met]
        side -= (self.x[met] + share * self.dx[met]) * tangent_y[met]
        row = stretch[met]
        return place[met], side, self.stretches.start_at[row] + share * self.stretches.length[row]
