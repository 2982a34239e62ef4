"""What a curing plan should be looked at for before the screed is poured."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise

from ..elementwise import ROUND_OFF
from ..results import Finding, Severity
from .coverings import COVERING_NAMES, SURFACE_TEMPERATURE_LIMITS
from .curing_records import CuringPlanInputs
from .curing_stages import Schedule
from .heat_up import STANDARD_START, STEADY_RISE, USUAL_START, HeatUpRule, heat_up_rule
from .screed import (
    BINDER_NAMES,
    BINDER_TEMPERATURE_LIMIT,
    COMPRESSIBILITY_LIMITS,
    LOAD_COLUMNS,
    USUAL_THICKNESS,
    compressibility_limit,
    load_column,
)

__all__ = ["curing_findings"]

_PRACTICE = "common practice, no source"
_DIN = "DIN 18560-2, nominal thickness of floating screeds"
_EN = "EN 1264-4"
_CURING_TEMPERATURE = 5.0
_FREEZING = 0.0
_COLD_MONTHS = (11, 12, 1, 2, 3)
_MAKER_PERIODS: dict[str, Severity] = {"curing_days": "warning", "start_days": "note", "hold_days": "note"}
"""Periods of a maker's sheet, and how serious it is when they are shorter than those of the standard."""


def curing_findings(
    inputs: CuringPlanInputs, rule: HeatUpRule, plan: Schedule, minimum_thickness: float, drying_days: int
) -> tuple[Finding, ...]:
    """All findings, in the order of the work."""
    return (
        *_thickness(inputs, minimum_thickness),
        *_load(inputs),
        *_cold(inputs),
        *_temperatures(inputs, plan),
        *_rise(inputs, plan),
        *_maker(inputs, rule),
        *_dates(inputs, rule, plan, drying_days),
        *_covering(inputs),
    )


def _thickness(inputs: CuringPlanInputs, least: float) -> Iterator[Finding]:
    thickness = inputs.thickness
    low, high = USUAL_THICKNESS
    if thickness < least - ROUND_OFF:
        yield Finding.at(
            "screed_too_thin",
            "/thickness",
            value=thickness - inputs.pipe_outside_diameter,
            limit=least - inputs.pipe_outside_diameter,
            source="DIN 18560-2, heated floating screeds",
            quantity="screed_cover",
            detail=f"For {BINDER_NAMES[inputs.binder]} of class {inputs.flexural_class}",
        )
    if not low - ROUND_OFF <= thickness <= high + ROUND_OFF:
        thick = thickness > high
        yield Finding.at(
            "unusual_thickness",
            "/thickness",
            value=thickness,
            limit=high if thick else low,
            source=_PRACTICE,
            quantity="screed_thickness",
        )
    if inputs.binder == "cement" and inputs.flexural_class == "F7":
        yield Finding.at(
            "class_without_gain",
            "/flexural_class",
            source=_DIN,
        )


def _load(inputs: CuringPlanInputs) -> Iterator[Finding]:
    column = load_column(inputs.imposed_load, inputs.concentrated_load)
    if column is None:
        by_area = inputs.imposed_load > LOAD_COLUMNS[-1][0]
        yield Finding.at(
            "load_outside_table",
            "/imposed_load" if by_area else "/concentrated_load",
            value=inputs.imposed_load if by_area else inputs.concentrated_load,
            limit=LOAD_COLUMNS[-1][0 if by_area else 1],
            quantity="imposed_load" if by_area else "concentrated_load",
            source=_DIN,
        )
        column = len(LOAD_COLUMNS) - 1
    compressibility, limit = inputs.insulation_compressibility, compressibility_limit(column)
    if compressibility > limit + ROUND_OFF:
        yield Finding.at(
            "insulation_too_soft",
            "/insulation_compressibility",
            value=compressibility,
            limit=limit,
            source=_DIN,
            quantity="compressibility",
        )
    elif compressibility > COMPRESSIBILITY_LIMITS[column] + ROUND_OFF:
        yield Finding.at(
            "thickened_for_soft_insulation",
            "/insulation_compressibility",
            value=compressibility,
            limit=COMPRESSIBILITY_LIMITS[column],
            source=_DIN,
            quantity="compressibility",
        )


def _cold(inputs: CuringPlanInputs) -> Iterator[Finding]:
    coldest = inputs.lowest_air_temperature
    if coldest is None:
        if inputs.pour_date.month in _COLD_MONTHS:
            yield Finding.at(
                "pour_in_cold_season",
                "/pour_date",
                source=_PRACTICE,
            )
        return
    if coldest < _CURING_TEMPERATURE:
        yield Finding.at(
            "too_cold_to_cure",
            "/lowest_air_temperature",
            value=coldest,
            limit=_CURING_TEMPERATURE,
            source=f"{_EN} (5 °C, 3 days); frost supply: {_PRACTICE}",
            quantity="lowest_air_temperature",
        )
    if coldest < _FREEZING:
        yield Finding.at(
            "antifreeze_needed",
            "/lowest_air_temperature",
            value=coldest,
            limit=_FREEZING,
            source=_PRACTICE,
            quantity="lowest_air_temperature",
        )


def _temperatures(inputs: CuringPlanInputs, plan: Schedule) -> Iterator[Finding]:
    limit = BINDER_TEMPERATURE_LIMIT[inputs.binder]
    if inputs.maximum_supply_temperature > limit:
        yield Finding.at(
            "supply_above_screed_limit",
            "/maximum_supply_temperature",
            value=inputs.maximum_supply_temperature,
            limit=limit,
            source="DIN 18560-2, temperature at the pipes",
            quantity="maximum_supply_temperature",
        )
    start = plan.daily_programme[0].supply_temperature
    if inputs.start_temperature is not None and not STANDARD_START[0] <= start <= STANDARD_START[1]:
        cold = start < STANDARD_START[0]
        yield Finding.at(
            "start_outside_standard",
            "/start_temperature",
            severity="warning" if start > USUAL_START[1] else "note",
            value=start,
            limit=STANDARD_START[0 if cold else 1],
            source=f"{_EN}, initial heating; 25 to 30 °C: {_PRACTICE}",
            quantity="start_temperature",
        )


def _rise(inputs: CuringPlanInputs, plan: Schedule) -> Iterator[Finding]:
    days = plan.daily_programme
    rise = max(
        [
            after.supply_temperature - before.supply_temperature
            for before, after in pairwise(days)
            if after.day == before.day + 1
        ]
    )
    if rise > STEADY_RISE + ROUND_OFF:
        yield Finding.at(
            "rise_over_more_than_a_day",
            "/maker_rules/temperature_step" if inputs.maker_rules else "/rule_set",
            value=rise,
            limit=STEADY_RISE,
            source=_PRACTICE,
            quantity="temperature_rise",
        )


def _maker(inputs: CuringPlanInputs, rule: HeatUpRule) -> Iterator[Finding]:
    if inputs.maker_rules is None:
        return
    standard = heat_up_rule("standard", inputs.binder, None)
    if rule.earliest_heating_days < standard.earliest_heating_days:
        yield Finding.at(
            "heating_earlier_than_standard",
            "/maker_rules/earliest_heating_days",
            value=float(rule.earliest_heating_days),
            limit=float(standard.earliest_heating_days),
            source=standard.source,
            quantity="earliest_heating_days",
        )
    for name, severity in _MAKER_PERIODS.items():
        value, limit = float(getattr(rule, name)), float(getattr(standard, name))
        if value < limit:
            yield Finding.at(
                "shorter_than_standard",
                f"/maker_rules/{name}",
                severity=severity,
                value=value,
                limit=limit,
                source=standard.source,
                quantity="days",
            )


def _is_forbidden(inputs: CuringPlanInputs, heating: date) -> bool:
    """Whether a day before the plan's first is too early by the maker's sheet, or without one by the standard."""
    standard = heat_up_rule("standard", inputs.binder, None).earliest_heating_days
    return inputs.maker_rules is not None or (heating - inputs.pour_date).days < standard


def _dates(inputs: CuringPlanInputs, rule: HeatUpRule, plan: Schedule, drying_days: int) -> Iterator[Finding]:
    heating = inputs.pour_date + timedelta(rule.earliest_heating_days)
    wishes = (
        ("planned_heating_date", heating, "heating_too_early"),
        ("planned_covering_date", plan.stages[-1].start_date, "covering_too_early"),
    )
    for name, earliest, code in wishes:
        planned = getattr(inputs, name)
        if planned is not None and planned < earliest:
            forbidden = code == "heating_too_early" and _is_forbidden(inputs, planned)
            yield Finding.at(
                code,
                f"/{name}",
                severity="violation" if forbidden else "warning",
                value=float((planned - inputs.pour_date).days),
                limit=float((earliest - inputs.pour_date).days),
                source="the dates of this plan",
                quantity="days_after_pour",
                detail=f"{(earliest - planned).days} days too early, possible from {earliest.isoformat()} on",
            )
    if any(stage.stage == "drying" for stage in plan.stages):
        yield Finding.at(
            "drying_decides",
            "/thickness",
            value=float(drying_days),
            source="BS 8203 and BS 8204 series, drying time by thickness",
            quantity="drying_days",
        )


def _covering(inputs: CuringPlanInputs) -> Iterator[Finding]:
    limit, source = SURFACE_TEMPERATURE_LIMITS[inputs.covering]
    if limit < SURFACE_TEMPERATURE_LIMITS["ceramic"][0]:
        yield Finding.at(
            "covering_limits_surface",
            "/covering",
            limit=limit,
            source=source,
            quantity="surface_temperature_limit",
            detail=f"Covering: {COVERING_NAMES[inputs.covering]}",
        )
