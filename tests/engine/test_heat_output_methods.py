"""Heat output by the standard, by the solved section, and by both side by side."""

from __future__ import annotations

from dataclasses import replace

import pytest
from scipy.optimize import brentq
from tepidarium_engine.errors import InputError
from tepidarium_engine.floor_section import FloorSectionInputs
from tepidarium_engine.heat_output import HeatOutputInputs, calculate, workings
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.section.records import SectionLayer

from tests.sections.finite_elements import elements

FLOOR = HeatOutputInputs(
    pipe_spacing=0.15,
    pipe=Pipe(0.016, 0.002),
    screed_cover=0.045,
    resistance_below=1.25,
    supply_temperature=40.0,
    return_temperature=36.0,
)


def test_within_the_tables_the_standard_stands_alone() -> None:
    result = calculate(FLOOR)
    assert result.leading_method == "standard"
    assert result.by_section is None and result.by_standard is not None
    assert result.by_standard.heat_output == result.heat_output


@pytest.mark.parametrize(
    "change",
    [{"pipe_spacing": 0.45}, {"covering_resistance": 0.25}, {"pipe": Pipe(0.032, 0.003)}],
)
def test_beyond_the_tables_both_are_shown(change: dict[str, object]) -> None:
    inputs = replace(FLOOR, **change)  # type: ignore[arg-type]
    both, alone = calculate(inputs), calculate(replace(inputs, method="standard"))
    assert both.by_section is not None and both.by_standard is not None and alone.by_section is None
    assert (both.leading_method, both.heat_output) == ("standard", alone.heat_output)
    assert "two_methods" in {finding.code for finding in both.findings}
    # EN 1264-2 reduces wide spacings in proportion, on the safe side; the rest stays within a tenth.
    assert 0.6 * both.by_section.heat_output < both.heat_output < 1.15 * both.by_section.heat_output


@pytest.mark.parametrize(
    "change", [{"pipe_spacing": 0.04}, {"screed_cover": 0.008}, {"pipe_spacing": 0.5}, {}]
)
def test_section_leads_when_asked_and_is_that_of_finite_elements(change: dict[str, float]) -> None:
    inputs = replace(FLOOR, method="section", **change)  # type: ignore[arg-type]
    result = calculate(inputs)
    assert result.leading_method == "section" and result.by_section is not None
    assert result.by_section.heat_output == result.heat_output
    outside = inputs.pipe_spacing < 0.05 or inputs.screed_cover < 0.01
    assert (result.by_standard is None) == (result.factors is None) == outside
    # A thin layer that lets heat through upright only stands for the resistance below.
    section = FloorSectionInputs(
        pipe_spacing=inputs.pipe_spacing,
        pipe=inputs.pipe,
        screed_cover=inputs.screed_cover,
        screed_thickness=inputs.screed_cover + 0.016 + 2e-5,
        layers_below=(SectionLayer(0.001, 0.01),),
        surface_resistance_below=inputs.resistance_below - 0.1,
        water_temperature=20.0 + result.mean_excess_temperature,
    )
    assert result.heat_output == pytest.approx(elements(section, 1900.0, 2).up, rel=0.005)


POOR = HeatOutputInputs(
    pipe_spacing=0.15,
    pipe=Pipe(0.016, 0.002),
    screed_cover=0.045,
    resistance_below=0.3,
    supply_temperature=38.0,
    return_temperature=33.0,
    temperature_below=-10.0,
)
"""Less insulation than EN 1264-4, Table 1, asks for over -10 degC: 2.0 m2.K/W."""


def _by_elements(inputs: HeatOutputInputs, excess: float) -> float:
    """Heat output by finite elements: a layer too thin to spread heat and a surface stand for all below the pipes."""
    assert inputs.temperature_below is not None
    resistance = inputs.resistance_below / 2.0
    section = FloorSectionInputs(
        pipe_spacing=inputs.pipe_spacing,
        pipe=inputs.pipe,
        screed_cover=inputs.screed_cover,
        screed_thickness=inputs.screed_cover + 0.016 + 2e-5,
        layers_below=(SectionLayer(0.001, 0.001 / resistance),),
        surface_resistance_below=resistance,
        covering_resistance=inputs.covering_resistance,
        water_temperature=20.0 + excess,
        temperature_below=inputs.temperature_below,
    )
    return elements(section, 1900.0, 2).up


@pytest.mark.parametrize("resistance", [0.05, 0.1, 0.3])
def test_poor_insulation_lets_the_section_lead(resistance: float) -> None:
    """EN 1264-2 knows nothing of what lies below; finite elements do."""
    inputs = replace(POOR, resistance_below=resistance)
    result = calculate(inputs)
    assert result.leading_method == "section"
    expected = _by_elements(inputs, result.mean_excess_temperature)
    assert result.heat_output == pytest.approx(expected, rel=0.005, abs=0.15)
    assert result.by_standard is not None
    assert result.by_standard.heat_output == calculate(replace(inputs, method="standard")).heat_output > 50.0
    told = {finding.code: finding for finding in result.findings}
    assert (told["two_methods"].severity, told["two_methods"].value) == ("warning", result.heat_output)
    assert ("floor_cools_room" in told) == (result.heat_output < 0.0)


def test_a_floor_that_takes_heat_from_the_room_is_a_finding_of_its_own() -> None:
    result = calculate(replace(POOR, resistance_below=0.05))
    (told,) = [finding for finding in result.findings if finding.code == "floor_cools_room"]
    assert (told.severity, told.where, told.limit) == ("violation", "/resistance_below", 0.0)
    assert told.value == result.heat_output < 0.0
    assert result.mean_surface_temperature < POOR.room_temperature


@pytest.mark.parametrize(("below", "least"), [(-10.0, 2.0), (-2.0, 1.5), (5.0, 1.25), (20.0, 0.75)])
def test_the_section_is_looked_at_below_the_insulation_of_the_standard(below: float, least: float) -> None:
    """EN 1264-4, Table 1. At its edge both methods lie no further apart than elsewhere, and the standard leads."""
    kept, poor = (
        calculate(replace(POOR, temperature_below=below, resistance_below=least + change))
        for change in (0.0, -1e-6)
    )
    assert (kept.leading_method, kept.by_section) == ("standard", None)
    assert poor.by_section is not None
    assert poor.leading_method == "standard"
    assert poor.heat_output == pytest.approx(kept.heat_output, rel=1e-12)


def test_the_section_leads_from_where_the_standard_promises_a_tenth_too_much() -> None:
    """Each method asked for by itself says where that is; a tenth is the rule of this calculation."""

    def too_much(resistance: float) -> float:
        one, other = (
            calculate(replace(POOR, resistance_below=resistance, method=method)).heat_output  # type: ignore[arg-type]
            for method in ("standard", "section")
        )
        return one / other - 1.1

    at = brentq(too_much, 0.5, 1.9, xtol=1e-9)
    for factor, leading, severity in ((1.001, "standard", "note"), (0.999, "section", "warning")):
        result = calculate(replace(POOR, resistance_below=factor * at))
        (told,) = [finding for finding in result.findings if finding.code == "two_methods"]
        assert (result.leading_method, told.severity) == (leading, severity)


def test_limit_of_the_section_is_where_its_warmest_spot_is_at_the_limit() -> None:
    result = calculate(replace(FLOOR, method="section"))
    excess = result.limit_excess_temperature
    hot = calculate(
        replace(
            FLOOR,
            method="section",
            supply_temperature=20.0 + excess + 0.001,
            return_temperature=20.0 + excess - 0.001,
        )
    )
    assert hot.by_section is not None
    assert hot.by_section.highest_surface_temperature == pytest.approx(
        29.0, abs=0.05
    )  # the film of hotter water is a little better
    assert hot.heat_output == pytest.approx(result.limit_heat_output, rel=0.005)


def test_warmest_spot_is_midway_when_the_pipe_is_the_cold_place() -> None:
    warm_below = replace(
        FLOOR,
        method="section",
        pipe_spacing=0.3,
        resistance_below=0.1,
        temperature_below=60.0,
        supply_temperature=25.0,
        return_temperature=22.0,
    )
    found = calculate(warm_below).by_section
    assert found is not None and found.highest_surface_temperature is not None
    assert found.mean_surface_temperature + 0.1 < found.highest_surface_temperature < 60.0


def test_standard_refuses_what_it_has_no_value_for() -> None:
    with pytest.raises(InputError) as refusal:
        calculate(replace(FLOOR, pipe_spacing=0.04, screed_cover=0.008, method="standard"))
    assert {fault.pointer for fault in refusal.value.faults} == {"/pipe_spacing", "/screed_cover"}
    with pytest.raises(InputError):
        calculate(replace(FLOOR, pipe_spacing=0.03, pipe=Pipe(0.03, 0.003)))


@pytest.mark.parametrize("change", [{"pipe_spacing": 0.04}, {"screed_cover": 0.008}])
def test_section_leads_where_the_standard_has_no_value(change: dict[str, float]) -> None:
    inputs = replace(FLOOR, **change, resistance_below=0.5)  # type: ignore[arg-type]
    result = calculate(inputs)
    assert (result.leading_method, result.by_standard, result.factors) == ("section", None, None)
    assert result.by_section == calculate(replace(inputs, method="section")).by_section
    found = {finding.code: finding for finding in result.findings}
    (name, value), *_ = change.items()
    assert (found["outside_standard"].where, found["outside_standard"].value) == (f"/{name}", value)
    assert "insulation_below_minimum" in found
    assert ("screed_cover_thin" in found) == (name == "screed_cover")


@pytest.mark.parametrize("spacing", [0.04, 0.15, 0.5])
def test_workings_hold_each_method(spacing: float) -> None:
    inputs = replace(FLOOR, pipe_spacing=spacing, method="section", temperature_below=10.0)
    result = calculate(inputs)
    found = {step.symbol: step.value for step in workings(inputs, result)}
    assert found["K_S"] * found["Delta theta_H"] - 10.0 * found["K_S,u"] == pytest.approx(result.heat_output)
    limit = found["P_S"] * found["Delta theta_G,S"] - 10.0 * found["P_S,u"]
    assert inputs.room_temperature + limit == pytest.approx(inputs.surface_temperature_limit)
    if result.by_standard is not None:
        assert found["q"] == result.by_standard.heat_output
