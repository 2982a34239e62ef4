"""What a curing plan should be looked at for before the screed is poured."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise
from typing import TYPE_CHECKING

from ..results import Finding
from .coverings import COVERING_NAMES, SURFACE_TEMPERATURE_LIMITS
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

if TYPE_CHECKING:
    from ..curing_plan import CuringPlanInputs

__all__ = ["curing_findings"]

_PRACTICE = "common practice, no source"
_DIN = "DIN 18560-2, nominal thickness of floating screeds"
_EN = "EN 1264-4"
_CURING_TEMPERATURE = 5.0
_FREEZING = 0.0
_COLD_MONTHS = (11, 12, 1, 2, 3)
_ROUND_OFF = 1e-9


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
    if thickness < least - _ROUND_OFF:
        yield Finding.at(
            "screed_too_thin",
            "violation",
            "/thickness",
            "Too little screed lies over the pipe for its load, so it can crack. Make the screed thicker.",
            value=thickness - inputs.pipe_outside_diameter,
            limit=least - inputs.pipe_outside_diameter,
            source="DIN 18560-2, heated floating screeds",
            quantity="screed_cover",
            detail=f"For {BINDER_NAMES[inputs.binder]} of class {inputs.flexural_class}",
        )
    if not low - _ROUND_OFF <= thickness <= high + _ROUND_OFF:
        thick = thickness > high
        effect = (
            "reacts more slowly, weighs more and dries longer" if thick else "leaves little over the pipe"
        )
        yield Finding.at(
            "unusual_thickness",
            "note",
            "/thickness",
            f"Screed over pipe is usually {low * 1000.0:.0f} to {high * 1000.0:.0f} mm thick; this one {effect}. "
            "Check the thickness.",
            value=thickness,
            limit=high if thick else low,
            source=_PRACTICE,
            quantity="screed_thickness",
        )
    if inputs.binder == "cement" and inputs.flexural_class == "F7":
        yield Finding.at(
            "class_without_gain",
            "note",
            "/flexural_class",
            "Cement screed above class F5 may not be laid thinner, as more cement shrinks and curls more. Class F5 "
            "is used.",
            source=_DIN,
        )


def _load(inputs: CuringPlanInputs) -> Iterator[Finding]:
    column = load_column(inputs.imposed_load, inputs.concentrated_load)
    if column is None:
        by_area = inputs.imposed_load > LOAD_COLUMNS[-1][0]
        yield Finding.at(
            "load_outside_table",
            "violation",
            "/imposed_load" if by_area else "/concentrated_load",
            "The load is heavier than the tables go, so the thickness shown is too small. Let a structural engineer "
            "size this screed.",
            value=inputs.imposed_load if by_area else inputs.concentrated_load,
            limit=LOAD_COLUMNS[-1][0 if by_area else 1],
            quantity="imposed_load" if by_area else "concentrated_load",
            source=_DIN,
        )
        column = len(LOAD_COLUMNS) - 1
    compressibility, limit = inputs.insulation_compressibility, compressibility_limit(column)
    if compressibility > limit + _ROUND_OFF:
        yield Finding.at(
            "insulation_too_soft",
            "violation",
            "/insulation_compressibility",
            "The insulation gives way too far under this load, so the screed can crack. Choose firmer insulation.",
            value=compressibility,
            limit=limit,
            source=_DIN,
            quantity="compressibility",
        )
    elif compressibility > COMPRESSIBILITY_LIMITS[column] + _ROUND_OFF:
        yield Finding.at(
            "thickened_for_soft_insulation",
            "note",
            "/insulation_compressibility",
            "The insulation is soft, so the screed needs 5 mm more. They are counted.",
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
                "note",
                "/pour_date",
                "The pour is planned for the northern winter, and a screed that freezes is lost. Close the building "
                "and keep it at 5 °C or more.",
                source=_PRACTICE,
            )
        return
    if coldest < _CURING_TEMPERATURE:
        yield Finding.at(
            "too_cold_to_cure",
            "violation",
            "/lowest_air_temperature",
            "It is too cold for the screed to cure. Heat the building by other means; through the floor use 15 to 20 "
            "°C supply at most, only against frost.",
            value=coldest,
            limit=_CURING_TEMPERATURE,
            source=f"{_EN} (5 °C, 3 days); frost supply: {_PRACTICE}",
            quantity="lowest_air_temperature",
        )
    if coldest < _FREEZING:
        yield Finding.at(
            "antifreeze_needed",
            "warning",
            "/lowest_air_temperature",
            "Filled loops can freeze and burst. Use antifreeze for this temperature, keep the building warm, or blow "
            "the loops out.",
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
            "violation",
            "/maximum_supply_temperature",
            "The supply is hotter than the screed can bear, so the programme stops at the screed's limit. Lower the "
            "supply of the design to that limit.",
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
            "warning" if start > USUAL_START[1] else "note",
            "/start_temperature",
            "The first heating does not start at the standard's 20 to 25 °C, so the screed may crack. Many mixing "
            "sets cannot go below 25 to 30 °C; never start higher.",
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
    if rise > STEADY_RISE + _ROUND_OFF:
        yield Finding.at(
            "rise_over_more_than_a_day",
            "note",
            "/maker_rules/temperature_step" if inputs.maker_rules else "/rule_set",
            "The water gets warmer in steps too high for one day. Raise it by about 0.5 K an hour, and count the hot "
            "days from when it is reached.",
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
            "violation",
            "/maker_rules/earliest_heating_days",
            "Heating starts earlier than the standard allows, so the screed may crack. Do so only with the maker's "
            "written word for this screed, never to dry it.",
            value=float(rule.earliest_heating_days),
            limit=float(standard.earliest_heating_days),
            source=standard.source,
            quantity="earliest_heating_days",
        )
    for name, severity in (("curing_days", "warning"), ("start_days", "note"), ("hold_days", "note")):
        value, limit = float(getattr(rule, name)), float(getattr(standard, name))
        if value < limit:
            yield Finding.at(
                "shorter_than_standard",
                "warning" if severity == "warning" else "note",
                f"/maker_rules/{name}",
                "The maker's periods are shorter than those of the standard. Keep the maker's sheet with the records.",
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
        (
            "planned_heating_date",
            heating,
            "heating_too_early",
            "The heating is planned before the screed may be heated, so it can crack. Wait: heat does not shorten the "
            "curing.",
        ),
        (
            "planned_covering_date",
            plan.stages[-1].start_date,
            "covering_too_early",
            "The covering is planned before the screed can be dry, so it can lift or rot. Wait, and measure the "
            "moisture first.",
        ),
    )
    for name, earliest, code, message in wishes:
        planned = getattr(inputs, name)
        if planned is not None and planned < earliest:
            yield Finding.at(
                code,
                "violation" if code == "heating_too_early" and _is_forbidden(inputs, planned) else "warning",
                f"/{name}",
                message,
                value=float((planned - inputs.pour_date).days),
                limit=float((earliest - inputs.pour_date).days),
                source="the dates of this plan",
                quantity="days_after_pour",
                detail=f"{(earliest - planned).days} days too early, possible from {earliest.isoformat()} on",
            )
    if any(stage.stage == "drying" for stage in plan.stages):
        yield Finding.at(
            "drying_decides",
            "note",
            "/thickness",
            "The covering waits for the screed to dry after curing, not for the heating. Measure the moisture before "
            "you cover it.",
            value=float(drying_days),
            source="BS 8203 and BS 8204 series, drying time by thickness",
            quantity="drying_days",
        )


def _covering(inputs: CuringPlanInputs) -> Iterator[Finding]:
    limit, source = SURFACE_TEMPERATURE_LIMITS[inputs.covering]
    if limit < SURFACE_TEMPERATURE_LIMITS["ceramic"][0]:
        yield Finding.at(
            "covering_limits_surface",
            "note",
            "/covering",
            "The covering bears less heat than the floor may give. Keep the surface to its limit, also at the first "
            "heating after laying.",
            limit=limit,
            source=source,
            quantity="surface_temperature_limit",
            detail=f"Covering: {COVERING_NAMES[inputs.covering]}",
        )
