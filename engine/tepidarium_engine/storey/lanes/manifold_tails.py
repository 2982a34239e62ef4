"""The tails of all manifolds of a storey: one after the other, each in the floor that the others leave."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import product
from typing import Protocol

from ...errors import required
from ..model.layout_records import StoreyTask
from ..model.tail_records import (
    Lane,
    ManifoldPlace,
    RoutedTails,
    StoreyPlan,
    TailDemand,
    TailRules,
    UnroutedTail,
)
from .shared_doorways import Sharing, front_of
from .tail_order import manifold_middle, row_of
from .tail_refusals import OTHER_MANIFOLD, PLACES, widen
from .tail_routes import LaneMemory, Manner, missing, routed_tails

__all__ = ["all_tails", "tails_of_manifolds"]

_SHARED = 3
"""Doorways for which it is tried at which end which manifold's tails pass."""
_ACROSS = (
    "Tails of another manifold lie across the way: serve this room from that one, or move one of the two."
)


def tails_of_manifolds(
    task: StoreyTask,
    demands: Sequence[Sequence[TailDemand]],
    memory: LaneMemory | None = None,
    *,
    all_or_none: bool = False,
) -> tuple[RoutedTails, ...]:
    """Tails by manifold, in order, for the demands of each; ``lanes`` of each are those of all.

    With ``all_or_none`` no tails are laid if a place is too narrow for one of them; the first of these are listed as
    unrouted.

    A manifold's tails keep off the lanes of those before it and off the floor before the ports of others. Doorways
    that several of them use are parted between them.
    """
    memory = LaneMemory() if memory is None else memory
    rules = TailRules(task.tail_pitch, task.wall_clearance, task.bend_radius)
    plan, asked = task.plan, tuple(map(tuple, demands))
    outlines = tuple(room.wkb for room in plan.rooms)
    key = (outlines, plan.doorways, plan.entries_of_others, task.manifolds, asked, rules)
    if (*key, all_or_none) not in memory.found:
        found = _found(task, demands, rules, memory, all_or_none=all_or_none)
        # Where all have a way both are the same.
        manners = (all_or_none,) if any(tails.unrouted for tails in found) else (False, True)
        memory.found |= {(*key, manner): found for manner in manners}
    return memory.found[*key, all_or_none]


def _found(
    task: StoreyTask,
    demands: Sequence[Sequence[TailDemand]],
    rules: TailRules,
    memory: LaneMemory,
    *,
    all_or_none: bool,
) -> tuple[RoutedTails, ...]:
    route = partial(
        routed_tails,
        tail_pitch=task.tail_pitch,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        memory=memory,
        all_or_none=all_or_none,
    )
    if len(task.manifolds) == 1:
        return (route(task.plan, task.manifold, demands[0], fewer_than=math.inf),)
    sharing = Sharing(task, demands, rules)
    best: tuple[RoutedTails, ...] | None = None
    fewer_than = math.inf
    for manner in _manners(sharing, memory.manner):
        found = _Laying(sharing, manner, route, all_or_none, fewer_than).tails()
        if _missing(found) < fewer_than:
            best, fewer_than, memory.manner = found, _missing(found), manner
        if not fewer_than:
            memory.manner = None
            break
    return tuple(
        replace(tails, unrouted=tuple(_told(sharing, number, tail) for tail in tails.unrouted))
        for number, tails in enumerate(required(best, "tails laid in some manner"))
    )


def _manners(sharing: Sharing, best: Manner | None) -> Iterator[Manner]:
    """The ``best`` one before, where none served all, and what is tried first; else all of them.

    The other order served 20 of 24 circuits that had no way in three of 100 storeys with a corridor. Floor before
    doorways is not kept for those that follow: of 160 storeys it was tried in five and served no circuit more.
    """
    tried = sharing.shared[:_SHARED]
    others = dict.fromkeys(sharing.shared[_SHARED:], True)
    forth = tuple(range(len(sharing.demands)))
    ends = product((True, False), repeat=len(tried))
    found = [
        Manner({**others, **dict(zip(tried, each, strict=True))}, order)
        for order, each in product((forth, forth[::-1]), [*ends])
    ]
    return iter([best, found[0]] if best in found[1:] else found)


def _missing(found: Iterable[RoutedTails]) -> int:
    return sum(missing(tails.unrouted) for tails in found)


class _Route(Protocol):
    def __call__(
        self,
        plan: StoreyPlan,
        manifold: ManifoldPlace,
        demands: Sequence[TailDemand],
        *,
        fewer_than: float,
    ) -> RoutedTails: ...


@dataclass(frozen=True)
class _Laying:
    """One way to lay the tails of all manifolds, until not ``fewer_than`` so many have no way."""

    sharing: Sharing
    manner: Manner
    route: _Route
    all_or_none: bool
    fewer_than: float

    def tails(self) -> tuple[RoutedTails, ...]:
        task, demands, rules = self.sharing.task, self.sharing.demands, self.sharing.rules
        ports = [_ports(task, number, own, rules) for number, own in enumerate(demands)]
        lanes: list[Lane] = []
        entries: list[Lane] = []
        found: dict[int, RoutedTails] = {}
        for place_in_order, number in enumerate(self.manner.order):
            later = self.manner.order[place_in_order + 1 :]
            taken = [*lanes, *entries]
            taken += [front for other, front in enumerate(ports) if front is not None and other != number]
            plan = self.sharing.plan_for(number, later, taken, self.manner.at_start)
            left = self.fewer_than - _missing(found.values())
            tails = self.route(plan, task.manifolds[number], demands[number], fewer_than=left)
            lanes += tails.lanes
            entries += [
                front_of(place.room, place.pair.place, place.pair.ahead, rules.pair_width, rules)
                for place in tails.places
                if place.room != task.manifolds[number].room
            ]
            found[number] = tails
            if self.all_or_none and any(tail.is_narrow for tail in tails.unrouted):
                break
            if _missing(found.values()) >= self.fewer_than:
                break
        none = RoutedTails((), (), (), (), ())
        return tuple(replace(found.get(number, none), lanes=tuple(lanes)) for number in range(len(demands)))


def all_tails(found: Sequence[RoutedTails]) -> RoutedTails:
    """The tails of all manifolds as one record, in order of manifold."""
    return RoutedTails(
        ports=tuple(port for tails in found for port in tails.ports),
        places=tuple(place for tails in found for place in tails.places),
        routes=tuple(route for tails in found for route in tails.routes),
        lanes=found[0].lanes,
        unrouted=tuple(tail for tails in found for tail in tails.unrouted),
    )


def _ports(task: StoreyTask, number: int, own: Sequence[TailDemand], rules: TailRules) -> Lane | None:
    """Floor before a manifold's ports that the circuits of its own room come into; ``None``: it has none."""
    manifold = task.manifolds[number]
    if all(demand.room != manifold.room for demand in own):
        return None
    middle, _ = manifold_middle(task.plan, manifold, len(own), rules)
    return front_of(manifold.room, middle, manifold.ahead, rules.width_for(len(own)), rules)


def _told(sharing: Sharing, number: int, tail: UnroutedTail) -> UnroutedTail:
    """The report on a circuit that has no way because of the tails of other manifolds: the first doorway on its way
    that is too narrow for all, else where they lie across."""
    if tail.named not in ("no_way", "doorway"):
        return tail
    room = next(demand.room for demand in sharing.demands[number] if demand.circuit == tail.circuit)
    reached, rules = sharing.reached[number], sharing.rules
    row = row_of(reached, room) if room in reached else []
    for passage in row:
        users = [uses[passage.doorway] for uses in sharing.uses if uses.get(passage.doorway)]
        needed = rules.width_for(sum(users)) + (len(users) - 1) * rules.wall_clearance
        if len(users) > 1 and needed > passage.width:
            return UnroutedTail(
                tail.circuit,
                "doorway",
                passage.doorway,
                passage.near,
                sum(users),
                needed,
                passage.width,
                widen({PLACES["doorway"]: needed - passage.width}, OTHER_MANIFOLD),
            )
    if tail.named == "doorway" or not row:
        return tail
    last = row[-1]
    return replace(tail, named="room", index=last.leaves, place=last.near, remedy=_ACROSS)
