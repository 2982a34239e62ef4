"""Patterns of cuts out of one coil, and the least length that has to be bought by their linear programme.

Column generation of Gilmore and Gomory (1961): the programme over the patterns that are known prices each cut; a
knapsack for those prices finds patterns that are missing. What all cuts are worth at prices that no pattern can beat is
a lower bound on every plan. Knapsacks are solved on a grid with lengths rounded down, which keeps the bound safe.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
import scipy

from ..elementwise import Array
from .best_patterns import BestPatterns, Pattern
from .coil_filling import filled_coil
from .cutting_task import CuttingTask

__all__ = ["CutPrices", "Pattern", "PatternPool", "knapsacks", "priced_patterns"]

_GRIDS = (4_000, 40_000)
"""Cells of the knapsack: few while they find patterns, then enough that rounding hides none."""
_TABLE = 2_400_000
"""Cells times cuts that a knapsack may have at most while it finds patterns."""
_EXACT_GRID = 200_000
"""For the bound in the end."""
_MOST_ROUNDS = 40
_STARTS = 8
"""Plans from which patterns are taken to begin with, for each kind of coil."""
_GAIN = 1e-7
"""Worth above its price, over the price, for which a pattern is taken in."""


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

    def add_worth(self, patterns: Iterable[Pattern], worth: Array, least: Sequence[float]) -> bool:
        """Take in those worth more than ``least`` of their kind; whether any of them is new."""
        good = [
            pattern for pattern in patterns if float(worth @ np.array(pattern.counts)) > least[pattern.kind]
        ]
        return sum(self.add(pattern) for pattern in good) > 0

    def known_worth(self, worth: Array) -> Array:
        """The most that a known pattern of each kind of coil is worth."""
        found = np.zeros(len(self.task.kinds))
        np.maximum.at(found, [pattern.kind for pattern in self.patterns], worth @ self.matrix)
        return found

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


def knapsacks(task: CuttingTask) -> list[BestPatterns]:
    """The coarse one, then the fine one."""
    most = max(_GRIDS[0], _TABLE // len(task.cuts))
    return [BestPatterns(task, min(cells, most)) for cells in _GRIDS]


def priced_patterns(task: CuttingTask) -> tuple[PatternPool, CutPrices]:
    """Patterns enough for the linear programme, and its prices with the best bound on the way there."""
    pool, best = _first_patterns(task), CutPrices((0.0,) * len(task.sizes), (0.0,) * len(task.kinds), 0.0)
    grids, worth = knapsacks(task), _worth(pool)
    for _ in range(math.ceil(_MOST_ROUNDS * task.effort)):
        most = grids[0].most(worth)
        best = max(best, _safe_prices(task, worth, most), key=lambda prices: prices.bound)
        known = pool.known_worth(worth)
        least = [(1.0 + _GAIN) * max(known[number], kind.bought) for number, kind in enumerate(task.kinds)]
        better = [number for number, _ in enumerate(task.kinds) if most[number] > least[number]]
        if pool.add_worth(grids[0].with_each_cut(worth, better), worth, least):
            worth = _worth(pool)
        elif len(grids) == 1:
            break
        else:
            grids.pop(0)
    exact = BestPatterns(task, _EXACT_GRID).most(worth)
    return pool, max(best, _safe_prices(task, worth, exact), key=lambda prices: prices.bound)


def _first_patterns(task: CuttingTask) -> PatternPool:
    """Each cut alone, and what filling coils one after the other comes to."""
    pool, numbers = PatternPool(task), random.Random(0)
    for size in task.sizes:
        for number, kind in enumerate(task.kinds):
            if kind.length >= size:
                pool.add_cuts(number, (size,))
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


def _safe_prices(task: CuttingTask, worth: Array, most: Sequence[float]) -> CutPrices:
    """Prices scaled down until no coil that is bought holds more than it costs."""
    bought = [most[number] / kind.length for number, kind in enumerate(task.kinds) if kind.available is None]
    scale = 1.0 / max(1.0, *bought)
    scaled = [float(price) * scale for price in worth]
    given = tuple(
        0.0 if kind.available is None else most[number] * scale for number, kind in enumerate(task.kinds)
    )
    total = sum(price * demand for price, demand in zip(scaled, task.demands, strict=True))
    total -= sum(each * (kind.available or 0) for each, kind in zip(given, task.kinds, strict=True))
    return CutPrices(tuple(scaled), given, total)
