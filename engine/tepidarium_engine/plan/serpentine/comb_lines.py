"""Lines on which the runs of a comb may lie: always an even number, two for each row of teeth.

A leg of the room is filled from wall to wall when its lower wall lies at the first line of a tooth and its
upper wall at the second line of one. Not all walls can have their way at once, so every choice of the longer
ones is tried: lines between two walls that are held are spread evenly.
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

_SPACINGS = (1.0, 0.98, 1.03, 0.95, 1.06)
"""Spacings tried whatever the room's extent, in spacings asked for; the first one in a quick search."""
_SMALLEST = 0.8
_LARGEST = 1.4
"""Distances between lines, in spacings; floor between two lines is heated up to 1.5."""
_LEANING = 0.93
"""Of the distance that two bends take: runs that are closer lean apart towards their turns."""
_BEST = 0.99
"""Distance between lines that is aimed at, in spacings: makes up for what turns leave out."""
_ONE_LEVEL = 0.5
"""Walls of one kind whose places differ by less, in spacings, count as one."""
_SHORTEST = 3.0
"""Shorter walls are not held, in spacings."""
_MOST_HELD = 3
"""Inner walls of which every choice is tried."""


class _Level(NamedTuple):
    """Where walls lie [m]; ``near``: the floor is on the side of the greater coordinates."""

    place: float
    near: bool
    length: float


def line_sets(edges: Array, reach: Reach, quick: bool) -> Iterator[Array]:
    """Sets of places across the runs [m], in order, from walls and from the spacing asked for.

    ``edges`` are rows (x0, y0, x1, y1) of all outlines of the area, runs along x.
    """
    spacing = reach.spacing
    least = min(max(_SMALLEST * spacing, _LEANING * reach.least_leg), spacing) * (1.0 - 1e-9)
    first, *inner, last = _levels(edges, spacing)
    longest = sorted(inner, key=lambda level: (-round(level.length, 6), level.place))
    longest = [] if quick else sorted(longest[:_MOST_HELD])
    choices = [list(held) for count in range(len(longest) + 1) for held in combinations(longest, count)]
    for held in choices:
        yield from _held(([first, *held, last]), least, _LARGEST * spacing, spacing)
    extent = last.place - first.place
    for share in _SPACINGS[: 1 if quick else None]:
        step = share * spacing
        rows = math.floor((extent / step + 1.0 + 1e-9) / 2.0)
        if rows >= 1 and step >= least:
            over = extent - (2 * rows - 1) * step
            for offset in (0.0, over / 2.0, over) if share == 1.0 and not quick else (over / 2.0,):
                yield first.place + offset + step * np.arange(2.0 * rows)


def _held(levels: Sequence[_Level], least: float, largest: float, spacing: float) -> Iterator[Array]:
    """Lines that lie on all the levels, with one and, in a room with no other walls, two more rows."""
    segments = []
    for one, other in pairwise(levels):
        apart = other.place - one.place
        odd = one.near != other.near
        counts = [n for n in range(1 if odd else 2, math.floor(apart / least) + 1, 2) if apart / n <= largest]
        counts.sort(key=lambda n: (round(abs(apart / n / spacing - _BEST), 6), n))
        if not counts:
            return
        segments.append([apart / counts[0]] * counts[0])
        if len(levels) == 2 and len(counts) > 1:
            yield one.place + apart / counts[1] * np.arange(counts[1] + 1.0)
    yield levels[0].place + np.concatenate(([0.0], np.cumsum(list(chain.from_iterable(segments)))))


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
