"""Insulation check: properties, findings, what is refused. The tables stand in tests/vectors/insulation_check.json."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tepidarium_engine.errors import InputError
from tepidarium_engine.insulation_check import (
    CheckLayer,
    EdgeInsulation,
    Ground,
    InsulationCheckInputs,
    LocalLimit,
    ScreedSection,
    calculate,
    workings,
)
from tepidarium_engine.practice.insulation_requirements import (
    Below,
    resistance_over_cold_air,
    resistance_over_temperature,
)

SLAB = CheckLayer(0.2, 2.3, part="structure")
SOIL = Ground(thermal_conductivity=1.5, floor_area=100.0, exposed_perimeter=50.0)
FLOOR = InsulationCheckInputs(below="ground", layers=(CheckLayer(0.06, 0.03), SLAB), board_conductivity=0.03)


def test_the_missing_board_makes_it_adequate() -> None:
    limits = (
        LocalLimit(resistance=4.0),
        LocalLimit(resistance=4.0, counts="whole_floor"),
        LocalLimit(u_value=0.18),
    )
    edge = EdgeInsulation("vertical", 0.6, 0.08, 0.035)
    for limit in limits:
        for soil in (None, SOIL, replace(SOIL, edge_insulation=edge)):
            short = replace(FLOOR, local_limit=limit, ground=soil)
            result = calculate(short)
            assert not result.adequate
            assert result.missing_thickness is not None
            more = (*short.layers, CheckLayer(result.missing_thickness + 1e-9, 0.03))
            assert calculate(replace(short, layers=more)).adequate
            less = (*short.layers, CheckLayer(result.missing_thickness - 1e-4, 0.03))
            assert not calculate(replace(short, layers=less)).adequate


@given(st.sampled_from(get_args(Below)), st.floats(-25.0, 15.0), st.floats(0.01, 20.0), st.booleans())
@settings(max_examples=60, deadline=None)
def test_the_rule_that_asks_for_most_governs(
    below: Below, temperature: float, local: float, resistance: bool
) -> None:
    limit = LocalLimit(resistance=local) if resistance else LocalLimit(u_value=max(0.03, local / 10.0))
    inputs = replace(FLOOR, below=below, temperature_below=temperature, local_limit=limit)
    result = calculate(inputs)
    asked = {rule.rule: rule.required_resistance for rule in result.rules}
    assert result.required_resistance == max(asked.values())
    assert asked[result.governing_rule] == result.required_resistance
    assert result.adequate == (result.actual_resistance >= result.required_resistance - 1e-9)
    assert result.required_resistance >= calculate(replace(inputs, local_limit=None)).required_resistance


@given(st.floats(0.01, 0.3), st.floats(0.001, 0.2))
@settings(max_examples=30, deadline=None)
def test_more_insulation_never_raises_the_u_value(thickness: float, more: float) -> None:
    def u_value(insulation: float) -> float:
        layers = (CheckLayer(insulation, 0.035), SLAB)
        return calculate(replace(FLOOR, layers=layers, ground=SOIL)).floor_u_value

    assert u_value(thickness + more) < u_value(thickness)


@given(st.floats(-40.0, 30.0), st.floats(0.0, 10.0))
def test_colder_never_asks_for_less(temperature: float, colder: float) -> None:
    for least in (resistance_over_cold_air, resistance_over_temperature):
        assert least(temperature - colder) >= least(temperature)


def test_the_u_value_of_the_soil_at_the_required_resistance_is_the_limit() -> None:
    inputs = replace(FLOOR, ground=SOIL, local_limit=LocalLimit(u_value=0.2))
    required = calculate(inputs).required_resistance
    exact = replace(inputs, layers=(CheckLayer(thermal_resistance=required), SLAB))
    assert calculate(exact).floor_u_value == pytest.approx(0.2, rel=1e-9)


def test_workings_lead_to_the_result() -> None:
    inputs = replace(FLOOR, local_limit=LocalLimit(u_value=0.2), ground=SOIL, screed=ScreedSection(0.045))
    result = calculate(inputs)
    chain = {step.symbol: step.value for step in workings(inputs, result)}
    assert chain["R_ins"] == pytest.approx(2.0)
    assert chain["R_req"] == result.required_resistance
    assert chain["s_miss"] == pytest.approx((result.required_resistance - 2.0) * 0.03)
    assert chain["s_u,min"] == pytest.approx(0.045)  # DIN 18560-2, CT-F4


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"local_limit": LocalLimit(resistance=5.0)}, "insulation_below_requirement"),
        ({"below": "outside", "temperature_below": -20.0}, "colder_than_table"),
        ({"ground": Ground(groundwater_depth=3.0)}, "groundwater_near"),
        ({"local_limit": LocalLimit(u_value=0.9)}, "soil_not_counted"),
        ({"layers": (CheckLayer(0.3, 0.13),)}, "hardly_insulation"),
        ({"screed": ScreedSection(0.03)}, "screed_too_thin"),
        ({"screed": ScreedSection(0.09, imposed_load=9000.0)}, "load_outside_table"),
        (
            {"layers": (CheckLayer(0.06, 0.03, compressibility=0.011),), "screed": ScreedSection(0.09)},
            "insulation_too_soft",
        ),
        (
            {"layers": (CheckLayer(0.06, 0.03, compressibility=0.007),), "screed": ScreedSection(0.09)},
            "thickened_for_soft_insulation",
        ),
    ],
)
def test_findings(change: dict[str, Any], code: str) -> None:
    assert code in {finding.code for finding in calculate(replace(FLOOR, **change)).findings}
    assert not calculate(FLOOR).findings


def test_missing_millimetres_are_told() -> None:
    """3.0 - 0.06/0.03 = 1.0 m2.K/W, 30 mm at 0.03 W/(m.K)."""
    (finding,) = calculate(replace(FLOOR, local_limit=LocalLimit(resistance=3.0))).findings
    assert "30 mm more" in finding.places[0].message


def test_the_inspector_decides() -> None:
    assert "inspector_decides" in {caution.code for caution in calculate(FLOOR).cautions}


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"layers": ()}, "/layers"),
        ({"layers": (CheckLayer(0.0, 0.03),)}, "/layers/0/thickness"),
        ({"layers": (CheckLayer(0.1, 0.0),)}, "/layers/0/thermal_conductivity"),
        ({"layers": (CheckLayer(0.1),)}, "/layers/0/thermal_conductivity"),
        ({"layers": (CheckLayer(0.1, 0.03, 3.0),)}, "/layers/0/thermal_resistance"),
        ({"below": "outside"}, "/temperature_below"),
        ({"below": "heated_room", "ground": SOIL}, "/ground"),
        ({"local_limit": LocalLimit()}, "/local_limit/resistance"),
        ({"local_limit": LocalLimit(3.0, 0.2)}, "/local_limit/resistance"),
    ],
)
def test_what_is_refused(change: dict[str, Any], pointer: str) -> None:
    with pytest.raises(InputError) as refusal:
        calculate(replace(FLOOR, **change))
    assert pointer in {fault.pointer for fault in refusal.value.faults}
