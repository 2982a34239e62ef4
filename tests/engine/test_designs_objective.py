"""Designs that have least of something: held to every combination of spacings on small houses, to the rule on others.

Oracles: exhaustive search with the calculation itself, one design for each combination of spacings; arithmetic of
prices done here.
"""

from __future__ import annotations

import itertools
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from tepidarium_engine import designs
from tepidarium_engine.building.objective_records import (
    DesignObjective,
    EfficiencyPoint,
    HeatPump,
    Least,
    OptionPrices,
    PumpStage,
)
from tepidarium_engine.designs import DesignsInputs, DesignsResult, FormerDesign, HeatSource
from tepidarium_engine.errors import InputError

from tests.engine.test_designs_comparison import FLAT
from tests.options.houses import house

PRICES = OptionPrices(pipe=2.0, circuit=60.0)
CURVE = (EfficiencyPoint(20.0, 6.0), EfficiencyPoint(35.0, 4.4), EfficiencyPoint(55.0, 2.8))
PUMP = HeatPump(CURVE, heating_energy=8000.0, electricity_price=0.3, years=15.0)
OBJECTIVES = (
    DesignObjective("supply_temperature"),
    DesignObjective("material"),
    DesignObjective("material", prices=PRICES),
    DesignObjective("pump_power"),
    DesignObjective("cost_of_use", prices=PRICES, heat_pump=PUMP),
)


def _value(result: DesignsResult, objective: DesignObjective) -> float:
    """What is to be least, from the figures of the answer."""
    material = result.pipe_length
    if objective.prices is not None:
        material = objective.prices.pipe * material + objective.prices.circuit * len(result.circuits)
    supply = result.supply_temperature
    values: dict[Least, float] = {
        "supply_temperature": supply,
        "material": material,
        "pump_power": result.pump.hydraulic_power,
        "cost_of_use": material + 15.0 * 0.3 * 8000.0 / _efficiency(supply),
    }
    return values[objective.least]


def _efficiency(supply: float) -> float:
    return 6.0 - (supply - 20.0) * 1.6 / 15.0 if supply <= 35.0 else 4.4 - (supply - 35.0) * 1.6 / 20.0


@cache
def _by_rule(seed: int, rooms: int) -> DesignsResult:
    return designs.calculate(house(seed, rooms))


@pytest.mark.parametrize(
    "objective",
    # Of pump power the search seeks the least flow, and more circuits than the fewest are part of it.
    [one for one in OBJECTIVES if one.least != "pump_power"],
    ids=lambda one: f"{one.least} {one.prices is not None}",
)
@pytest.mark.parametrize("seed", range(4))
def test_no_combination_of_spacings_is_better(seed: int, objective: DesignObjective) -> None:
    """Every combination on the coldest supply that serves it, which are the supplies that the search looks at."""
    asked = house(seed, 3)
    found = designs.calculate(replace(asked, objective=objective))
    rule = _by_rule(seed, 3)
    assert found.objective is not None
    assert found.objective.proven
    for spacings in itertools.product(asked.limits.pipe_spacings, repeat=3):
        if spacings[1] > 0.1:  # the bathroom takes close spacings only
            continue
        rooms = tuple(
            replace(room, pipe_spacing=spacing) for room, spacing in zip(asked.rooms, spacings, strict=True)
        )
        other = designs.calculate(replace(asked, rooms=rooms))
        if other.heat_missing <= rule.heat_missing + 1.0 and not _broken(other) - _broken(rule):
            assert _value(other, objective) >= found.objective.value * (1.0 - 1e-6)


def _broken(result: DesignsResult) -> set[str]:
    return {finding.code for finding in result.findings if finding.severity == "violation"}


@pytest.mark.parametrize("objective", OBJECTIVES, ids=lambda one: f"{one.least} {one.prices is not None}")
@pytest.mark.parametrize("seed", range(10, 16))
def test_a_house_is_never_worse_than_by_the_rule(seed: int, objective: DesignObjective) -> None:
    rule = _by_rule(seed, 4 + seed % 5)
    found = designs.calculate(replace(house(seed, 4 + seed % 5), objective=objective))
    outcome = found.objective
    assert outcome is not None
    assert _value(found, objective) == pytest.approx(outcome.value, rel=1e-9)
    assert _value(rule, objective) == pytest.approx(outcome.value_by_rule, rel=1e-9)
    assert outcome.value <= outcome.value_by_rule
    assert found.heat_missing <= rule.heat_missing + 1.0
    assert outcome.beside_rule.pipe_difference == pytest.approx(found.pipe_length - rule.pipe_length)
    assert outcome.beside_rule.circuit_difference == len(found.circuits) - len(rule.circuits)
    if outcome.taken == "rule":
        assert "objective_met_by_rule" in {own.code for own in found.findings}
        assert found.rooms == rule.rooms


def test_some_house_has_less_pipe_and_some_less_power_than_by_the_rule() -> None:
    gains = {
        objective.least: max(
            outcome.value_by_rule - outcome.value
            for seed in range(10, 14)
            if (outcome := designs.calculate(replace(house(seed, 5), objective=objective)).objective)
        )
        for objective in (OBJECTIVES[1], OBJECTIVES[3])
    }
    assert gains["material"] > 10.0
    assert gains["pump_power"] > 0.1


def test_a_storey_is_drawn_for_its_objective() -> None:
    rule = designs.calculate(FLAT)
    found = designs.calculate(replace(FLAT, objective=DesignObjective("material")))
    assert found.layout is not None
    assert rule.layout is not None
    assert found.objective is not None
    assert not found.layout.unplaced
    assert found.pipe_length <= rule.pipe_length
    assert found.objective.value == pytest.approx(found.pipe_length)


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        (
            {"objective": OBJECTIVES[0], "source": HeatSource(supply_temperature=40.0)},
            "/objective/least",
        ),
        ({"objective": DesignObjective("cost_of_use")}, "/objective/prices"),
        ({"objective": DesignObjective("cost_of_use", prices=PRICES)}, "/objective/heat_pump"),
        (
            {"objective": replace(OBJECTIVES[4], heat_pump=replace(PUMP, electricity_price=None))},
            "/objective/heat_pump/electricity_price",
        ),
        (
            {"objective": replace(OBJECTIVES[4], heat_pump=replace(PUMP, efficiency=CURVE[::-1]))},
            "/objective/heat_pump/efficiency/1/supply_temperature",
        ),
        (
            {"objective": replace(OBJECTIVES[4], heat_pump=replace(PUMP, efficiency=CURVE[:1]))},
            "/objective/heat_pump/efficiency",
        ),
        (
            {"objective": OBJECTIVES[1], "limits": replace(FLAT.limits, pipe_spacings=(0.9,))},
            "/limits/pipe_spacings/0",
        ),
    ],
)
def test_what_contradicts_is_told_with_the_field(changes: dict[str, Any], pointer: str) -> None:
    asked = replace(house(1, 3), **changes)
    with pytest.raises(InputError) as refused:
        designs.calculate(asked)
    assert pointer in [fault.pointer for fault in refused.value.faults]


def test_a_former_design_and_an_objective_exclude_each_other() -> None:
    asked = house(1, 3)
    former = FormerDesign(inputs=_as_former(asked))
    with pytest.raises(InputError) as refused:
        designs.calculate(replace(asked, former=former, objective=OBJECTIVES[1]))
    assert [fault.pointer for fault in refused.value.faults] == ["/objective"]


def _as_former(asked: DesignsInputs) -> Any:
    from tepidarium_engine.building.former_records import FormerInputs  # noqa: PLC0415

    return FormerInputs(asked.rooms, asked.build_ups, source=asked.source, limits=asked.limits)


def test_prices_of_zero_are_reported() -> None:
    objective = DesignObjective("material", prices=OptionPrices())
    found = designs.calculate(replace(house(1, 3), objective=objective))
    assert "prices_are_zero" in {own.code for own in found.findings}
    assert found.objective is not None
    assert found.objective.taken == "rule"


def test_other_drops_are_weighed_too() -> None:
    """The same house asked with each drop as that of its source: none of them is better than the one answered."""
    asked = replace(house(12, 4), source=HeatSource(maximum_supply_temperature=50.0, temperature_drop=5.0))
    drops = (4.0, 5.0, 8.0)
    objective = DesignObjective("pump_power", temperature_drops=drops)
    found = designs.calculate(replace(asked, objective=objective))
    assert found.objective is not None
    assert found.objective.taken == "best"
    assert found.objective.design_drop in drops
    governing = next(room for room in found.rooms if room.id == found.governing_room)
    assert governing.temperature_drop is not None
    assert governing.temperature_drop >= found.objective.design_drop - 1e-6
    for drop in drops:
        source = replace(asked.source, temperature_drop=drop)
        other = designs.calculate(replace(asked, source=source, objective=DesignObjective("pump_power")))
        assert other.objective is not None
        assert found.objective.value <= other.objective.value * (1.0 + 1e-6)


def test_a_pump_stage_is_kept_where_the_rule_would_need_more() -> None:
    asked = house(10, 6, maximum_circuits=60)
    rule = designs.calculate(asked)
    weak = PumpStage(0.7 * rule.pump.pressure)
    found = designs.calculate(
        replace(asked, objective=DesignObjective("material", pump_stages=(PumpStage(9e4), weak)))
    )
    assert found.objective is not None
    assert found.objective.pump_stage is not None
    only = designs.calculate(replace(asked, objective=DesignObjective("material", pump_stages=(weak,))))
    assert only.objective is not None
    assert (only.objective.taken, only.objective.pump_stage) == ("best", 0)
    assert only.pump.pressure <= weak.pressure
    none = designs.calculate(
        replace(asked, objective=DesignObjective("material", pump_stages=(PumpStage(150.0),)))
    )
    assert none.objective is not None
    assert none.objective.pump_stage is None
    assert "pump_stages_too_small" in {own.code for own in none.findings}
