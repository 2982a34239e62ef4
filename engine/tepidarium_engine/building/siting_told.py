"""What is told of the places of manifolds: where they were found, and what the best would save."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..checking import Point
from ..results import Finding
from ..storey.manifold.place_search import PlaceSearch, RoomDemand, Stand
from ..storey.manifold.position_findings import POSITION_SOURCE, WORTH_TELLING
from ..storey.model.tail_records import ManifoldPlace
from .circuits import DividedRoom
from .drawn_house import DrawnHouse
from .house import StoreySite
from .layout_outcome import StoreySiting
from .serving import NO_WAY
from .siting import SitedHouse, rooms_of_others

__all__ = ["siting_findings", "storey_sitings"]


def storey_sitings(sited: SitedHouse, drawn: DrawnHouse) -> tuple[StoreySiting, ...]:
    """Of the storeys on which a place was found, or was given beside those that are allowed."""
    found = (_siting(sited, site, drawn.divided) for site in sited.house.sites)
    return tuple(siting for siting in found if siting is not None)


@dataclass(frozen=True)
class _Question:
    """The circuits of a storey as they were drawn."""

    sited: SitedHouse
    site: StoreySite
    divided: Sequence[DividedRoom]

    def pipe(self, places: Sequence[ManifoldPlace], served: Sequence[int]) -> float | None:
        """Pipe in all tails [m] when each room is served from one of ``places``; ``None`` where there is no way."""
        ways = self.site.distances.to_rooms(places)
        total = math.fsum(
            2.0 * float(ways[place, number]) * len(self.divided[room.index].loops.circuits)
            for number, (room, place) in enumerate(zip(self.site.rooms, served, strict=True))
        )
        return total if math.isfinite(total) else None

    def best(self) -> tuple[list[ManifoldPlace], float | None]:
        """As many manifolds as there are, at the best of the places that each is allowed."""
        house = self.sited.house
        demands = [
            RoomDemand(number, len(self.divided[room.index].loops.circuits))
            for number, room in enumerate(self.site.rooms)
        ]
        stands = []
        for number, place in zip(self.site.numbers, self.site.manifolds, strict=True):
            manifold = house.manifolds[number]
            barred = rooms_of_others(self.site.rooms, manifold.id)
            compared = bool(manifold.allowed_places)
            stands.append(
                Stand(None, self.site.allowed[number], barred) if compared else Stand(place, (), barred)
            )
        most = max(house.inputs.limits.maximum_circuits, *self._ports())
        found = PlaceSearch(self.site.distances, most, no_way=NO_WAY).question(stands, demands).answer()
        if found is None:
            return [], None
        owners = {column: number for number, one in enumerate(found) for column in one.served}
        places = [one.place for one in found]
        return places, self.pipe(places, [owners[column] for column in range(len(demands))])

    def _ports(self) -> list[int]:
        """Circuits on each manifold."""
        counts = [0] * len(self.site.numbers)
        for room in self.site.rooms:
            for manifold in self.divided[room.index].manifolds:
                counts[self.site.numbers.index(manifold)] += 1
        return counts


def _name(sited: SitedHouse, site: StoreySite) -> str | None:
    storeys = sited.house.inputs.storeys
    return storeys[site.number].id if storeys else None


def _siting(sited: SitedHouse, site: StoreySite, divided: Sequence[DividedRoom]) -> StoreySiting | None:
    compared = any(sited.house.manifolds[number].allowed_places for number in site.numbers)
    found = any(number in sited.found for number in site.numbers)
    if not (compared or found):
        return None
    question = _Question(sited, site, divided)
    served = [site.numbers.index(divided[room.index].manifold) for room in site.rooms]
    own = question.pipe(site.manifolds, served)
    name = _name(sited, site)
    if found:
        return StoreySiting(name, tuple(place.place for place in site.manifolds), own, None, None)
    places, best = question.best()
    excess = None if own is None or best is None else own - best
    return StoreySiting(name, tuple(place.place for place in places), best, own, excess)


def siting_findings(sited: SitedHouse, sitings: Sequence[StoreySiting]) -> Iterator[Finding]:
    """Manifold by manifold those that were found or added, then storey by storey those that stand elsewhere."""
    house = sited.house
    for site in house.sites:
        for number, place in zip(site.numbers, site.manifolds, strict=True):
            if number in sited.found:
                yield _found(sited, site, number, place.place)
    sites = {_name(sited, site): site for site in house.sites}
    for siting in sitings:
        if (siting.position_excess or 0.0) > WORTH_TELLING:
            yield _better(sited, sites[siting.storey], siting)


def _found(sited: SitedHouse, site: StoreySite, number: int, place: Point) -> Finding:
    manifold = sited.house.manifolds[number]
    room = site.rooms[site.manifolds[site.numbers.index(number)].room].label
    where = f"{sited.house.inputs.manifold_pointer(number)}/position"
    at = f"[{place[0]:.2f}, {place[1]:.2f}] in {room}"
    if number >= sited.given:
        return Finding.at(
            "manifold_added",
            where,
            detail=f"At {at}",
            subject=f"manifold {manifold.id}",
            source=POSITION_SOURCE,
            point=place,
        )
    return Finding.at(
        "position_found",
        where,
        detail=f"At {at}",
        subject=f"manifold {manifold.id}",
        source=POSITION_SOURCE,
        point=place,
    )


def _better(sited: SitedHouse, site: StoreySite, siting: StoreySiting) -> Finding:
    number = next(number for number in site.numbers if sited.house.manifolds[number].allowed_places)
    places = " and ".join(f"[{x:.2f}, {y:.2f}]" for x, y in siting.places)
    return Finding.at(
        "better_position",
        f"{sited.house.inputs.manifold_pointer(number)}/position",
        detail=f"{siting.position_excess:.1f} m more than from {places}",
        value=siting.position_tail_pipe,
        limit=siting.tail_pipe,
        source=POSITION_SOURCE,
        point=siting.places[0],
        quantity="tail_pipe",
    )
