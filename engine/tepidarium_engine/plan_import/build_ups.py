"""The floors of the rooms as build-ups: what lies below them and, as far as the file says it, their insulation."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..building.records import BuildUp
from ..envelope.records import Construction
from ..practice.insulation_requirements import LEAST_RESISTANCE, resistance_over_cold_air
from .drawn_plan import DrawnPlan, Face
from .records import PlanImportsInputs
from .report import Report
from .selection import Selection

__all__ = ["RoomFloors"]

_GROUND = 10.0
"""Of the ground and of what is not known, where the file's place is not known either [degC]; common practice, no
source."""
_AIR_FILMS = 0.21
"""Surface resistances of a floor [m2.K/W] (ISO 6946:2017, 6.8: downwards 0.17, outside 0.04)."""
_NAMES = {
    "heated_room": "Floor over a heated room",
    "unheated_room": "Floor over an unheated room",
    "ground": "Floor on the ground",
    "outside": "Floor over outside air",
}


@dataclass(frozen=True)
class RoomFloors:
    """Build-ups, and the id of each room's."""

    build_ups: tuple[BuildUp, ...]
    of_room: Mapping[str, str]

    @classmethod
    def of(cls, plan: DrawnPlan, chosen: Selection, inputs: PlanImportsInputs, report: Report) -> RoomFloors:
        """One build-up for each kind of space below; the worst insulated floor of the file decides."""
        taken = {made.room.id: made.room for made in chosen.taken}
        heated = {room.id for room in plan.rooms if room.heated}
        lowest = chosen.storeys_found[0].id if chosen.storeys_found else ""
        by_kind: dict[str, list[tuple[str, Face | None]]] = {}
        for made in chosen.taken:
            face = _floor_of(plan, made.room.id)
            unknown = "ground" if made.room.storey == lowest else "heated_room"
            kind = unknown if face is None else _kind(face, heated)
            by_kind.setdefault(kind, []).append((made.room.id, face))
        build_ups = []
        for index, (kind, rooms) in enumerate(sorted(by_kind.items())):
            where = f"/build_ups/{index}"
            if any(face is None for _, face in rooms):
                report.guess(where, f"what lies below: {_NAMES[kind].lower()}; the file does not say it")
            temperature = _temperature_below(
                kind, [taken[name].temperature or 20.0 for name, _ in rooms], inputs
            )
            report.guess(f"{where}/temperature_below", f"{temperature:.1f} °C below: {_NAMES[kind].lower()}")
            resistance = _resistance(
                plan, kind, [face for _, face in rooms], inputs=inputs, report=report, where=where
            )
            report.guess(f"{where}/covering_resistance", "ceramic or any covering of up to 0.10 m2.K/W")
            build_ups.append(BuildUp(kind, resistance, temperature, name=_NAMES[kind]))
        return cls(tuple(build_ups), {name: kind for kind, rooms in by_kind.items() for name, _ in rooms})


def _floor_of(plan: DrawnPlan, room: str) -> Face | None:
    floors = [face for face in plan.faces or () if face.room == room and face.surface == "floor"]
    return max(floors, key=lambda face: face.area, default=None)


def _kind(face: Face, heated: set[str]) -> str:
    if face.beyond == "room":
        return "heated_room" if face.neighbour in heated else "unheated_room"
    return {"outside": "outside", "ground": "ground"}.get(face.beyond, "heated_room")


def _temperature_below(kind: str, rooms: list[float], inputs: PlanImportsInputs) -> float:
    """A level that the file does not have [degC]."""
    outside, mean = inputs.external_temperature, inputs.annual_mean_temperature
    match kind:
        case "heated_room":
            return min(rooms)
        case "outside":
            return _GROUND if outside is None else outside
        case "ground":
            return _GROUND if mean is None else mean
    return _GROUND if outside is None else (outside + min(rooms)) / 2.0


def _resistance(
    plan: DrawnPlan,
    kind: str,
    floors: list[Face | None],
    *,
    inputs: PlanImportsInputs,
    report: Report,
    where: str,
) -> float:
    """Below the pipes [m2.K/W]: that of the file's floor, or the least that EN 1264-4 asks for."""
    if kind == "outside":
        coldest = -15.0 if inputs.external_temperature is None else inputs.external_temperature
        least = resistance_over_cold_air(coldest)
    else:
        least = LEAST_RESISTANCE[kind]
    names = {face.construction for face in floors if face is not None}
    known = [(plan.constructions[name], _layers_resistance(plan.constructions[name][0])) for name in names]
    values = [(value, *found) for found, value in known if value is not None]
    if not values or len(values) < len(names) or None in floors:
        report.guess(
            f"{where}/resistance_below", f"{least:.2f} m2.K/W: the least that EN 1264-4 asks for there"
        )
        return least
    value, construction, source = min(values, key=lambda entry: entry[0])
    if value >= least:
        name = construction.name or construction.id
        report.took(f"{where}/resistance_below", f"{value:.2f} m2.K/W: the layers of {name}", source)
        return min(round(value, 3), 50.0)
    report.find(
        "floor_insulation_low",
        f"/request{where}/resistance_below",
        construction.name or construction.id,
        value=value,
        limit=least,
        quantity="resistance_below",
    )
    report.guess(f"{where}/resistance_below", f"{least:.2f} m2.K/W: the least that EN 1264-4 asks for there")
    return least


def _layers_resistance(construction: Construction) -> float | None:
    if construction.u_value is not None:
        return max(0.0, 1.0 / construction.u_value - _AIR_FILMS)
    if not construction.layers:
        return None
    return sum(
        layer.thermal_resistance
        if layer.thermal_resistance is not None
        else (layer.thickness or 0.0) / (layer.thermal_conductivity or 1.0)
        for layer in construction.layers
    )
