"""A pipe cut into short stretches, places on it, and which stretches are near which places."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ...elementwise import Array
from ..pipes.pipe_path import LEAST_PIECE_LENGTH
from ..pipes.pipe_table import Index, Mask, PipeTable

__all__ = ["APART", "Near", "Places", "Stretches", "allowed_shares", "too_near_along"]

APART = 2.6
"""Parts of the pipe count as different pipes when they are further apart along it, in spacings.

A U-turn over one spacing is 1.6 spacings long, and the straight pipes behind it are a spacing apart.
"""

Near = tuple[Index, Index]
"""Pairs: the first and the second of each."""


@dataclass(frozen=True, slots=True)
class Stretches:
    """One row a stretch: where it starts along the pipe, its ends, and the circle if it is an arc.

    ``hand`` is 1 for an arc that turns to the left, -1 to the right, 0 for a line.
    """

    table: PipeTable
    piece: Index
    ends_at: Array
    start_at: Array
    length: Array
    start: Array
    end: Array
    hand: Array

    @classmethod
    def of(cls, table: PipeTable, longest: float, breaks: Sequence[float]) -> Stretches:
        """The pieces cut into stretches of at most ``longest`` [m], and at ``breaks`` too."""
        piece, ends_at = table.cut(math.inf, longest)
        new = [
            at for at in breaks if np.abs(ends_at - at).min() > LEAST_PIECE_LENGTH and 0.0 < at < table.total
        ]
        if new:
            starts = np.append(ends_at[:-1], new)
            order = np.argsort(starts)
            piece = np.append(piece, table.piece_at(np.array(new)))[order]
            ends_at = np.append(starts[order], ends_at[-1:])
        start, _ = table.poses(ends_at[:-1], piece)
        end, _ = table.poses(ends_at[1:], piece)
        hand = np.sign(table.sweep)[piece]
        return cls(table, piece, ends_at, ends_at[:-1], np.diff(ends_at), start, end, hand)

    def crowding(self, reach: float) -> float:
        """Sum of squares of the stretches in each cell of twice ``reach`` [m]: what looking round will cost."""
        middles = (self.start + self.end) / 2.0
        cells = np.floor(middles / (2.0 * reach))
        _, counts = np.unique(cells, axis=0, return_counts=True)
        return float((counts.astype(np.float64) ** 2).sum())

    def near(self, reach: float) -> tuple[Near, Near]:
        """Pairs of stretches whose boxes come within ``reach`` [m]: with lines and with arcs as the second.

        Two stretches of one straight line are none.
        """
        radius = self.table.radius[self.piece]
        # The rise of an arc over its chord is less than an eighth of length times angle.
        rise = np.zeros(len(radius))
        np.divide(self.length**2 / 8.0, radius, out=rise, where=radius > 0.0)
        margin = (rise + reach / 2.0)[:, None]
        low, high = np.minimum(self.start, self.end) - margin, np.maximum(self.start, self.end) + margin
        boxes = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
        here, there = shapely.STRtree(boxes).query(boxes)
        bent = self.hand[there] != 0.0
        straight = ~bent & (self.piece[here] != self.piece[there])
        return (here[straight], there[straight]), (here[bent], there[bent])


@dataclass(frozen=True, slots=True)
class Places:
    """Places on the pipe in the order of flow: ``at`` [m] along it, and the ``spacing`` [m] to judge by."""

    at: Array
    points: Array
    tangents: Array
    spacing: Array

    def pairs(self, stretches: Stretches, near: Near) -> int:
        """How many pairs ``paired`` would have."""
        return int(self._counts(stretches)[1][near[0]].sum())

    def paired(self, stretches: Stretches, near: Near) -> Near:
        """Each place on the first stretch of a pair with the second stretch."""
        here, there = near
        first, counts = self._counts(stretches)
        counts = counts[here]
        before = np.cumsum(counts) - counts
        place = np.repeat(first[here] - before, counts) + np.arange(int(counts.sum()))
        return place, np.repeat(there, counts)

    def _counts(self, stretches: Stretches) -> tuple[Index, Index]:
        """The first place on each stretch, and how many there are."""
        first = np.searchsorted(self.at, stretches.ends_at)
        first[-1] = len(self.at)
        return first[:-1], np.diff(first)


def too_near_along(places: Places, stretches: Stretches, pairs: Near) -> Mask:
    """Which pairs have some of the stretch so near to the place along the pipe that it is the same pipe."""
    place, stretch = pairs
    half = stretches.length / 2.0
    middle = stretches.start_at + half
    apart = np.abs(middle[stretch] - places.at[place])
    near: Mask = apart < half[stretch] + APART * places.spacing[place]
    return near


def allowed_shares(places: Places, stretches: Stretches, pairs: Near) -> tuple[Array, Array]:
    """The part of each stretch that is far enough along the pipe, from one share of it to another.

    A stretch is short enough to reach out of what is left out at one end only: a share from that end is left.
    """
    place, stretch = pairs
    start_at, length, at = stretches.start_at[stretch], stretches.length[stretch], places.at[place]
    ahead = start_at + length / 2.0 > at
    apart = np.where(ahead, APART, -APART) * places.spacing[place]
    share = np.clip((at + apart - start_at) / length, 0.0, 1.0)
    return np.where(ahead, share, 0.0), np.where(ahead, 1.0, share)
