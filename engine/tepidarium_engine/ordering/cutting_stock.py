"""The cutting plan: least length bought, then fewest coils, with what is proven about it.

Plans are sought level by level: a level is a length bought and a number of coils. The least level that sums of coils
allow is tried first, by filling coils one after the other. Where that does not find a plan there, HiGHS solves small
tasks over every pattern. For the others it names the least numbers of coils that meet all conditions known; either a
plan with them is found, or the patterns' linear programme gives a condition that they miss. All of it is bounded by
counted steps and never by time, so that the same task gives the same plan.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple
from zlib import crc32

import numpy as np
import scipy

from ..elementwise import Array
from .coil_filling import CoilFilling, filled_coil
from .coil_numbers import CoilNumbers, ProgrammeOfPatterns
from .coil_repacking import CoilRepacking
from .coil_sums import CoilSums
from .cutting_patterns import CutPrices, PatternPool, priced_patterns
from .cutting_task import CoilKind, CutCoil, CuttingPlan, CuttingTask, level_of
from .every_pattern import every_pattern

__all__ = ["cutting_plan"]

_QUICK_LEVELS = 2
"""Lengths bought at which filling is tried."""
_MORE_COILS = 3
"""Coils above the fewest with which filling is tried."""
_FIRST_LOOKS = 60_000
"""Cuts looked at by filling."""
_FEW_PATTERNS = 400
"""As many are given to HiGHS to find the best plan in one step."""
_ROUNDS = 24
"""Programmes of patterns that are solved for numbers of coils."""
_STEPS = 600
"""Mending a plan before it is asked whether there can be one."""
_MORE_STEPS = 2400
"""And afterwards."""
_MOST_STEPS = 9000
"""Altogether; numbers of coils count as so many more."""
_LEAST_STEPS = 100
_NODES = 30_000
"""Branches of each of them, times its patterns."""
_MOST_CUTS = 256
"""Of a task that is given to programmes at all; larger ones are filled, and sums of coils bound them."""
_ROUNDING = 0.01
"""By how much a bound may be off [mm]."""
_INTEGRAL = 1e-6
_METRE = 1000.0
_RESTS = 1000
"""Steps in which the rests of coils are compared."""
_OPTIMAL, _INFEASIBLE = 0, 2
"""How scipy says that a solution is the best, or that there is none."""


def cutting_plan(task: CuttingTask) -> CuttingPlan:
    """The best plan that was found for a task that has one; every cut fits into some coil that is bought."""
    if not task.cuts:
        return CuttingPlan((), 0, 0)
    first = _anyhow(task)
    bought, _ = level_of(first)
    if not CoilSums.manageable(task.bought_lengths, bought):
        longest = max(kind.length for kind in task.kinds)
        return CuttingPlan(first, max(0, task.total - sum(task.at_hand)), -(-task.total // longest))
    return _Levels(task, first).plan()


class _Levels:
    """The search for the lowest level at which there is a plan."""

    def __init__(self, task: CuttingTask, first: tuple[CutCoil, ...]) -> None:
        self._task = task
        self._need = max(0, task.total - sum(task.at_hand))
        self._best = first
        bought, _ = level_of(first)
        self._sums = CoilSums(task.bought_lengths, bought)

    def plan(self) -> CuttingPlan:
        least = self._next(self._need)
        self._fill_quickly(least)
        bought, coils = level_of(self._best)
        if (bought, coils) == (least, self._fewest(least)) or len(self._task.cuts) > _MOST_CUTS:
            return CuttingPlan(self._best, least, self._fewest(bought))
        pool, prices = priced_patterns(self._task)
        least = self._next(max(self._need, math.ceil(prices.bound - _ROUNDING)))
        every = every_pattern(self._task, prices, level_of(self._best)[0], _FEW_PATTERNS)
        if every is not None and (exact := _exactly(every)) is not None:
            return CuttingPlan(exact, *level_of(exact))
        open_level = self._search(least, pool, prices)
        level = level_of(self._best)
        if open_level is None or open_level[0] == level[0]:
            return CuttingPlan(self._best, *(open_level or level))
        return CuttingPlan(self._best, open_level[0], self._fewest(level[0]))

    def _search(self, least: int, pool: PatternPool, prices: CutPrices) -> tuple[int, int] | None:
        """Look for the best plan from ``least`` bought upwards; returns the lowest level that may yet have one."""
        numbers = CoilNumbers(self._task)
        numbers.add_worth(np.array(prices.worth))
        programme = ProgrammeOfPatterns(self._task, pool, math.ceil(_ROUNDS * self._task.effort))
        level, open_level, steps, further = (least, 0), None, _MOST_STEPS, 1
        while (counts := _least_numbers(numbers, level)) is not None:
            level = sum(k.bought * n for k, n in zip(self._task.kinds, counts, strict=True)), sum(counts)
            repacking = CoilRepacking(self._task, counts, _STEPS)
            if level >= level_of(self._best) or self._improved(repacking.plan()):
                return open_level
            steps -= _LEAST_STEPS + _STEPS - repacking.left
            if steps <= 0 or programme.rounds <= 0:
                open_level, level, further = open_level or level, (level[0] + further, 0), 2 * further
                continue
            shares = programme.shares(counts)
            if shares.missed is not None:
                numbers.add(shares.missed)
                continue
            open_level, repacking = open_level or level, CoilRepacking(self._task, counts, _MORE_STEPS)
            if self._improved(repacking.plan_by(shares.worth, pool.patterns, shares.uses)):
                return open_level if open_level < level else None
            steps -= _MORE_STEPS - repacking.left
            level = level[0], level[1] + 1
        return open_level or level

    def _improved(self, plan: tuple[CutCoil, ...] | None) -> bool:
        if plan is not None:
            self._best = plan
        return plan is not None

    def _next(self, least: int) -> int:
        """The next sum of coils; that of the plan at hand where there is none below it."""
        found = self._sums.next_sum(least)
        return level_of(self._best)[0] if found is None else found

    def _fewest(self, bought: int) -> int:
        """Coils without which so little bought cannot hold all cuts: those bought, and the longest at hand."""
        count, held = self._sums.fewest(bought), bought
        for length in self._task.at_hand:
            if held >= self._task.total:
                break
            held, count = held + length, count + 1
        return count

    def _fill_quickly(self, least: int) -> None:
        filling, bought = CoilFilling(_FIRST_LOOKS), least
        for _ in range(_QUICK_LEVELS):
            if self._filled_at(bought, filling):
                return
            bought = self._next(bought + 1)

    def _filled_at(self, bought: int, filling: CoilFilling) -> bool:
        """Whether filling finds a plan that buys so much and is better than the best."""
        fewest = self._fewest(bought)
        return any(
            self._filled(bought, count, filling)
            for count in range(fewest, fewest + _MORE_COILS + 1)
            if (bought, count) < level_of(self._best)
        )

    def _filled(self, bought: int, count: int, filling: CoilFilling) -> bool:
        """Whether filling finds a plan at the level."""
        task = self._task
        for used in range(len(task.at_hand) + 1):
            for combination in self._sums.combinations(bought, count - used) if count >= used else ():
                coils = (*task.at_hand[:used], *combination)
                if sum(coils) < task.total:
                    continue
                taken = filling.packed(task.cuts, coils)
                if taken is not None:
                    self._best = tuple(
                        CutCoil(_kind(task, length, at_hand=place < used), own)
                        for place, (length, own) in enumerate(zip(coils, taken, strict=True))
                        if own
                    )
                    return True
        return False


def _least_numbers(numbers: CoilNumbers, level: tuple[int, int]) -> tuple[int, ...] | None:
    """Numbers of coils at the lowest level from ``level`` on; None where they are not found."""
    bought, coils = numbers.least_bought(level[0]), level[1]
    while bought is not None:
        counts = numbers.fewest(bought, coils if bought == level[0] else 0)
        if counts is not None or not numbers.sure:
            return counts
        bought = numbers.least_bought(bought + 1)
    return None


def _anyhow(task: CuttingTask) -> tuple[CutCoil, ...]:
    """A plan to begin with: coils at hand first, then those that are filled best."""
    left, coils = list(task.cuts), []
    for length in task.at_hand:
        coils.append(CutCoil(_kind(task, length, at_hand=True), filled_coil(left, length)))
        for cut in coils[-1].cuts:
            left.remove(cut)
    while left:
        longest = [kind for kind in task.kinds if kind.available is None and kind.length >= left[0]]
        filled = [CutCoil(kind, filled_coil(left, kind.length)) for kind in longest]
        coils.append(max(filled, key=lambda coil: (sum(coil.cuts) / coil.kind.length, coil.kind.length)))
        for cut in coils[-1].cuts:
            left.remove(cut)
    return tuple(coil for coil in coils if coil.cuts)


def _kind(task: CuttingTask, length: int, *, at_hand: bool) -> CoilKind:
    return next(
        kind for kind in task.kinds if kind.length == length and (kind.available is not None) == at_hand
    )


def _exactly(every: PatternPool) -> tuple[CutCoil, ...] | None:
    """The best plan over every pattern; None where it is not found to be the best in time."""
    least = _programme(every, every.bought / _METRE, ())
    if not least.optimal:
        return None
    bought = sum(coil.kind.bought for coil in least.coils)
    level = _bought_row(every, bought)
    fewest = _programme(every, np.ones(len(every.patterns)), (level,))
    if not fewest.optimal:
        return None
    chosen = _programme(every, _preferences(every), (level, _count_row(every, len(fewest.coils))))
    return chosen.coils if chosen.optimal else fewest.coils


def _preferences(every: PatternPool) -> Array:
    """What decides between plans of one level, the less the better: one long rest serves another floor, many short
    ones serve none, so rests count by their square. Between equal plans a number decides that depends on the
    pattern alone, so that every release of HiGHS finds the same plan."""
    sizes, kinds = np.array(every.task.sizes), every.task.kinds
    costs = []
    for pattern in every.patterns:
        length = kinds[pattern.kind].length
        rest = 1.0 - float(sizes @ np.array(pattern.counts)) / length
        told_apart = crc32(repr((length, pattern.counts)).encode()) % 1000 / 1000.0
        costs.append(round(_RESTS * (1.0 - rest**2)) + told_apart / len(every.task.cuts))
    return np.array(costs)


class _Solved(NamedTuple):
    """``coils`` of a solution, if there is one; ``optimal``: there is no better one; ``infeasible``: there is none."""

    coils: tuple[CutCoil, ...]
    optimal: bool
    infeasible: bool


def _bought_row(pool: PatternPool, bought: int) -> scipy.optimize.LinearConstraint:
    return scipy.optimize.LinearConstraint(pool.bought[None, :] / _METRE, bought / _METRE, bought / _METRE)


def _count_row(pool: PatternPool, count: int) -> scipy.optimize.LinearConstraint:
    return scipy.optimize.LinearConstraint(np.ones((1, len(pool.patterns))), count, count)


def _programme(pool: PatternPool, costs: Array, rows: Sequence[scipy.optimize.LinearConstraint]) -> _Solved:
    """HiGHS, without its presolve: that sometimes fails on programmes as small as these, and gains nothing."""
    cuts = scipy.optimize.LinearConstraint(pool.matrix, lb=pool.task.demands)
    at_hand = (
        scipy.optimize.LinearConstraint(pool.of_kind(place)[None, :], ub=kind.available)
        for place, kind in enumerate(pool.task.kinds)
        if kind.available is not None
    )
    nodes = 1 + int(_NODES * pool.task.effort) // len(pool.patterns)
    options = {"node_limit": nodes, "presolve": False, "mip_rel_gap": 0.0}
    solved = scipy.optimize.milp(costs, constraints=(cuts, *at_hand, *rows), integrality=1, options=options)
    coils = () if solved.x is None else _coils(pool, [round(times) for times in solved.x.tolist()])
    return _Solved(coils, solved.status == _OPTIMAL, solved.status == _INFEASIBLE)


def _coils(pool: PatternPool, times: Sequence[int]) -> tuple[CutCoil, ...]:
    """The coils of a solution; a cut that is made once too often is dropped."""
    task = pool.task
    left = dict(zip(task.sizes, task.demands, strict=True))
    coils = []
    for pattern, count in zip(pool.patterns, times, strict=True):
        for _ in range(count):
            cuts = []
            for size, wanted in zip(task.sizes, pattern.counts, strict=True):
                taken = min(wanted, left[size])
                left[size] -= taken
                cuts += [size] * taken
            coils.append(CutCoil(task.kinds[pattern.kind], tuple(cuts)))
    return tuple(coil for coil in coils if coil.cuts)
