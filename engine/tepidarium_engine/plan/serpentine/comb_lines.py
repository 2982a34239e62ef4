"""Lines on which the runs of a comb may lie: always an even number, two for each row of teeth.

A leg of the room is filled from wall to wall when its lower wall lies at the first line of a tooth and its upper wall
at the second line of one. Not all walls can have their way at once, so every choice of the longer ones is tried.
Between two walls that are held the runs lie at the spacing asked for; what is left over of an even number of them, the
last few before the upper wall share.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import chain, combinations, pairwise
from typing import NamedTuple

import numpy as np

from ...elementwise import Array
from ..outlines.edges import walls_across
from .comb_teeth import Reach

__all__ = ["line_sets"]

_REGULAR = 0.02
"""By this share of it the spacing of all runs between two walls may be off."""
_CLOSER, _WIDER = 0.2, 0.25
"""By how much the spacings that share what is left over may be off, in spacings: floor between two lines is heated up
to 1.5."""
_TRIFLE, _BULGES_FIT = 1e-3, 0.66
"""Turns of runs closer than that by a share bulge towards the next: by so much less the bend radius, in spacings, they
may be closer, so that 0.68 are left between them."""
_WIDE_TOOTH = 1.5
"""Of the two runs of a tooth beside a wall, for a pipe that turns no closer, in spacings: the floor between them is
heated up to there."""
_SMALLEST, _LARGEST = 0.8, 1.4
"""Of the spacings in a place so narrow that all share it, in spacings."""
_ONE_LEVEL = 0.5
"""Walls of one kind whose places differ by less, in spacings, count as one."""
_SHORTEST = 3.0
"""Shorter walls are not held, in spacings."""
_MOST_HELD = 3
"""Inner walls of which every choice is tried."""
_COUNTS = 2
"""Numbers of gaps that are tried in a room with no other walls: the nearest ones of the kind."""


class _Level(NamedTuple):
    """Where walls lie [m]; ``near``: the floor is on the side of the greater coordinates."""

    place: float
    near: bool
    length: float


def line_sets(edges: Array, reach: Reach, quick: bool) -> Iterator[Array]:
    """Sets of places across the runs [m], in order, from the walls and the spacing asked for; where the floor ends in
    a tip, what is left over lies on either side of it or on both.

    ``edges`` are rows (x0, y0, x1, y1) of all outlines of the area, runs along x.
    """
    first, *inner, last = _levels(edges, reach.spacing)
    longest = sorted(inner, key=lambda level: (-round(level.length, 6), level.place))
    longest = [] if quick else sorted(longest[:_MOST_HELD])
    for count in range(len(longest) + 1):
        for held in combinations(longest, count):
            yield from _held([first, *held, last], reach, 1 if held or quick else _COUNTS)
    if first.length == 0.0 or last.length == 0.0:
        rows = math.floor(((last.place - first.place) / reach.spacing + 1.0 + 1e-9) / 2.0)
        over = last.place - first.place - (2 * rows - 1) * reach.spacing
        for share in (0.0, 0.5, 1.0) if rows else ():
            yield first.place + share * over + reach.spacing * np.arange(2.0 * rows)


def _held(levels: Sequence[_Level], reach: Reach, tried: int) -> Iterator[Array]:
    """Lines that lie on all the levels; in a room with no other walls with more or with fewer rows, too."""
    for which in range(tried):
        gaps = [_gaps(one, other, reach, which) for one, other in pairwise(levels)]
        if all(gaps):
            steps = reach.spacing * np.array(list(chain.from_iterable(gaps)))
            yield levels[0].place + np.concatenate(([0.0], np.cumsum(steps)))


def _gaps(one: _Level, other: _Level, reach: Reach, which: int) -> list[float]:
    """Gaps between two levels in spacings, an odd or an even number: as many as come nearest to what is asked for, or
    next to that. None where they would all be too wide or too narrow.

    A tooth beside a wall is as wide as a plain turn, as there is no room for a bulge on that side.
    """
    odd = one.near != other.near
    wide = min(max(1.0, reach.least_leg / reach.spacing), _WIDE_TOOTH)
    before, behind = [wide] * one.near, [wide] * (not other.near)
    wanted = (other.place - one.place) / reach.spacing
    inner = wanted - sum(before) - sum(behind)
    fixed = len(before) + len(behind)
    parity = (odd + fixed) % 2
    low = max(parity, 2 * math.floor((inner - parity) / 2.0) + parity)
    found = [gaps for count in (low, low + 2) if (gaps := _shared(inner, count, reach))]
    found.sort(key=lambda gaps: round(abs(inner - len(gaps)) / max(1, len(gaps)), 6))
    if which < len(found):
        return [*before, *found[which], *behind]
    # Too narrow for that: all gaps alike.
    low = max(1 if odd else 2, 2 * math.floor((wanted - odd) / 2.0) + odd)
    counts = [count for count in (low, low + 2) if _SMALLEST <= wanted / count <= _LARGEST]
    counts.sort(key=lambda count: (round(abs(wanted / count - 1.0), 6), count))
    return [wanted / counts[0]] * counts[0] if counts and not found else []


def _shared(extent: float, count: int, reach: Reach) -> list[float]:
    """As many gaps as asked for that fill an extent, all in spacings; the last few share what is left over."""
    if count < 1:
        return []
    regular = min(max(extent / count, 1.0 - _REGULAR), 1.0 + _REGULAR)
    left = extent - regular * count
    closer = min(_CLOSER, max(_TRIFLE, _BULGES_FIT - reach.least_leg / reach.spacing / 2.0))
    sharing = math.ceil(abs(left) / (_WIDER if left > 0.0 else closer) - 1e-9)
    if sharing > count:
        return []
    return [regular] * (count - sharing) + [regular + left / max(1, sharing)] * sharing


def _levels(edges: Array, spacing: float) -> list[_Level]:
    """The lowest wall, longer ones between, and the highest wall, from below."""
    low, high = float(edges[:, [1, 3]].min()), float(edges[:, [1, 3]].max())
    walls = walls_across(edges, 1)
    found = [
        _Level(place, near, length)
        for place, near, length in zip(
            np.round(walls.places, 9).tolist(), walls.near.tolist(), walls.lengths.tolist(), strict=True
        )
    ]
    near = _merged(sorted(level for level in found if level.near), spacing)
    far = _merged(sorted((level for level in found if not level.near), reverse=True), spacing)
    first = near.pop(0) if near and near[0].place - low < _ONE_LEVEL * spacing else _Level(low, True, 0.0)
    last = far.pop(0) if far and high - far[0].place < _ONE_LEVEL * spacing else _Level(high, False, 0.0)
    least = _SHORTEST * spacing
    inner = [
        level for level in (*near, *far) if level.length >= least and first.place < level.place < last.place
    ]
    return [first, *sorted(inner), last]


def _merged(levels: Sequence[_Level], spacing: float) -> list[_Level]:
    """Levels of one kind in the order from their side, those close together as the longest of them."""
    merged: list[_Level] = []
    for level in levels:
        if merged and abs(level.place - merged[-1].place) < _ONE_LEVEL * spacing:
            longer = max(merged[-1], level, key=lambda one: round(one.length, 6))
            merged[-1] = longer._replace(length=merged[-1].length + level.length)
        else:
            merged.append(level)
    return merged
