"""What should be looked at before the insulation of a heated floor is laid."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..elementwise import ROUND_OFF
from ..practice.insulation_requirements import COLDEST_OUTSIDE, NEAR_GROUNDWATER
from ..practice.screed import COMPRESSIBILITY_LIMITS, LOAD_COLUMNS, compressibility_limit, load_column
from ..results import Finding
from .check_records import InsulationCheckInputs, ScreedSection
from .required_resistance import FloorBelow, RuleRequirement

__all__ = ["check_findings"]


_TABLE = "EN 1264-4, Table 1"
_SCREED = "DIN 18560-2, nominal thickness of floating screeds"
_INSULATOR = 0.1


def check_findings(
    inputs: InsulationCheckInputs, floor: FloorBelow, governing: RuleRequirement, least_cover: float | None
) -> tuple[Finding, ...]:
    """``governing`` is the rule that asks for most, ``least_cover`` [m] that of the screed if there is one."""
    return (
        *_resistance(floor, governing, inputs.board_conductivity),
        *_below(inputs, floor),
        *_layers(inputs),
        *_screed(inputs, least_cover),
    )


def _resistance(floor: FloorBelow, governing: RuleRequirement, board: float | None) -> Iterator[Finding]:
    missing = governing.required_resistance - floor.insulation
    if missing > ROUND_OFF:
        helps = (
            ""
            if board is None
            else f"{math.ceil(missing * board * 1000.0 - 1e-6)} mm more of the given board do"
        )
        yield Finding.at(
            "insulation_below_requirement",
            "/layers",
            value=floor.insulation,
            limit=governing.required_resistance,
            source=governing.source,
            quantity="actual_resistance",
            detail=helps,
        )


def _below(inputs: InsulationCheckInputs, floor: FloorBelow) -> Iterator[Finding]:
    temperature = inputs.temperature_below
    cold = inputs.below in ("outside", "unheated_room") and temperature is not None
    if cold and temperature is not None and temperature < COLDEST_OUTSIDE:
        yield Finding.at(
            "colder_than_table",
            "/temperature_below",
            value=temperature,
            limit=COLDEST_OUTSIDE,
            source=_TABLE,
            quantity="temperature_below",
        )
    if inputs.below != "ground":
        return
    depth = None if inputs.ground is None else inputs.ground.groundwater_depth
    if depth is not None and depth <= NEAR_GROUNDWATER:
        yield Finding.at(
            "groundwater_near",
            "/ground/groundwater_depth",
            value=depth,
            limit=NEAR_GROUNDWATER,
            source="EN 1264-4, insulation over groundwater (known by memory)",
            quantity="groundwater_depth",
        )
    local = inputs.local_limit
    if local is not None and local.u_value is not None and floor.dimension is None:
        yield Finding.at(
            "soil_not_counted",
            "/ground",
            source="ISO 13370:2017, slab-on-ground floors",
        )


def _layers(inputs: InsulationCheckInputs) -> Iterator[Finding]:
    for index, layer in enumerate(inputs.layers):
        conductivity = layer.thermal_conductivity
        if layer.part == "insulation" and conductivity is not None and conductivity > _INSULATOR:
            yield Finding.at(
                "hardly_insulation",
                f"/layers/{index}/part",
                value=conductivity,
                limit=_INSULATOR,
                source="Common practice, no source",
                quantity="thermal_conductivity",
            )


def _screed(inputs: InsulationCheckInputs, least: float | None) -> Iterator[Finding]:
    screed = inputs.screed
    if screed is None or least is None:
        return
    if screed.screed_cover < least - ROUND_OFF:
        yield Finding.at(
            "screed_too_thin",
            "/screed/screed_cover",
            value=screed.screed_cover,
            limit=least,
            source="DIN 18560-2, heated floating screeds",
            quantity="screed_cover",
        )
    column = load_column(screed.imposed_load, screed.concentrated_load)
    if column is None:
        yield _heavy(screed)
    softness = sum(layer.compressibility for layer in inputs.layers)
    yield from _softness(softness, len(LOAD_COLUMNS) - 1 if column is None else column)


def _heavy(screed: ScreedSection) -> Finding:
    by_area = screed.imposed_load > LOAD_COLUMNS[-1][0]
    return Finding.at(
        "load_outside_table",
        "/screed/imposed_load" if by_area else "/screed/concentrated_load",
        value=screed.imposed_load if by_area else screed.concentrated_load,
        limit=LOAD_COLUMNS[-1][0 if by_area else 1],
        quantity="imposed_load" if by_area else "concentrated_load",
        source=_SCREED,
    )


def _softness(softness: float, column: int) -> Iterator[Finding]:
    limit = compressibility_limit(column)
    if softness > limit + ROUND_OFF:
        yield Finding.at(
            "insulation_too_soft",
            "/layers",
            value=softness,
            limit=limit,
            source=_SCREED,
            quantity="compressibility",
        )
    elif softness > COMPRESSIBILITY_LIMITS[column] + ROUND_OFF:
        yield Finding.at(
            "thickened_for_soft_insulation",
            "/layers",
            value=softness,
            limit=COMPRESSIBILITY_LIMITS[column],
            source=_SCREED,
            quantity="compressibility",
        )
