"""What should be looked at before a heated floor is built: range, surface, water, insulation."""

from __future__ import annotations

from collections.abc import Iterator

from ..practice.insulation_requirements import resistance_over_temperature
from ..results import Caution, Document, Finding
from . import characteristic as curve
from . import limit_curves
from .floor import FloorSection
from .limit_curves import SURFACE_EXCESS

__all__ = ["CAUTIONS", "building_findings", "floor_findings", "surface_limit_findings", "water_findings"]

CAUTIONS = (
    Caution(
        "surface_temperature",
        "Floors beyond 29 °C can burn or harm people who stand or lie on them for long, small children "
        "and the sick before others. Fit a limiter that shuts off the supply when mixing control fails.",
    ),
    Caution(
        "local_codes_decide",
        "A calculation after the standard's formulas, no proof for an authority. Local codes and the "
        "licensed practice of the place decide; some countries permit less than 29 °C.",
    ),
)


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
            "warning",
            f"{pointer}/pipe_spacing",
            "Wider than the tables: the output of 0.375 m is reduced in proportion, which EN 1264-2 "
            "allows as an approximation. The surface will be noticeably uneven.",
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
            "warning",
            f"{pointer}/pipe/{field}",
            "Thicker than the method covers: taken as 0.030 m, which understates the output a little.",
            value=diameter,
            limit=curve.GREATEST_DIAMETER,
            source="EN 1264-2, range of the outside diameter 0.008 m to 0.030 m",
            quantity="outside_diameter",
        )
    if floor.covering_resistance > curve.GREATEST_COVERING:
        yield Finding.at(
            "covering_too_insulating",
            "violation",
            f"{pointer}/covering_resistance",
            "Outside the tables. The part above 0.15 m2.K/W is added in series, an estimate that is not the "
            "standard's and runs about 1 % high. A lighter covering is needed for a rated floor.",
            value=floor.covering_resistance,
            limit=curve.GREATEST_COVERING,
            source="EN 1264-3, coverings up to 0.15 m2.K/W; EN 1264-2, Tables A.1 to A.3",
            quantity="covering_resistance",
        )


def _cover_findings(floor: FloorSection, pointer: str) -> Iterator[Finding]:
    if floor.screed_cover < 0.030:
        yield Finding.at(
            "screed_cover_thin",
            "violation",
            f"{pointer}/screed_cover",
            "Less screed above the pipe than any heated screed may have; most binders need 0.040 m to "
            "0.045 m.",
            value=floor.screed_cover,
            limit=0.030,
            source="DIN 18560-2, heated screeds, least cover of the pipes",
            quantity="screed_cover",
        )


def _limit_table_findings(floor: FloorSection, where: str) -> Iterator[Finding]:
    conductivity, switch = floor.screed_conductivity, limit_curves.TABLE_SWITCH
    per_conductivity = floor.screed_cover / conductivity
    spacing = min(floor.pipe_spacing, curve.WIDEST_SPACING)
    edge = 0.01 if per_conductivity < switch + 1e-9 else 0.173
    entered = per_conductivity if edge == 0.01 else floor.screed_cover / spacing
    if entered < edge - 1e-9:
        yield Finding.at(
            "limit_table_edge",
            "warning",
            where,
            "The cover lies below the limit tables; the limit is taken from their edge and the true one is "
            "lower.",
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
            "note",
            where,
            "Close to where the limit curve changes from Tables A.4 and A.6 to A.5 and A.7, which do not "
            f"meet for this screed: the coefficient jumps from {thin:.1f} to {thick:.1f} W/m2.",
            value=per_conductivity,
            limit=switch,
            source="EN 1264-2, Tables A.4 to A.7",
            quantity="limit_table_position",
        )


def _insulation_findings(floor: FloorSection, temperature_below: float, pointer: str) -> Iterator[Finding]:
    least = resistance_over_temperature(temperature_below)
    if floor.resistance_below < least:
        yield Finding.at(
            "insulation_below_minimum",
            "violation",
            f"{pointer}/resistance_below",
            "The whole resistance below the pipes is less than the insulation alone must have. Energy "
            "rules of the place usually ask for far more.",
            value=floor.resistance_below,
            limit=least,
            source="EN 1264-4, Table 1",
            quantity="resistance_below",
        )


def surface_limit_findings(limit: float, room_temperature: float, pointer: str) -> Iterator[Finding]:
    """What a surface limit [degC] above that of occupied areas means. EN 1264-2."""
    if limit > max(35.0, room_temperature + SURFACE_EXCESS):
        yield Finding.at(
            "surface_limit_above_standard",
            "violation",
            pointer,
            "Above what the standard permits anywhere, 35 °C in peripheral areas.",
            value=limit,
            limit=35.0,
            source="EN 1264-2, highest surface temperatures",
            quantity="surface_temperature_limit",
        )
    elif limit > max(29.0, room_temperature + SURFACE_EXCESS):
        yield Finding.at(
            "surface_limit_above_occupied",
            "note",
            pointer,
            "Above the limit of occupied areas (29 °C; bathrooms room temperature plus 9 K): for peripheral "
            "areas of at most 1 m along outside walls, where nobody stays.",
            value=limit,
            limit=max(29.0, room_temperature + SURFACE_EXCESS),
            source="EN 1264-2, highest surface temperatures; EN 1264-3, peripheral areas",
            quantity="surface_temperature_limit",
        )
    elif limit > 29.0 and room_temperature < 24.0:
        yield Finding.at(
            "surface_limit_above_29",
            "note",
            pointer,
            "9 K above a warm room is more than 29 °C; people stay on this floor unless it is a bathroom.",
            value=limit,
            limit=29.0,
            source="EN 1264-2, highest surface temperatures",
            quantity="surface_temperature_limit",
        )


def water_findings(
    supply: float, mean_water: float, pointer: str, where_in: Document = "request"
) -> Iterator[Finding]:
    """Water that cement and calcium sulphate screeds do not bear [degC]. EN 1264-4, DIN 18560-2."""
    if max(supply, mean_water) > 55.0:
        hot = mean_water > 55.0
        yield Finding.at(
            "water_too_hot_for_screed",
            "violation" if hot else "warning",
            pointer,
            "Cement and calcium sulphate screeds bear 55 °C around the pipes, mastic asphalt 45 °C; "
            + ("the mean water temperature is above." if hot else "the supply is above, the mean is not."),
            value=mean_water if hot else supply,
            limit=55.0,
            source="EN 1264-4, temperature at the pipes; DIN 18560-2",
            quantity="water_temperature",
            where_in=where_in,
        )
