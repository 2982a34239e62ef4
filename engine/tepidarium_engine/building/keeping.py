"""What a former answer decided stays wherever that still holds: a fitter who changes one room lays no other anew.

The supply stays where no room asks for more. A room keeps its spacing as long as that gives its heat, and its manifold;
one that is as it was keeps its number of circuits. Manifolds stay where they were found. The rules decide on all else.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from ..errors import FaultList, InputError
from ..places import Point
from ..results import Finding
from ..spreading import Spread
from .asked_rooms import rooms_to_heat
from .chosen_floors import ChosenFloor, with_floors
from .floors import KeptRoom, RoomToHeat
from .former_records import FormerDesign, FormerFinding, FormerRoom
from .house_joints import HouseJoint
from .records import BuildUp, DesignRoom, DesignsInputs, HouseToDesign
from .room_strips import check_strip, heated_strip
from .sited_design import sited_design
from .siting import sited_house
from .whole_design import WholeDesign, whole_design

__all__ = ["design_keeping", "floors_kept", "former_rooms", "keeps", "untouched_rooms"]


def design_keeping(
    inputs: DesignsInputs,
    rooms: tuple[RoomToHeat, ...],
    due: tuple[HouseJoint, ...],
    former: FormerDesign,
    spread: Spread,
) -> WholeDesign:
    """The design that keeps what was decided before; the one by the rules alone where that breaks fewer limits.

    Raises ``InputError`` as ``whole_design``.
    """
    if not former_rooms(inputs, former):
        return sited_design(inputs, rooms, due, spread)
    kept = _keeping(inputs, rooms, due, spread, former)
    if kept is not None and not _violations(kept.findings) - _violations(former.findings):
        return kept
    by_rule = sited_design(inputs, rooms, due, spread)
    if kept is not None and _violations(kept.findings).total() <= _violations(by_rule.findings).total():
        return kept
    return by_rule


def _keeping(
    inputs: DesignsInputs,
    rooms: tuple[RoomToHeat, ...],
    due: tuple[HouseJoint, ...],
    spread: Spread,
    former: FormerDesign,
) -> WholeDesign | None:
    """``None`` where what was decided leads to a house that cannot be computed."""
    try:
        sited = sited_house(inputs, _kept(inputs, rooms, former), spread, _places(inputs, former))
        design = whole_design(sited, due)
        _violations(design.findings)
    except InputError:
        return None
    return design


def _places(inputs: HouseToDesign, former: FormerDesign) -> dict[str, Point]:
    """Of manifolds that are asked for as they were, and of those that were added."""
    if former.layout is None:
        return {}
    before = {manifold.id: manifold for manifold in former.inputs.all_manifolds}
    changed = {own.id for own in inputs.all_manifolds if before.get(own.id) != own}
    return {own.id: own.position for own in former.layout.placed_manifolds if own.id not in changed}


def floors_kept(inputs: DesignsInputs, former: FormerDesign) -> tuple[ChosenFloor, ...]:
    """Floors whose covering was chosen, for the rooms that ask for the same build-up as before; none where the house
    cannot be computed with them."""
    asked = {room.id: room.build_up for room in inputs.rooms}
    same = {build_up.id for build_up in inputs.build_ups if build_up in former.inputs.build_ups}
    ids = {build_up.id for build_up in inputs.build_ups}
    floors = tuple(
        ChosenFloor(floor.build_up, floor.like, None, rooms)
        for floor in {floor.build_up.id: floor for floor in former.chosen_floors}.values()
        if floor.like in same
        and floor.build_up.id not in ids
        and (rooms := tuple(room for room in floor.rooms if asked.get(room) == floor.like))
    )
    try:
        rooms_to_heat(with_floors(inputs, floors))
    except InputError:
        return ()
    return floors


def keeps(design: WholeDesign) -> bool:
    """Whether the design was made with what was decided before."""
    return any(room.kept is not None for room in design.sited.house.rooms)


def former_rooms(inputs: HouseToDesign, former: FormerDesign) -> dict[str, FormerRoom]:
    """The rooms of a former answer that the house still has, by id."""
    ids = {room.id for room in inputs.rooms}
    return {room.id: room for room in former.rooms if room.id in ids}


def _kept(
    inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...], former: FormerDesign
) -> tuple[RoomToHeat, ...]:
    before = former_rooms(inputs, former)
    as_before = untouched_rooms(inputs, rooms, former)
    asked = {room.id: room for room in former.inputs.rooms}
    supply = former.supply_temperature if inputs.source == former.inputs.source else None
    return tuple(
        replace(
            _laid_as_before(room, own) if _floor_as_asked(asked.get(room.room.id), room.room) else room,
            kept=KeptRoom(
                supply,
                own.pipe_spacing,
                len(own.circuit_ids) if room.room.id in as_before else 0,
                own.manifold,
            ),
        )
        if (own := before.get(room.room.id)) is not None
        else room
        for room in rooms
    )


def _floor_as_asked(before: DesignRoom | None, room: DesignRoom) -> bool:
    """Whether a room is asked for in the same pattern and with the same strip, whatever else has changed."""
    return before is not None and (before.pattern, before.peripheral) == (room.pattern, room.peripheral)


def _laid_as_before(room: RoomToHeat, own: FormerRoom) -> RoomToHeat:
    """A room in the pattern and with the strip that were chosen for it, where it still may have them."""
    strip = None if own.peripheral is None else own.peripheral.strip
    laid = replace(
        room.room, pattern=own.pattern or room.room.pattern, peripheral=strip or room.room.peripheral
    )
    faults = FaultList()
    check_strip(laid, room.pipe, (room.outline, room.area), "", faults)
    if faults.faults:
        return room
    return replace(room, room=laid, strip=heated_strip(laid, room.outline, room.area))


def untouched_rooms(
    inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...], former: FormerDesign
) -> frozenset[str]:
    """Ids of the rooms that are as they were: outline, floor, heat and all that was asked for."""
    before = {room.id: room for room in former.inputs.rooms}
    demands = {room.id: room.heat_demand for room in former.rooms}
    floors = {build_up.id: build_up for build_up in former.inputs.build_ups}
    return frozenset(
        room.room.id
        for room in rooms
        if room.room.id in before
        and _as_designed(room.room) == _as_designed(before[room.room.id])
        and _as_built(room.build_up) == _as_built(floors.get(before[room.room.id].build_up))
        and demands.get(room.room.id) in (None, room.heat_demand)
    )


def _as_designed(room: DesignRoom) -> DesignRoom:
    """Without what a room is only called, and without the demand, which is compared as it was computed."""
    return replace(room, name="", build_up="", heat_demand=None)


def _as_built(build_up: BuildUp | None) -> BuildUp | None:
    return None if build_up is None else replace(build_up, name="", id="")


def _violations(findings: Iterable[Finding | FormerFinding]) -> Counter[str]:
    """How often which limit is broken."""
    broken: Counter[str] = Counter()
    for finding in findings:
        if finding.severity == "violation":
            broken[finding.code] += max(len(finding.places), 1)
    return broken
