"""How wide places must be for all pairs of a storey, counted as rooms ask for them once their tails have a way.

A room without tails has as many circuits as its floor asks for. With its tails they are longer and may have to be more:
a place that is widened for the first number would be too narrow again.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from .circuit_numbers import CircuitNumbers
from .lanes.relief import doorway_uses, relieved
from .lanes.tail_order import manifold_middle, row_of
from .lanes.tail_refusals import ANOTHER_MANIFOLD, OTHER_MANIFOLD, PLACES, widen
from .lanes.walkways import Access, Walkways, access_to_rooms
from .model.layout_records import StoreyTask
from .model.tail_records import RoutedTails, TailDemand, TailRules, UnroutedTail

__all__ = ["with_all_pairs"]

_ROUNDING = 1e-6
"""Less width is not missing [m]."""


def with_all_pairs(numbers: CircuitNumbers, found: Sequence[RoutedTails]) -> tuple[RoutedTails, ...]:
    """The tails of all manifolds; where some have no way for want of width, its remedy is for all pairs."""
    return tuple(
        replace(tails, unrouted=tuple(_AllPairs(numbers, number, tails).told()))
        if any(tail.width_needed > tail.width_there > 0.0 for tail in tails.unrouted)
        else tails
        for number, tails in enumerate(found)
    )


@dataclass(frozen=True)
class _AllPairs:
    numbers: CircuitNumbers
    manifold: int
    tails: RoutedTails

    def told(self) -> Iterator[UnroutedTail]:
        for tail in self.tails.unrouted:
            narrow = tail.width_needed > tail.width_there > 0.0
            yield self._counted(tail) if narrow else tail

    def _counted(self, tail: UnroutedTail) -> UnroutedTail:
        """With the pairs that rooms will ask for, and with all that is too narrow for them on the way."""
        room, rules = self.numbers.rooms[tail.circuit], self._rules
        if room not in self._reached:
            return tail
        more = {"manifold": self._more.total(), "doorway": self._uses_more.get(tail.index, 0)}
        extra = more.get(tail.named, self._more[room])
        needed = tail.width_needed + extra * rules.pair_width
        lacking = {PLACES[tail.named]: needed - tail.width_there}
        otherwise = OTHER_MANIFOLD if OTHER_MANIFOLD in tail.remedy else ANOTHER_MANIFOLD
        if otherwise is ANOTHER_MANIFOLD:
            lacking |= dict(self._elsewhere(tail, room))
        return replace(tail, pairs=tail.pairs + extra, width_needed=needed, remedy=widen(lacking, otherwise))

    def _elsewhere(self, tail: UnroutedTail, room: int) -> Iterator[tuple[str, float]]:
        """Other places on the way that do not take all pairs, and what width they lack [m]."""
        rules, demands = self._rules, self._demands
        uses = doorway_uses(self._reached, demands)
        for passage in row_of(self._reached, room):
            lacks = rules.width_for(uses[passage.doorway]) - passage.width
            if lacks > _ROUNDING and (tail.named, tail.index) != ("doorway", passage.doorway):
                x, y = passage.near
                yield f"the doorway near [{x:.2f}, {y:.2f}]", lacks
        manifold = self._task.manifolds[self.manifold]
        lacks = (
            rules.width_for(len(demands)) - manifold_middle(self._task.plan, manifold, len(demands), rules)[1]
        )
        if lacks > _ROUNDING and tail.named != "manifold":
            yield PLACES["manifold"], lacks

    @property
    def _task(self) -> StoreyTask:
        return self.numbers.task

    @cached_property
    def _rules(self) -> TailRules:
        task = self._task
        return TailRules(task.tail_pitch, task.wall_clearance, task.bend_radius)

    @cached_property
    def _own(self) -> list[TailDemand]:
        """All pairs of the manifold as they were counted."""
        return [
            TailDemand(circuit, room)
            for circuit, room in self.numbers.rooms.items()
            if self._task.rooms[room].manifold == self.manifold
        ]

    @cached_property
    def _reached(self) -> Mapping[int, Access]:
        walkways = Walkways(self._task.plan, self._rules)
        manifold = self._task.manifolds[self.manifold]
        return relieved(walkways, manifold, access_to_rooms(walkways, manifold), self._own)

    @cached_property
    def _more(self) -> Counter[int]:
        """Pairs by room that will be more, of rooms to which some have no way."""
        rooms = sorted({self.numbers.rooms[tail.circuit] for tail in self.tails.unrouted})
        return Counter(
            {
                room: self.numbers.once_reached(room, self._reached[room].length) - self.numbers.counts[room]
                for room in rooms
                if room in self._reached
            }
        )

    @cached_property
    def _demands(self) -> list[TailDemand]:
        """All pairs that have a row of doorways, as they will be asked for."""
        more = [TailDemand("", room) for room in self._more.elements()]
        return [demand for demand in (*self._own, *more) if demand.room in self._reached]

    @cached_property
    def _uses_more(self) -> dict[int, int]:
        return doorway_uses(self._reached, [TailDemand("", room) for room in self._more.elements()])
