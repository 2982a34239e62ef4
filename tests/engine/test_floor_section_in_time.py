"""The section in time against the response of a slab, finite elements, and the order of its method."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from tepidarium_engine.conduction.network import Network, network
from tepidarium_engine.conduction.warm_up import (
    Flows,
    Moment,
    Stepper,
    Supply,
    flows_of,
    steady_state,
    steps,
    still,
)
from tepidarium_engine.elementwise import Array
from tepidarium_engine.errors import InputError
from tepidarium_engine.floor_section import FloorSectionInputs, calculate
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.section.bay import solved
from tepidarium_engine.section.course import _Record
from tepidarium_engine.section.records import SectionLayer, Setback, WarmUp, WarmUpResult

from tests.sections.cases import BUILD_UPS, FILM, USUAL
from tests.sections.finite_elements import course

HOUR = 3600.0


def _warm_up(inputs: FloorSectionInputs, plan: WarmUp) -> WarmUpResult:
    found = calculate(replace(inputs, warm_up=plan)).warm_up
    assert found is not None
    return found


# --- a slab with a textbook series -------------------------------------------------------------------------


def _slab(
    power: float, time: float, axis: float, radius: float, *, length: float, k: float, c: float
) -> float:
    """Heat from the face of a slab [W/m2], insulated on its other side, that gets ``power`` [W/m2] on a ring at the
    height ``axis``, from one temperature on.

    Green's function of the slab 0 < y < L with no flow at 0 and radiation at L (Carslaw and Jaeger, Conduction of Heat
    in Solids, 2nd ed. 1959, section 14.3), whose eigenvalues are those of b tan(bL) = h; its mean over the ring is
    cos(b y0) J0(b R).
    """
    h = 10.8 / k
    flow = power
    for n in range(60):
        low, high = n * math.pi / length, (n + 0.5) * math.pi / length
        b = brentq(lambda b: b * math.tan(b * length) - h, low + 1e-9, high - 1e-9)
        norm = 2.0 * (b * b + h * h) / (length * (b * b + h * h) + h)
        shape = math.cos(b * axis) * _bessel(b * radius) * math.cos(b * length)
        flow -= 10.8 * norm * shape * power / (k * b * b) * math.exp(-k / c * b * b * time)
    return flow


def _bessel(x: float) -> float:
    """J0 by Bessel's integral."""
    return float(np.mean(np.cos(x * np.sin(np.pi * (np.arange(200) + 0.5) / 200))))


SLAB = FloorSectionInputs(
    pipe_spacing=0.2,
    pipe=Pipe(0.016, 0.002),
    screed_cover=0.072,
    screed_thickness=0.1,
    screed_conductivity=1.4,
    screed_heat_capacity=2.0e6,
    layers_below=(SectionLayer(1.0, 0.01, 1e3),),
    surface_resistance_below=1.0,
    covering_resistance=0.0,
    water_temperature=95.0,
)
"""The insulation below lets through one part in a thousand."""


@pytest.mark.parametrize("step", [300.0, 900.0, 1800.0])
def test_slab_at_constant_power_is_the_textbooks(step: float) -> None:
    """The heat that a source without enough power gives is its power, whatever the pipes are like."""
    power = 30.0
    found = _warm_up(SLAB, WarmUp(24.0 * HOUR, step, source_power=power))
    for point in found.course:
        assert point.water_heat == pytest.approx(power, rel=1e-12)
        if point.time >= 1.0 * HOUR:
            exact = _slab(power, point.time, 0.020, 0.008, length=0.1, k=1.4, c=2.0e6)
            assert point.heat_output == pytest.approx(exact, abs=0.01 * power)
            if point.time >= 4.0 * HOUR:
                assert point.heat_output == pytest.approx(exact, rel=0.01)


# --- finite elements in time -------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["usual", "thick cover", "pipe amid the screed", "timber on screed"])
def test_warm_up_agrees_with_finite_elements(name: str) -> None:
    inputs = BUILD_UPS[name]
    elements = course(inputs, FILM, 900.0, 48)
    found = _warm_up(inputs, WarmUp(12.0 * HOUR, 900.0))
    steady = found.steady_heat_output
    own = [point.heat_output for point in found.course]
    assert len(own) == len(elements)
    for time, (one, other) in enumerate(zip(own, elements.tolist(), strict=True), start=1):
        if time >= 4:
            assert abs(one - other) <= 0.01 * steady
    reached = np.flatnonzero(elements >= 0.9 * steady)
    if found.warm_up_time is not None:
        assert found.warm_up_time == pytest.approx(900.0 * (reached[0] + 0.5), abs=900.0)
    else:
        assert not len(reached)


# --- order and stability -----------------------------------------------------------------------------------


OVERSHOOT = 0.005
"""Share of the span of temperatures; a floor that obeys the heat equation has none."""


def _output(step: float, fineness: int, hours: float = 12.0) -> float:
    """Heat output [W/m2] of the usual floor after some hours of constant power, from an even temperature."""
    case = solved(USUAL)
    net = network(case.bay, case.water.water, [3e4, 2.2e6], 2.1e6, [], fineness=fineness)
    count = round(hours * HOUR / step)
    supply = Supply(1e9, 60.0)
    *_, last = steps(net, lambda _: 10.8, 0.0, still(net, 0.0), supply, step=step, count=count)
    return last.flows.up


@pytest.mark.parametrize("step", [600.0, 3600.0])
def test_the_mean_of_a_constant_power_is_the_power(step: float) -> None:
    """The weights of the method add up to one, also over a first step that is made of short ones."""
    net = _floor()
    course = steps(net, lambda _: 10.8, 0.0, still(net, 0.0), Supply(1e9, 60.0), step=step, count=5)
    assert [moment.means.water for moment in course] == pytest.approx([60.0] * 5, rel=1e-12)


def test_second_order_in_time() -> None:
    coarse, middle, fine = (_output(step, 1) for step in (3600.0, 1800.0, 900.0))
    assert math.log2(abs(coarse - middle) / abs(middle - fine)) == pytest.approx(2.0, abs=0.25)


def test_second_order_in_space() -> None:
    coarse, middle, fine = (_output(900.0, fineness) for fineness in (1, 2, 4))
    assert math.log2(abs(coarse - middle) / abs(middle - fine)) == pytest.approx(2.0, abs=0.3)


@settings(max_examples=30, deadline=None)
@given(
    st.floats(150.0, 60_000.0),
    st.sampled_from(sorted(BUILD_UPS)),
    st.sampled_from(["constant", "basic_curve"]),
    st.sampled_from([None, 40.0, 150.0]),
    st.floats(5.0, 30.0),
)
def test_balance_closes_at_any_step(
    step: float, name: str, exchange: str, power: float | None, initial: float
) -> None:
    plan = WarmUp(
        40.0 * step, step, initial_temperature=initial, source_power=power, setback=Setback(8.0 * step)
    )
    inputs = replace(BUILD_UPS[name], surface_exchange=exchange)  # type: ignore[arg-type]
    found = _warm_up(inputs, plan)
    assert found.balance_error <= 1e-9
    moved = abs(found.supplied_energy) + abs(found.energy_to_room) + abs(found.energy_downwards)
    given = found.supplied_energy - found.energy_to_room - found.energy_downwards
    assert abs(given - found.stored_energy) <= 1e-9 * (moved + abs(found.stored_energy))
    assert inputs.temperature_below is not None
    low = min(initial, inputs.room_temperature, inputs.temperature_below)
    high = max(initial, inputs.room_temperature, inputs.water_temperature)
    # Neither the floor nor the method has a reason to leave the span of what drives it. Long steps of TR-BDF2 alone
    # would, by up to (sqrt(2) - 1) / 2 of it (least value of its stability function, Hosea and Shampine 1996).
    over = OVERSHOOT * (high - low)
    assert found.setback is not None
    for point in (*found.course, *found.setback.course):
        assert low - over <= point.mean_surface_temperature <= high + over
        if power is not None:
            assert point.water_heat <= power * (1.0 + 1e-12)


# --- what the numbers mean ---------------------------------------------------------------------------------


def test_course_ends_in_the_steady_section() -> None:
    inputs = replace(USUAL, temperature_below=10.0)
    steady = calculate(inputs)
    end = _warm_up(inputs, WarmUp(20.0 * 86_400.0, 3600.0)).course[-1]
    assert end.water_heat == pytest.approx(steady.total_heat_output, rel=1e-3)
    assert end.heat_output == pytest.approx(steady.heat_output, rel=2e-3)
    assert end.mean_surface_temperature == pytest.approx(steady.mean_surface_temperature, abs=0.02)


def test_an_unheated_floor_starts_as_layers_in_series_have_it() -> None:
    """Without water the floor is a plane wall between the room and what is below: layers in series (ISO 6946)."""
    inputs = replace(USUAL, temperature_below=5.0)
    resistance = 1.0 / 10.8 + 0.05 + (USUAL.screed_thickness or 0.0) / 1.2 + 0.03 / 0.04 + 0.15 / 2.1 + 0.17
    first = _warm_up(inputs, WarmUp(600.0, 1.0)).course[0]
    assert first.time <= 10.0
    assert first.heat_output == pytest.approx(-15.0 / resistance, rel=2e-3)
    assert _warm_up(inputs, WarmUp()).stored_energy > 0.0


def test_stored_energy_is_capacity_times_warming() -> None:
    """A floor that ends at one temperature all over holds its capacity times the warming."""
    inputs = replace(USUAL, room_temperature=40.0, temperature_below=40.0)
    found = _warm_up(inputs, WarmUp(25.0 * 86_400.0, 3600.0, initial_temperature=20.0))
    capacity = USUAL.screed_heat_capacity * (USUAL.screed_thickness or 0.0) + sum(
        layer.thickness * layer.volumetric_heat_capacity for layer in USUAL.layers_below
    )
    assert found.stored_energy == pytest.approx(20.0 * capacity, rel=1e-3)


def test_cooling_is_heating_with_all_signs_changed() -> None:
    cold = replace(USUAL, water_temperature=0.0, room_temperature=20.0)
    one, other = _warm_up(USUAL, WarmUp()), _warm_up(cold, WarmUp())
    assert other.steady_heat_output == pytest.approx(-one.steady_heat_output, rel=1e-9)
    assert other.warm_up_time is not None and other.warm_up_time == pytest.approx(one.warm_up_time, rel=1e-6)


def test_thicker_and_weaker_is_slower() -> None:
    plan = WarmUp(96.0 * HOUR, 1800.0)
    usual = _warm_up(USUAL, plan).warm_up_time
    thick = _warm_up(replace(USUAL, screed_cover=0.075, screed_thickness=0.0911), plan).warm_up_time
    weak = _warm_up(USUAL, replace(plan, source_power=110.0)).warm_up_time
    assert usual is not None and thick is not None and weak is not None
    assert usual < thick
    assert usual < weak


def test_source_that_is_too_small_is_told() -> None:
    result = calculate(replace(USUAL, warm_up=WarmUp(source_power=40.0)))
    assert result.warm_up is not None and result.warm_up.warm_up_time is None
    assert {"source_too_small", "output_not_reached"} <= {finding.code for finding in result.findings}


def test_lowering_at_night() -> None:
    plan = WarmUp(48.0 * HOUR, 900.0, setback=Setback(8.0 * HOUR))
    off = _warm_up(USUAL, plan).setback
    low = _warm_up(USUAL, replace(plan, setback=Setback(8.0 * HOUR, 30.0))).setback
    assert off is not None and low is not None
    steady = calculate(USUAL).heat_output
    assert off.heat_output_at_end < low.heat_output_at_end < steady
    assert off.released_energy > low.released_energy > 0.0
    assert off.recovery_time is not None and low.recovery_time is not None
    assert off.recovery_time > low.recovery_time > 0.0
    assert off.course[0].water_temperature is None and off.course[0].water_heat == 0.0


@pytest.mark.parametrize(
    ("plan", "pointer"),
    [
        (WarmUp(172_800.0, 100.0), "/warm_up/duration"),
        (WarmUp(172_800.0, 0.0), "/warm_up/time_step"),
        (WarmUp(36_000.0, 60.0, setback=Setback(72_000.0)), "/warm_up/setback/duration"),
    ],
)
def test_too_many_steps_are_refused(plan: WarmUp, pointer: str) -> None:
    with pytest.raises(InputError) as refusal:
        calculate(replace(USUAL, warm_up=plan))
    assert pointer in [fault.pointer for fault in refusal.value.faults]


def test_the_worst_balance_of_a_course_by_hand() -> None:
    """An error of 0.03 J/m2 where 2 are stored and 1, 0.5 and 0.5 W/m2 flow for 1 s: 0.03 / 4."""
    record = _Record(1.0, 2, 50.0, 20.0)
    quiet, flows = Flows(0.0, 0.0, 0.0, 0.0, 0.0), Flows(1.0, 0.5, 0.5, 10.0, 5.0)
    nothing = np.zeros(1)
    record.follow(
        [
            Moment(nothing, nothing, quiet, quiet, 0.0, 0.0),
            Moment(nothing, nothing, flows, flows, 2.0, 0.03),
            Moment(nothing, nothing, flows, flows, 2.0, -0.01),
        ],
        0.0,
    )
    assert record.error == pytest.approx(0.0075, rel=1e-12)


def test_by_the_curve_a_long_course_ends_at_the_steady_section() -> None:
    """Exchange by the basic characteristic curve (EN 1264-2): after ten days nothing changes any more, and the course
    has come to the steady section, which is solved in another way, within the half per cent of its grid."""
    inputs = replace(USUAL, surface_exchange="basic_curve")
    found = _warm_up(inputs, WarmUp(240.0 * HOUR, HOUR))
    steady, last = calculate(inputs), found.course[-1]
    assert last.heat_output == pytest.approx(steady.heat_output, rel=5e-3)
    assert last.downward_heat_loss == pytest.approx(steady.downward_heat_loss, rel=5e-3)
    excess = last.mean_surface_temperature - inputs.room_temperature
    assert last.heat_output == pytest.approx(8.92 * excess**1.1, rel=1e-6)
    assert found.balance_error < 1e-9


# --- one stage as a dense system ---------------------------------------------------------------------------


def _curve(excess: float) -> float:
    """The basic characteristic curve, EN 1264-2: 8.92 W/(m2.K) x excess to the power 0.1."""
    return 8.92 * max(abs(excess), 1e-3) ** 0.1


def _floor() -> Network:
    case = solved(USUAL)
    return network(case.bay, case.water.water, [3e4, 2.2e6], 2.1e6, [])


def _dense(
    net: Network, shift: float, right: Array, supply: Supply, below: float
) -> tuple[Array, float, float]:
    """State, heat from the water and surface excess: all waves and the water in one dense matrix by numpy, and the
    surface's excess by Brent's method."""
    waves, cells = net.diagonal.shape
    size = waves * cells
    matrix = np.zeros((size + 1, size + 1))
    for wave in range(waves):
        at = slice(wave * cells, (wave + 1) * cells)
        matrix[at, at] = (
            np.diag(net.diagonal[wave] + shift * net.capacity)
            + np.diag(net.off_diagonal, 1)
            + np.diag(net.off_diagonal, -1)
        )
    matrix[:size, size] = -net.injection.ravel()
    matrix[size, :size], matrix[size, size] = net.injection.ravel(), net.link
    if supply.excess is None:
        matrix[size, :size], matrix[size, size] = 0.0, 1.0
    loads = np.append(right.ravel(), supply.excess or 0.0)
    loads[0] += net.bottom * below

    def found(surface: float) -> tuple[Array, float]:
        own = matrix.copy()
        conductance = 1.0 / (net.half_cell + 1.0 / _curve(surface))
        for top in range(cells - 1, size, cells):
            own[top, top] += conductance
        answer = np.linalg.solve(own, loads)
        if abs(answer[size]) > supply.greatest:
            own[size, :size], own[size, size] = 0.0, 1.0
            answer = np.linalg.solve(
                own, np.append(loads[:size], math.copysign(supply.greatest, answer[size]))
            )
        return answer, float(answer[cells - 1]) * conductance / _curve(surface)

    surface = brentq(lambda excess: found(excess)[1] - excess, -60.0, 60.0, xtol=1e-13)
    answer, _ = found(surface)
    return answer[:size].reshape(waves, cells), float(answer[size]), surface


SUPPLIES = (Supply(20.0), Supply(20.0, 45.0), Supply(-9.0), Supply(-9.0, 12.0), Supply(None))


@pytest.mark.parametrize("supply", SUPPLIES, ids=str)
@pytest.mark.parametrize("shift", [0.0, 1.0 / 1800.0])
def test_a_stage_is_the_dense_system(supply: Supply, shift: float) -> None:
    """Exchange by the basic curve: the stage moves it about a reference matrix, the dense system does not."""
    net = _floor()
    held = shift * net.capacity * np.linspace(4.0, 9.0, net.capacity.size) if shift else 0.0
    right = np.zeros(net.diagonal.shape)
    right[0] += held
    state, flows = Stepper(net, _curve, -3.0, shift).solve(right.copy(), supply, 1.0)
    expected, water, surface = _dense(net, shift, right, supply, -3.0)
    assert flows.surface_excess == pytest.approx(surface, abs=1e-6)
    assert state == pytest.approx(expected, abs=1e-6)
    assert flows.water == pytest.approx(water, abs=1e-5)
    assert flows.up == pytest.approx(_curve(surface) * surface, abs=1e-5)
    assert flows.down == pytest.approx(net.bottom * (expected[0, 0] + 3.0), abs=1e-6)
    ring = float((net.injection * expected).sum())
    assert flows.water_excess == pytest.approx(ring + water * net.link, abs=1e-6)


@pytest.mark.parametrize("supply", SUPPLIES, ids=str)
def test_flows_of_a_state_by_brents_method(supply: Supply) -> None:
    """The heat that comes through the uppermost half cell leaves by the curve; the water gives what the pipe lets."""
    net = _floor()
    state, _ = steady_state(net, _curve, -3.0, Supply(25.0))
    top, ring = float(state[0, -1]), float((net.injection * state).sum())
    surface = brentq(lambda s: (top - s) / net.half_cell - _curve(s) * s, 1e-6, top, xtol=1e-13)
    flows = flows_of(net, _curve, -3.0, state, supply)
    water = 0.0 if supply.excess is None else (supply.excess - ring) / net.link
    if abs(water) > supply.greatest:
        water = math.copysign(supply.greatest, water)
    assert flows.surface_excess == pytest.approx(surface, abs=1e-6)
    assert flows.up == pytest.approx(_curve(surface) * surface, abs=1e-5)
    assert flows.water == pytest.approx(water, rel=1e-12)
    assert flows.water_excess == pytest.approx(ring + water * net.link, rel=1e-12)
    assert flows.down == pytest.approx(net.bottom * (float(state[0, 0]) + 3.0), rel=1e-12)
