"""The rooms of a request with their floors, checked as a whole."""

from __future__ import annotations

import shapely

from ..errors import FaultList, InputError
from ..plan.outlines.intake import settled_rooms
from ..plan.outlines.polygons import RoomOutline, room_outline
from ..storey.manifold.plan_input import THICKEST_WALL
from ..storey.model.circuit_names import number_prefix
from ..thermal.floor import check_floor
from .demands import demands_of
from .floors import RoomToHeat, build_up_pointer, surface_limit, surface_pointer
from .records import DesignRoom, DesignsInputs
from .room_strips import check_strip, heated_strip
from .spacings import room_spacings, spacing_pointer

__all__ = ["rooms_to_heat"]


def rooms_to_heat(inputs: DesignsInputs) -> tuple[RoomToHeat, ...]:
    """The rooms with their floors, checked as a whole: every fault of every room is raised at once."""
    faults = FaultList()
    build_ups = {build_up.id: build_up for build_up in inputs.build_ups}
    _require_unique([build_up.id for build_up in inputs.build_ups], "/build_ups", faults)
    _require_unique([room.id for room in inputs.rooms], "/rooms", faults)
    rooms: list[RoomToHeat] = []
    names = [room.id for room in inputs.rooms]
    demands = demands_of(inputs, faults)
    extents = _extents(inputs, faults)
    for index, (room, demand) in enumerate(zip(inputs.rooms, demands, strict=True)):
        pointer = f"/rooms/{index}"
        build_up = build_ups.get(room.build_up)
        if build_up is None:
            detail = f"names no build-up of this request: there is no '{room.build_up}'"
            faults.add(f"{pointer}/build_up", "unknown_build_up", detail)
            continue
        outline, area = extents[index]
        limit = surface_limit(room, build_up)
        faults.require(
            limit > room.room_temperature,
            surface_pointer(room, pointer),
            "below_room",
            f"the surface of at most {limit:g} degC must be allowed to be warmer than the room",
            room.room_temperature,
        )
        spacings = room_spacings(inputs, room, outline, faults)
        known = len(faults.faults)
        check_strip(room, inputs.pipe, (outline, area), f"{pointer}/peripheral", faults)
        sound = len(faults.faults) == known
        rooms.append(
            RoomToHeat(
                index,
                room,
                demand,
                build_up,
                inputs.pipe,
                area,
                outline,
                limit,
                spacings.permitted,
                number_prefix(room.id, names),
                left_out=spacings.left_out,
                strip=heated_strip(room, outline, area) if sound else None,
            )
        )
        _check_choices(inputs, rooms[-1], faults)
    faults.raise_if_any()
    return tuple(rooms)


def _require_unique(ids: list[str], pointer: str, faults: FaultList) -> None:
    for index, name in enumerate(ids):
        faults.require(
            name not in ids[:index], f"{pointer}/{index}/id", "not_unique", "another item has the same id"
        )


def _extents(inputs: DesignsInputs, faults: FaultList) -> list[tuple[RoomOutline | None, float]]:
    """Outline, settled with those of its storey, and area [m2] of each room."""
    lost = () if inputs.heat_loss is None else inputs.heat_loss.rooms
    numbered = {room.id for room in lost if room.walls}
    found = [
        _extent(room, f"/rooms/{index}", room.id in numbered, faults)
        for index, room in enumerate(inputs.rooms)
    ]
    for storey in dict.fromkeys(room.storey for room in inputs.rooms):
        drawn = [
            index
            for index, room in enumerate(inputs.rooms)
            if room.storey == storey and found[index][0] is not None
        ]
        rings = [(inputs.rooms[index].outline or (), inputs.rooms[index].voids) for index in drawn]
        for index, outline in zip(drawn, settled_rooms(rings), strict=True):
            found[index] = (outline, found[index][1])
    return found


def _extent(
    room: DesignRoom, pointer: str, numbered_walls: bool, faults: FaultList
) -> tuple[RoomOutline | None, float]:
    if room.outline is None:
        faults.require(
            not room.voids,
            f"{pointer}/voids",
            "needs_outline",
            "voids go with an outline; an area is net of them",
        )
        if room.area is None:
            faults.add(f"{pointer}/outline", "missing", "give an outline or an area")
        return None, room.area or 1.0
    faults.require(
        room.area is None, f"{pointer}/area", "one_of", "the outline gives the area; do not give both"
    )
    try:
        outline = room_outline(room.outline, room.voids, pointer, numbered_walls=numbered_walls)
    except InputError as error:
        faults.faults.extend(error.faults)
        return None, 1.0
    if room.entry is not None:
        local = (room.entry[0] - outline.origin[0], room.entry[1] - outline.origin[1])
        away = float(shapely.distance(outline.polygon, shapely.Point(local)))
        faults.require(
            away <= THICKEST_WALL,
            f"{pointer}/entry",
            "outside",
            f"lies {away:.2f} m outside the room: pipes come in at its outline",
            THICKEST_WALL,
        )
    return outline, outline.area


def _check_choices(inputs: DesignsInputs, room: RoomToHeat, faults: FaultList) -> None:
    """What the method has no value for: a spacing where it was given, all else in the build-up."""
    for spacing in room.pipe_spacings:
        found = FaultList()
        check_floor(room.floor(spacing), "", found)
        if not found.faults:
            continue
        known = {(fault.pointer, fault.code) for fault in faults.faults}
        places = {
            "/pipe_spacing": spacing_pointer(inputs, room.index, spacing),
            "/screed_cover": f"{build_up_pointer(inputs, room.build_up)}/screed_cover",
        }
        for fault in found.faults:
            where = places.get(fault.pointer, fault.pointer)
            if (where, fault.code) not in known:
                known.add((where, fault.code))
                faults.add(where, fault.code, fault.detail, fault.limit)
