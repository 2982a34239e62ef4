"""A storey falls apart into what doorways and manifolds join: no pipe goes from one part to another."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from ..storey.model.records import Doorway
from ..storey.model.tail_records import StoreyPlan
from .house import StoreySite

__all__ = ["site_parts"]


def site_parts(site: StoreySite, served: Sequence[int]) -> tuple[StoreySite, ...]:
    """The parts of a storey as storeys of their own, in order of their first rooms; ``served``: number of the manifold
    of each room. A manifold is joined with the room in which it stands and with those that it serves."""
    places = dict(zip(site.numbers, site.manifolds, strict=True))
    joined = [doorway.rooms for doorway in site.plan.doorways]
    joined += [(index, places[number].room) for index, number in enumerate(served)]
    firsts = _firsts(len(site.rooms), joined)
    return tuple(_part(site, firsts, first) for first in sorted(set(firsts)))


def _firsts(count: int, joined: Iterable[tuple[int, int]]) -> list[int]:
    """For each of so many rooms the first of those that it is joined with."""
    firsts = list(range(count))
    for one, other in joined:
        first, later = sorted((firsts[one], firsts[other]))
        if first != later:
            firsts = [first if each == later else each for each in firsts]
    return firsts


def _part(site: StoreySite, firsts: Sequence[int], first: int) -> StoreySite:
    own = {index: place for place, index in enumerate(i for i, each in enumerate(firsts) if each == first)}
    if len(own) == len(firsts):
        return site
    doorways = [
        (number, Doorway((own[doorway.rooms[0]], own[doorway.rooms[1]]), doorway.stretches))
        for number, doorway in zip(site.doorways, site.plan.doorways, strict=True)
        if doorway.rooms[0] in own
    ]
    manifolds = [
        (number, replace(place, room=own[place.room]))
        for number, place in zip(site.numbers, site.manifolds, strict=True)
        if place.room in own
    ]
    numbers = tuple(number for number, _ in manifolds)
    return replace(
        site,
        rooms=tuple(site.rooms[index] for index in own),
        plan=StoreyPlan(
            tuple(site.plan.rooms[index] for index in own), tuple(doorway for _, doorway in doorways)
        ),
        doorways=tuple(number for number, _ in doorways),
        manifolds=tuple(place for _, place in manifolds),
        numbers=numbers,
        allowed={number: walls for number, walls in site.allowed.items() if number in numbers},
    )
