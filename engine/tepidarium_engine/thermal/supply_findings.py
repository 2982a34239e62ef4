"""Floors on one supply: what makes a request impossible, and what should be looked at in the answer."""

from __future__ import annotations

from collections.abc import Iterator

from ..errors import FaultList
from ..results import Finding
from . import dimensioning
from .floor import check_section, check_spacing, check_surface_limit
from .floor_findings import floor_findings, return_findings, surface_limit_findings, water_findings
from .heated_room import HeatedRoom, Need, Operation, room_loss
from .poor_insulation import section_gives_less
from .spacing_choice import Candidate, governing_room, other_room, spacings
from .supply_records import OtherRoom, SupplyTemperatureInputs

__all__ = ["check_relations", "supply_findings"]

_BATHROOM = 24.0
"""Standard temperature of a bathroom [degC]; EN 1264-3 leaves bathrooms out of the choice of governing
room."""
_OWN_FLOOR = (
    "pipe_spacing",
    "pipe",
    "screed_cover",
    "screed_conductivity",
    "covering_resistance",
    "resistance_below",
    "temperature_below",
)


def check_relations(inputs: SupplyTemperatureInputs) -> None:
    """Raise ``InputError`` with every relation between fields that cannot be computed."""
    faults = FaultList()
    if inputs.pipe_spacing is not None:
        check_spacing(inputs.pipe_spacing, inputs.pipe, "/pipe_spacing", faults)
    for index, spacing in enumerate(inputs.pipe_spacings or ()):
        check_spacing(spacing, inputs.pipe, f"/pipe_spacings/{index}", faults)
    check_section(inputs.pipe, inputs.screed_cover, "", faults)
    asked = spacings(inputs)
    if not asked:
        faults.add("/pipe_spacing", "missing", "one of pipe_spacing and pipe_spacings is needed")
    governing = governing_room(inputs, asked[0] if asked else dimensioning.USUAL_SPACING)
    _check_room(governing, "", faults)
    seen: set[str] = set()
    for index, other in enumerate(inputs.other_rooms):
        _check_other(other, governing, f"/other_rooms/{index}", faults)
        if other.id in seen:
            detail = f"{other.id!r} stands for another room already"
            faults.add(f"/other_rooms/{index}/id", "duplicate", detail)
        seen.add(other.id)
    faults.raise_if_any()


def _check_other(other: OtherRoom, governing: HeatedRoom, pointer: str, faults: FaultList) -> None:
    room = other_room(other, governing)
    if other.pipe is not None or other.screed_cover is not None:
        check_section(room.floor.pipe, room.floor.screed_cover, pointer, faults)
    if other.pipe is not None or other.pipe_spacing is not None:
        check_spacing(room.floor.pipe_spacing, room.floor.pipe, f"{pointer}/pipe_spacing", faults)
    _check_room(room, pointer, faults)


def _check_room(room: HeatedRoom, pointer: str, faults: FaultList) -> None:
    check_surface_limit(room.surface_temperature_limit, room.room_temperature, pointer, faults)
    total = room.required_heat_output + room_loss(room, room.required_heat_output)
    if total <= 0.0:
        detail = "so much heat comes from below that the water would have to cool; no supply fits"
        faults.add(f"{pointer}/temperature_below", "heated_from_below", detail)


def supply_findings(
    inputs: SupplyTemperatureInputs, chosen: Candidate, operations: tuple[Operation, ...]
) -> tuple[Finding, ...]:
    """Findings of the governing room at the chosen spacing, then those of the other rooms in order."""
    room, need = chosen.room, chosen.need
    found = [
        *floor_findings(room.floor, room.temperature_below),
        *surface_limit_findings(
            room.surface_temperature_limit, room.room_temperature, "/surface_temperature_limit"
        ),
        *water_findings(
            chosen.supply_temperature,
            room.room_temperature + need.mean_excess_temperature,
            "/required_heat_output",
        ),
        *_limit_findings(room, need, inputs.area, "/required_heat_output"),
        *section_gives_less(room, need.mean_excess_temperature, "/resistance_below"),
        *return_findings(
            chosen.supply_temperature - inputs.temperature_drop, room.room_temperature, "/temperature_drop"
        ),
        *_governing_findings(inputs),
    ]
    for_all = _supply_for_all(inputs, chosen)
    for index, (other, (each, each_need), operation) in enumerate(
        zip(inputs.other_rooms, chosen.others, operations, strict=True)
    ):
        pointer = f"/other_rooms/{index}"
        if any(getattr(other, name) is not None for name in _OWN_FLOOR):
            found += floor_findings(each.floor, each.temperature_below, pointer)
        found += surface_limit_findings(
            each.surface_temperature_limit, each.room_temperature, f"{pointer}/surface_temperature_limit"
        )
        found += _limit_findings(each, each_need, other.area, f"{pointer}/required_heat_output")
        if operation.reached:
            found += return_findings(
                operation.return_temperature, each.room_temperature, f"{pointer}/required_heat_output"
            )
        found += _reach_findings(each, operation, for_all, f"{pointer}/required_heat_output")
        if operation.reached:
            own = "" if other.resistance_below is None else pointer
            found += section_gives_less(each, operation.mean_excess_temperature, f"{own}/resistance_below")
    return tuple(found)


def _limit_findings(room: HeatedRoom, need: Need, area: float | None, where: str) -> Iterator[Finding]:
    if need.within_limit:
        return
    missing = room.required_heat_output - need.limit_heat_output
    in_all = "" if area is None else f", {missing * area:.0f} W in all"
    yield Finding.at(
        "surface_limit_exceeded",
        where,
        value=room.required_heat_output,
        limit=need.limit_heat_output,
        source="EN 1264-2, limit curves; EN 1264-3, additional heating",
        quantity="required_heat_output",
        detail=f"{missing:.1f} W/m2 are missing{in_all}",
    )


def _governing_findings(inputs: SupplyTemperatureInputs) -> Iterator[Finding]:
    if inputs.temperature_drop > dimensioning.GREATEST_DROP:
        yield Finding.at(
            "drop_above_standard",
            "/temperature_drop",
            value=inputs.temperature_drop,
            limit=dimensioning.GREATEST_DROP,
            source="EN 1264-3, dimensioning of the governing room",
            quantity="temperature_drop",
        )
    if inputs.covering_resistance < 0.10 and inputs.room_temperature < _BATHROOM:
        yield Finding.at(
            "covering_below_design_value",
            "/covering_resistance",
            value=inputs.covering_resistance,
            limit=0.10,
            source="EN 1264-3, uniform covering for the layout",
            quantity="covering_resistance",
        )
    for index, other in enumerate(inputs.other_rooms):
        if other.required_heat_output > inputs.required_heat_output and _counts(other, inputs):
            yield Finding.at(
                "not_the_governing_room",
                f"/other_rooms/{index}/required_heat_output",
                value=other.required_heat_output,
                limit=inputs.required_heat_output,
                source="EN 1264-3, choice of the governing room",
                quantity="required_heat_output",
            )


def _counts(other: OtherRoom, inputs: SupplyTemperatureInputs) -> bool:
    """Whether a room counts when the governing room is sought: bathrooms do not, EN 1264-3."""
    if other.counts_for_supply is not None:
        return other.counts_for_supply
    room = inputs.room_temperature if other.room_temperature is None else other.room_temperature
    return room < _BATHROOM


def _supply_for_all(inputs: SupplyTemperatureInputs, chosen: Candidate) -> float:
    """The lowest supply [degC] at which all rooms get their heat with the governing room's drop."""
    needed = [
        room.room_temperature
        + dimensioning.supply_excess(need.mean_excess_temperature, inputs.temperature_drop)
        for room, need in chosen.others
    ]
    return max([chosen.supply_temperature, *needed])


def _reach_findings(
    room: HeatedRoom, operation: Operation, supply_for_all: float, where: str
) -> Iterator[Finding]:
    if operation.reached:
        return
    yield Finding.at(
        "demand_not_reached",
        where,
        value=operation.heat_output,
        limit=room.required_heat_output,
        source="EN 1264-3, other rooms on the same supply",
        quantity="heat_output",
        detail=f"The water cools by {operation.temperature_drop:.1f} K; "
        f"a supply of {supply_for_all:.1f} °C would serve all rooms",
    )
