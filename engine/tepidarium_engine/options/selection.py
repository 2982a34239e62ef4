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
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from operator import add
from typing import NamedTuple

from ..elementwise import Array
from .programme import Columns
from .selection_task import Candidate, Coils, SelectionTask

__all__ = ["Candidate", "Coils", "Selection", "SelectionTask", "best_selection"]

_ROUNDING, _RELATIVE_ROUNDING = 1e-6, 1e-9
"""By how much a bound on a whole number may be off, and the same as a share of it."""
_OPTIMAL, _INFEASIBLE = 0, 2
"""How scipy says that a solution is the best, or that there is none."""


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


def _worth_weighing(room: Sequence[Candidate], task: SelectionTask) -> list[int]:
    """The candidates of a room without those in whose place another one fits as well and is weighed no worse; of equal
    ones the first stays. Cuts of coils are not compared."""
    if task.coils is not None:
        return list(range(len(room)))
    kept: list[int] = []
    for number in sorted(range(len(room)), key=lambda number: (room[number].measures, number)):
        one = room[number]
        if not any(
            other.manifold == one.manifold
            and other.ports <= one.ports
            and (task.flow is None or other.flow <= one.flow)
            for other in map(room.__getitem__, kept)
        ):
            kept.append(number)
    return sorted(kept)


@dataclass
class _Search:
    """The search measure by measure. ``left``: the candidates of each room that are still as good as any."""

    task: SelectionTask
    taken: tuple[int, ...] | None = None
    bounds: list[int] = field(default_factory=list)
    programmes: int = 0
    impossible: bool = False

    def __post_init__(self) -> None:
        self.left = [_worth_weighing(room, self.task) for room in self.task.rooms]
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
        columns = Columns(self.task, self.left)
        earlier = range(self._start, place)
        if not self._solve(columns, columns.measure(place), earlier, place):
            return False
        if place == len(self.task.rooms[0][0].measures) - 1:
            self._solve(columns, columns.ties(), [*earlier, place], None)
        return True

    def _solve(self, columns: Columns, costs: Array, kept: Iterable[int], place: int | None) -> bool:
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
