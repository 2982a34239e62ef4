"""From a request to a house: which storey and manifold each room belongs to, and the storeys that are drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import shapely

from ..elementwise import Array
from ..errors import FaultList, required
from ..loop_length import LoopLengthInputs, LoopLengthResult
from ..plan.outlines.loops import loop_of
from ..storey.manifold.manifold_sites import AllowedWall, Distances
from ..storey.manifold.plan_input import (
    THICKEST_WALL,
    SentRoom,
    allowed_walls,
    check_doorways,
    check_overlaps,
    doorway_between,
    place_on_wall,
)
from ..storey.model.tail_records import ManifoldPlace, StoreyPlan, TailRules
from .floors import RoomToHeat
from .records import DesignsInputs, Manifold
from .room_joints import check_room_joints
from .warm_tails import HouseTails, check_insulated_tails

__all__ = ["House", "HouseState", "StoreySite", "house_of"]


@dataclass(frozen=True)
class StoreySite:
    """A storey that is drawn. ``rooms`` are those with an outline, ``doorways`` the numbers of its doorways in the
    request, both in the order of ``plan``; ``numbers`` are those of the ``manifolds`` among all of the house.
    ``allowed``: by number of each manifold, those without a place too, the walls at which it may stand."""

    number: int
    rooms: tuple[RoomToHeat, ...]
    plan: StoreyPlan
    doorways: tuple[int, ...]
    manifolds: tuple[ManifoldPlace, ...]
    numbers: tuple[int, ...]
    allowed: Mapping[int, tuple[AllowedWall, ...]]
    rules: TailRules

    @cached_property
    def distances(self) -> Distances:
        """Ways over the floor, remembered."""
        return Distances.of(self.plan, self.rules)

    @cached_property
    def ways(self) -> Array:
        """Shortest ways [m] of pairs from each manifold (a row) to each room; infinite where there is none."""
        return self.distances.to_rooms(self.manifolds)

    @property
    def unplaced(self) -> tuple[int, ...]:
        """Numbers of the manifolds whose place is to be found."""
        return tuple(number for number in self.allowed if number not in self.numbers)

    def place_of(self, room: RoomToHeat) -> int:
        """Number of a room in ``plan``."""
        return [own.index for own in self.rooms].index(room.index)


@dataclass(frozen=True)
class House:
    """``storey_of`` and ``manifolds_on`` count storeys from 0; without storeys all is on number 0. ``inputs`` hold
    what was found beside what was given. ``measured`` remembers lengths of pipe by what they were asked with;
    ``by_area``: they follow from areas alone, and no pipe is laid to measure them."""

    inputs: DesignsInputs
    rooms: tuple[RoomToHeat, ...]
    storey_of: tuple[int, ...]
    manifolds_on: tuple[tuple[int, ...], ...]
    sites: tuple[StoreySite, ...]
    measured: dict[LoopLengthInputs, LoopLengthResult] = field(
        default_factory=dict, compare=False, repr=False
    )
    by_area: bool = False

    @property
    def manifolds(self) -> tuple[Manifold, ...]:
        return self.inputs.all_manifolds

    def is_drawn(self, room: RoomToHeat) -> bool:
        """Whether the room has an outline and its storey is drawn."""
        numbers = {site.number for site in self.sites}
        return room.outline is not None and self.storey_of[room.index] in numbers

    def choices(self, room: RoomToHeat) -> tuple[int, ...]:
        """Manifolds that may serve a room: the one it names, the one it keeps, or all of its storey."""
        numbers, on = _numbers(self.manifolds), self.manifolds_on[self.storey_of[room.index]]
        if room.room.manifold is not None:
            return (numbers[room.room.manifold],)
        kept = None if room.kept is None else numbers.get(room.kept.manifold or "")
        return (kept,) if kept in on else on


@dataclass(frozen=True)
class HouseState:
    """What is given to a round of solving: ``rooms`` with the tails that they hold, all ``tails``, the number of the
    manifold of each room, and the ``supply`` [degC]."""

    house: House
    rooms: tuple[RoomToHeat, ...]
    served: tuple[int, ...]
    tails: HouseTails
    supply: float


def house_of(inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...]) -> House:
    """Raises ``InputError`` for storeys and manifolds that are not there or do not go together, rooms of a storey
    that overlap, a doorway on no wall or between storeys, a manifold in no room, allowed places on no wall."""
    faults = FaultList()
    storey_of, manifold_storeys = _places(inputs, faults)
    faults.raise_if_any()
    manifolds_on = tuple(
        tuple(number for number, storey in enumerate(manifold_storeys) if storey == each)
        for each in range(max(1, len(inputs.storeys)))
    )
    _check_served(inputs, storey_of, manifolds_on, faults)
    check_insulated_tails(inputs, faults)
    for room in rooms:
        check_room_joints(room, faults)
    by_storey = _doorways_by_storey(inputs, storey_of, faults)
    on_storeys = [
        [room for room in rooms if storey_of[room.index] == each] for each in range(len(manifolds_on))
    ]
    drawn = [
        bool(doorways) or _stands_alone(inputs, on_storey, on)
        for doorways, on_storey, on in zip(by_storey, on_storeys, manifolds_on, strict=True)
    ]
    sites = [
        _site(
            inputs,
            number,
            on_storeys[number],
            by_storey[number],
            manifolds=on,
            faults=faults,
        )
        for number, on in enumerate(manifolds_on)
        if drawn[number]
    ]
    _check_allowed(inputs, manifold_storeys, drawn, faults)
    faults.raise_if_any()
    return House(inputs, rooms, storey_of, manifolds_on, tuple(site for site in sites if site is not None))


def _stands_alone(inputs: DesignsInputs, rooms: Sequence[RoomToHeat], manifolds: Sequence[int]) -> bool:
    """Whether one room is all of a storey and has the manifold in it: no doorway is on the way of its pipe."""
    if len(rooms) != 1 or rooms[0].outline is None or rooms[0].room.tail_length is not None:
        return False
    own, floor = [inputs.all_manifolds[number] for number in manifolds], rooms[0].outline.placed
    places = [manifold.position for manifold in own if manifold.position is not None]
    within = all(floor.distance(shapely.Point(place)) <= THICKEST_WALL for place in places)
    return within and bool(places or any(manifold.allowed_places for manifold in own))


def _numbers(items: Sequence[Manifold]) -> dict[str, int]:
    return {item.id: number for number, item in enumerate(items)}


def _places(inputs: DesignsInputs, faults: FaultList) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Number of the storey of each room and of each manifold."""
    faults.require(
        not inputs.manifolds or inputs.manifold == Manifold(),
        "/manifold",
        "one_of",
        "give one manifold, or all of them in manifolds",
    )
    for pointer, ids in (
        ("/storeys", [storey.id for storey in inputs.storeys]),
        ("/manifolds", [manifold.id for manifold in inputs.manifolds]),
    ):
        for number, name in enumerate(ids):
            faults.require(
                ids.index(name) == number,
                f"{pointer}/{number}/id",
                "not_unique",
                "another item has the same id",
            )
    rooms = tuple(
        _storey(inputs, room.storey, f"/rooms/{number}/storey", faults)
        for number, room in enumerate(inputs.rooms)
    )
    manifolds = tuple(
        _storey(inputs, manifold.storey, f"{inputs.manifold_pointer(number)}/storey", faults)
        for number, manifold in enumerate(inputs.all_manifolds)
    )
    return rooms, manifolds


def _storey(inputs: DesignsInputs, named: str | None, pointer: str, faults: FaultList) -> int:
    ids = [storey.id for storey in inputs.storeys]
    if named is None:
        faults.require(len(ids) < 2, pointer, "missing", "must name one of the storeys")
    elif faults.require(
        named in ids, pointer, "unknown_storey", f"names no storey of this request: there is no {named!r}"
    ):
        return ids.index(named)
    return 0


def _check_served(
    inputs: DesignsInputs,
    storey_of: Sequence[int],
    manifolds_on: Sequence[Sequence[int]],
    faults: FaultList,
) -> None:
    numbers = _numbers(inputs.all_manifolds)
    for number, room in enumerate(inputs.rooms):
        pointer = f"/rooms/{number}/manifold"
        if room.manifold is not None and faults.require(
            room.manifold in numbers, pointer, "unknown_manifold", f"there is no manifold {room.manifold!r}"
        ):
            faults.require(
                numbers[room.manifold] in manifolds_on[storey_of[number]],
                pointer,
                "other_storey",
                f"the manifold {room.manifold!r} stands on another storey",
            )
    for number, storey in enumerate(inputs.storeys):
        faults.require(
            number not in storey_of or bool(manifolds_on[number]),
            f"/storeys/{number}",
            "no_manifold",
            f"the storey {storey.id!r} has rooms and no manifold",
        )


def _check_allowed(
    inputs: DesignsInputs, storeys: Sequence[int], drawn: Sequence[bool], faults: FaultList
) -> None:
    """Places are found on storeys that are drawn."""
    for number, (manifold, storey) in enumerate(zip(inputs.all_manifolds, storeys, strict=True)):
        faults.require(
            not manifold.allowed_places or drawn[storey],
            f"{inputs.manifold_pointer(number)}/allowed_places",
            "needs_doorways",
            "give the doorways between the rooms: without them no place for the manifold can be found",
        )


def _doorways_by_storey(
    inputs: DesignsInputs, storey_of: Sequence[int], faults: FaultList
) -> list[list[int]]:
    """Numbers of doorways; one between unknown rooms belongs to the first storey, where that is told."""
    storeys = {room.id: storey_of[number] for number, room in enumerate(inputs.rooms)}
    found: list[list[int]] = [[] for _ in range(max(1, len(inputs.storeys)))]
    for number, doorway in enumerate(inputs.doorways):
        on = [storeys.get(name, -1) for name in doorway.rooms]
        found[max([0, *on])].append(number)
        faults.require(
            len(set(on)) == 1 or -1 in on,
            f"/doorways/{number}/rooms/{max(0, len(on) - 1)}",
            "other_storey",
            "the rooms of a doorway lie on different storeys",
        )
    return found


def _site(
    inputs: DesignsInputs,
    number: int,
    rooms: Sequence[RoomToHeat],
    doorways: Sequence[int],
    *,
    manifolds: tuple[int, ...],
    faults: FaultList,
) -> StoreySite | None:
    """A storey that is drawn; ``None`` when a fault was noted."""
    drawn = tuple(room for room in rooms if room.outline is not None)
    sent = [_sent(room) for room in drawn]
    check_overlaps(sent, faults)
    found = [
        doorway_between(inputs.doorways[doorway], f"/doorways/{doorway}", sent, faults)
        for doorway in doorways
    ]
    doors = tuple(doorway for doorway in found if doorway is not None)
    if len(doors) == len(found):
        check_doorways(doors, [f"/doorways/{doorway}" for doorway in doorways], faults)
    allowed = {
        manifold: allowed_walls(
            inputs.all_manifolds[manifold].allowed_places,
            f"{inputs.manifold_pointer(manifold)}/allowed_places",
            sent,
            faults,
        )
        for manifold in manifolds
    }
    placed = tuple(number for number in manifolds if inputs.all_manifolds[number].position is not None)
    places = [_place(inputs, manifold, sent, faults) for manifold in placed]
    if None in found or None in places:
        return None
    plan = StoreyPlan(tuple(room.floor for room in sent), doors)
    standing = tuple(place for place in places if place is not None)
    limits = inputs.limits
    rules = TailRules(limits.tail_pitch, limits.wall_clearance, inputs.pipe.bend_radius)
    return StoreySite(number, drawn, plan, tuple(doorways), standing, placed, allowed, rules)


def _sent(room: RoomToHeat) -> SentRoom:
    outline = required(room.outline, "the outline of a room that is drawn")
    return SentRoom(room.room.id, room.pointer, outline.placed, loop_of(outline.placed))


def _place(
    inputs: DesignsInputs, number: int, rooms: list[SentRoom], faults: FaultList
) -> ManifoldPlace | None:
    pointer = f"{inputs.manifold_pointer(number)}/position"
    position = inputs.all_manifolds[number].position
    if position is None or not rooms:  # then the doorways name rooms without an outline, and that is noted
        return None
    found = place_on_wall(position, pointer, rooms, faults)
    return None if found is None else ManifoldPlace(found[1], found[2], found[0])
