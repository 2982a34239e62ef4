"""The candidates of a house as a mixed-integer programme, one for each measure, solved by HiGHS."""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

import numpy as np
import scipy

from ..elementwise import Array
from .selection_task import SelectionTask

__all__ = ["Columns", "Solved"]

_TIE_BITS = 20


class Solved(NamedTuple):
    taken: tuple[int, ...] | None
    bound: float
    status: int


class Columns:
    """The candidates that are left, one column each, then the kinds of coils, of which any number is bought."""

    def __init__(self, task: SelectionTask, left: Sequence[Sequence[int]]) -> None:
        self._task = task
        self._places = [(room, number) for room, numbers in enumerate(left) for number in numbers]
        self._candidates = [task.rooms[room][number] for room, number in self._places]
        self._stock = None if task.coils is None else task.coils.stock
        self._kinds = () if self._stock is None else self._stock.kinds

    def _row(self, taken: Iterable[float], coils: Iterable[float] | None = None) -> Array:
        beside = [0.0] * len(self._kinds) if coils is None else coils
        return np.array([*taken, *beside], dtype=np.float64)

    @property
    def couplings(self) -> list[tuple[Array, int]]:
        """Ports, flow and coils: how much each column takes, and the most of it."""
        task, rows = self._task, []
        for manifold, most in enumerate(task.ports or ()):
            taken = [each.ports if each.manifold == manifold else 0 for each in self._candidates]
            rows.append((self._row(taken), most))
        if task.flow is not None:
            rows.append((self._row(each.flow for each in self._candidates), task.flow))
        return [*rows, *self._coil_rows()]

    def _coil_rows(self) -> Iterator[tuple[Array, int]]:
        """All cuts fit into the coils, by length and by steps of parts of a coil."""
        if self._stock is None:
            return
        cuts = [each.cut for each in self._candidates]
        yield (
            self._row((cut.length * cut.circuits for cut in cuts), [-kind.length for kind in self._kinds]),
            0,
        )
        for threshold in self._stock.thresholds:
            steps = [cut.circuits * self._stock.steps(cut.length, threshold) for cut in cuts]
            if any(steps):
                yield (
                    self._row(
                        steps, [-self._stock.steps(kind.length, threshold) for kind in self._stock.kinds]
                    ),
                    0,
                )

    def measure(self, place: int) -> Array:
        coils = self._task.coils
        prices = [kind.price for kind in self._kinds] if coils is not None and coils.place == place else None
        return self._row((each.measures[place] for each in self._candidates), prices)

    def ties(self) -> Array:
        """Numbers by which one of several equal selections is taken."""
        numbers = random.Random(0)
        return self._row(numbers.getrandbits(_TIE_BITS) for _ in self._candidates)

    def solved(self, costs: Array, rows: Sequence[tuple[Array, int]]) -> Solved:
        """The columns with the least costs, one for each room, within the rows."""
        rooms = np.array([room for room, _ in self._places])
        count = len(rooms)
        shape = len(self._task.rooms), count + len(self._kinds)
        one_each = scipy.sparse.csr_array((np.ones(count), (rooms, np.arange(count))), shape=shape)
        limits = [scipy.optimize.LinearConstraint(one_each, 1.0, 1.0)]
        if rows:
            limits.append(
                scipy.optimize.LinearConstraint(
                    np.array([row for row, _ in rows]), ub=[most for _, most in rows]
                )
            )
        options = {"node_limit": self._task.nodes, "mip_rel_gap": 0.0, "presolve": True}
        most = np.array([1.0] * count + [math.inf] * len(self._kinds))
        found = scipy.optimize.milp(
            costs, constraints=limits, integrality=1, bounds=scipy.optimize.Bounds(0.0, most), options=options
        )
        bound = found.mip_dual_bound
        if bound is None or not math.isfinite(bound):
            bound = sum(costs[:count][rooms == room].min() for room in range(len(self._task.rooms)))
        return Solved(self._taken(found.x, rows), float(bound), int(found.status))

    def _taken(self, shares: Array | None, rows: Sequence[tuple[Array, int]]) -> tuple[int, ...] | None:
        """The solution in whole numbers, where it keeps every row exactly."""
        if shares is None:
            return None
        whole = np.round(shares)
        chosen = whole[: len(self._places)] == 1.0
        taken = {room: number for (room, number), one in zip(self._places, chosen, strict=True) if one}
        exact = len(taken) == len(self._task.rooms) == int(chosen.sum())
        if not exact or any(row @ whole > most for row, most in rows):
            return None
        return tuple(taken[room] for room in sorted(taken))
