"""One choice for each room of a house, the best with a proven bound.

Measures are weighed one after the other: a later one decides among selections that are equal in all before it. The
rooms are coupled by the ports of their manifolds and by the flow of the pump. As long as every room may take what is
best for itself, that is the best selection. Where ports do not allow it and every room has its one manifold, the best
for each number of ports is built up room by room. Where rooms share manifolds, or the pump has too little flow, HiGHS
solves a mixed-integer programme for each measure. All measures are whole numbers, so that the best value is the same
whatever finds it; of several selections with that value a last measure of fixed random numbers takes one. The search is
bounded by a number of nodes and never by time.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from operator import add
from typing import NamedTuple

import numpy as np
import scipy

from ..elementwise import Array
from .coil_stock import CoilStock, Cuts

__all__ = ["Candidate", "Selection", "SelectionTask", "best_selection"]

_TIE_BITS = 20
_ROUNDING, _RELATIVE_ROUNDING = 1e-6, 1e-9
"""By how much a bound on a whole number may be off, and the same as a share of it."""
_OPTIMAL, _INFEASIBLE = 0, 2
"""How scipy says that a solution is the best, or that there is none."""


class Candidate(NamedTuple):
    """What a choice of a room comes to, in whole numbers: its ``measures`` in the order in which they are weighed, the
    ``ports`` that it takes on a ``manifold``, its ``flow``, and what is ``cut`` from coils for it."""

    measures: tuple[int, ...]
    manifold: int
    ports: int
    flow: int
    cut: Cuts = Cuts(0, 0)


class Coils(NamedTuple):
    """The ``stock`` that circuits are cut from; what is bought adds to the measure at ``place``."""

    stock: CoilStock
    place: int


@dataclass(frozen=True)
class SelectionTask:
    """``rooms``: the candidates of each room, those before others preferred where they are equal. ``ports``: what each
    manifold has, None where it does not matter; ``flow``: the most in all; ``nodes``: of one programme. ``coils``: none
    are bought by the house without them."""

    rooms: tuple[tuple[Candidate, ...], ...]
    ports: tuple[int, ...] | None
    flow: int | None
    nodes: int
    coils: Coils | None = None

    @property
    def parted(self) -> bool:
        """Whether every room has one manifold only, so that manifolds do not depend on each other."""
        return all(len({one.manifold for one in room}) == 1 for room in self.rooms)

    def fits(self, taken: Sequence[int]) -> bool:
        """Whether ports and flow allow the candidates of these numbers."""
        chosen = [room[number] for room, number in zip(self.rooms, taken, strict=True)]
        if self.flow is not None and sum(one.flow for one in chosen) > self.flow:
            return False
        if self.ports is None:
            return True
        used = [0] * len(self.ports)
        for one in chosen:
            used[one.manifold] += one.ports
        return all(own <= most for own, most in zip(used, self.ports, strict=True))

    def measure(self, taken: Sequence[int], place: int) -> int:
        """What the candidates of these numbers come to in the measure at ``place``."""
        chosen = [room[number] for room, number in zip(self.rooms, taken, strict=True)]
        bought = 0
        if self.coils is not None and self.coils.place == place:
            bought = self.coils.stock.bought(one.cut for one in chosen).cost
        return bought + sum(one.measures[place] for one in chosen)


class Selection(NamedTuple):
    """The number of the candidate of each room. ``bounds``: by measure what no selection can be below that is as
    good in those before; a measure after one that is not proven has no bound. ``programmes``: given to HiGHS."""

    taken: tuple[int, ...]
    bounds: tuple[int, ...]
    programmes: int

    def proven(self, task: SelectionTask) -> bool:
        """Whether no selection is better."""
        measures = len(task.rooms[0][0].measures)
        return len(self.bounds) == measures and all(
            task.measure(self.taken, place) <= bound for place, bound in enumerate(self.bounds)
        )


def best_selection(task: SelectionTask, known: Sequence[int] | None = None) -> Selection | None:
    """The best selection, never worse than one that is ``known``; None where there is none, or none was found."""
    if task.ports is not None and task.flow is None and task.parted and task.coils is None:
        return _by_ports(task, task.ports)
    search = _Search(task)
    for place in range(len(task.rooms[0][0].measures)):
        if not search.alone(place) and not search.together(place):
            break
    taken = search.taken
    if (
        known is not None
        and task.fits(known)
        and (taken is None or _values(task, known) < _values(task, taken))
    ):
        taken = tuple(known)
    if taken is None or search.impossible:
        return None
    return Selection(taken, tuple(search.bounds), search.programmes)


def _values(task: SelectionTask, taken: Sequence[int]) -> tuple[int, ...]:
    return tuple(task.measure(taken, place) for place in range(len(task.rooms[0][0].measures)))


def _by_ports(task: SelectionTask, ports: Sequence[int]) -> Selection | None:
    """The best selection where every room has one manifold: for each number of ports the best of the rooms so far.

    Of equal ones the first is taken, which prefers early candidates in early rooms.
    """
    taken: dict[int, int] = {}
    for manifold, most in enumerate(ports):
        rooms = [place for place, room in enumerate(task.rooms) if room[0].manifold == manifold]
        best = _within_ports([task.rooms[place] for place in rooms], most)
        if best is None:
            return None
        taken |= dict(zip(rooms, best, strict=True))
    chosen = tuple(taken[place] for place in range(len(task.rooms)))
    return Selection(chosen, _values(task, chosen), 0)


def _within_ports(rooms: Sequence[Sequence[Candidate]], most: int) -> tuple[int, ...] | None:
    """The best candidates of rooms on one manifold; None where it has too few ports."""
    measures = len(rooms[0][0].measures) if rooms else 0
    best: dict[int, tuple[tuple[int, ...], tuple[int, ...]]] = {0: ((0,) * measures, ())}
    for room in rooms:
        longer: dict[int, tuple[tuple[int, ...], tuple[int, ...]]] = {}
        for used, (sums, before) in best.items():
            for number, one in enumerate(room):
                ports = used + one.ports
                if ports > most:
                    continue
                grown = tuple(map(add, sums, one.measures)), (*before, number)
                if ports not in longer or grown < longer[ports]:
                    longer[ports] = grown
        best = longer
    return min(best.values())[1] if best else None


@dataclass
class _Search:
    """The search measure by measure. ``left``: the candidates of each room that are still as good as any."""

    task: SelectionTask
    taken: tuple[int, ...] | None = None
    bounds: list[int] = field(default_factory=list)
    programmes: int = 0
    impossible: bool = False

    def __post_init__(self) -> None:
        self.left = [list(range(len(room))) for room in self.task.rooms]
        self._coupled = False
        self._start = 0  # the first measure that the rooms do not decide each for itself

    def alone(self, place: int) -> bool:
        """Whether each room may take what is best for itself in this measure."""
        coils = self.task.coils
        if self._coupled or (
            coils is not None and coils.place == place and any(len(own) > 1 for own in self.left)
        ):
            return False
        best = [
            self._least(room, numbers, place)
            for room, numbers in zip(self.task.rooms, self.left, strict=True)
        ]
        lean = [
            min(numbers, key=lambda number: (room[number].ports, room[number].flow, number))
            for room, numbers in zip(self.task.rooms, best, strict=True)
        ]
        first = [numbers[0] for numbers in best]
        fitting = next((taken for taken in (first, lean) if self.task.fits(taken)), None)
        if fitting is None:
            return False
        self.left, self.taken, self._start = best, tuple(fitting), place + 1
        self.bounds.append(self.task.measure(fitting, place))
        return True

    @staticmethod
    def _least(room: Sequence[Candidate], numbers: Iterable[int], place: int) -> list[int]:
        numbers = list(numbers)
        least = min(room[number].measures[place] for number in numbers)
        return [number for number in numbers if room[number].measures[place] == least]

    def together(self, place: int) -> bool:
        """Whether the best value of this measure is found and proven, for all rooms together."""
        self._coupled = True
        columns = _Columns(self.task, self.left)
        earlier = range(self._start, place)
        if not self._solve(columns, columns.measure(place), earlier, place):
            return False
        if place == len(self.task.rooms[0][0].measures) - 1:
            self._solve(columns, columns.ties(), [*earlier, place], None)
        return True

    def _solve(self, columns: _Columns, costs: Array, kept: Iterable[int], place: int | None) -> bool:
        """One programme that keeps the bounds of the measures ``kept``."""
        self.programmes += 1
        rows = [*columns.couplings, *((columns.measure(each), self.bounds[each]) for each in kept)]
        solved = columns.solved(costs, rows)
        if solved.status == _INFEASIBLE:
            self.impossible = self.taken is None
            return False
        if solved.taken is not None and (
            self.taken is None or _values(self.task, solved.taken) <= _values(self.task, self.taken)
        ):
            self.taken = solved.taken
        if place is not None:
            self.bounds.append(
                math.ceil(solved.bound - max(_ROUNDING, _RELATIVE_ROUNDING * abs(solved.bound)))
            )
            return self.taken is not None and self.task.measure(self.taken, place) <= self.bounds[place]
        return True


class _Solved(NamedTuple):
    taken: tuple[int, ...] | None
    bound: float
    status: int


class _Columns:
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
        """All cuts fit into the coils, by length and by number of those longer than a part of a coil."""
        if self._stock is None:
            return
        cuts = [each.cut for each in self._candidates]
        yield (
            self._row((cut.length * cut.circuits for cut in cuts), [-kind.length for kind in self._kinds]),
            0,
        )
        for threshold in self._stock.thresholds:
            longer = [cut.circuits if cut.length > threshold else 0 for cut in cuts]
            if any(longer):
                yield self._row(longer, [-most for most in self._stock.holds(threshold)]), 0

    def measure(self, place: int) -> Array:
        coils = self._task.coils
        prices = [kind.price for kind in self._kinds] if coils is not None and coils.place == place else None
        return self._row((each.measures[place] for each in self._candidates), prices)

    def ties(self) -> Array:
        """Numbers by which one of several equal selections is taken."""
        numbers = random.Random(0)
        return self._row(numbers.getrandbits(_TIE_BITS) for _ in self._candidates)

    def solved(self, costs: Array, rows: Sequence[tuple[Array, int]]) -> _Solved:
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
        return _Solved(self._taken(found.x, rows), float(bound), int(found.status))

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
