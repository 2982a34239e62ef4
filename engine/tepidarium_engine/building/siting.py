"""Manifolds without a position get the places with the least pipe in all tails of their storey."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace
from itertools import count
from types import MappingProxyType
from typing import NamedTuple, NoReturn

from ..errors import FaultList, InputError
from ..own_place import on_grid
from ..places import Point
from ..spreading import Spread
from ..storey.manifold.manifold_place import MOST_MANIFOLDS
from ..storey.manifold.place_search import FoundPlace, PlaceSearch, RoomDemand, Stand
from ..storey.manifold.position_plan import require_wall
from ..storey.model.tail_records import ManifoldPlace
from .circuits import DividedRoom
from .drawn_house import Draughtsman
from .floors import RoomToHeat
from .house import House, StoreySite, house_of
from .records import DesignsInputs, Manifold
from .serving import NO_WAY
from .solving import division_to_draw, first_division

__all__ = ["SitedHouse", "rooms_of_others", "sited_house"]

_HALL, _OTHER, _BATHROOM = 1.0, 1.5, 2.5
"""What a metre of tail counts from a manifold in a hall, in another room and in a bathroom: a cabinet stands where
nobody sits or showers, unless it spares much pipe (common practice, no source)."""
_DOORS_OF_HALL = 3
"""A room with so many doorways is a hall."""
_ROUNDS = 3
"""Of finding places for the circuits, and the circuits that go with their tails."""
_PLACES, _DRAWN = 6, 3
"""Sets of places for which ways are looked for, and of those from which all have one that are drawn."""


@dataclass(frozen=True, slots=True)
class _SitedInputs(DesignsInputs):
    """A request with positions that were found, and with manifolds ``added`` to it; ``likes`` are the numbers of
    those that they are copies of."""

    added: tuple[Manifold, ...] = ()
    likes: tuple[int, ...] = ()

    @property
    def given(self) -> tuple[Manifold, ...]:
        return self.manifolds or (self.manifold,)

    @property
    def all_manifolds(self) -> tuple[Manifold, ...]:
        return (*self.given, *self.added)

    def manifold_pointer(self, number: int) -> str:
        """An added manifold stands in the request where the one does that it is a copy of."""
        known = len(self.given)
        number = number if number < known else self.likes[number - known]
        return f"/manifolds/{number}" if self.manifolds else "/manifold"


class SitedHouse(NamedTuple):
    """A house in which every manifold that is drawn has a place. ``found`` are the numbers of those whose place was
    found; the last ones, from ``given`` on, were added. ``draughtsman`` knows what was drawn to find them."""

    house: House
    found: frozenset[int]
    given: int
    draughtsman: Draughtsman


def sited_house(
    inputs: DesignsInputs,
    rooms: tuple[RoomToHeat, ...],
    spread: Spread = map,
    kept: Mapping[str, Point] = MappingProxyType({}),
) -> SitedHouse:
    """The house as it was asked for, with the places that were not given. What follows is the same as if they had
    been given. ``kept``: places [m] that were found before, by id of the manifold; they stay where they still are
    places.

    Circuits go by tails, and places by circuits: a few rounds bring both together. Raises ``InputError`` as
    ``house_of``, and where no allowed wall takes a manifold or a tail is longer than permitted from all of them.
    """
    asked = house_of(inputs, rooms)
    known = len(inputs.all_manifolds)
    if not any(site.unplaced for site in asked.sites):
        return SitedHouse(asked, frozenset(), known, Draughtsman(asked, spread))
    found = {number for site in asked.sites for number in site.unplaced}
    now = _at_kept_places(asked, found, kept)
    if now is not None:
        return _sited(asked, found, Draughtsman(now, spread))
    sitings = [_Siting.of(asked, site) for site in asked.sites if site.unplaced]
    now, divided = asked, first_division(asked).divided
    for _ in range(_ROUNDS):
        now, before = house_of(_with_places(asked, sitings, divided), rooms), _counts(divided)
        divided = first_division(now).divided
        if _counts(divided) == before:
            break
    return _sited(asked, found, _drawable(asked, sitings, now, divided, spread))


def _sited(asked: House, found: set[int], draughtsman: Draughtsman) -> SitedHouse:
    known, house = len(asked.manifolds), draughtsman.house
    return SitedHouse(house, frozenset({*found, *range(known, len(house.manifolds))}), known, draughtsman)


def _at_kept_places(asked: House, found: set[int], kept: Mapping[str, Point]) -> House | None:
    """The house with the places that were found before, where it has them all and each is still a place."""
    names = [manifold.id for manifold in asked.manifolds]
    if not all(names[number] in kept for number in found):
        return None
    places = {number: kept[names[number]] for number in sorted(found)}
    added = [
        (number, place)
        for name, place in kept.items()
        for number in sorted(found)
        if name not in names and re.fullmatch(re.escape(names[number]) + r"-\d+", name)
    ]
    try:
        return house_of(_with(asked, places, added), asked.rooms)
    except InputError:
        return None


def _drawable(
    asked: House,
    sitings: Sequence[_Siting],
    now: House,
    divided: Sequence[DividedRoom],
    spread: Spread,
) -> Draughtsman:
    """With the places from which all can be drawn, or most of those tried: a tail may find no way, or a field be hard
    to begin, where tails are shortest. What is drawn here is not drawn again."""
    draughtsman = Draughtsman(now, spread)
    tried: list[tuple[int, int, Draughtsman]] = []
    drawn = 0
    for number in range(_PLACES):
        draughtsman = draughtsman.again(now)
        left = [draughtsman.without_way(siting.site.number, divided) for siting in sitings]
        if not any(left):
            drawn_first = division_to_draw(now, draughtsman)
            left = [draughtsman.left_out(siting.site.number, drawn_first) for siting in sitings]
            drawn += 1
        tried.append((sum(left), number, draughtsman))
        if not any(left) or drawn == _DRAWN:
            break
        sitings = [
            siting.elsewhere(now) if more else siting for siting, more in zip(sitings, left, strict=True)
        ]
        try:
            now = house_of(_with_places(asked, sitings, divided), asked.rooms)
        except InputError:  # no other place is left
            break
        divided = first_division(now).divided
    return min(tried, key=lambda each: each[:2])[2]


def rooms_of_others(rooms: Sequence[RoomToHeat], name: str | None) -> frozenset[int]:
    """Numbers of the rooms that name another manifold."""
    return frozenset(number for number, room in enumerate(rooms) if room.room.manifold not in (None, name))


def _reluctance(house: House, site: StoreySite) -> tuple[float, ...]:
    """By room of the plan; none where the request says itself where manifolds may stand."""
    if any(house.inputs.all_manifolds[number].allowed_places for number in site.unplaced):
        return ()
    doors = Counter(room for doorway in site.plan.doorways for room in doorway.rooms)
    return tuple(
        _BATHROOM if room.room.use == "bathroom" else _HALL if doors[index] >= _DOORS_OF_HALL else _OTHER
        for index, room in enumerate(site.rooms)
    )


def _counts(divided: Sequence[DividedRoom]) -> list[int]:
    return [len(room.loops.circuits) for room in divided]


def _with_places(asked: House, sitings: Sequence[_Siting], divided: Sequence[DividedRoom]) -> _SitedInputs:
    places: dict[int, Point] = {}
    added: list[tuple[int, Point]] = []
    for siting in sitings:
        own, more = siting.places(divided)
        places |= {number: one.place for number, one in own.items()}
        added += [(number, one.place) for number, one in more]
    return _with(asked, places, added)


def _with(asked: House, places: Mapping[int, Point], added: Sequence[tuple[int, Point]]) -> _SitedInputs:
    """The request with the places of manifolds by their number, and with more manifolds like those of a number."""
    manifolds = tuple(
        replace(manifold, position=on_grid(places[number])) if number in places else manifold
        for number, manifold in enumerate(asked.manifolds)
    )
    names = [manifold.id for manifold in manifolds]
    extra = []
    for like, place in added:
        free = (f"{names[like]}-{number}" for number in count(2))
        names.append(next(name for name in free if name not in names))
        extra.append(replace(manifolds[like], id=names[-1], position=on_grid(place)))
    several = bool(asked.inputs.manifolds)
    values = {item.name: getattr(asked.inputs, item.name) for item in fields(asked.inputs)} | {
        "manifolds": manifolds if several else (),
        "manifold": asked.inputs.manifold if several else manifolds[0],
    }
    return _SitedInputs(**values, added=tuple(extra), likes=tuple(like for like, _ in added))


@dataclass(frozen=True)
class _Siting:
    """The question for one storey; ``rooms`` are all of it, those that are not drawn too. No place is near one that is
    ``closed``."""

    house: House
    site: StoreySite
    rooms: tuple[RoomToHeat, ...]
    search: PlaceSearch
    closed: tuple[ManifoldPlace, ...] = ()

    @classmethod
    def of(cls, house: House, site: StoreySite) -> _Siting:
        limits = house.inputs.limits
        rooms = tuple(room for room in house.rooms if house.storey_of[room.index] == site.number)
        search = PlaceSearch(
            site.distances, limits.maximum_circuits, no_way=NO_WAY, reluctance=_reluctance(house, site)
        )
        return cls(house, site, rooms, search)

    def elsewhere(self, now: House) -> _Siting:
        """The question once more, without the places that were found."""
        site = next(site for site in now.sites if site.number == self.site.number)
        places = zip(site.numbers, site.manifolds, strict=True)
        found = tuple(place for number, place in places if number not in self.site.numbers)
        return replace(self, closed=(*self.closed, *found))

    def places(
        self, divided: Sequence[DividedRoom]
    ) -> tuple[dict[int, ManifoldPlace], list[tuple[int, ManifoldPlace]]]:
        """By number of the manifolds that had no place; and those added, each with the number of its like."""
        on = self.house.manifolds_on[self.site.number]
        # one whose place is free first: it is tried at many places
        order = sorted(on, key=lambda number: (number != self.site.unplaced[0], number in self.site.unplaced))
        demands = self._demands(divided)
        search = replace(self.search, longest=self._longest(divided))
        least = -(-sum(demand.circuits for demand in demands) // search.ports)
        stands = [self._stand(number) for number in order]
        found: list[FoundPlace] | None = None
        for total in range(max(len(on), least), max(len(on), MOST_MANIFOLDS) + 1):
            found = search.question(stands + [self._stand(None)] * (total - len(on)), demands).answer(
                self.closed
            )
            if found is not None:
                break
        else:  # rooms that name a manifold may ask it for more circuits than it has ports: that is told
            crowded = replace(search, ports=sum(demand.circuits for demand in demands))
            found = crowded.question(stands, demands).answer(self.closed)
        if found is None:
            self._refuse(search, demands)
        own = {number: one.place for number, one in zip(order, found, strict=False)}
        more = [(self.site.unplaced[-1], one.place) for one in found[len(on) :] if one.served]
        return {number: own[number] for number in self.site.unplaced}, more

    def _stand(self, number: int | None) -> Stand:
        """A manifold of the storey, or one that is added: it serves rooms that name no other."""
        manifolds = self.house.manifolds
        name = None if number is None else manifolds[number].id
        barred = rooms_of_others(self.rooms, name)
        if number in self.site.numbers:
            return Stand(self.site.manifolds[self.site.numbers.index(number)], (), barred)
        like = self.site.unplaced[-1] if number is None else number
        return Stand(None, self.site.allowed[like], barred)

    def _demands(self, divided: Sequence[DividedRoom]) -> list[RoomDemand]:
        drawn = {room.index: place for place, room in enumerate(self.site.rooms)}
        return [
            RoomDemand(drawn.get(room.index), max(room.ports, len(divided[room.index].loops.circuits)))
            for room in self.rooms
        ]

    def _longest(self, divided: Sequence[DividedRoom]) -> float:
        """One way that is permitted [m]: of what a circuit may have, its tails leave some to the field."""
        height = max(self.house.manifolds[number].height for number in self.site.unplaced)
        permitted = min(divided[room.index].permitted_length for room in self.rooms) / 2.0 - height
        wanted = self.house.inputs.limits.maximum_tail_length
        return permitted if wanted is None else min(permitted, wanted)

    def _refuse(self, search: PlaceSearch, demands: Sequence[RoomDemand]) -> NoReturn:
        """Says what stands in the way of a place for every manifold."""
        faults = FaultList()
        inputs = self.house.inputs
        width = self.site.rules.width_for(min(search.ports, sum(demand.circuits for demand in demands)))
        wide = True
        for number in self.site.unplaced:
            allowed = inputs.all_manifolds[number].allowed_places
            pointer = f"{inputs.manifold_pointer(number)}/{'allowed_places' if allowed else 'position'}"
            wide &= require_wall(self.site.plan, self.site.allowed[number], width, pointer, faults)
        circuits = sum(demand.circuits for demand in demands)
        if wide and circuits > MOST_MANIFOLDS * search.ports:
            faults.add(
                "/limits/maximum_circuits",
                "no_place",
                f"the storey has {circuits} circuits, more than {MOST_MANIFOLDS} manifolds with {search.ports} ports "
                "take; allow more ports, or give manifolds and their positions",
                search.ports,
            )
        elif wide:
            pointer = inputs.manifold_pointer(self.site.unplaced[-1])
            faults.add(
                "/limits/maximum_tail_length" if inputs.limits.maximum_tail_length else f"{pointer}/position",
                "no_place",
                f"from no set of up to {MOST_MANIFOLDS} manifolds at the allowed places are all tails of the storey "
                f"within {search.longest:.1f} m one way; allow other places, or give the position",
                search.longest,
            )
        raise InputError(*faults.faults)
