"""What lies beside each stretch of a pipe: the nearest other stretch, and what is seen square to the pipe.

All figures are our own definitions. Positions are distances along the pipe from its start [m].
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..elementwise import Array
from .denser_area import Spacings
from .pipe_stretches import Places, Stretches, squared_distances, views
from .pipe_table import Index, Mask, PipeTable

__all__ = [
    "CHORD_ERROR",
    "LOOK",
    "Neighbours",
    "crowding",
    "neighbours",
    "weighted_percentile",
]

CHORD_ERROR = 2e-4
"""How far the chords between vertices stray from arcs at most [m]."""
LOOK = 1.6
"""How far to look to either side, in spacings: past the next pipe at its place, not as far as the second."""
_SAME_BEND = 1.0
"""Seen square to the pipe, what is less than this apart along it belongs to the same bend, in spacings."""
_FINEST, _COARSEST, _SAMPLES = 0.25, 0.5, 1500.0
"""Samples are a quarter of a spacing apart, up to half a spacing where the pipe then still has so many."""
_LONGEST = 4.0
"""Short stretches have small boxes, which keeps the search narrow, in spacings.

It has to be less than twice as far as pipe is the same pipe."""


@dataclass(frozen=True, slots=True)
class Neighbours:
    """Places along the pipe and what lies beside them. Infinite where nothing is within ``LOOK``.

    The samples come first, then vertices: the ends of pieces and places along arcs. ``weight`` is the length
    of pipe that a sample stands for [m], 0 for a vertex. ``spacing`` [m] is the one that distances are judged
    by at the place, ``own_spacing`` the one asked for there. ``distance`` [m] is the shortest to any part of
    the pipe that is more than ``APART`` spacings away along it; ``tails_distance`` [m] is between the first
    and the last stretch, which ``distance`` leaves out. ``seen_distance`` [m] and ``seen_at`` are for samples
    only and have a column for the left and one for the right hand: the first pipe met square to this one; no
    rows when that was not asked for. Walls do not hide pipe: with the usual clearances a partition or void
    puts it out of sight anyway.
    """

    at: Array
    points: Array
    weight: Array
    spacing: Array
    own_spacing: Array
    distance: Array
    tails_distance: Array
    seen_distance: Array
    seen_at: Array

    @property
    def samples(self) -> int:
        return len(self.seen_at)


def crowding(table: PipeTable, spacings: Spacings) -> float:
    """Sum of squares of the stretches in each cell as wide as the look-round: what looking will cost."""
    _, ends = table.cut(CHORD_ERROR, _LONGEST * spacings.least)
    points, _ = table.poses((ends[1:] + ends[:-1]) / 2.0)
    _, counts = np.unique(np.floor(points / (2.0 * LOOK * spacings.widest)), axis=0, return_counts=True)
    return float((counts.astype(np.float64) ** 2).sum())


def neighbours(table: PipeTable, spacings: Spacings, tail: float, look_square: bool = True) -> Neighbours:
    """Look round from samples in the middle of stretches, and from vertices.

    In the middle, since their ends are where pieces meet, and what is square to them often starts or ends
    right there. The shortest distance between two lines is found from an end of one of them, and where an arc
    takes part from it to within the chord error, so the least of ``distance`` is exact but for that.
    ``tail`` is the length at either end [m] within which the two ends may lie at a pitch of their own.
    """
    stretches = Stretches.of(table, _LONGEST * spacings.least, (tail, table.total - tail))
    look = LOOK * spacings.widest
    near = stretches.near(look)
    step = min(max(table.total / _SAMPLES, _FINEST * spacings.least), _COARSEST * spacings.least)
    piece, ends = table.cut(math.inf, step)
    samples = _places(table, (ends[1:] + ends[:-1]) / 2.0, piece, spacings)
    piece, vertices_at = table.cut(CHORD_ERROR, _LONGEST * spacings.least)
    vertices = _places(table, vertices_at, np.append(piece, piece[-1:]), spacings)
    sample, stretch = samples.paired(stretches, near)
    found = [
        _distances(samples, stretches, sample, stretch, look=look, tail=tail),
        _distances(vertices, stretches, *vertices.paired(stretches, near), look=look, tail=tail),
    ]
    seen = _seen(samples, stretches, sample, stretch, look) if look_square else np.empty((2, 0, 2))
    points = np.concatenate((samples.points, vertices.points))
    spacing = np.concatenate((samples.spacing, vertices.spacing))
    return Neighbours(
        at=np.concatenate((samples.at, vertices.at)),
        points=points,
        weight=np.concatenate((np.diff(ends), np.zeros(len(vertices.at)))),
        spacing=spacing,
        own_spacing=spacings.at(samples.points) if look_square else spacing[: len(samples.at)],
        distance=np.concatenate([distance for distance, _ in found]),
        tails_distance=np.concatenate([distance for _, distance in found]),
        seen_distance=seen[0],
        seen_at=seen[1],
    )


def weighted_percentile(values: Array, weight: Array, share: float) -> float:
    """The least value that at least ``share`` (0 to 1) of the weight does not exceed."""
    order = np.argsort(values, kind="stable")
    reached = np.cumsum(weight[order])
    index = int(np.searchsorted(reached, share * reached[-1] * (1.0 - 1e-12)))
    return float(values[order[min(index, len(order) - 1)]])


def _places(table: PipeTable, at: Array, piece: Index, spacings: Spacings) -> Places:
    points, tangents = table.poses(at, piece)
    return Places(at, points, tangents, spacings.beside(points))


def _distances(
    places: Places, stretches: Stretches, place: Index, stretch: Index, *, look: float, tail: float
) -> tuple[Array, Array]:
    """Per place: distance to other parts of the pipe, and from tail to tail."""
    squared = squared_distances(places, stretches, place, stretch)
    near = np.flatnonzero(squared <= look**2)
    squared, place, stretch = squared[near], place[near], stretch[near]
    tails = _tail_to_tail(places.at[place], stretches, stretch, tail)
    distances = []
    for chosen in (~tails, tails):
        least = np.full(len(places.at), math.inf)
        np.minimum.at(least, place[chosen], squared[chosen])
        distances.append(np.sqrt(least))
    return distances[0], distances[1]


def _tail_to_tail(at: Array, stretches: Stretches, stretch: Index, tail: float) -> Mask:
    """Whether the place and the stretch are on the two tails."""
    slack, total = 1e-9, stretches.table.total
    start = stretches.start_at[stretch]
    end = start + stretches.length[stretch]
    both: Mask = ((at <= tail) & (start >= total - tail - slack)) | (
        (at >= total - tail) & (end <= tail + slack)
    )
    return both


def _seen(samples: Places, stretches: Stretches, sample: Index, stretch: Index, look: float) -> Array:
    """Per sample and hand: distance to the first pipe square to this one, and the position on it."""
    who, side, seen_at = views(samples, stretches, sample, stretch, look)
    same_bend = _SAME_BEND * samples.spacing[who]
    other = np.flatnonzero(np.abs(seen_at - samples.at[who]) > same_bend)
    distance, seen_at = np.abs(side[other]), seen_at[other]
    slot = 2 * who[other] + (side[other] < 0.0)
    order = np.lexsort((seen_at, distance, slot))
    taken = slot[order]
    first = order[np.append(True, taken[1:] != taken[:-1])[: len(order)]]
    seen = np.full((2, 2 * len(samples.at)), math.inf)
    seen[0, slot[first]], seen[1, slot[first]] = distance[first], seen_at[first]
    return seen.reshape(2, -1, 2)
