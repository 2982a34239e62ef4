"""What should be looked at before a floor is built by its section."""

from __future__ import annotations

from collections.abc import Iterator

from ..errors import required
from ..practice.insulation_requirements import resistance_over_temperature
from ..results import Document, Finding
from ..thermal.characteristic import GREATEST_COVERING
from ..thermal.floor_findings import cooling_findings, water_findings
from ..thermal.limit_curves import SURFACE_EXCESS
from .contract import FloorSectionInputs, FloorSectionResult

__all__ = ["section_findings"]

_PERIPHERAL_EXCESS = 15.0
"""Highest surface over the room in peripheral areas [K] (EN 1264-2)."""
_UNEVEN = 2.0
"""A surface counts as uneven from this difference on [K] (common practice, no source)."""
_THIN_COVER = 0.030


def section_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    """Surface, water, cover, edge and time."""
    yield from _surface_findings(inputs, result)
    yield from water_findings(inputs.water_temperature, inputs.water_temperature, "/water_temperature")
    yield from _build_up_findings(inputs)
    yield from _flow_findings(inputs, result)
    yield from _edge_findings(inputs, result)
    yield from _time_findings(inputs, result)
    yield from _comparison_findings(inputs, result)


def _hot_surface(
    highest: float, room: float, where: str, where_in: Document = "request"
) -> Iterator[Finding]:
    if highest - room > SURFACE_EXCESS:
        hot = highest - room > _PERIPHERAL_EXCESS
        yield Finding.at(
            "surface_above_peripheral_limit" if hot else "surface_above_occupied_limit",
            where,
            value=highest,
            limit=room + (_PERIPHERAL_EXCESS if hot else SURFACE_EXCESS),
            source="EN 1264-2, highest surface temperatures",
            quantity="highest_surface_temperature",
            where_in=where_in,
        )


def _surface_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    room, highest = inputs.room_temperature, result.highest_surface_temperature
    yield from _hot_surface(highest, room, "/water_temperature")
    spread = highest - result.lowest_surface_temperature
    if spread > _UNEVEN:
        yield Finding.at(
            "surface_uneven",
            "/pipe_spacing",
            value=spread,
            limit=_UNEVEN,
            source="common practice, no source",
            quantity="surface_spread",
        )
    if result.lowest_surface_temperature < room and inputs.water_temperature < room:
        yield Finding.at(
            "surface_below_room",
            "/water_temperature",
            value=result.lowest_surface_temperature,
            limit=room,
            source="ISO 11855-2, floor cooling",
            quantity="lowest_surface_temperature",
        )


def _build_up_findings(inputs: FloorSectionInputs) -> Iterator[Finding]:
    """Cover, covering and insulation."""
    if inputs.screed_cover < _THIN_COVER:
        yield Finding.at(
            "screed_cover_thin",
            "/screed_cover",
            value=inputs.screed_cover,
            limit=_THIN_COVER,
            source="DIN 18560-2, heated screeds, least cover of the pipes",
            quantity="screed_cover",
        )
    if inputs.covering_resistance > GREATEST_COVERING:
        yield Finding.at(
            "covering_too_insulating",
            "/covering_resistance",
            severity="warning",
            value=inputs.covering_resistance,
            limit=GREATEST_COVERING,
            source="EN 1264-3, coverings up to 0.15 m2.K/W",
            quantity="covering_resistance",
        )
    insulation = sum(layer.thickness / layer.thermal_conductivity for layer in inputs.layers_below)
    least = resistance_over_temperature(required(inputs.temperature_below, "the temperature below"))
    if insulation < least and inputs.water_temperature > inputs.room_temperature:
        yield Finding.at(
            "insulation_below_minimum",
            "/layers_below",
            value=insulation,
            limit=least,
            source="EN 1264-4, Table 1",
            quantity="resistance_below",
        )


def _flow_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    if inputs.water_temperature > inputs.room_temperature:
        yield from cooling_findings(result.heat_output, "/layers_below", "heat balance of the section")
    if result.downward_heat_loss < 0.0 < result.heat_output:
        yield Finding.at(
            "heat_from_below",
            "/temperature_below",
            value=result.downward_heat_loss,
            limit=0.0,
            source="heat balance of the section",
            quantity="downward_heat_loss",
        )
    if result.downward_heat_loss > 0.25 * result.total_heat_output > 0.0:
        yield Finding.at(
            "much_heat_downwards",
            "/layers_below",
            value=result.downward_heat_loss / result.total_heat_output,
            limit=0.25,
            source="common practice, no source",
            quantity="downward_share",
        )


def _edge_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    if result.edge_bay is None:
        return
    lowest = result.edge_bay.lowest_surface_temperature
    if lowest < inputs.room_temperature < inputs.water_temperature:
        yield Finding.at(
            "edge_below_room",
            "/cold_edge/resistance",
            value=lowest,
            limit=inputs.room_temperature,
            source="heat balance of the section",
            quantity="edge_temperature",
        )


def _time_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    plan, course = inputs.warm_up, result.warm_up
    if plan is None or course is None:
        return
    if plan.source_power is not None and plan.source_power < abs(result.total_heat_output):
        yield Finding.at(
            "source_too_small",
            "/warm_up/source_power",
            value=plan.source_power,
            limit=abs(result.total_heat_output),
            source="heat balance of the section",
            quantity="source_power",
        )
    late = [("/warm_up/duration", course.warm_up_time)]
    if course.setback is not None:
        late.append(("/warm_up/setback", course.setback.recovery_time))
    for pointer, reached in late:
        if reached is None and course.steady_heat_output != 0.0:
            yield Finding.at(
                "output_not_reached",
                pointer,
                value=plan.duration,
                source="course in time of the section",
                quantity="warm_up_duration",
            )


def _comparison_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    """The warmest surface of each compared spacing, and compared water that no screed bears."""
    by_spacing = max(len(inputs.compared_water_temperatures), 1)
    for first in range(0, len(result.comparison), by_spacing):
        rows = result.comparison[first : first + by_spacing]
        highest = [row.highest_surface_temperature for row in rows]
        warmest = highest.index(max(highest))
        yield from _hot_surface(
            highest[warmest], inputs.room_temperature, f"/comparison/{first + warmest}", "answer"
        )
    for index, water in enumerate(inputs.compared_water_temperatures):
        yield from water_findings(water, water, f"/compared_water_temperatures/{index}")
