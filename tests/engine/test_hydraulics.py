"""Balancing, open valves, pump, mixing, vessel and findings of a manifold, by identities and outside libraries."""

from __future__ import annotations

import json
import math
from dataclasses import asdict, replace
from typing import Any

import fluids
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st
from tepidarium_engine.errors import InputError
from tepidarium_engine.hydraulics import (
    Circuit,
    CircuitHydraulics,
    CountedBends,
    Expansion,
    Fluid,
    HydraulicsInputs,
    HydraulicsLimits,
    HydraulicsResult,
    ValveSetting,
    calculate,
    workings,
)
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.water.expansion import final_pressure

PIPE = Pipe(0.016, 0.002)
WIDE = Pipe(0.020, 0.002)
GLYCOL = Fluid("propylene_glycol", 0.3, "volume")
TABLE = tuple(ValveSetting(*row) for row in ((1.0, 0.08), (2.0, 0.2), (3.0, 0.42), (4.0, 0.74), (5.0, 1.1)))
ONE = HydraulicsInputs(PIPE, (Circuit("one", 80.0, heat_flow=800.0),), 37.5)


def circuit_list(draw: st.DrawFn) -> tuple[Circuit, ...]:
    count = draw(st.integers(1, 8))
    return tuple(
        Circuit(
            f"circuit {number}",
            draw(st.floats(5.0, 140.0)),
            heat_flow=draw(st.floats(30.0, 1500.0)),
            temperature_drop=draw(st.none() | st.floats(3.0, 10.0)),
            pipe=draw(st.sampled_from((None, WIDE))),
            bends=draw(st.sampled_from((None, (CountedBends(40, 90.0), CountedBends(1, 180.0, 0.15))))),
        )
        for number in range(count)
    )


@st.composite
def manifolds(draw: st.DrawFn) -> HydraulicsInputs:
    return HydraulicsInputs(
        PIPE,
        circuit_list(draw),
        draw(st.floats(30.0, 50.0)),
        fluid=draw(st.sampled_from((Fluid(), GLYCOL, Fluid("ethylene_glycol", 0.25, "mass")))),
        flow_meter_kv=draw(st.none() | st.floats(0.8, 3.0)),
        mains_pressure_drop=draw(st.sampled_from((0.0, 5000.0))),
    )


def codes(result: HydraulicsResult) -> dict[str, str]:
    return {finding.code: finding.severity for finding in result.findings}


def one(**changes: Any) -> HydraulicsResult:
    return calculate(replace(ONE, circuits=(replace(ONE.circuits[0], **changes),)))


def drop_by_fluids(circuit: CircuitHydraulics, length: float, flow: float, kv: float) -> float:
    """Pipe with the usual 5 % for bends and valve, by the library fluids."""
    speed = flow / (math.pi / 4.0 * PIPE.bore**2)
    reynolds = fluids.core.Reynolds(V=speed, D=PIPE.bore, rho=circuit.density, mu=circuit.dynamic_viscosity)
    factor = fluids.friction.Churchill_1977(reynolds, PIPE.roughness / PIPE.bore)
    loss = fluids.core.K_from_f(factor, 1.05 * length, PIPE.bore)
    return float(fluids.core.dP_from_K(loss, circuit.density, speed)) + 1e5 * (3600.0 * flow / kv) ** 2


# ---------------------------------------------------------------- flows and drops


@settings(max_examples=60, deadline=None)
@given(manifolds())
def test_every_circuit_of_a_balanced_manifold_drops_the_same(inputs: HydraulicsInputs) -> None:
    result = calculate(inputs)
    for circuit in result.circuits:
        assert circuit.total_pressure_drop == pytest.approx(result.manifold_pressure, rel=1e-9)
        assert circuit.valve_pressure_drop >= circuit.open_valve_pressure_drop * (1.0 - 1e-9)
    index = next(circuit for circuit in result.circuits if circuit.id == result.index_circuit)
    assert index.valve_pressure_drop == pytest.approx(index.open_valve_pressure_drop, rel=1e-12)


@settings(max_examples=60, deadline=None)
@given(manifolds())
def test_mass_and_heat_are_conserved_at_the_manifold(inputs: HydraulicsInputs) -> None:
    result = calculate(inputs)
    assert result.mass_flow == pytest.approx(sum(circuit.mass_flow for circuit in result.circuits), rel=1e-12)
    assert result.pump.volume_flow == pytest.approx(sum(c.volume_flow for c in result.circuits), rel=1e-12)
    returned = sum(c.mass_flow * c.return_temperature for c in result.circuits)
    assert returned == pytest.approx(result.mass_flow * result.return_temperature, rel=1e-12)
    for asked, circuit in zip(inputs.circuits, result.circuits, strict=True):
        carried = circuit.mass_flow * circuit.heat_capacity * circuit.temperature_drop
        assert carried == pytest.approx(asked.heat_flow, rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.002, 0.1), st.floats(1.0001, 2.0), st.floats(5.0, 140.0))
def test_drop_rises_with_flow_and_length(flow: float, more: float, length: float) -> None:
    def drops(**changes: float) -> tuple[float, float]:
        circuit = one(heat_flow=None, **{"mass_flow": flow, "length": length, **changes}).circuits[0]
        return circuit.pressure_drop, circuit.pressure_drop_upper

    best, upper = drops()
    assert best <= upper
    assert drops(mass_flow=flow * more)[0] > best
    assert drops(length=length * more) == (
        pytest.approx(best * more, rel=1e-9),
        pytest.approx(upper * more, rel=1e-9),
    )


@pytest.mark.parametrize("temperature_drop", [3.0, 5.0, 8.0])
def test_flow_from_heat_is_that_of_coolprop(temperature_drop: float) -> None:
    """m = Q / (cp sigma) with cp at the mean temperature (EN 1264-3, clause on flow, without downward share)."""
    circuit = one(temperature_drop=temperature_drop).circuits[0]
    mean = 37.5 - temperature_drop / 2.0 + 273.15
    cp, rho = (PropsSI(name, "T", mean, "P", 2e5, "Water") for name in "CD")
    assert circuit.mass_flow == pytest.approx(800.0 / (cp * temperature_drop), rel=2e-4)
    assert circuit.volume_flow == pytest.approx(circuit.mass_flow / rho, rel=1e-5)


def test_drop_is_that_of_fluids() -> None:
    circuit = one().circuits[0]
    oracle = drop_by_fluids(circuit, 80.0, circuit.volume_flow, 1.1)
    assert circuit.total_pressure_drop == pytest.approx(oracle, rel=1e-9)


def test_mass_flow_may_be_given_instead_of_heat() -> None:
    by_heat = one().circuits[0]
    by_mass = one(heat_flow=None, mass_flow=by_heat.mass_flow).circuits[0]
    assert by_mass.heat_flow == pytest.approx(800.0, rel=1e-12)
    assert by_mass.pressure_drop == pytest.approx(by_heat.pressure_drop, rel=1e-12)


@settings(max_examples=30, deadline=None)
@given(manifolds(), st.randoms(use_true_random=False))
def test_order_of_circuits_does_not_matter(inputs: HydraulicsInputs, random: Any) -> None:
    order = list(range(len(inputs.circuits)))
    random.shuffle(order)
    plain = calculate(inputs)
    mixed = calculate(replace(inputs, circuits=tuple(inputs.circuits[place] for place in order)))
    assert mixed.manifold_pressure == plain.manifold_pressure
    for place, circuit in zip(order, mixed.circuits, strict=True):
        twin = plain.circuits[place]
        assert replace(circuit, open_same_flow=twin.open_same_flow) == twin
        assert circuit.open_same_flow.mass_flow == pytest.approx(twin.open_same_flow.mass_flow, rel=1e-9)


# ---------------------------------------------------------------- all valves open


@settings(max_examples=60, deadline=None)
@given(manifolds())
def test_open_valves_share_the_total_and_feel_one_pressure(inputs: HydraulicsInputs) -> None:
    """Each circuit's drop at its open flow is computed anew as a design: both cases close to 1e-9."""
    result = calculate(inputs)
    total = sum(circuit.open_same_flow.mass_flow / circuit.density for circuit in result.circuits)
    assert total == pytest.approx(result.volume_flow, rel=1e-9)
    for kind, pressure in (
        ("open_same_flow", result.open_valves.same_flow_pressure),
        ("open_same_pressure", result.manifold_pressure),
    ):
        for asked, circuit in zip(inputs.circuits, result.circuits, strict=True):
            flow = getattr(circuit, kind)
            alone = replace(asked, heat_flow=None, mass_flow=flow.mass_flow)
            again = calculate(replace(inputs, circuits=(alone,))).manifold_pressure
            assert again == pytest.approx(pressure, rel=1e-9)
            assert flow.flow_ratio * flow.temperature_drop == pytest.approx(
                circuit.temperature_drop, rel=1e-9
            )
    assert result.open_valves.same_flow_pressure <= result.manifold_pressure * (1.0 + 1e-9)


def test_open_valves_starve_the_index_circuit() -> None:
    """What a site sees before balancing: the short circuit takes the water of the long one."""
    circuits = (Circuit("long", 110.0, heat_flow=900.0), Circuit("short", 30.0, heat_flow=300.0))
    long, short = calculate(replace(ONE, circuits=circuits)).circuits
    assert long.open_same_flow.flow_ratio < 0.8
    assert short.open_same_flow.flow_ratio > 1.5
    assert long.open_same_flow.temperature_drop > 5.0 > short.open_same_flow.temperature_drop
    assert long.open_same_pressure.flow_ratio == pytest.approx(1.0, abs=1e-9)


def test_one_circuit_alone_needs_no_balancing() -> None:
    result = calculate(ONE)
    assert result.circuits[0].open_same_flow.flow_ratio == pytest.approx(1.0, abs=1e-9)
    assert result.circuits[0].valve_kv == 1.1
    assert result.index_circuit == "one"


# ---------------------------------------------------------------- pump, mixing, vessel, frost


@settings(max_examples=30, deadline=None)
@given(manifolds())
def test_pump_carries_the_upper_bound(inputs: HydraulicsInputs) -> None:
    result = calculate(inputs)
    pump = result.pump
    worst = max(
        c.pressure_drop_upper + c.fixed_pressure_drop + c.open_valve_pressure_drop for c in result.circuits
    )
    assert pump.pressure == pytest.approx(worst + inputs.mains_pressure_drop, rel=1e-12)
    assert pump.pressure >= pump.pressure_best_estimate
    assert pump.hydraulic_power == pytest.approx(pump.volume_flow * pump.pressure, rel=1e-12)
    density = result.mass_flow / result.volume_flow
    assert pump.head == pytest.approx(fluids.core.head_from_P(pump.pressure, density), rel=1e-9)
    # Overall efficiencies of small wet-rotor pumps, 45 and 15 %: common practice, no source.
    assert pump.electric_power_low == pytest.approx(pump.hydraulic_power / 0.45, rel=1e-9)
    assert pump.electric_power_high == pytest.approx(pump.hydraulic_power / 0.15, rel=1e-9)


@given(st.floats(36.0, 90.0))
def test_mixing_keeps_mass_and_heat(primary: float) -> None:
    result = calculate(replace(ONE, supply_temperature=35.0, primary_temperature=primary))
    mixed = result.mixing
    assert mixed is not None
    assert mixed.primary_share + mixed.recirculated_share == pytest.approx(1.0, rel=1e-12)
    temperature = mixed.primary_share * primary + mixed.recirculated_share * result.return_temperature
    assert temperature == pytest.approx(35.0, rel=1e-12)
    assert mixed.primary_mass_flow == pytest.approx(mixed.primary_share * result.mass_flow, rel=1e-12)


def test_unmixed_manifold_has_no_mixing() -> None:
    assert calculate(ONE).mixing is None


@pytest.mark.parametrize("primary", [33.5, 34.0, 34.9])
def test_a_source_colder_than_the_supply_has_no_share_of_the_flow(primary: float) -> None:
    """The energy balance would ask for more than all of the water to come from the source."""
    inputs = replace(ONE, supply_temperature=35.0, primary_temperature=primary)
    result = calculate(inputs)
    assert result.mixing is None
    told = [finding for finding in result.findings if finding.code == "primary_below_supply"]
    assert [(one.severity, one.where, one.value, one.limit) for one in told] == [
        ("violation", "/primary_temperature", primary, 35.0)
    ]
    assert not [step for step in workings(inputs, result) if step.symbol == "x"]


def test_a_source_as_warm_as_the_supply_gives_all_of_the_flow() -> None:
    mixed = calculate(replace(ONE, supply_temperature=35.0, primary_temperature=35.0)).mixing
    assert mixed is not None
    assert (mixed.primary_share, mixed.recirculated_share) == (1.0, 0.0)


@pytest.mark.parametrize(
    ("valve", "final"), [(250_000.0, 200_000.0), (300_000.0, 250_000.0), (600_000.0, 540_000.0)]
)
def test_final_pressure_below_the_safety_valve(valve: float, final: float) -> None:
    """EN 12828, annex D: 0.5 bar below a valve of up to 5 bar, a tenth below a higher one."""
    assert final_pressure(valve) == pytest.approx(final, rel=1e-12)


def test_vessel_by_given_growth_and_reserve() -> None:
    """EN 12828, annex D, by hand: 180 l that grow by 0.9587 % are 1.726 l; 3 l in reserve, 1 bar to 2.5 bar: 11.03 l,
    without a reserve 4.03 l."""
    circuits = (Circuit("one", 1.0, heat_flow=800.0),)
    content = calculate(replace(ONE, circuits=circuits)).system_volume
    given = Expansion(
        additional_volume=0.180 - content,
        precharge_pressure=100_000.0,
        expansion_ratio=0.009587,
        water_reserve=0.003,
        maximum_temperature=45.0,
    )
    for reserve, least in ((0.003, 0.01103), (0.0, 0.00403)):
        asked = replace(ONE, circuits=circuits, expansion=replace(given, water_reserve=reserve))
        vessel = calculate(asked).expansion_vessel
        assert (vessel.expansion_ratio, vessel.water_reserve) == (0.009587, reserve)
        assert vessel.expansion_volume == pytest.approx(0.001726, abs=1e-6)
        assert vessel.minimum_volume == pytest.approx(least, abs=1e-5)
        step = {working.symbol: working for working in workings(asked, calculate(asked))}
        assert step["e"].formula == step["V_WR"].formula == "given"


@pytest.mark.parametrize(
    ("expansion", "code"),
    [
        (Expansion(0.05, water_reserve=0.0015), "reserve_too_small"),  # a fifth of 8 l is 1.6 l
        (Expansion(0.05, water_reserve=0.0016), None),
        (
            Expansion(0.5, water_reserve=0.0029, maximum_temperature=60.0),
            "reserve_too_small",
        ),  # 18 l and more: 3 l
        (Expansion(0.5, water_reserve=0.003, maximum_temperature=60.0), None),
        (Expansion(1.0, water_reserve=0.0049), "reserve_too_small"),  # 0.5 % of more than 1 m3
        (
            Expansion(0.05, expansion_ratio=0.0063),
            "growth_too_small",
        ),  # water grows by 0.66 % from 10 to 37.5 degC
        (Expansion(0.05, expansion_ratio=0.0066), None),
        (Expansion(0.05, expansion_ratio=0.05), None),
    ],
)
def test_given_growth_and_reserve_are_looked_at(expansion: Expansion, code: str | None) -> None:
    """EN 12828, annex D; growth by the densities of IAPWS (tests of the fluid)."""
    codes = {finding.code for finding in calculate(replace(ONE, expansion=expansion)).findings}
    assert codes & {"reserve_too_small", "growth_too_small"} == ({code} if code else set())


@pytest.mark.parametrize("fluid", [Fluid(), GLYCOL])
def test_vessel_takes_the_growth_of_coolprop(fluid: Fluid) -> None:
    expansion = Expansion(additional_volume=0.2, maximum_temperature=70.0)
    result = calculate(replace(ONE, fluid=fluid, expansion=expansion))
    name = "Water" if fluid.kind == "water" else "INCOMP::APG[0.3]"
    cold, hot = (PropsSI("D", "T", t + 273.15, "P", 2e5, name) for t in (10.0, 70.0))
    vessel = result.expansion_vessel
    assert vessel.expansion_ratio == pytest.approx(cold / hot - 1.0, rel=2e-3)
    assert vessel.expansion_volume == pytest.approx(vessel.expansion_ratio * result.system_volume, rel=1e-12)
    # Boyle: the gas of the empty vessel, squeezed by growth and reserve, reaches the final pressure.
    full = vessel.minimum_volume - vessel.expansion_volume - vessel.water_reserve
    squeezed = (vessel.precharge_pressure + 1e5) * vessel.minimum_volume / full
    assert squeezed == pytest.approx(vessel.final_pressure + 1e5, rel=1e-9)
    assert vessel.nominal_volume is not None
    assert vessel.nominal_volume >= vessel.minimum_volume


def test_tall_house_raises_the_precharge() -> None:
    """Static height plus 0.3 bar (EN 12828; values from memory): 15 m of cold water are 1.47 bar."""
    vessel = calculate(replace(ONE, expansion=Expansion(static_height=15.0))).expansion_vessel
    assert vessel.precharge_pressure == pytest.approx(999.7 * 9.80665 * 15.0 + 30_000.0, rel=1e-4)


def test_system_volume_is_that_of_the_bores() -> None:
    """0.1131 l per metre of 12 mm bore."""
    result = calculate(replace(ONE, expansion=Expansion(additional_volume=0.05)))
    assert result.system_volume == pytest.approx(0.1131e-3 * 80.0 + 0.05, abs=1e-5)


def test_water_freezes_and_says_so() -> None:
    result = calculate(replace(ONE, frost_temperature=-5.0))
    assert codes(result)["freezes"] == "violation"
    assert result.frost_protection is not None
    assert result.frost_protection.required_concentration is None


def test_enough_glycol_stands_the_frost() -> None:
    result = calculate(replace(ONE, fluid=GLYCOL, frost_temperature=-10.0))
    assert not {"freezes", "frost_margin_small"} & set(codes(result))
    assert result.frost_protection is not None
    assert result.frost_protection.glycol_volume == pytest.approx(0.3 * result.system_volume, rel=1e-12)
    assert "glycol" in {caution.code for caution in result.cautions}


# ---------------------------------------------------------------- findings


@pytest.mark.parametrize(
    ("changes", "code", "severity"),
    [
        ({"heat_flow": 300.0}, "velocity_low", "note"),
        ({"heat_flow": 1600.0, "length": 40.0}, "velocity_high", "warning"),
        ({"heat_flow": 2600.0, "length": 20.0}, "velocity_too_high", "violation"),
        ({"length": 110.0}, "long_circuit", "warning"),
        ({"length": 125.0}, "too_long_circuit", "violation"),
        ({"heat_flow": 900.0, "length": 95.0}, "pressure_drop_high", "warning"),
        ({"heat_flow": 1200.0, "length": 100.0}, "pressure_drop_too_high", "violation"),
        ({"heat_flow": 400.0}, "transitional_flow", "note"),
        ({"heat_flow": 120.0}, "below_meter_range", "warning"),
        ({"heat_flow": 2000.0}, "above_meter_range", "warning"),
        ({"temperature_drop": 12.0}, "unusual_temperature_drop", "note"),
    ],
)
def test_findings_of_a_circuit(changes: dict[str, float], code: str, severity: str) -> None:
    """Limits by common practice, no source; 100 and 120 m for 16 mm pipe: NF DTU 65.14, JGJ 142."""
    finding = next(finding for finding in one(**changes).findings if finding.code == code)
    assert finding.severity == severity
    assert finding.where == "/circuits/0"
    assert finding.value is not None
    assert finding.limit is not None


def test_sound_circuit_has_no_finding_but_the_bare_vessel() -> None:
    assert set(codes(calculate(ONE))) == {"vessel_for_circuits_only"}
    assert not calculate(replace(ONE, expansion=Expansion(additional_volume=0.05))).findings


@pytest.mark.parametrize(
    ("inputs", "code"),
    [
        (replace(ONE, supply_temperature=58.0), "supply_above_limit"),
        (replace(ONE, primary_temperature=39.0), "primary_close_to_supply"),
        (replace(ONE, primary_temperature=36.0), "primary_below_supply"),
        (replace(ONE, fluid=Fluid("propylene_glycol", 0.15, "volume")), "little_glycol"),
        (replace(ONE, fluid=GLYCOL, frost_temperature=-12.0), "frost_margin_small"),
        (replace(ONE, expansion=Expansion(additional_volume=20.0)), "vessel_beyond_common_sizes"),
        (replace(ONE, expansion=Expansion(safety_valve_pressure=160_000.0)), "little_pressure_range"),
        (
            replace(ONE, circuits=tuple(Circuit(str(n), 80.0, heat_flow=800.0) for n in range(13))),
            "too_many_circuits",
        ),
        (
            replace(ONE, circuits=(*ONE.circuits, Circuit("stub", 8.0, heat_flow=60.0)), valve_table=TABLE),
            "cannot_be_balanced",
        ),
        (
            replace(
                ONE, circuits=(Circuit("a", 115.0, heat_flow=1000.0), Circuit("b", 20.0, heat_flow=400.0))
            ),
            "valve_may_be_heard",
        ),
    ],
)
def test_findings_of_a_manifold(inputs: HydraulicsInputs, code: str) -> None:
    assert code in codes(calculate(inputs))


def test_callers_limits_replace_the_usual_ones() -> None:
    limits = HydraulicsLimits(minimum_velocity=0.1, advised_length=60.0, maximum_length=70.0)
    assert "too_long_circuit" in codes(calculate(replace(ONE, limits=limits)))
    assert "velocity_low" not in codes(calculate(replace(ONE, limits=limits)))


def test_settings_of_a_valve_table_give_the_kv() -> None:
    circuits = (Circuit("a", 90.0, heat_flow=800.0), Circuit("b", 60.0, heat_flow=600.0))
    a, b = calculate(replace(ONE, circuits=circuits, valve_table=TABLE)).circuits
    assert a.valve_setting == pytest.approx(5.0, abs=1e-9)
    assert b.valve_setting is not None
    low, high = TABLE[int(b.valve_setting) - 1], TABLE[int(b.valve_setting)]
    share = b.valve_setting - low.setting
    assert low.kv ** (1.0 - share) * high.kv**share == pytest.approx(b.valve_kv, rel=1e-9)


# ---------------------------------------------------------------- what is refused


@pytest.mark.parametrize(
    ("inputs", "pointer"),
    [
        (replace(ONE, valve_table=TABLE[:1]), "/valve_table"),
        (replace(ONE, valve_table=(TABLE[1], TABLE[0])), "/valve_table/1/kv"),
        (replace(ONE, valve_table=TABLE, valve_kv_open=2.0), "/valve_kv_open"),
        (replace(ONE, expansion=Expansion(maximum_temperature=30.0)), "/expansion/maximum_temperature"),
        (replace(ONE, expansion=Expansion(fill_temperature=0.0)), "/expansion/fill_temperature"),
        (replace(ONE, supply_temperature=-2.0), "/supply_temperature"),
        (replace(ONE, pipe=Pipe(0.010, 0.0045)), "/pipe/wall_thickness"),
        (replace(ONE, circuits=()), "/circuits"),
        (replace(ONE, supply_temperature=math.nan), "/supply_temperature"),
        (
            replace(ONE, circuits=(replace(ONE.circuits[0], bends=(), bend_allowance=0.1),)),
            "/circuits/0/bend_allowance",
        ),
        (
            replace(ONE, supply_temperature=8.0, circuits=(replace(ONE.circuits[0], temperature_drop=9.0),)),
            "/circuits/0/temperature_drop",
        ),
    ],
)
def test_what_cannot_be_is_refused(inputs: HydraulicsInputs, pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        calculate(inputs)
    assert pointer in {fault.pointer for fault in refused.value.faults}


def test_all_faults_come_at_once() -> None:
    bare = Circuit("same", 80.0)
    with pytest.raises(InputError) as refused:
        calculate(replace(ONE, circuits=(bare, bare), fluid=Fluid("water", 0.2)))
    assert {fault.pointer for fault in refused.value.faults} == {
        "/circuits/0/heat_flow",
        "/circuits/1/heat_flow",
        "/circuits/1/id",
        "/fluid/concentration",
    }


@pytest.mark.parametrize("mass_flow", [1e-6, 1e-4, 0.5, 5.0])
@pytest.mark.parametrize("length", [0.1, 1000.0])
@pytest.mark.parametrize("pipe", [Pipe(0.008, 0.0025, roughness=0.0005), Pipe(0.032, 0.0005, roughness=0.0)])
def test_no_number_of_the_range_leaves_the_engine_unfinite(
    mass_flow: float, length: float, pipe: Pipe
) -> None:
    far = Circuit("far", length, mass_flow=mass_flow, valve_kv_open=0.001)
    usual = Circuit("usual", 80.0, heat_flow=800.0)
    for fluid in (Fluid(), Fluid("ethylene_glycol", 0.6, "mass")):
        result = calculate(replace(ONE, pipe=pipe, circuits=(far, usual), fluid=fluid))
        json.dumps(asdict(result), allow_nan=False)
        total = sum(circuit.open_same_flow.mass_flow / circuit.density for circuit in result.circuits)
        assert total == pytest.approx(result.volume_flow, rel=1e-9)


# ---------------------------------------------------------------- workings


def test_workings_let_the_index_circuit_be_redone_by_hand() -> None:
    inputs = replace(ONE, primary_temperature=50.0)
    result = calculate(inputs)
    step = {working.symbol: working.value for working in workings(inputs, result)}
    assert step["m"] == pytest.approx(step["Q"] / (step["cp"] * step["sigma"]), rel=1e-12)
    assert step["v"] == pytest.approx(4.0 * step["V"] / (math.pi * step["D"] ** 2), rel=1e-12)
    assert step["Re"] == pytest.approx(step["rho"] * step["v"] * step["D"] / step["mu"], rel=1e-12)
    assert step["f"] == pytest.approx(fluids.friction.Churchill_1977(step["Re"], step["eps/D"]), rel=1e-9)
    assert step["R"] == pytest.approx(step["f"] / step["D"] * step["rho"] * step["v"] ** 2 / 2.0, rel=1e-12)
    assert step["dp"] == pytest.approx(step["R"] * step["L"] * 1.05, rel=1e-12)
    assert step["dp_M"] == pytest.approx(step["dp"] + step["dp_fix"] + step["dp_open"], rel=1e-12)
    assert step["H"] == pytest.approx(step["dp_P"] / (step["rho_P"] * 9.80665), rel=1e-12)
    assert step["x"] == pytest.approx((37.5 - step["theta_R"]) / (50.0 - step["theta_R"]), rel=1e-12)
    room = (step["V_e"] + step["V_WR"]) * (step["p_e"] + 1e5) / (step["p_e"] - step["p_0"])
    assert step["V_min"] == pytest.approx(room, rel=1e-12)


def test_workings_name_formula_and_source_throughout() -> None:
    circuits = (*ONE.circuits, Circuit("two", 60.0, mass_flow=0.02, bends=(CountedBends(20),)))
    inputs = replace(ONE, circuits=circuits, fluid=GLYCOL, primary_temperature=50.0)
    chain = workings(inputs, calculate(inputs))
    assert all(step.symbol and step.unit and step.formula and step.source for step in chain)
    assert len({step.symbol for step in chain}) == len(chain)
    assert all(len(step.symbol) <= 40 and len(step.formula) <= 400 for step in chain)


def test_same_inputs_same_answer() -> None:
    inputs = replace(ONE, fluid=GLYCOL, circuits=(*ONE.circuits, Circuit("two", 61.0, heat_flow=433.0)))
    assert calculate(inputs) == calculate(inputs)


@pytest.mark.parametrize(
    ("kv", "refused"), [(0.079, True), (0.08, False), (0.5, False), (1.1, False), (1.11, True)]
)
def test_an_open_valve_lies_within_its_table(kv: float, refused: bool) -> None:
    circuit = Circuit("one", 80.0, heat_flow=800.0, valve_kv_open=kv)
    inputs = replace(ONE, circuits=(circuit,), valve_table=TABLE)
    if refused:
        with pytest.raises(InputError) as caught:
            calculate(inputs)
        assert [fault.code for fault in caught.value.faults] == ["outside_valve_table"]
    else:
        assert calculate(inputs).circuits[0].valve_kv <= kv * (1.0 + 1e-9)
