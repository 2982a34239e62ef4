"""What should be looked at before a heated floor is built: range, surface, water, insulation."""

from __future__ import annotations

from collections.abc import Iterator

from ..elementwise import ROUND_OFF
from ..practice.insulation_requirements import resistance_over_temperature
from ..results import Document, Finding
from . import characteristic as curve
from . import limit_curves
from .floor import FloorSection
from .limit_curves import SURFACE_EXCESS

__all__ = [
    "building_findings",
    "cooling_findings",
    "floor_findings",
    "return_findings",
    "surface_limit_findings",
    "water_findings",
]

LEAST_RETURN_EXCESS = 0.5
"""A return this near to the room [K] or nearer heats nothing any more (common practice, no source)."""


def floor_findings(floor: FloorSection, temperature_below: float, pointer: str = "") -> Iterator[Finding]:
    """Where the section leaves the standard's range or good building; ``pointer`` leads to its fields."""
    yield from _range_findings(floor, pointer)
    yield from _limit_table_findings(floor, f"{pointer}/screed_cover")
    yield from building_findings(floor, temperature_below, pointer)


def building_findings(floor: FloorSection, temperature_below: float, pointer: str = "") -> Iterator[Finding]:
    """Where the section leaves good building, whichever method its output is computed with."""
    yield from _cover_findings(floor, pointer)
    yield from _insulation_findings(floor, temperature_below, pointer)


def _range_findings(floor: FloorSection, pointer: str) -> Iterator[Finding]:
    if floor.pipe_spacing > curve.WIDEST_SPACING:
        yield Finding.at(
            "spacing_beyond_tables",
            f"{pointer}/pipe_spacing",
            value=floor.pipe_spacing,
            limit=curve.WIDEST_SPACING,
            source="EN 1264-2, spacings above 0.375 m",
            quantity="pipe_spacing",
        )
    diameter = curve.embedded_diameter(floor.pipe)
    if diameter > curve.GREATEST_DIAMETER:
        field = "outside_diameter" if floor.pipe.sheath_diameter is None else "sheath_diameter"
        yield Finding.at(
            "diameter_beyond_method",
            f"{pointer}/pipe/{field}",
            value=diameter,
            limit=curve.GREATEST_DIAMETER,
            source="EN 1264-2, range of the outside diameter 0.008 m to 0.030 m",
            quantity="outside_diameter",
        )
    if floor.covering_resistance > curve.GREATEST_COVERING:
        yield Finding.at(
            "covering_too_insulating",
            f"{pointer}/covering_resistance",
            severity="violation",
            value=floor.covering_resistance,
            limit=curve.GREATEST_COVERING,
            source="EN 1264-3, coverings up to 0.15 m2.K/W; EN 1264-2, Tables A.1 to A.3",
            quantity="covering_resistance",
        )


def _cover_findings(floor: FloorSection, pointer: str) -> Iterator[Finding]:
    if floor.screed_cover < 0.030:
        yield Finding.at(
            "screed_cover_thin",
            f"{pointer}/screed_cover",
            value=floor.screed_cover,
            limit=0.030,
            source="DIN 18560-2, heated screeds, least cover of the pipes",
            quantity="screed_cover",
        )


def _limit_table_findings(floor: FloorSection, where: str) -> Iterator[Finding]:
    conductivity, switch = floor.screed_conductivity, limit_curves.TABLE_SWITCH
    per_conductivity = floor.screed_cover / conductivity
    spacing = min(floor.pipe_spacing, curve.WIDEST_SPACING)
    edge = 0.01 if per_conductivity < switch + ROUND_OFF else 0.173
    entered = per_conductivity if edge == 0.01 else floor.screed_cover / spacing
    if entered < edge - ROUND_OFF:
        yield Finding.at(
            "limit_table_edge",
            where,
            value=entered,
            limit=edge,
            source="EN 1264-2, Tables A.4 and A.6 by cover over conductivity, A.5 and A.7 by cover over spacing",
            quantity="limit_table_position",
        )
    if abs(per_conductivity - switch) > 0.05 * switch:
        return
    thin, _ = limit_curves.limit_from_thickness(spacing, switch * conductivity, conductivity)
    thick, _ = limit_curves.limit_from_spacing(spacing, switch * conductivity)
    if abs(thin - thick) > 0.5:
        yield Finding.at(
            "limit_tables_change",
            where,
            value=per_conductivity,
            source="EN 1264-2, Tables A.4 to A.7",
            quantity="limit_table_position",
            detail=f"The coefficient is {thin:.1f} by one table and {thick:.1f} W/m2 by the other",
        )


def _insulation_findings(floor: FloorSection, temperature_below: float, pointer: str) -> Iterator[Finding]:
    least = resistance_over_temperature(temperature_below)
    if floor.resistance_below < least:
        yield Finding.at(
            "insulation_below_minimum",
            f"{pointer}/resistance_below",
            value=floor.resistance_below,
            limit=least,
            source="EN 1264-4, Table 1",
            quantity="resistance_below",
        )


def cooling_findings(heat_output: float, pointer: str, source: str) -> Iterator[Finding]:
    """A floor with water warmer than its room that takes heat from it [W/m2]; ``pointer`` leads to its insulation."""
    if heat_output < 0.0:
        yield Finding.at(
            "floor_cools_room",
            pointer,
            value=heat_output,
            limit=0.0,
            source=source,
            quantity="heat_output",
        )


def surface_limit_findings(limit: float, room_temperature: float, pointer: str) -> Iterator[Finding]:
    """What a surface limit [degC] above that of occupied areas means. EN 1264-2."""
    if limit > max(35.0, room_temperature + SURFACE_EXCESS):
        yield Finding.at(
            "surface_limit_above_standard",
            pointer,
            value=limit,
            limit=35.0,
            source="EN 1264-2, highest surface temperatures",
            quantity="surface_temperature_limit",
        )
    elif limit > max(29.0, room_temperature + SURFACE_EXCESS):
        yield Finding.at(
            "surface_limit_above_occupied",
            pointer,
            value=limit,
            limit=max(29.0, room_temperature + SURFACE_EXCESS),
            source="EN 1264-2, highest surface temperatures; EN 1264-3, peripheral areas",
            quantity="surface_temperature_limit",
        )
    elif limit > 29.0 and room_temperature < 24.0:
        yield Finding.at(
            "surface_limit_above_29",
            pointer,
            value=limit,
            limit=29.0,
            source="EN 1264-2, highest surface temperatures",
            quantity="surface_temperature_limit",
        )


def return_findings(return_temperature: float, room_temperature: float, pointer: str) -> Iterator[Finding]:
    """A return hardly warmer than its room [degC]; ``pointer`` leads to what sets it."""
    if return_temperature - room_temperature <= LEAST_RETURN_EXCESS + ROUND_OFF:
        yield Finding.at(
            "return_close_to_room",
            pointer,
            value=return_temperature,
            limit=room_temperature + LEAST_RETURN_EXCESS,
            source="common practice, no source",
            quantity="return_temperature",
        )


def water_findings(
    supply: float, mean_water: float, pointer: str, where_in: Document = "request"
) -> Iterator[Finding]:
    """Water that cement and calcium sulphate screeds do not bear [degC]. EN 1264-4, DIN 18560-2."""
    if max(supply, mean_water) > 55.0:
        hot = mean_water > 55.0
        yield Finding.at(
            "water_too_hot_for_screed",
            pointer,
            severity="violation" if hot else "warning",
            value=mean_water if hot else supply,
            limit=55.0,
            source="EN 1264-4, temperature at the pipes; DIN 18560-2",
            quantity="water_temperature",
            where_in=where_in,
        )
