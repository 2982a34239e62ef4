"""How many coils of each kind a plan can have: whole numbers, with conditions that every plan meets.

For any worth of cuts, the coils of a plan can hold at least the worth of all cuts, where each coil counts with the most
that it can hold. Lengths are such a worth. Others come from the linear programme over patterns: where its solution for
given numbers of coils leaves cuts over, its prices are a condition that those numbers miss, and so do many others. The
least numbers that meet all conditions are a bound, and a plan with them is the best (Benders 1962, over the patterns of
Gilmore and Gomory 1961).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import scipy

from ..elementwise import Array
from .cutting_patterns import PatternPool, knapsacks
from .cutting_task import CuttingTask

__all__ = ["CoilNumbers", "PatternShares", "ProgrammeOfPatterns"]

_ROUNDING = 1e-6
"""Share by which a condition may be missed."""
_NODES = 2_000
_OPTIMAL, _INFEASIBLE = 0, 2
"""How scipy says that a solution is the best, or that there is none."""
_MOST_ROUNDS = 30
_NEARLY = 1.0 - 1e-3
"""Patterns worth so much of the best known are taken in."""


class CoilNumbers:
    """The numbers of coils, in the order of the task's kinds, that meet every condition known; not ``sure`` once it was
    not found out in time whether there are any."""

    def __init__(self, task: CuttingTask) -> None:
        self._task = task
        self._unit = math.gcd(*task.bought_lengths)
        self._bought = np.array([kind.bought / self._unit for kind in task.kinds])
        self._conditions: list[Array] = []
        self.sure = True
        self.add_worth(np.array(task.sizes, dtype=np.float64))

    def add(self, shares: Array) -> None:
        """The condition that shares of all cuts, as held by a coil of each kind, add up to one."""
        self._conditions.append(shares)

    def add_worth(self, worth: Array) -> None:
        """The condition of any worth of the cuts."""
        most = knapsacks(self._task)[1].most(worth)
        self.add(np.array(most) / float(worth @ np.array(self._task.demands)))

    def least_bought(self, least: int) -> int | None:
        """The least length bought that is not below ``least`` [mm]; None where it is not found."""
        low = -(-least // self._unit)
        found = self._found(self._bought, scipy.optimize.LinearConstraint(self._bought[None, :], lb=low))
        return None if found is None else round(float(self._bought @ np.array(found))) * self._unit

    def fewest(self, bought: int, least: int) -> tuple[int, ...] | None:
        """The fewest coils that buy so much [mm], not fewer than ``least``; None where there are none."""
        units, ones = bought // self._unit, np.ones(len(self._bought))
        return self._found(
            ones,
            scipy.optimize.LinearConstraint(self._bought[None, :], lb=units, ub=units),
            scipy.optimize.LinearConstraint(ones[None, :], lb=least),
        )

    def _found(self, costs: Array, *rows: scipy.optimize.LinearConstraint) -> tuple[int, ...] | None:
        kinds = self._task.kinds
        most = [math.inf if kind.available is None else kind.available for kind in kinds]
        met = scipy.optimize.LinearConstraint(np.array(self._conditions), lb=1.0 - _ROUNDING)
        solved = scipy.optimize.milp(
            costs,
            constraints=(met, *rows),
            integrality=1,
            bounds=scipy.optimize.Bounds(0, most),
            options={"node_limit": _NODES, "presolve": False, "mip_rel_gap": 0.0},
        )
        self.sure = self.sure and solved.status in (_OPTIMAL, _INFEASIBLE)
        return tuple(round(number) for number in solved.x.tolist()) if solved.status == _OPTIMAL else None


class PatternShares(NamedTuple):
    """``missed``: a condition that the numbers do not meet; None where they may hold a plan. Then ``worth`` of the
    sizes and ``uses`` of each pattern of the pool are those of the programme."""

    missed: Array | None
    worth: Array
    uses: Array


class ProgrammeOfPatterns:
    """The greatest share of all cuts that given numbers of coils hold when patterns need not be whole."""

    def __init__(self, task: CuttingTask, pool: PatternPool, rounds: int) -> None:
        self._task, self._pool = task, pool
        self._grids = knapsacks(task)
        self._demands = np.array(task.demands, dtype=np.float64)
        self.rounds = rounds

    def shares(self, numbers: Sequence[int]) -> PatternShares:
        used = [number for number, count in enumerate(numbers) if count]
        grids, counts = list(self._grids), np.array(numbers, dtype=np.float64)
        while True:
            share, worth, uses = self._solved(counts)
            self.rounds -= 1
            if share >= 1.0 - _ROUNDING or self.rounds <= 0:
                return PatternShares(None, worth, uses)
            most = np.array(grids[0].most(worth)) / float(worth @ self._demands)
            if float(most @ counts) < 1.0 - 2.0 * _ROUNDING:
                return PatternShares(most, worth, uses)
            least = self._pool.known_worth(worth) * _NEARLY
            if not self._pool.add_worth(grids[0].with_each_cut(worth, used), worth, least.tolist()):
                if len(grids) == 1:
                    return PatternShares(None, worth, uses)
                grids.pop(0)

    def _solved(self, counts: Array) -> tuple[float, Array, Array]:
        pool, kinds = self._pool, range(len(counts))
        held = np.hstack([-pool.matrix.toarray(), self._demands[:, None]])
        opened = np.array([[*pool.of_kind(number).tolist(), 0.0] for number in kinds])
        costs = np.zeros(len(pool.patterns) + 1)
        costs[-1] = -1.0
        limits = np.concatenate([np.zeros(len(self._demands)), counts])
        solved = scipy.optimize.linprog(costs, A_ub=np.vstack([held, opened]), b_ub=limits, method="highs-ds")
        worth = np.maximum(-solved.ineqlin.marginals[: len(self._demands)], 0.0)
        return -solved.fun, worth, solved.x[:-1]
