"""Patterns of cuts out of one coil, and the least length that has to be bought by their linear programme.

Column generation of Gilmore and Gomory (1961): the programme over the patterns that are known prices each cut; a
knapsack for those prices finds patterns that are missing. What all cuts are worth at prices that no pattern can beat is
a lower bound on every plan. Knapsacks are solved on a grid with lengths rounded down, which keeps the bound safe.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import scipy

from ..elementwise import Array
from .coil_filling import filled_coil
from .cutting_task import CuttingTask

__all__ = ["CutPrices", "Pattern", "PatternPool", "priced_patterns"]

_GRIDS = (20_000, 200_000)
"""Cells of the knapsack: few while they find patterns, then enough that rounding hides none."""
_MOST_ROUNDS = 60
_PARTS = 8
"""Knapsacks of a round: each for what the one before left."""
_STARTS = 8
"""Plans from which patterns are taken to begin with, for each kind of coil."""
_GAIN = 1e-7
"""Worth above its price, over the price, for which a pattern is taken in."""


class Pattern(NamedTuple):
    """Number of the kind of coil and how many of each size are cut from it."""

    kind: int
    counts: tuple[int, ...]


class CutPrices(NamedTuple):
    """What each size is worth [mm], and ``given`` by each kind of coil at hand, 0 for those that are bought: no
    coil holds more than it costs or gives. ``bound`` [mm] is what all cuts are worth less what is given."""

    worth: tuple[float, ...]
    given: tuple[float, ...]
    bound: float


@dataclass
class PatternPool:
    """Patterns of a task, each once."""

    task: CuttingTask
    patterns: list[Pattern] = field(default_factory=list)
    known: set[Pattern] = field(default_factory=set)

    def add(self, pattern: Pattern) -> bool:
        """Whether it is new."""
        if pattern in self.known or not any(pattern.counts):
            return False
        self.known.add(pattern)
        self.patterns.append(pattern)
        return True

    def add_cuts(self, kind: int, cuts: tuple[int, ...]) -> bool:
        place = {size: number for number, size in enumerate(self.task.sizes)}
        counts = [0] * len(place)
        for cut in cuts:
            counts[place[cut]] += 1
        return self.add(Pattern(kind, tuple(counts)))

    @property
    def matrix(self) -> scipy.sparse.csc_array:
        """Sizes by patterns."""
        return scipy.sparse.csc_array(
            np.array([pattern.counts for pattern in self.patterns], dtype=np.float64).T
        )

    @property
    def bought(self) -> Array:
        """Length bought with each pattern [mm]."""
        kinds = self.task.kinds
        return np.array([kinds[pattern.kind].bought for pattern in self.patterns], dtype=np.float64)

    def of_kind(self, kind: int) -> Array:
        return np.array([float(pattern.kind == kind) for pattern in self.patterns])


def priced_patterns(task: CuttingTask) -> tuple[PatternPool, CutPrices]:
    """Patterns enough for the linear programme, and its prices with the best bound on the way there."""
    pool, best = _first_patterns(task), CutPrices((0.0,) * len(task.sizes), (0.0,) * len(task.kinds), 0.0)
    worth, grids = _worth(pool), list(_GRIDS)
    for _ in range(math.ceil(_MOST_ROUNDS * task.effort)):
        most, new = _better_patterns(task, worth, grids[0])
        best = max(best, _safe_prices(task, worth, most), key=lambda prices: prices.bound)
        if sum(pool.add(pattern) for pattern in new):
            worth = _worth(pool)
        elif len(grids) == 1:
            break
        else:
            grids.pop(0)
    return pool, best


def _first_patterns(task: CuttingTask) -> PatternPool:
    """Each cut alone, and what filling coils one after the other comes to."""
    pool, numbers = PatternPool(task), random.Random(0)
    for size in task.sizes:
        fitting = (number for number, kind in enumerate(task.kinds) if kind.length >= size)
        pool.add_cuts(min(fitting, key=lambda number: task.kinds[number].length), (size,))
        for number, kind in enumerate(task.kinds):
            if kind.length >= size and kind.available is None:
                pool.add_cuts(number, (size,))
                break
    for number, kind in enumerate(task.kinds):
        for start in range(_STARTS):
            left = list(task.cuts)
            while own := filled_coil(left, kind.length, numbers if start else None):
                pool.add_cuts(number, own)
                for cut in own:
                    left.remove(cut)
    return pool


def _worth(pool: PatternPool) -> Array:
    """Prices of the cuts by the linear programme over the patterns known [mm]."""
    task = pool.task
    at_hand = [
        (number, kind.available) for number, kind in enumerate(task.kinds) if kind.available is not None
    ]
    rows = [-pool.matrix, *(scipy.sparse.csc_array(pool.of_kind(number)[None, :]) for number, _ in at_hand)]
    limits = [*(-float(demand) for demand in task.demands), *(float(count) for _, count in at_hand)]
    solved = scipy.optimize.linprog(pool.bought, A_ub=_stacked(rows), b_ub=limits, method="highs-ds")
    worth: Array = np.maximum(-solved.ineqlin.marginals[: len(task.demands)], 0.0)
    return worth


def _stacked(rows: list[scipy.sparse.csc_array]) -> scipy.sparse.csc_array:
    return scipy.sparse.csc_array(np.vstack([row.toarray() for row in rows]))


def _better_patterns(task: CuttingTask, worth: Array, cells: int) -> tuple[Array, list[Pattern]]:
    """The most that each kind of coil can hold [mm], and patterns that hold more than they cost."""
    found: list[Pattern] = []
    left, first = list(task.demands), np.zeros(0)
    for _ in range(_PARTS):
        knapsack = _Knapsack(task, worth, left, cells)
        most = np.array([knapsack.most(kind.length) for kind in task.kinds])
        if not len(first):
            first = most
        over = [most[number] - kind.bought for number, kind in enumerate(task.kinds)]
        better = [number for number, kind in enumerate(task.kinds) if over[number] > _GAIN * kind.length]
        if not better:
            break
        patterns = {number: knapsack.pattern(number) for number in better}
        found += patterns.values()
        best = max(better, key=lambda number: (over[number] / task.kinds[number].length, -number))
        left = [have - taken for have, taken in zip(left, patterns[best].counts, strict=True)]
        if not any(left):
            break
    return first, found


def _safe_prices(task: CuttingTask, worth: Array, most: Array) -> CutPrices:
    """Prices scaled down until no coil that is bought holds more than it costs."""
    bought = [most[number] / kind.length for number, kind in enumerate(task.kinds) if kind.available is None]
    scale = 1.0 / max(1.0, *bought)
    scaled = [float(price) * scale for price in worth]
    given = tuple(
        0.0 if kind.available is None else float(most[number]) * scale
        for number, kind in enumerate(task.kinds)
    )
    total = sum(price * demand for price, demand in zip(scaled, task.demands, strict=True))
    total -= sum(each * (kind.available or 0) for each, kind in zip(given, task.kinds, strict=True))
    return CutPrices(tuple(scaled), given, total)


class _Knapsack:
    """The most worth of cuts within every length, each as often as it is in demand; on a grid, lengths of cuts rounded
    down."""

    def __init__(self, task: CuttingTask, worth: Array, demands: list[int], cells: int) -> None:
        self._task = task
        longest = max(kind.length for kind in task.kinds)
        self._grid = -(-longest // cells)
        self._best = np.zeros(longest // self._grid + 1)
        self._steps: list[tuple[int, int, npt.NDArray[np.bool_]]] = []
        for number, (size, demand) in enumerate(zip(task.sizes, demands, strict=True)):
            for _ in range(demand):
                self._take_in(number, max(1, size // self._grid), float(worth[number]))

    def _take_in(self, number: int, size: int, worth: float) -> None:
        if worth <= 0.0 or size >= len(self._best):
            return
        with_it = self._best[:-size] + worth
        taken = with_it > self._best[size:]
        self._best[size:][taken] = with_it[taken]
        self._steps.append((number, size, taken))

    def most(self, length: int) -> float:
        return float(self._best[length // self._grid])

    def pattern(self, kind: int) -> Pattern:
        """The best pattern of a kind of coil; the shortest cuts are left out of what rounding let in."""
        task = self._task
        cell, counts = task.kinds[kind].length // self._grid, [0] * len(task.sizes)
        for number, size, taken in reversed(self._steps):
            if cell >= size and taken[cell - size]:
                counts[number] += 1
                cell -= size
        over = (
            sum(size * count for size, count in zip(task.sizes, counts, strict=True))
            - task.kinds[kind].length
        )
        for number in range(len(counts) - 1, -1, -1):
            while over > 0 and counts[number]:
                counts[number] -= 1
                over -= task.sizes[number]
        return Pattern(kind, tuple(counts))
