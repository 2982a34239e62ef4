"""The chain of a curing plan's numbers, to be redone by hand."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Working
from .coverings import MOISTURE_SOURCE
from .curing_records import CuringPlanInputs, CuringPlanResult
from .curing_stages import ProgrammeDay
from .heat_up import HEATING_OFF_DAYS, HeatUpRule, heat_up_rule
from .screed import SCREED_DENSITY

__all__ = ["curing_workings"]

_DIN = "DIN 18560-2"
_PRACTICE = "common practice, no source"


def curing_workings(inputs: CuringPlanInputs, result: CuringPlanResult) -> tuple[Working, ...]:
    rule = heat_up_rule(inputs.rule_set, inputs.binder, inputs.maker_rules)
    return (*_thickness(inputs, result), *_heating(inputs, result, rule), *_readiness(inputs, result, rule))


def _thickness(inputs: CuringPlanInputs, result: CuringPlanResult) -> Iterator[Working]:
    diameter = inputs.pipe_outside_diameter
    yield Working("d", "pipe outside diameter", diameter, "m", "given", "inputs")
    yield Working("h", "screed thickness, pipe included", inputs.thickness, "m", "given", "inputs")
    yield Working("h_c", "screed over the pipe", result.screed_cover, "m", "h - d", "geometry")
    yield Working(
        "h_n",
        "nominal thickness for the load",
        result.nominal_thickness,
        "m",
        "table by binder, class and load; + 0.005 over soft insulation",
        f"{_DIN}, floating screeds",
    )
    yield Working(
        "h_c,min",
        "least screed over the pipe",
        result.minimum_screed_cover,
        "m",
        "max(h_n, cover of heated screeds by class, 0.030)",
        f"{_DIN}, heated screeds",
    )
    yield Working(
        "h_min", "least thickness", result.minimum_thickness, "m", "h_c,min + d", f"{_DIN}, heated screeds"
    )
    yield Working(
        "m",
        "mass",
        result.screed_mass,
        "kg/m2",
        f"h * {SCREED_DENSITY:g} kg/m3",
        "makers' data, upper usual density",
    )


def _heating(inputs: CuringPlanInputs, result: CuringPlanResult, rule: HeatUpRule) -> Iterator[Working]:
    first = [day for day in result.daily_programme if day.stage == "first_heat_up"]
    yield Working(
        "N_c", "curing", float(rule.curing_days), "d", "rule", f"{rule.source}; at least 3 by EN 1264-4"
    )
    yield Working(
        "N_1", "earliest heating", float(rule.earliest_heating_days), "d", "rule, after the pour", rule.source
    )
    yield Working(
        "N_h",
        "start of the first heat-up",
        float(first[0].day),
        "d",
        "max(N_1, planned date - pour)",
        "this plan",
    )
    yield from _first_heat_up(first, result.highest_supply_temperature, rule)
    second = [day for day in result.daily_programme if day.stage == "maturity_heating"]
    if second:
        yield Working(
            "N_3",
            "end of the maturity heating",
            float(second[-1].day + 1),
            "d",
            "max(N_2, 28 (CT) or 14 (CA)) + days of its programme",
            "interface guides of the German heating and screed trades",
        )


def _first_heat_up(first: list[ProgrammeDay], highest: float, rule: HeatUpRule) -> Iterator[Working]:
    start = first[0].supply_temperature
    at_highest = [place for place, day in enumerate(first) if day.supply_temperature == highest]
    reached, last = at_highest[0], at_highest[-1]
    yield Working(
        "T_max",
        "highest supply temperature",
        highest,
        "degC",
        "min(design maximum, limit of the binder)",
        f"{_DIN}, temperature at the pipes",
    )
    yield Working("T_start", "start temperature", start, "degC", "given, or min(25, T_max)", rule.source)
    yield Working(
        "n_up",
        "days below the highest temperature",
        float(reached),
        "d",
        "start days - 1 + ceil((T_max - T_start) / step); step = T_max - T_start where the rule has none",
        rule.source,
    )
    yield Working(
        "n_hold",
        "days at the highest temperature",
        float(last + 1 - reached),
        "d",
        "max(hold days, hold days per metre * h); start days added where T_start = T_max",
        rule.source,
    )
    yield Working(
        "n_down",
        "days of cooling",
        float(len(first) - last - 1),
        "d",
        "ceil((T_max - min(20, T_start)) / cooling step), or 0 where heating goes off",
        rule.source,
    )
    yield Working(
        "N_2",
        "end of the first heat-up",
        float(first[-1].day + 1),
        "d",
        "N_h + n_up + n_hold + n_down",
        "this plan",
    )


def _readiness(inputs: CuringPlanInputs, result: CuringPlanResult, rule: HeatUpRule) -> Iterator[Working]:
    heated = result.daily_programme[-1].day + 1
    yield Working(
        "n_dry",
        "drying",
        float(result.drying_days),
        "d",
        "1 d/mm up to 50 mm (CT) or 40 mm (CA), 2 d/mm beyond, on h",
        "BS 8203 and BS 8204 series; 2 d/mm for cement: common practice, no source",
    )
    off = max(heated, rule.curing_days + result.drying_days - HEATING_OFF_DAYS)
    yield Working(
        "N_off",
        "heating off",
        float(off),
        "d",
        f"max(end of heating, N_c + n_dry - {HEATING_OFF_DAYS})",
        "BS 8203, heating off before the measurement",
    )
    yield Working(
        "N_cov",
        "earliest covering",
        float((result.earliest_covering - inputs.pour_date).days),
        "d",
        f"N_off + {HEATING_OFF_DAYS} + 1 day of measuring",
        _PRACTICE,
    )
    yield Working(
        "u_max",
        "residual moisture",
        result.moisture_limit.carbide_moisture,
        "kg/kg",
        "table by binder and covering",
        MOISTURE_SOURCE,
    )
