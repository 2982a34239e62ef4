"""Commissioning against thermodynamics worked apart, tables of the trade, and its own forms.

Oracles: CoolProp and iapws for water and glycol; a closed pipe whose pressure is found by bisection of its mass balance
(independent of the linear formula); handbook tables named beside the checks.
"""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date
from typing import Any

import msgspec
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS97
from tepidarium_engine import curing_plan
from tepidarium_engine.commissioning import (
    CircuitToCommission,
    CommissioningInputs,
    CommissioningResult,
    Flushing,
    JointSpan,
    LeakTest,
    ScreedToHeat,
    WaterSide,
    calculate,
    workings,
)
from tepidarium_engine.curing_plan import CuringPlanInputs
from tepidarium_engine.errors import InputError
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.site_work.leak_drift import PIPE_MATERIALS, WATER_COMPRESSIBILITY
from tepidarium_engine.site_work.water_quality import hardness_limit
from tepidarium_engine.water.inputs import Fluid

PLAIN = CommissioningInputs(
    circuits=(
        CircuitToCommission("a", 100.0, 3.5e-5, room="Kitchen", port=1),
        CircuitToCommission("b", 60.0, port=2),
    ),
)
SCREED = CuringPlanInputs(
    binder="cement",
    thickness=0.065,
    pour_date=date(2027, 3, 1),
    maximum_supply_temperature=40.0,
    covering="timber",
    room_areas=(20.0, 60.0),
)


def found(result: CommissioningResult) -> set[str]:
    return {finding.code for finding in result.findings}


# --- leak test ---


def mass_in_pipe(pressure: float, temperature: float, pipe: Pipe, material: str, air: float) -> float:
    """Volume of water at the start that fills a pipe of 1 m3 at a gauge pressure and temperature, less its bore: zero
    for the pressure at which the closed pipe stands. Water by IAPWS-97, air as a perfect gas, pipe by Lame."""
    stuff = PIPE_MATERIALS[material]  # type: ignore[index]
    start, first = 288.15, 600_000.0
    water = (1.0 - air) * IAPWS97(T=start, P=(first + 101_325.0) / 1e6).rho
    water /= IAPWS97(T=temperature, P=(pressure + 101_325.0) / 1e6).rho
    gas = air * (first + 101_325.0) / (pressure + 101_325.0) * temperature / start
    outer, inner = pipe.outside_diameter**2, pipe.bore**2
    stretch = 2.0 / stuff.modulus * ((outer + inner) / (outer - inner) + stuff.poisson) * (pressure - first)
    return water + gas - (1.0 + stretch) * (1.0 + stuff.expansion * (temperature - start)) ** 3


def pressure_of_pipe(temperature: float, material: str) -> float:
    """Gauge pressure at which the closed pipe of the plain request stands, filled to 6 bar at 15 degC."""
    low, high = 10_000.0, 1_600_000.0
    for _ in range(60):
        middle = (low + high) / 2.0
        tight = mass_in_pipe(middle, temperature, PLAIN.pipe, material, 0.005) > 0.0
        low, high = (middle, high) if tight else (low, middle)
    return low


@pytest.mark.parametrize("material", sorted(PIPE_MATERIALS))
def test_the_reading_drifts_as_the_closed_pipe_balances(material: Any) -> None:
    """Between 14 and 16 degC; further away water itself expands differently."""
    drift = calculate(replace(PLAIN, pipe_material=material)).leak_test.drift
    slope = (pressure_of_pipe(289.15, material) - pressure_of_pipe(287.15, material)) / 2.0
    assert drift.pressure_per_kelvin == pytest.approx(slope, rel=0.03)


def test_the_elastic_reading_is_of_the_size_that_makers_tell() -> None:
    """Makers of plastic pipe: 10 K correspond to 0.5 to 1 bar; an elastic pipe moves more, as plastic creeps."""
    drift = calculate(PLAIN).leak_test.drift
    assert drift.practice_pressure_change == pytest.approx(50_000.0)
    assert 50_000.0 < abs(drift.pressure_per_kelvin) * 10.0 < 400_000.0


def test_a_leak_shows_less_in_a_larger_system() -> None:
    small, large = (calculate(replace(PLAIN, system_volume=volume)).leak_test.drift for volume in (0.05, 0.2))
    assert small.pressure_per_kelvin == large.pressure_per_kelvin
    assert large.volume_for_loss == pytest.approx(4.0 * small.volume_for_loss)
    assert small.drip_pressure_loss == pytest.approx(4.0 * large.drip_pressure_loss)


def test_water_is_as_stiff_as_the_tables_say() -> None:
    one, two = (PropsSI("D", "T", 288.15, "P", pressure, "Water") for pressure in (1e5, 6e5))
    assert pytest.approx((two / one - 1.0) / 5e5, rel=0.03) == WATER_COMPRESSIBILITY


def test_air_drifts_as_its_absolute_pressure_over_temperature() -> None:
    air = LeakTest(medium="air", test_pressure=300_000.0, test_temperature=20.0)
    drift = calculate(replace(PLAIN, leak_test=air)).leak_test.drift
    assert drift.pressure_per_kelvin == pytest.approx(401_325.0 / 293.15)
    assert drift.practice_pressure_change is None


def test_energy_of_air_is_its_isentropic_expansion() -> None:
    """CoolProp: internal energy of air before and after expansion at constant entropy to 1.013 bar."""
    air = LeakTest(medium="air", test_pressure=300_000.0)
    plan = calculate(replace(PLAIN, system_volume=0.1, leak_test=air)).leak_test
    full = 401_325.0
    mass = 0.1 * PropsSI("D", "T", 293.15, "P", full, "Air")
    entropy = PropsSI("S", "T", 293.15, "P", full, "Air")
    freed = PropsSI("U", "T", 293.15, "P", full, "Air") - PropsSI("U", "S", entropy, "P", 101_325.0, "Air")
    assert plan.test_energy == pytest.approx(mass * freed, rel=0.01)
    assert plan.test_energy > 1000.0 * plan.energy_of_water


@pytest.mark.parametrize(
    ("test", "codes"),
    [
        (LeakTest(), set()),
        (LeakTest(test_pressure=800_000.0), {"test_pressure_above_rating", "test_pressure_outside_standard"}),
        (
            LeakTest(test_pressure=200_000.0),
            {"test_pressure_below_operation", "test_pressure_outside_standard"},
        ),
        (LeakTest(medium="air", operating_pressure=150_000.0), {"air_test"}),
        (LeakTest(component_rating=300_000.0), {"test_pressure_outside_standard"}),
    ],
)
def test_what_is_said_about_the_leak_test(test: LeakTest, codes: set[str]) -> None:
    known = {
        "test_pressure_above_rating",
        "test_pressure_below_operation",
        "test_pressure_outside_standard",
        "air_test",
    }
    assert found(calculate(replace(PLAIN, leak_test=test))) & known == codes


def test_the_energy_of_air_stands_beside_that_of_water() -> None:
    """It has no limit: to any pressure of air belongs a written safe system of work (HSE GS4)."""
    result = calculate(replace(PLAIN, leak_test=LeakTest(medium="air")))
    (finding,) = (own for own in result.findings if own.code == "air_test")
    (place,) = finding.places
    assert place.value == result.leak_test.test_energy and place.limit is None
    assert place.message.endswith(f"With water {result.leak_test.energy_of_water:.1f} J")


def test_air_brings_its_own_caution() -> None:
    codes = {caution.code for caution in calculate(replace(PLAIN, leak_test=LeakTest(medium="air"))).cautions}
    assert {"compressed_air", "pressure_test_before_pour", "local_codes_decide"} <= codes


# --- flushing, filling, frost ---


@given(st.floats(20.0, 200.0), st.floats(0.3, 1.5), st.integers(1, 6))
def test_flushing_moves_the_water_of_the_circuit(length: float, velocity: float, exchanges: int) -> None:
    request = replace(
        PLAIN, circuits=(CircuitToCommission("a", length),), flushing=Flushing(velocity, exchanges)
    )
    (row,) = calculate(request).flushing
    assert row.volume_flow * row.flushing_time == pytest.approx(row.water_volume)
    assert row.water_volume == pytest.approx(exchanges * length * math.pi * 0.006**2)


def test_flushing_pressure_is_that_of_the_friction_table() -> None:
    """fluids: Colebrook with 0.007 mm in a bore of 12 mm, water of 10 degC; bends a twentieth more."""
    from fluids.friction import friction_factor  # noqa: PLC0415

    density = PropsSI("D", "T", 283.15, "P", 2e5, "Water")
    viscosity = PropsSI("V", "T", 283.15, "P", 2e5, "Water")
    factor = friction_factor(Re=density * 0.6 * 0.012 / viscosity, eD=0.007 / 12.0)
    expected = 1.05 * factor * 100.0 / 0.012 * density * 0.6**2 / 2.0
    assert calculate(PLAIN).flushing[0].pressure_drop == pytest.approx(expected, rel=0.03)


def test_long_thin_circuits_need_a_pump_for_flushing() -> None:
    thin = replace(PLAIN, pipe=Pipe(0.008, 0.0015), circuits=(CircuitToCommission("thin", 250.0),))
    result = calculate(thin)
    assert "flushing_needs_pump" in found(result)
    assert "flushing_needs_pump" not in found(calculate(PLAIN))


@pytest.mark.parametrize("frost", [-5.0, -10.0, -15.0, -20.0, -25.0])
def test_each_glycol_freezes_where_it_was_asked_to(frost: float) -> None:
    """CoolProp: freezing points of the published sets, by mass (Melinder) and by volume (ASHRAE)."""
    result = calculate(replace(PLAIN, frost_temperature=frost))
    for option, mass, volume in zip(result.antifreeze, ("MPG", "MEG"), ("APG", "AEG"), strict=True):
        assert option.concentration_by_mass and option.concentration_by_volume
        for name, share in ((mass, option.concentration_by_mass), (volume, option.concentration_by_volume)):
            freezing = PropsSI("T_freeze", "T", 300.0, "P", 1e5, f"INCOMP::{name}[{share}]") - 273.15
            assert freezing == pytest.approx(frost, abs=0.02)
        assert option.glycol_volume == pytest.approx(option.concentration_by_volume * result.system_volume)
        assert option.flush_volume == pytest.approx(3.0 * result.system_volume)


def test_antifreeze_is_mixed_before_the_first_circuit_is_filled() -> None:
    """The order of filling is otherwise that of water (common practice, no source)."""
    plain = [step.action for step in calculate(PLAIN).filling.steps]
    mixed = calculate(replace(PLAIN, fluid=Fluid("propylene_glycol", 0.35))).filling.steps
    assert [step.number for step in mixed] == list(range(1, len(plain) + 2))
    assert [step.action for step in mixed[1:]] == plain
    assert "mixture" in mixed[0].action


def test_no_frost_asks_for_no_glycol() -> None:
    assert calculate(PLAIN).antifreeze == ()
    assert {"water_freezes", "glycol_below_protection"} & found(calculate(PLAIN)) == set()


def test_frost_beyond_every_mixture() -> None:
    result = calculate(replace(PLAIN, frost_temperature=-59.0))
    assert "no_glycol_stands_it" in found(result)
    assert all(
        option.glycol_volume is None for option in result.antifreeze if option.concentration_by_volume is None
    )


# --- water ---

VDI = [
    ("usual", 20_000.0, 10e-6, None),
    ("usual", 20_000.0, 30e-6, 1.5),
    ("usual", 20_000.0, 41e-6, 0.05),
    ("small_content", 20_000.0, 10e-6, 3.0),
    ("small_content", 20_000.0, 30e-6, 1.5),
    ("usual", 100_000.0, 10e-6, 2.0),
    ("usual", 100_000.0, 30e-6, 1.0),
    ("small_content", 100_000.0, 50e-6, 0.05),
]
"""VDI 2035 Part 1:2021, table of hardness by output and specific volume (value from memory)."""


@pytest.mark.parametrize(("kind", "output", "specific", "limit"), VDI)
def test_hardness_by_the_table(kind: Any, output: float, specific: float, limit: float | None) -> None:
    assert hardness_limit(kind, output, specific) == limit


def test_hard_water_is_reported_with_the_systems_own_litres() -> None:
    side = WaterSide(source_output=700.0, hardness=2.5)
    result = calculate(replace(PLAIN, water_side=side))
    assert result.water_limits.specific_volume == pytest.approx(result.system_volume / 700.0)
    assert "water_too_hard" in found(result)
    assert "water_too_hard" not in found(calculate(replace(PLAIN, water_side=replace(side, hardness=0.5))))
    assert "source_output_unknown" in found(calculate(PLAIN))


def test_additives_ask_for_more_backflow_protection() -> None:
    glycol = calculate(replace(PLAIN, fluid=Fluid("propylene_glycol", 0.3)))
    assert (calculate(PLAIN).backflow.protection, glycol.backflow.protection) == ("CA", "BA")


# --- joints ---


@pytest.mark.parametrize(("binder", "alpha"), [("cement", 0.012), ("calcium_sulphate", 0.008)])
def test_joints_move_by_half_of_both_fields(binder: Any, alpha: float) -> None:
    """alpha in mm/(m.K), trade texts."""
    request = replace(
        PLAIN, binder=binder, joints=(JointSpan("j", (8.0, 6.0)),), maximum_supply_temperature=50.0
    )
    (movement,) = calculate(request).joint_movements
    assert movement.movement * 1000.0 == pytest.approx(alpha * 35.0 * 7.0)


def test_a_joint_that_moves_too_far_is_reported() -> None:
    wide = replace(PLAIN, joints=(JointSpan("near", (4.0, 4.0)), JointSpan("far", (30.0, 30.0))))
    (finding,) = [one for one in calculate(wide).findings if one.code == "joint_moves_far"]
    assert [place.where for place in finding.places] == ["/joints/1"]


# --- dates and forms ---


def test_the_heat_up_log_is_the_curing_plan_day_by_day() -> None:
    result = calculate(replace(PLAIN, screeds=(ScreedToHeat(SCREED), ScreedToHeat(SCREED))))
    plan = curing_plan.calculate(SCREED)
    assert [(row.date, row.supply_temperature) for row in result.heat_up_log] == [
        (day.date, day.supply_temperature) for day in plan.daily_programme
    ]


def test_moisture_points_are_those_of_the_rooms_with_their_limits() -> None:
    screed = ScreedToHeat(SCREED, ("Kitchen", "Hall"), "Ground floor")
    rows = calculate(replace(PLAIN, screeds=(screed,))).moisture_points
    assert [(row.room, row.point_number) for row in rows] == [
        ("Kitchen", 1),
        ("Kitchen", 2),
        ("Hall", 1),
        ("Hall", 2),
        ("Hall", 3),
    ]
    assert {(row.carbide_moisture, row.relative_humidity) for row in rows} == {(0.018, 0.65)}


def at(document: Any, path: str) -> Any:
    for step in path.split("."):
        document = document[step]
    return document


@pytest.mark.parametrize("screeds", [(), (ScreedToHeat(SCREED),)])
def test_every_form_has_its_table_and_prints_what_is_known(screeds: Any) -> None:
    result = calculate(replace(PLAIN, screeds=screeds, frost_temperature=-10.0, project="Mill"))
    document = msgspec.to_builtins(result)
    codes = [form.code for form in result.forms]
    assert codes == [
        "leak_test",
        "flushing",
        "balancing",
        *(("first_heat_up", "moisture") if screeds else ()),
    ]
    for form in result.forms:
        assert isinstance(at(document, form.table), list | tuple)
        assert form.columns and form.basis
        assert form.fields[0].design_text == "Mill"
        assert any(one.design_value is None and not one.design_text for one in form.fields)
    printed = {one.label: one.design_value for one in result.forms[0].fields}
    assert printed["Test pressure"] == result.leak_test.test_pressure
    assert printed["Content of the system"] == result.system_volume
    balancing = result.balancing
    assert [(row.circuit, row.volume_flow) for row in balancing] == [("a", 3.5e-5), ("b", None)]


def test_faults_of_a_screed_point_into_it() -> None:
    thin = replace(SCREED, thickness=0.012)
    with pytest.raises(InputError) as refusal:
        calculate(replace(PLAIN, screeds=(ScreedToHeat(SCREED), ScreedToHeat(thin))))
    assert [fault.pointer for fault in refusal.value.faults] == ["/screeds/1/curing/thickness"]


def test_workings_lead_from_content_to_test_and_frost() -> None:
    request = replace(PLAIN, frost_temperature=-10.0, joints=(JointSpan("j", (8.0, 4.0)),))
    result = calculate(request)
    steps = {step.symbol: step.value for step in workings(request, result)}
    assert steps["V"] == result.system_volume
    assert steps["dp"] == pytest.approx(steps["dp/dT"] * steps["dT"])
    assert steps["dl_j"] == result.joint_movements[0].movement
