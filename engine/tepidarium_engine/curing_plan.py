"""Curing plan of a heated screed: thickness, dates, first heat-up, drying and readiness for the covering.

Sources: EN 1264-4 (curing, initial heating), DIN 18560-2 (thickness, temperature at the pipes), EN 13813
(binders and classes), BS 8203 and the interface guides of the covering trades (moisture). For cement and
calcium sulphate screeds over pipe fixed on insulation; mastic asphalt is not covered.
"""

from __future__ import annotations

import datetime

from .cautions import curing_cautions
from .checking import check
from .errors import FaultList
from .gathering import gathered
from .practice.coverings import (
    SURFACE_TEMPERATURE_LIMITS,
    MoistureLimit,
    moisture_limit,
    moisture_test_points,
)
from .practice.curing_findings import curing_findings
from .practice.curing_records import CuringPlanInputs, CuringPlanResult
from .practice.curing_stages import CuringStage, ProgrammeDay, Schedule, schedule
from .practice.curing_workings import curing_workings
from .practice.heat_up import STANDARD_START, HeatUpRule, MakerRules, heat_up_rule
from .practice.screed import (
    BINDER_TEMPERATURE_LIMIT,
    FILM_LAP,
    FILM_THICKNESS,
    LOAD_COLUMNS,
    SCREED_DENSITY,
    drying_days,
    least_cover,
    load_column,
    nominal_thickness,
)
from .results import Working

__all__ = [
    "CuringPlanInputs",
    "CuringPlanResult",
    "CuringStage",
    "MakerRules",
    "MoistureLimit",
    "ProgrammeDay",
    "calculate",
    "workings",
]


_LONGEST_PLAN = 1000


def _check_relations(inputs: CuringPlanInputs) -> None:
    faults = FaultList()
    faults.require(
        inputs.thickness > inputs.pipe_outside_diameter,
        "/thickness",
        "thinner_than_pipe",
        f"the screed must be thicker than the pipe of {inputs.pipe_outside_diameter:g} m",
        inputs.pipe_outside_diameter,
    )
    highest = _highest_supply_temperature(inputs)
    faults.require(
        inputs.start_temperature is None or inputs.start_temperature <= highest,
        "/start_temperature",
        "above_maximum",
        f"must not be above the highest supply temperature of {highest:g} °C",
        highest,
    )
    _check_maker(inputs, faults)
    for name in ("planned_heating_date", "planned_covering_date"):
        planned: datetime.date | None = getattr(inputs, name)
        faults.require(
            planned is None or 0 <= (planned - inputs.pour_date).days <= _LONGEST_PLAN,
            f"/{name}",
            "outside_plan",
            f"must lie in the {_LONGEST_PLAN} days after the pour",
            float(_LONGEST_PLAN),
        )
    faults.raise_if_any()


def _check_maker(inputs: CuringPlanInputs, faults: FaultList) -> None:
    maker = inputs.maker_rules
    if maker is None:
        faults.require(
            inputs.rule_set != "maker",
            "/maker_rules",
            "missing",
            "the rule set maker needs the values of the maker's sheet",
        )
        return
    faults.require(
        inputs.rule_set == "maker",
        "/maker_rules",
        "contradiction",
        f"the rule set {inputs.rule_set} does not use a maker's values",
    )
    faults.require(
        maker.curing_days <= maker.earliest_heating_days,
        "/maker_rules/curing_days",
        "longer_than_waiting",
        "heating may start only when curing is over",
        float(maker.earliest_heating_days),
    )


def _highest_supply_temperature(inputs: CuringPlanInputs) -> float:
    return min(inputs.maximum_supply_temperature, BINDER_TEMPERATURE_LIMIT[inputs.binder])


def _thicknesses(inputs: CuringPlanInputs) -> tuple[float, float]:
    """Nominal thickness for the load and least cover over the pipe [m]; last column for heavier loads."""
    column = load_column(inputs.imposed_load, inputs.concentrated_load)
    nominal = nominal_thickness(
        inputs.binder,
        inputs.flexural_class,
        len(LOAD_COLUMNS) - 1 if column is None else column,
        inputs.insulation_compressibility,
    )
    return nominal, least_cover(inputs.binder, inputs.flexural_class, nominal)


def _schedule(inputs: CuringPlanInputs, rule: HeatUpRule, highest: float, drying: int) -> Schedule:
    heating_day = rule.earliest_heating_days
    if inputs.planned_heating_date is not None:
        heating_day = max(heating_day, (inputs.planned_heating_date - inputs.pour_date).days)
    start = inputs.start_temperature
    return schedule(
        binder=inputs.binder,
        thickness=inputs.thickness,
        pour_date=inputs.pour_date,
        rule=rule,
        heating_day=heating_day,
        start_temperature=min(STANDARD_START[1], highest) if start is None else start,
        highest_supply_temperature=highest,
        drying_days=drying,
        maturity_heating=inputs.maturity_heating,
    )


def calculate(inputs: CuringPlanInputs) -> CuringPlanResult:
    """The dated plan of a heated screed; units as in ``CuringPlanInputs`` and ``CuringPlanResult``.

    Raises ``InputError`` for a screed thinner than the pipe, a start above the highest supply temperature, a
    maker's rule set without its values, or a planned date before the pour. Sources as in the module.
    """
    check(inputs)
    _check_relations(inputs)
    binder, thickness, covering = inputs.binder, inputs.thickness, inputs.covering
    rule = heat_up_rule(inputs.rule_set, binder, inputs.maker_rules)
    highest = _highest_supply_temperature(inputs)
    drying = drying_days(binder, thickness)
    plan = _schedule(inputs, rule, highest, drying)
    nominal, least = _thicknesses(inputs)
    least_thickness = least + inputs.pipe_outside_diameter
    mass = thickness * SCREED_DENSITY
    return CuringPlanResult(
        earliest_heating=inputs.pour_date + datetime.timedelta(rule.earliest_heating_days),
        earliest_covering=plan.stages[-1].start_date,
        stages=plan.stages,
        daily_programme=plan.daily_programme,
        screed_cover=thickness - inputs.pipe_outside_diameter,
        nominal_thickness=nominal,
        minimum_screed_cover=least,
        minimum_thickness=least_thickness,
        screed_mass=mass,
        film_thickness=FILM_THICKNESS,
        film_lap=FILM_LAP,
        highest_supply_temperature=highest,
        binder_temperature_limit=BINDER_TEMPERATURE_LIMIT[binder],
        surface_temperature_limit=SURFACE_TEMPERATURE_LIMITS[covering][0],
        drying_days=drying,
        moisture_limit=moisture_limit(binder, covering),
        test_points=tuple(map(moisture_test_points, inputs.room_areas)),
        findings=gathered(curing_findings(inputs, rule, plan, least_thickness, drying), inputs),
        cautions=curing_cautions(binder, mass, inputs.lowest_air_temperature),
    )


def workings(inputs: CuringPlanInputs, result: CuringPlanResult) -> tuple[Working, ...]:
    """The chain of thicknesses, days and temperatures that leads to ``result``."""
    return curing_workings(inputs, result)
