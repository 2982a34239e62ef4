"""The section of a heated floor: what EN 1264-2 refuses, what should be looked at, and its two curves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from ..errors import FaultList
from ..pipe import Pipe, check_pipe
from ..results import Caution, Finding
from . import characteristic as curve
from . import limit_curves

__all__ = [
    "CAUTIONS",
    "SURFACE_EXCESS",
    "Floor",
    "FloorSection",
    "check_floor",
    "check_surface_limit",
    "floor_characteristic",
    "floor_findings",
    "floor_limit",
    "floor_resistance_above",
    "surface_limit_findings",
    "water_findings",
]

SURFACE_EXCESS = 9.0
"""Permitted excess of the floor surface over the room [K] in occupied areas and bathrooms (EN 1264-2)."""

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


class FloorSection(Protocol):
    """What the formulas need of a floor; inputs that carry these fields can be handed over as they are."""

    @property
    def pipe_spacing(self) -> float: ...
    @property
    def pipe(self) -> Pipe: ...
    @property
    def screed_cover(self) -> float: ...
    @property
    def screed_conductivity(self) -> float: ...
    @property
    def covering_resistance(self) -> float: ...
    @property
    def resistance_below(self) -> float: ...


@dataclass(frozen=True, slots=True)
class Floor:
    """A floor's section [m, W/(m.K), m2.K/W]; see the glossary for the range of each field."""

    pipe_spacing: float
    pipe: Pipe
    screed_cover: float
    resistance_below: float
    screed_conductivity: float = 1.2
    covering_resistance: float = 0.1


def floor_characteristic(floor: FloorSection) -> curve.Characteristic:
    """Characteristic curve of ``floor``; the floor must have passed ``check_floor``."""
    return curve.characteristic(
        floor.pipe_spacing,
        floor.pipe,
        floor.screed_cover,
        floor.screed_conductivity,
        floor.covering_resistance,
    )


def floor_limit(
    floor: FloorSection, heat_transmittance: float, surface_excess: float
) -> limit_curves.LimitCurve:
    """Limit curve of ``floor`` for a permitted ``surface_excess`` [K] over the room."""
    return limit_curves.limit_curve(
        floor.pipe_spacing, floor.screed_cover, floor.screed_conductivity, heat_transmittance, surface_excess
    )


def floor_resistance_above(floor: FloorSection) -> float:
    """R_o of ``floor`` [m2.K/W]."""
    return float(
        curve.resistance_above(floor.screed_cover, floor.screed_conductivity, floor.covering_resistance)
    )


def check_floor(floor: FloorSection, pointer: str, faults: FaultList) -> None:
    """Fault what the method of EN 1264-2 has no value for, not even on the safe side."""
    spacing, diameter = floor.pipe_spacing, curve.embedded_diameter(floor.pipe)
    if spacing < curve.LEAST_SPACING:
        detail = f"EN 1264-2 has no output for pipes closer than {curve.LEAST_SPACING:g} m"
        faults.add(f"{pointer}/pipe_spacing", "outside_method", detail, curve.LEAST_SPACING)
    if spacing <= diameter:
        detail = f"pipes of {diameter:g} m touch at this spacing"
        faults.add(f"{pointer}/pipe_spacing", "pipes_touch", detail, diameter)
    if floor.screed_cover < curve.LEAST_COVER:
        detail = f"EN 1264-2 has no output for less than {curve.LEAST_COVER:g} m of screed above the pipe"
        faults.add(f"{pointer}/screed_cover", "outside_method", detail, curve.LEAST_COVER)
    check_pipe(floor.pipe, f"{pointer}/pipe", faults)


def check_surface_limit(limit: float, room_temperature: float, pointer: str, faults: FaultList) -> None:
    """Fault a surface limit [degC] that does not lie above the room."""
    if limit <= room_temperature:
        detail = f"the permitted surface must be warmer than the room of {room_temperature:g} °C"
        faults.add(f"{pointer}/surface_temperature_limit", "not_above_room", detail, room_temperature)


def floor_findings(floor: FloorSection, temperature_below: float, pointer: str = "") -> Iterator[Finding]:
    """Where the section leaves the standard's range or good building."""
    spacing, cover = floor.pipe_spacing, floor.screed_cover
    diameter = curve.embedded_diameter(floor.pipe)
    if spacing > curve.WIDEST_SPACING:
        yield Finding(
            "spacing_beyond_tables",
            "warning",
            f"{pointer}/pipe_spacing",
            "Wider than the tables: the output of 0.375 m is reduced in proportion, which EN 1264-2 "
            "allows as an approximation. The surface will be noticeably uneven.",
            spacing,
            curve.WIDEST_SPACING,
            "EN 1264-2, spacings above 0.375 m",
        )
    if diameter > curve.GREATEST_DIAMETER:
        yield Finding(
            "diameter_beyond_method",
            "warning",
            f"{pointer}/pipe/{'outside_diameter' if floor.pipe.sheath_diameter is None else "
            "'sheath_diameter'}",
            "Thicker than the method covers: taken as 0.030 m, which understates the output a little.",
            diameter,
            curve.GREATEST_DIAMETER,
            "EN 1264-2, range of the outside diameter 0.008 m to 0.030 m",
        )
    if floor.covering_resistance > curve.GREATEST_COVERING:
        yield Finding(
            "covering_too_insulating",
            "violation",
            f"{pointer}/covering_resistance",
            "Outside the tables. The part above 0.15 m2.K/W is added in series, an estimate that is not the "
            "standard's and runs about 1 % high. A lighter covering is needed for a rated floor.",
            floor.covering_resistance,
            curve.GREATEST_COVERING,
            "EN 1264-3, coverings up to 0.15 m2.K/W; EN 1264-2, Tables A.1 to A.3",
        )
    yield from _cover_findings(floor, pointer)
    yield from _insulation_findings(floor, temperature_below, pointer)
    if cover < 0.030:
        yield Finding(
            "screed_cover_thin",
            "violation",
            f"{pointer}/screed_cover",
            "Less screed above the pipe than any heated screed may have; most binders need 0.040 m to "
            "0.045 m.",
            cover,
            0.030,
            "DIN 18560-2, heated screeds, least cover of the pipes",
        )


def _cover_findings(floor: FloorSection, pointer: str) -> Iterator[Finding]:
    per_conductivity = floor.screed_cover / floor.screed_conductivity
    spacing = min(floor.pipe_spacing, curve.WIDEST_SPACING)
    switch = limit_curves.TABLE_SWITCH
    where = f"{pointer}/screed_cover"
    if per_conductivity < 0.01 - 1e-9:
        yield Finding(
            "limit_table_edge",
            "warning",
            where,
            "Cover over conductivity lies below the limit tables; the limit is taken from their edge and "
            "the true one is lower.",
            per_conductivity,
            0.01,
            "EN 1264-2, Tables A.4 and A.6",
        )
    if per_conductivity > switch + 1e-9 and floor.screed_cover / spacing < 0.173 - 1e-9:
        yield Finding(
            "limit_table_edge",
            "warning",
            where,
            "Cover over spacing lies below the limit tables; the limit is taken from their edge and the "
            "true one is lower.",
            floor.screed_cover / spacing,
            0.173,
            "EN 1264-2, Tables A.5 and A.7",
        )
    if abs(per_conductivity - switch) <= 0.05 * switch:
        thin = limit_curves.limit_from_thickness(
            spacing, switch * floor.screed_conductivity, floor.screed_conductivity
        )
        thick = limit_curves.limit_from_spacing(spacing, switch * floor.screed_conductivity)
        if abs(thin[0] - thick[0]) > 0.5:
            yield Finding(
                "limit_tables_change",
                "note",
                where,
                "Close to where the limit curve changes from Tables A.4 and A.6 to A.5 and A.7, which do "
                f"not meet for this screed: the coefficient jumps from {thin[0]:.1f} to {thick[0]:.1f} W/m2.",
                per_conductivity,
                switch,
                "EN 1264-2, Tables A.4 to A.7",
            )


_LEAST_INSULATION = ((-5.0, 2.00), (0.0, 1.50), (10.0, 1.25), (float("inf"), 0.75))
"""Below this temperature [degC], at least this resistance [m2.K/W]: EN 1264-4, Table 1."""


def _insulation_findings(floor: FloorSection, temperature_below: float, pointer: str) -> Iterator[Finding]:
    least = next(resistance for bound, resistance in _LEAST_INSULATION if temperature_below < bound)
    if floor.resistance_below < least:
        yield Finding(
            "insulation_below_minimum",
            "violation",
            f"{pointer}/resistance_below",
            "The whole resistance below the pipes is less than the insulation alone must have. Energy "
            "rules of the place usually ask for far more.",
            floor.resistance_below,
            least,
            "EN 1264-4, Table 1",
        )


def surface_limit_findings(limit: float, room_temperature: float, pointer: str) -> Iterator[Finding]:
    """What a surface limit [degC] above that of occupied areas means. EN 1264-2."""
    if limit > max(35.0, room_temperature + SURFACE_EXCESS):
        yield Finding(
            "surface_limit_above_standard",
            "violation",
            pointer,
            "Above what the standard permits anywhere, 35 °C in peripheral areas.",
            limit,
            35.0,
            "EN 1264-2, highest surface temperatures",
        )
    elif limit > max(29.0, room_temperature + SURFACE_EXCESS):
        yield Finding(
            "surface_limit_above_occupied",
            "note",
            pointer,
            "Above the limit of occupied areas (29 °C; bathrooms room temperature plus 9 K): for peripheral "
            "areas of at most 1 m along outside walls, where nobody stays.",
            limit,
            max(29.0, room_temperature + SURFACE_EXCESS),
            "EN 1264-2, highest surface temperatures; EN 1264-3, peripheral areas",
        )
    elif limit > 29.0 and room_temperature < 24.0:
        yield Finding(
            "surface_limit_above_29",
            "note",
            pointer,
            "9 K above a warm room is more than 29 °C; people stay on this floor unless it is a bathroom.",
            limit,
            29.0,
            "EN 1264-2, highest surface temperatures",
        )


def water_findings(supply: float, mean_water: float, pointer: str) -> Iterator[Finding]:
    """Water that cement and calcium sulphate screeds do not bear [degC]. EN 1264-4, DIN 18560-2."""
    if max(supply, mean_water) > 55.0:
        hot = mean_water > 55.0
        yield Finding(
            "water_too_hot_for_screed",
            "violation" if hot else "warning",
            pointer,
            "Cement and calcium sulphate screeds bear 55 °C around the pipes, mastic asphalt 45 °C; "
            + ("the mean water temperature is above." if hot else "the supply is above, the mean is not."),
            mean_water if hot else supply,
            55.0,
            "EN 1264-4, temperature at the pipes; DIN 18560-2",
        )
