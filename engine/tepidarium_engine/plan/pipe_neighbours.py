"""What lies beside each stretch of a pipe: the nearest other stretch, and what is seen square to the pipe.

All figures are our own definitions. Positions are distances along the pipe from its start [m].
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt
import shapely

from ..elementwise import Array
from .pipe_path import LEAST_PIECE_LENGTH, PipePath

__all__ = ["CHORD_ERROR", "LOOK", "Chords", "Neighbours", "neighbours", "weighted_percentile"]

CHORD_ERROR = 2e-4
"""How far the chords that stand for arcs here stray from them at most [m]."""
LOOK = 1.6
"""How far to look to either side, in spacings: past the next pipe at its place, not as far as the second."""
APART = 2.6
"""Parts of the pipe count as different pipes when they are further apart along it, in spacings.

A U-turn over one spacing is 1.6 spacings long, and the straight pipes behind it are a spacing apart.
"""
_SAME_BEND = 1.0
"""Seen square to the pipe, what is less than this apart along it belongs to the same bend, in spacings."""
_SAMPLE = 0.25
"""Greatest distance between samples, in spacings."""
_LONGEST_CHORD = 2.0
"""Short chords have small boxes, which keeps the search narrow, in spacings."""

Index = npt.NDArray[np.intp]
Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Chords:
    """The pipe as a chain of short straight chords between the positions ``at``; ``lines`` has one a chord."""

    at: Array
    points: Array
    lines: npt.NDArray[np.object_]

    @classmethod
    def of(cls, path: PipePath, pipe_spacing: float, breaks: tuple[float, ...] = ()) -> Chords:
        """Chords of at most two spacings; there is a vertex at each of ``breaks`` too."""
        at = path.positions(CHORD_ERROR, _LONGEST_CHORD * pipe_spacing)
        new = [position for position in breaks if 0.0 < position < path.length and _away_from(at, position)]
        at = np.union1d(at, new)
        points = path.points_at(at)
        return cls(at, points, shapely.linestrings(np.stack((points[:-1], points[1:]), axis=1)))

    def crowding(self, pipe_spacing: float) -> float:
        """Sum of squares of the chords in each cell as wide as the look-round: what looking will cost."""
        middles = (self.points[1:] + self.points[:-1]) / 2.0
        cells = np.floor(middles / (2.0 * LOOK * pipe_spacing))
        _, counts = np.unique(cells, axis=0, return_counts=True)
        return float((counts.astype(np.float64) ** 2).sum())


def _away_from(at: Array, position: float) -> bool:
    """Whether a vertex here would not lie on top of another."""
    return bool(np.abs(at - position).min() > LEAST_PIECE_LENGTH)


@dataclass(frozen=True, slots=True)
class Neighbours:
    """Places along the pipe and what lies beside them. Infinite where nothing is within ``LOOK``.

    The samples come first, then the vertices of the chords. ``weight`` is the length of pipe that a sample
    stands for [m], 0 for a vertex. ``distance`` [m] is the shortest to any part of the pipe that is more than
    ``APART`` spacings away along it; ``tails_distance`` [m] is between the first and the last stretch, which
    ``distance`` leaves out. ``seen_distance`` [m] and ``seen_at`` are for samples only and have a column for
    the left and one for the right hand: the first pipe met square to this one. Walls do not hide pipe: with
    the usual clearances a partition or void puts it out of sight anyway.
    """

    at: Array
    points: Array
    weight: Array
    distance: Array
    tails_distance: Array
    seen_distance: Array
    seen_at: Array

    @property
    def samples(self) -> int:
        return len(self.seen_at)


def neighbours(path: PipePath, chords: Chords, pipe_spacing: float, tail: float) -> Neighbours:
    """Look round from samples in the middle of stretches of at most a quarter of a spacing.

    In the middle, since their ends are where pieces meet, and what is square to them often starts or ends
    right there. The shortest distance between two chains of chords is found from a vertex of one of them,
    so the least of ``distance`` is exact but for the chords' straying from arcs.
    ``tail`` is the length at either end [m] within which the two ends may lie at a pitch of their own.
    """
    ends = path.positions(math.inf, _SAMPLE * pipe_spacing)
    sample_at = (ends[:-1] + ends[1:]) / 2.0
    sample_points, tangents = path.poses_at(sample_at)
    at = np.concatenate((sample_at, chords.at))
    points = np.concatenate((sample_points, chords.points))
    weight = np.concatenate((np.diff(ends), np.zeros(len(chords.at))))
    pairs = _Pairs.of(at, points, chords, LOOK * pipe_spacing)
    distance, tails_distance = _distances(pairs, len(at), path.length, pipe_spacing, tail)
    seen_distance, seen_at = _seen(pairs.first(len(sample_at)), tangents, pipe_spacing)
    return Neighbours(at, points, weight, distance, tails_distance, seen_distance, seen_at)


def weighted_percentile(values: Array, weight: Array, share: float) -> float:
    """The least value that at least ``share`` (0 to 1) of the weight does not exceed."""
    order = np.argsort(values, kind="stable")
    reached = np.cumsum(weight[order])
    index = int(np.searchsorted(reached, share * reached[-1] * (1.0 - 1e-12)))
    return float(values[order[min(index, len(order) - 1)]])


@dataclass(frozen=True, slots=True)
class _Pairs:
    """Samples and chords that may be near each other, grouped by sample.

    ``x`` and ``y`` are the chord's first end as seen from the sample, ``dx`` and ``dy`` the way to its second.
    """

    sample: Index
    sample_at: Array
    first_at: Array
    length: Array
    x: Array
    y: Array
    dx: Array
    dy: Array

    @classmethod
    def of(cls, at: Array, points: Array, chords: Chords, reach: float) -> _Pairs:
        """Pairs whose boxes come within ``reach`` [m], in the order of samples."""
        x, y = points.T.copy()
        boxes = shapely.box(x - reach, y - reach, x + reach, y + reach)
        sample, chord = shapely.STRtree(chords.lines).query(boxes)
        order = np.argsort(sample, kind="stable")
        sample, chord = sample[order], chord[order]
        from_x, from_y = chords.points.T.copy()
        return cls(
            sample,
            at[sample],
            chords.at[chord],
            np.diff(chords.at)[chord],
            from_x[chord] - x[sample],
            from_y[chord] - y[sample],
            np.diff(from_x)[chord],
            np.diff(from_y)[chord],
        )

    def first(self, samples: int) -> _Pairs:
        """The pairs of the first ``samples`` samples."""
        count = int(np.searchsorted(self.sample, samples))
        return _Pairs(*(getattr(self, item.name)[:count] for item in fields(self)))


def _distances(
    pairs: _Pairs, count: int, total: float, pipe_spacing: float, tail: float
) -> tuple[Array, Array]:
    """Per sample: distance to other parts of the pipe, and from tail to tail."""
    ahead = pairs.first_at + pairs.length / 2.0 > pairs.sample_at
    apart = np.where(ahead, APART, -APART) * pipe_spacing
    share = np.clip((pairs.sample_at + apart - pairs.first_at) / pairs.length, 0.0, 1.0)
    # A chord reaches out of the range left out at one end only: what is left of it is a share from that end.
    low, high = np.where(ahead, share, 0.0), np.where(ahead, 1.0, share)
    x, y, dx, dy = pairs.x, pairs.y, pairs.dx, pairs.dy
    nearest = np.clip(-(x * dx + y * dy) / np.maximum(dx * dx + dy * dy, 1e-300), low, high)
    squared = (x + nearest * dx) ** 2 + (y + nearest * dy) ** 2
    different = np.where(ahead, low < 1.0, high > 0.0) & (squared <= (LOOK * pipe_spacing) ** 2)
    last_at = pairs.first_at + pairs.length
    slack = 1e-9
    tails = ((pairs.sample_at <= tail) & (pairs.first_at >= total - tail - slack)) | (
        (pairs.sample_at >= total - tail) & (last_at <= tail + slack)
    )
    return (
        np.sqrt(_least(squared, pairs.sample, different & ~tails, count)),
        np.sqrt(_least(squared, pairs.sample, different & tails, count)),
    )


def _least(values: Array, group: Index, chosen: Mask, count: int) -> Array:
    """Least of the chosen values of each group; groups are sorted."""
    least = np.full(count, math.inf)
    group, values = group[chosen], values[chosen]
    if len(group):
        first = np.flatnonzero(np.append(True, group[1:] != group[:-1]))
        least[group[first]] = np.minimum.reduceat(values, first)
    return least


def _seen(pairs: _Pairs, tangents: Array, pipe_spacing: float) -> tuple[Array, Array]:
    """Per sample and hand: distance to the first pipe square to this one, and the position on it."""
    tangent_x, tangent_y = tangents.T.copy()[:, pairs.sample]
    before = pairs.x * tangent_x + pairs.y * tangent_y
    step = pairs.dx * tangent_x + pairs.dy * tangent_y
    crosses = np.flatnonzero((before * (before + step) <= 0.0) & (step != 0.0))
    share = -before[crosses] / step[crosses]
    side = (pairs.y[crosses] + share * pairs.dy[crosses]) * tangent_x[crosses]
    side -= (pairs.x[crosses] + share * pairs.dx[crosses]) * tangent_y[crosses]
    seen_at = pairs.first_at[crosses] + share * pairs.length[crosses]
    other = np.abs(seen_at - pairs.sample_at[crosses]) > _SAME_BEND * pipe_spacing
    keep = np.flatnonzero(other & (np.abs(side) <= LOOK * pipe_spacing))
    slot = 2 * pairs.sample[crosses][keep] + (side[keep] < 0.0)
    order = np.lexsort((seen_at[keep], np.abs(side[keep]), slot))
    slot, first = np.unique(slot[order], return_index=True)
    nearest = keep[order][first]
    distance, position = np.full(2 * len(tangents), math.inf), np.full(2 * len(tangents), math.inf)
    distance[slot], position[slot] = np.abs(side[nearest]), seen_at[nearest]
    return distance.reshape(-1, 2), position.reshape(-1, 2)
