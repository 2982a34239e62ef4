"""What lies beside each stretch of a pipe: the nearest other stretch, and what is seen square to the pipe.

All figures are our own definitions. Positions are distances along the pipe from its start [m].
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...elementwise import ROUND_OFF, Array
from ...errors import Fault, InputError
from ..outlines.denser_area import Spacings
from ..pipes.pipe_table import Index, Mask, PipeTable
from .arc_pairs import ArcPairs
from .line_pairs import LinePairs
from .pipe_stretches import Places, Stretches

__all__ = [
    "CHORD_ERROR",
    "LOOK",
    "Neighbours",
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
MOST_CROWDING, MOST_PAIRS = 3e5, 1e6
"""Pipe heaped on one spot costs the square of its length to look at; laid pipe of 2 km comes to a fifth."""
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
    only and have a column for the left and one for the right hand: the first pipe met square to this one. Walls do
    not hide pipe: with the usual clearances a partition or void puts it out of sight anyway.
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


def neighbours(table: PipeTable, spacings: Spacings, tail: float) -> Neighbours:
    """Look round from samples in the middle of stretches, and from vertices.

    In the middle, since their ends are where pieces meet, and what is square to them often starts or ends
    right there. The shortest distance between two lines is found from an end of one of them, and where an arc
    takes part from it to within the chord error, so the least of ``distance`` is exact but for that; in a
    hairpin, where the nearest is just 2.6 spacings on along the pipe, it is exact to 0.025 spacings.
    ``tail`` is the length at either end [m] within which the two ends may lie at a pitch of their own.
    Raises ``InputError`` for pipe that is heaped on one spot.
    """
    look = LOOK * spacings.widest
    stretches = Stretches.of(table, _LONGEST * spacings.least, (tail, table.total - tail))
    _refuse_heaps(stretches.crowding(look), MOST_CROWDING)
    near = stretches.near(look)
    step = min(max(table.total / _SAMPLES, _FINEST * spacings.least), _COARSEST * spacings.least)
    piece, ends = table.cut(math.inf, step)
    samples = _places(table, (ends[1:] + ends[:-1]) / 2.0, piece, spacings)
    piece, vertices_at = table.cut(CHORD_ERROR, _LONGEST * spacings.least)
    vertices = _places(table, vertices_at, np.append(piece, piece[-1:]), spacings)
    _refuse_heaps(
        sum(places.pairs(stretches, kind) for places in (samples, vertices) for kind in near), MOST_PAIRS
    )
    looks = [
        (LinePairs.of(places, stretches, near[0]), ArcPairs.of(places, stretches, near[1]))
        for places in (samples, vertices)
    ]
    found = [_distances(lines, arcs, look, tail) for lines, arcs in looks]
    seen = _seen(*looks[0], look)
    points = np.concatenate((samples.points, vertices.points))
    spacing = np.concatenate((samples.spacing, vertices.spacing))
    return Neighbours(
        at=np.concatenate((samples.at, vertices.at)),
        points=points,
        weight=np.concatenate((np.diff(ends), np.zeros(len(vertices.at)))),
        spacing=spacing,
        own_spacing=spacings.at(samples.points),
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


def _refuse_heaps(cost: float, most: float) -> None:
    if cost > most:
        raise InputError(Fault("/pieces", "too_dense", "has too much pipe in one place to be checked"))


def _places(table: PipeTable, at: Array, piece: Index, spacings: Spacings) -> Places:
    points, tangents = table.poses(at, piece)
    return Places(at, points, tangents, spacings.beside(points))


def _distances(lines: LinePairs, arcs: ArcPairs, look: float, tail: float) -> tuple[Array, Array]:
    """Per place: distance to other parts of the pipe, and from tail to tail."""
    least = np.full((2, len(lines.places.at)), math.inf)
    for kind in (lines, arcs):
        squared = kind.squared()
        near = np.flatnonzero(squared <= look**2)
        place, stretch = kind.pairs[0][near], kind.pairs[1][near]
        tails = _tail_to_tail(kind.places.at[place], kind.stretches, stretch, tail)
        np.minimum.at(least[0], place[~tails], squared[near[~tails]])
        np.minimum.at(least[1], place[tails], squared[near[tails]])
    return np.sqrt(least[0]), np.sqrt(least[1])


def _tail_to_tail(at: Array, stretches: Stretches, stretch: Index, tail: float) -> Mask:
    """Whether the place and the stretch are on the two tails."""
    total = stretches.table.total
    first = stretches.ends_at[1:] <= tail + ROUND_OFF
    last = stretches.start_at >= total - tail - ROUND_OFF
    both: Mask = ((at <= tail) & last[stretch]) | ((at >= total - tail) & first[stretch])
    return both


def _seen(lines: LinePairs, arcs: ArcPairs, look: float) -> Array:
    """Per sample and hand: distance to the first pipe square to this one, and the position on it."""
    samples = lines.places
    met = (lines.seen(), arcs.seen(look))
    who, side, seen_at = (np.concatenate(both) for both in zip(*met, strict=True))
    another = np.abs(seen_at - samples.at[who]) > _SAME_BEND * samples.spacing[who]
    other = np.flatnonzero(another & (np.abs(side) <= look))
    distance, seen_at = np.abs(side[other]), seen_at[other]
    slot = 2 * who[other] + (side[other] < 0.0)
    seen = np.full((2, 2 * len(samples.at)), math.inf)
    np.minimum.at(seen[0], slot, distance)
    first = np.flatnonzero(distance == seen[0, slot])
    np.minimum.at(seen[1], slot[first], seen_at[first])
    return seen.reshape(2, -1, 2)
