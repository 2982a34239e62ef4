"""Floors whose covering was chosen: what a house is designed with beside the build-ups of its request.

A chosen floor is a build-up of the request with another covering. It is put behind those of the request, so that
everything that follows from a request follows from it, too; what is said about it is led to where it is answered.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import count
from typing import TypeVar

from ..glossary import Text, lookup, named
from ..practice.coverings import COVERING_NAMES
from ..results import Finding, FindingPlace
from .former_records import FormerFloor
from .house_records import BuildUp, HouseToDesign
from .objective_records import CoveringOption

__all__ = ["ChosenFloor", "floors_chosen", "floors_told", "with_floors"]

_House = TypeVar("_House", bound=HouseToDesign)


@dataclass(frozen=True, slots=True)
class ChosenFloor:
    """A floor of the ``rooms`` in place of the build-up ``like`` of the request: that one with another covering, the
    ``covering_option`` of the objective, None where a former design chose it. Send ``build_up`` with a request and let
    the rooms name it to have the same floor without an objective."""

    build_up: BuildUp = field(metadata=named("chosen_build_up"))
    like: str = field(metadata=named("build_up"))
    covering_option: int | None = field(metadata=named("chosen_covering"))
    rooms: tuple[str, ...] = field(metadata=named("rooms_of_floor"))


def floors_chosen(
    inputs: HouseToDesign, coverings: Sequence[CoveringOption], taken: Sequence[int | None]
) -> tuple[ChosenFloor, ...]:
    """By room the number of the covering that was ``taken``, None for its own; in the order of the build-ups."""
    known = {build_up.id: place for place, build_up in enumerate(inputs.build_ups)}
    rooms: dict[tuple[int, int], list[str]] = {}
    for room, number in zip(inputs.rooms, taken, strict=True):
        if number is not None:
            rooms.setdefault((known[room.build_up], number), []).append(room.id)
    floors: list[ChosenFloor] = []
    ids = list(known)
    for (place, number), own in sorted(rooms.items()):
        build_up = _covered(inputs.build_ups[place], coverings[number], ids)
        ids.append(build_up.id)
        floors.append(ChosenFloor(build_up, inputs.build_ups[place].id, number, tuple(own)))
    return tuple(floors)


def _covered(own: BuildUp, option: CoveringOption, ids: Sequence[str]) -> BuildUp:
    free = (_after(own.id, f"-{number}", "id") for number in count(2))
    words = f" ({COVERING_NAMES[option.covering]} {option.covering_resistance:g} m²K/W)"
    return replace(
        own,
        id=next(name for name in free if name not in ids),
        name=_after(own.name or own.id, words, "name"),
        covering=option.covering,
        covering_resistance=option.covering_resistance,
    )


def _after(words: str, further: str, entry: str) -> str:
    """Both, the first cut where a request would not take the whole."""
    longest = lookup(entry)
    most = longest.maximum_length if isinstance(longest, Text) else len(words + further)
    return words[: most - len(further)] + further


def with_floors(house: _House, floors: Sequence[ChosenFloor] | Sequence[FormerFloor]) -> _House:
    """The request with the floors behind its build-ups, and with the rooms that name them; those that it has stay."""
    if not floors:
        return house
    known = {build_up.id for build_up in house.build_ups}
    floor_of = {room: floor.build_up.id for floor in floors for room in floor.rooms}
    return replace(
        house,
        build_ups=(
            *house.build_ups,
            *{own.build_up.id: own.build_up for own in floors if own.build_up.id not in known}.values(),
        ),
        rooms=tuple(replace(room, build_up=floor_of.get(room.id, room.build_up)) for room in house.rooms),
    )


def floors_told(finding: Finding, given: int) -> Finding:
    """Build-ups behind those ``given`` stand in the answer, among its chosen floors."""

    def told(place: FindingPlace) -> FindingPlace:
        head, _, rest = place.where.removeprefix("/build_ups/").partition("/")
        if place.where_in == "answer" or head == place.where or not head.isdigit() or int(head) < given:
            return place
        where = f"/chosen_floors/{int(head) - given}/build_up" + (f"/{rest}" if rest else "")
        return replace(place, where=where, where_in="answer")

    return finding.moved(told)
