"""The envelope of the file as a request of heat-loss: elements by their area, each pair of rooms once."""

from __future__ import annotations

from collections.abc import Iterable

from ..envelope.records import Construction, Element, Ground, HeatLossInputs, HeatLossRoom
from ..glossary import Items, lookup, number
from ..plan.outlines.overlays import union
from .drawn_plan import DrawnPlan, DrawnRoom, Face
from .outlines import OutlinedRoom
from .records import PlanImportsInputs
from .report import Report
from .selection import Selection

__all__ = ["loss_request"]

_HEIGHTS = number("room_height")
_LEAST_AREA = number("element_area").minimum
_USUAL_TEMPERATURE = 20.0


def loss_request(
    plan: DrawnPlan, chosen: Selection, inputs: PlanImportsInputs, report: Report
) -> HeatLossInputs | None:
    """None where the file has no envelope, or no outside temperature is given; both are reported."""
    if not plan.faces:
        return None
    if inputs.external_temperature is None:
        report.miss(
            "/heat_loss",
            "the design temperature of the outside air: give it with the file as external_temperature, and the heat "
            "loss follows from the elements of the file",
        )
        return None
    elements = _elements(plan, chosen)
    used = sorted({element.construction or "" for own in elements.values() for element in own})
    if any(not own for own in elements.values()):
        names = [made.room.name for made in chosen.taken if not elements[made.room.id]]
        report.miss("/heat_loss", f"the walls, floors and ceilings of {', '.join(names[:5])}")
        return None
    if len(used) > _most("constructions") or max(map(len, elements.values())) > _most("elements"):
        report.miss(
            "/heat_loss", "the file has more constructions than one request may have: ask for one storey"
        )
        return None
    _tell_constructions(plan, used, report)
    grounded = [face for face in plan.faces if face.beyond == "ground" and face.room in elements]
    if grounded and inputs.annual_mean_temperature is None:
        report.miss(
            "/heat_loss/annual_mean_temperature",
            "the annual mean of the outside air: the loss to the ground follows from it",
        )
    rooms = tuple(
        _room(made, index, elements[made.room.id], grounded, report)
        for index, made in enumerate(chosen.taken)
    )
    return HeatLossInputs(
        external_temperature=inputs.external_temperature,
        annual_mean_temperature=inputs.annual_mean_temperature,
        rooms=rooms,
        constructions=tuple(plan.constructions[name][0] for name in used),
        ground=_ground(chosen, {face.room for face in grounded}),
    )


def _most(name: str) -> int:
    entry = lookup(name)
    return entry.maximum if isinstance(entry, Items) else 0


def _elements(plan: DrawnPlan, chosen: Selection) -> dict[str, list[Element]]:
    """By room: what is alike made one element."""
    taken = {made.room.id for made in chosen.taken}
    known = {room.id: room for room in plan.rooms}
    areas: dict[str, dict[Element, float]] = {made.room.id: {} for made in chosen.taken}
    for face in _paired(plan.faces or (), taken):
        element = _element(face, taken, known)
        if element is not None:
            own = areas[face.room]
            own[element] = own.get(element, 0.0) + face.area
    return {
        name: [
            Element(
                surface=key.surface,
                area=round(area, 4),
                construction=key.construction,
                beyond=key.beyond,
                neighbour=key.neighbour,
                neighbour_temperature=key.neighbour_temperature,
            )
            for key, area in own.items()
            if area >= _LEAST_AREA
        ]
        for name, own in areas.items()
    }


def _paired(faces: Iterable[Face], taken: set[str]) -> Iterable[Face]:
    """The faces of the rooms that are taken; between two of them only that of the room whose id comes first."""
    for face in faces:
        between = face.beyond == "room" and face.neighbour in taken
        if face.room in taken and not (between and face.room > str(face.neighbour)):
            yield face


def _element(face: Face, taken: set[str], known: dict[str, DrawnRoom]) -> Element | None:
    """The face as an element of area 1; a space that is not in the request is described by its temperature."""
    other = known.get(face.neighbour or "")
    if face.beyond != "room" or other is None or other.id in taken:
        return Element(
            surface=face.surface,
            area=1.0,
            construction=face.construction,
            beyond=face.beyond,
            neighbour=face.neighbour,
        )
    if not other.heated:
        return Element(surface=face.surface, area=1.0, construction=face.construction, beyond="unheated")
    temperature = _USUAL_TEMPERATURE if other.temperature is None else other.temperature
    return Element(
        surface=face.surface,
        area=1.0,
        construction=face.construction,
        beyond="heated_neighbour",
        neighbour_temperature=round(min(max(temperature, -60.0), 60.0), 2),
    )


def _tell_constructions(plan: DrawnPlan, used: list[str], report: Report) -> None:
    for index, name in enumerate(used):
        construction, source = plan.constructions[name]
        where = f"/heat_loss/constructions/{index}"
        if _is_known(construction):
            report.took(where, construction.name or construction.id, source)
        else:
            report.miss(f"{where}/u_value", f"the U-value: {construction.name or construction.id}", source)
        if name in plan.unlike:
            value, layers = plan.unlike[name]
            report.find(
                "u_value_unlike_layers",
                f"/request{where}",
                construction.name or construction.id,
                f"{value:.2f} W/(m2.K) in the file, {layers:.2f} W/(m2.K) by its layers",
            )


def _is_known(construction: Construction) -> bool:
    return construction.u_value is not None or bool(construction.layers)


def _room(
    made: OutlinedRoom, index: int, elements: list[Element], grounded: list[Face], report: Report
) -> HeatLossRoom:
    room, where = made.room, f"/heat_loss/rooms/{index}"
    height = room.height if room.height and _HEIGHTS.minimum <= room.height <= _HEIGHTS.maximum else None
    if height is None:
        report.guess(f"{where}/room_height", f"the height of {room.name}: 2.50 m", room.source)
    depth = 0.0
    if any(face.room == room.id and face.surface == "wall" for face in grounded):
        depth = min(max(-room.level, height or 2.5) if room.level < 0.0 else (height or 2.5), 20.0)
        text = f"how deep the floor of {room.name} lies below the ground: {depth:.2f} m"
        report.guess(f"{where}/depth_below_ground", text, room.source)
    report.took(
        f"{where}/elements", f"walls, floors, ceilings, windows and doors of {room.name}", room.source
    )
    changes = room.air_change if room.air_change and room.air_change <= 20.0 else None
    if changes is None:
        report.guess(f"{where}/air_change", f"half a volume of {room.name} in an hour", room.source)
    return HeatLossRoom(
        id=room.id,
        name=room.name,
        room_temperature=_USUAL_TEMPERATURE if room.temperature is None else room.temperature,
        area=round(float(made.floor.area), 4),
        room_height=None if height is None else round(height, 3),
        depth_below_ground=round(depth, 3),
        elements=tuple(elements),
        air_change=changes,
    )


def _ground(chosen: Selection, rooms: set[str]) -> Ground:
    """The whole floor on the ground and its edge; walls between the rooms count."""
    floors = [made.floor for made in chosen.taken if made.room.id in rooms]
    if not floors:
        return Ground()
    whole = union(floors).buffer(0.3, join_style="mitre").buffer(-0.3, join_style="mitre")
    return Ground(floor_area=round(float(whole.area), 3), exposed_perimeter=round(float(whole.length), 3))
