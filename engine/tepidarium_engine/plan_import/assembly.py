"""From a drawn plan to the request of a design, with a report of what is from the file and what is not."""

from __future__ import annotations

from dataclasses import replace
from itertools import count

from ..building.records import DesignRoom, DesignsInputs, Manifold, Storey
from ..cautions import IMPORT, once
from ..errors import UnreadableFileError
from ..gathering import gathered
from ..glossary import Items, lookup, number
from ..places import Point
from ..storey.manifold.position_records import PlanDoorway
from .build_ups import RoomFloors
from .doorways import FacingWalls, doorways_needed, facing_walls, groups, marked_doorway
from .drawn_plan import DrawnPlan
from .loss_request import loss_request
from .outlines import OutlinedRoom
from .records import PlanImportsInputs, PlanImportsResult
from .report import Report
from .room_names import is_bathroom
from .selection import Selection, select

__all__ = ["assembled"]

USUAL_TEMPERATURE = 20.0
"""Of a room that the file gives none [degC] (EN 12831-1, national annexes)."""


def assembled(plan: DrawnPlan, inputs: PlanImportsInputs) -> PlanImportsResult:
    """The result of an import. Raises ``UnreadableFileError`` where not one room can be taken."""
    report = Report()
    chosen = select(plan, inputs, report)
    if not chosen.taken:
        raise UnreadableFileError.because(_no_room(plan, chosen))
    _warm(chosen, report)
    floors = RoomFloors.of(plan, chosen, inputs, report)
    loss = loss_request(plan, chosen, inputs, report)
    doorways, drawn = _doorways(plan, chosen, inputs, report)
    several = len(chosen.storeys) > 1
    request = DesignsInputs(
        rooms=tuple(
            _room(made, index, floors, several, has_loss=loss is not None, report=report)
            for index, made in enumerate(chosen.taken)
        ),
        build_ups=floors.build_ups,
        manifold=_manifold(chosen, chosen.storeys[0], drawn, report, "/manifold")
        if not several
        else Manifold(),
        manifolds=tuple(
            replace(
                _manifold(chosen, storey, drawn, report, f"/manifolds/{index}"),
                id=str(index + 1),
                storey=storey,
            )
            for index, storey in enumerate(chosen.storeys)
        )
        if several
        else (),
        storeys=tuple(Storey(storey.id, storey.name) for storey in chosen.storeys_found if storey.taken)
        if several
        else (),
        heat_loss=loss,
        doorways=doorways,
    )
    for guess in plan.guesses:
        where = next(
            (f"/rooms/{index}" for index, made in enumerate(chosen.taken) if made.room.id == guess.where), ""
        )
        report.guess(where, guess.message, guess.source)
    return PlanImportsResult(
        format=plan.format,
        length_unit=plan.unit[:40],
        metres_per_unit=plan.metres,
        request=request,
        taken=tuple(report.taken),
        guessed=tuple(report.guessed),
        missing=tuple(report.missing),
        storeys_found=chosen.storeys_found,
        rooms_found=chosen.rooms_found,
        layers_found=tuple(plan.layers),
        findings=gathered(report.findings, inputs),
        cautions=once(IMPORT),
    )


def _no_room(plan: DrawnPlan, chosen: Selection) -> str:
    if not plan.rooms:
        layers = ", ".join(layer.name for layer in plan.layers[:20])
        return "no room was found in the file" + (
            f"; its layers: {layers}. Rooms are closed polylines on one layer: draw round each room, and name the "
            "layer as room_layer"
            if layers
            else ""
        )
    first = next(room for room in chosen.rooms_found if room.state != "taken")
    line = "" if first.file_line is None else f", line {first.file_line}"
    return (
        f"none of the {len(plan.rooms)} rooms of the file can be taken; {first.name} ({first.element}{line}): "
        f"{first.reason}"
    )


def _warm(chosen: Selection, report: Report) -> None:
    """A temperature for every room."""
    entry = number("room_temperature")
    for index, made in enumerate(chosen.taken):
        room, where = made.room, f"/rooms/{index}/room_temperature"
        if room.temperature is not None and entry.minimum <= room.temperature <= entry.maximum:
            room.temperature = round(room.temperature, 2)
            report.took(where, f"the design temperature of {room.name}", room.source)
            continue
        room.temperature = USUAL_TEMPERATURE
        report.guess(
            where, f"20 °C in {room.name}: the file gives no temperature that can be used", room.source
        )


def _room(
    made: OutlinedRoom, index: int, floors: RoomFloors, several: bool, *, has_loss: bool, report: Report
) -> DesignRoom:
    room, where = made.room, f"/rooms/{index}"
    report.took(f"{where}/outline", f"the outline of {room.name}", room.source)
    if made.closed > 1e-3:
        text = f"gaps and overlaps of the drawing in {room.name} were closed: {made.closed:.3f} m2"
        report.guess(f"{where}/outline", text, room.source)
    if made.lost > 0.05:
        text = (
            f"the largest part of the floor of {room.name}; other parts of {made.lost:.2f} m2 were left out"
        )
        report.guess(f"{where}/outline", text, room.source)
    bathroom = is_bathroom(room.name)
    if bathroom:
        text = f"{room.name} as a bathroom, by its name: its floor may be warmer, and it does not decide on the supply"
        report.guess(f"{where}/use", text, room.source)
    if not has_loss:
        report.miss(f"{where}/heat_demand", f"the heat demand of {room.name}", room.source)
    return DesignRoom(
        id=room.id,
        name=room.name,
        use="bathroom" if bathroom else "occupied",
        build_up=floors.of_room[room.id],
        outline=made.outline,
        voids=made.voids,
        room_temperature=USUAL_TEMPERATURE if room.temperature is None else room.temperature,
        storey=room.storey if several else None,
    )


def _doorways(
    plan: DrawnPlan, chosen: Selection, inputs: PlanImportsInputs, report: Report
) -> tuple[tuple[PlanDoorway, ...], set[str]]:
    """The doorways of all storeys whose rooms can be reached from each other, and the ids of those storeys."""
    entry = lookup("doorways")
    most = entry.maximum if isinstance(entry, Items) else 0
    all_doorways: list[PlanDoorway] = []
    drawn: set[str] = set()
    for storey in chosen.storeys:
        rooms = [made for made in chosen.taken if made.room.storey == storey]
        if len(rooms) < 2:
            continue
        walls = facing_walls(rooms, inputs.thickest_wall)
        counter = count(len(all_doorways))
        found = _marked(plan, rooms, walls, inputs=inputs, report=report, counter=counter)
        needed = list(doorways_needed(rooms, walls, found, inputs.doorway_width))
        if inputs.find_doorways:
            for doorway in needed:
                text = f"a doorway between {' and '.join(doorway.rooms)}, in the middle of their common wall"
                report.guess(f"/doorways/{next(counter)}", text)
            found += needed
        parts = len(set(groups([made.room.id for made in rooms], found).values()))
        if parts > 1 or len(all_doorways) + len(found) > most:
            index = next(i for i, each in enumerate(chosen.storeys_found) if each.id == storey)
            report.find(
                "storey_in_parts",
                f"/storeys_found/{index}",
                chosen.storeys_found[index].name,
                f"{parts} parts",
            )
            _forget(report, len(all_doorways))
            continue
        all_doorways += found
        drawn.add(storey)
    return tuple(all_doorways), drawn


def _forget(report: Report, first: int) -> None:
    """Nothing is said of doorways that are not in the request."""
    for parts in (report.taken, report.guessed):
        parts[:] = [
            part
            for part in parts
            if not part.where.startswith("/doorways/") or int(part.where.split("/")[2]) < first
        ]


def _marked(
    plan: DrawnPlan,
    rooms: list[OutlinedRoom],
    walls: list[FacingWalls],
    *,
    inputs: PlanImportsInputs,
    report: Report,
    counter: count[int],
) -> list[PlanDoorway]:
    """The doorways that the file has between these rooms, each once."""
    ids = {made.room.id for made in rooms}
    found: list[tuple[FacingWalls, PlanDoorway]] = []
    for mark in plan.doors:
        if mark.rooms is not None and not set(mark.rooms) <= ids:
            continue
        made = marked_doorway(mark, walls, inputs.doorway_width)
        if made is None:
            continue
        wall, doorway = made
        if any(_overlap(doorway, other) for before, other in found if set(before.rooms) & set(wall.rooms)):
            continue
        found.append(made)
        where = f"/doorways/{next(counter)}"
        report.took(where, f"the doorway between {' and '.join(doorway.rooms)}", mark.source)
        if mark.width is None:
            report.guess(f"{where}/width", f"the width of the doorway: {doorway.width:.2f} m", mark.source)
    return [doorway for _, doorway in found]


def _overlap(one: PlanDoorway, other: PlanDoorway) -> bool:
    away = max(abs(one.place[0] - other.place[0]), abs(one.place[1] - other.place[1]))
    return away < (one.width + other.width) / 2.0


def _manifold(chosen: Selection, storey: str, drawn: set[str], report: Report, where: str) -> Manifold:
    """One manifold a storey; without doorways it needs a place, and that is guessed."""
    if storey in drawn:
        return Manifold()
    rooms = [made for made in chosen.taken if made.room.storey == storey]
    largest = max(rooms, key=lambda made: float(made.floor.area))
    x, y = largest.floor.exterior.coords[0]
    place: Point = (float(x), float(y))
    report.guess(
        f"{where}/position",
        f"the manifold in a corner of {largest.room.name}: without doorways its best place is not found",
    )
    return Manifold(position=place)
