"""What should be looked at before a floor is built by its section."""

from __future__ import annotations

from collections.abc import Iterator

from ..practice.insulation_requirements import resistance_over_temperature
from ..results import Finding
from ..thermal.characteristic import GREATEST_COVERING
from ..thermal.floor_findings import water_findings
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


def _hot_surface(highest: float, room: float, where: str) -> Iterator[Finding]:
    if highest - room > SURFACE_EXCESS:
        hot = highest - room > _PERIPHERAL_EXCESS
        yield Finding(
            "surface_above_peripheral_limit" if hot else "surface_above_occupied_limit",
            "violation" if hot else "warning",
            where,
            "The warmest spots of the surface pass what the standard permits "
            + ("anywhere." if hot else "where people stay; peripheral areas may have it.")
            + " Colder water, closer pipes or a thicker cover help.",
            highest,
            room + (_PERIPHERAL_EXCESS if hot else SURFACE_EXCESS),
            "EN 1264-2, highest surface temperatures",
        )


def _surface_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    room, highest = inputs.room_temperature, result.highest_surface_temperature
    yield from _hot_surface(highest, room, "/water_temperature")
    spread = highest - result.lowest_surface_temperature
    if spread > _UNEVEN:
        yield Finding(
            "surface_uneven",
            "note",
            "/pipe_spacing",
            "Bare feet feel where the pipes run. Closer pipes or a thicker cover even it out.",
            spread,
            _UNEVEN,
            "common practice, no source",
        )
    if result.lowest_surface_temperature < room and inputs.water_temperature < room:
        yield Finding(
            "surface_below_room",
            "warning",
            "/water_temperature",
            "A floor colder than the room: keep its surface above the dew point of the air, or it gets wet. The "
            "coefficient of a cooled floor is lower, about 7 W/(m2.K).",
            result.lowest_surface_temperature,
            room,
            "ISO 11855-2, floor cooling",
        )


def _build_up_findings(inputs: FloorSectionInputs) -> Iterator[Finding]:
    """Cover, covering and insulation."""
    if inputs.screed_cover < _THIN_COVER:
        yield Finding(
            "screed_cover_thin",
            "violation",
            "/screed_cover",
            "Less screed above the pipe than any heated screed may have; most binders need 0.040 m to 0.045 m.",
            inputs.screed_cover,
            _THIN_COVER,
            "DIN 18560-2, heated screeds, least cover of the pipes",
        )
    if inputs.covering_resistance > GREATEST_COVERING:
        yield Finding(
            "covering_too_insulating",
            "warning",
            "/covering_resistance",
            "Floors are planned for coverings up to 0.15 m2.K/W; beyond it the water must be much warmer for the same "
            "heat. A lighter covering helps.",
            inputs.covering_resistance,
            GREATEST_COVERING,
            "EN 1264-3, coverings up to 0.15 m2.K/W",
        )
    assert inputs.temperature_below is not None
    insulation = sum(layer.thickness / layer.thermal_conductivity for layer in inputs.layers_below)
    least = resistance_over_temperature(inputs.temperature_below)
    if insulation < least and inputs.water_temperature > inputs.room_temperature:
        yield Finding(
            "insulation_below_minimum",
            "violation",
            "/layers_below",
            "All layers below the screed resist less than the insulation alone must have. Energy rules of the place "
            "usually ask for far more.",
            insulation,
            least,
            "EN 1264-4, Table 1",
        )


def _flow_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    if result.downward_heat_loss < 0.0 < result.heat_output:
        yield Finding(
            "heat_from_below",
            "note",
            "/temperature_below",
            "It is so warm below that heat flows up into the floor.",
            result.downward_heat_loss,
            0.0,
            "heat balance of the section",
        )
    if result.downward_heat_loss > 0.25 * result.total_heat_output > 0.0:
        yield Finding(
            "much_heat_downwards",
            "warning",
            "/layers_below",
            "More than a quarter of the water's heat goes down. Insulation helps.",
            result.downward_heat_loss / result.total_heat_output,
            0.25,
            "common practice, no source",
        )


def _edge_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    if result.edge_bay is None:
        return
    lowest = result.edge_bay.lowest_surface_temperature
    if lowest < inputs.room_temperature < inputs.water_temperature:
        yield Finding(
            "edge_below_room",
            "warning",
            "/cold_edge/resistance",
            "The floor is colder than the room at its edge, where moisture may settle. A better edge strip or "
            "wall, or a pipe closer to the edge, helps.",
            lowest,
            inputs.room_temperature,
            "heat balance of the section",
        )


def _time_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    plan, course = inputs.warm_up, result.warm_up
    if plan is None or course is None:
        return
    if plan.source_power is not None and plan.source_power < abs(result.total_heat_output):
        yield Finding(
            "source_too_small",
            "violation",
            "/warm_up/source_power",
            "The source gives less than the section takes in its steady state: the water never gets as warm.",
            plan.source_power,
            abs(result.total_heat_output),
            "heat balance of the section",
        )
    late = [("/warm_up/duration", course.warm_up_time)]
    if course.setback is not None:
        late.append(("/warm_up/setback", course.setback.recovery_time))
    for pointer, reached in late:
        if reached is None and course.steady_heat_output != 0.0:
            yield Finding(
                "output_not_reached",
                "warning",
                pointer,
                "Nine tenths of the steady heat output are not reached within the duration.",
                plan.duration,
                None,
                "course in time of the section",
            )


def _comparison_findings(inputs: FloorSectionInputs, result: FloorSectionResult) -> Iterator[Finding]:
    """The warmest surface of each compared spacing, and compared water that no screed bears."""
    by_spacing = max(len(inputs.compared_water_temperatures), 1)
    for first in range(0, len(result.comparison), by_spacing):
        rows = result.comparison[first : first + by_spacing]
        highest = [row.highest_surface_temperature for row in rows]
        warmest = highest.index(max(highest))
        yield from _hot_surface(
            highest[warmest], inputs.room_temperature, f"/result/comparison/{first + warmest}"
        )
    for index, water in enumerate(inputs.compared_water_temperatures):
        yield from water_findings(water, water, f"/compared_water_temperatures/{index}")
