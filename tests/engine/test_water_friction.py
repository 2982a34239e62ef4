"""Friction, bends and valves against the general library ``fluids`` and published laws."""

from __future__ import annotations

import math

import fluids
import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.water.bends import bend_coefficients, counted_coefficients
from tepidarium_engine.water.friction import (
    churchill,
    churchill_with_slope,
    colebrook,
    friction_upper,
    laminar,
    regime,
)
from tepidarium_engine.water.inputs import CountedBends, ValveSetting
from tepidarium_engine.water.valves import kv_for_drop, kv_in_series, resistance, setting_for_kv

REYNOLDS = np.geomspace(1.0, 1e7, 400)
ROUGHNESSES = (0.0, 1.25e-4, 5.833e-4, 0.01)
reynolds_numbers = st.floats(0.5, 1e6)
roughnesses = st.floats(0.0, 0.02)
TABLE = tuple(ValveSetting(*row) for row in ((1.0, 0.08), (2.0, 0.2), (3.0, 0.42), (4.0, 0.74), (5.0, 1.1)))


# ---------------------------------------------------------------- friction factors


@pytest.mark.parametrize("roughness", ROUGHNESSES)
def test_churchill_is_that_of_fluids(roughness: float) -> None:
    oracle = np.array([fluids.friction.Churchill_1977(Re, roughness) for Re in REYNOLDS.tolist()])
    assert churchill(REYNOLDS, roughness) == pytest.approx(oracle, rel=1e-9)
    singly = [churchill(Re, roughness) for Re in REYNOLDS.tolist()]
    assert singly == pytest.approx(oracle, rel=1e-9)


@pytest.mark.parametrize("roughness", ROUGHNESSES)
def test_colebrook_is_that_of_fluids(roughness: float) -> None:
    turbulent = np.geomspace(2000.0, 1e7, 100)
    oracle = np.array([fluids.friction.Colebrook(Re, roughness) for Re in turbulent.tolist()])
    assert colebrook(turbulent, roughness) == pytest.approx(oracle, rel=1e-12)
    assert [colebrook(Re, roughness) for Re in turbulent.tolist()] == pytest.approx(oracle, rel=1e-12)


@given(st.floats(1.0, 1500.0), roughnesses)
def test_slow_flow_is_laminar(reynolds: float, roughness: float) -> None:
    """Hagen and Poiseuille: 64/Re."""
    assert churchill(reynolds, roughness) == pytest.approx(64.0 / reynolds, rel=5e-4)
    assert laminar(reynolds) == 64.0 / reynolds


@pytest.mark.parametrize("reynolds", [5000.0, 10_000.0, 20_000.0, 80_000.0])
def test_smooth_pipe_follows_blasius(reynolds: float) -> None:
    """0.3164 Re^-0.25 for smooth pipe, 4000 < Re < 1e5 (Blasius); the formulas differ by up to 3 %."""
    assert churchill(reynolds, 0.0) == pytest.approx(0.3164 * reynolds**-0.25, rel=0.03)


def test_published_exponent_law() -> None:
    """H = R V^1.75 for smooth tube (Siegenthaler, PM Engineer 2003): twice the flow, 3.36 times the head.

    Roughness of 0.007 mm in 12 mm makes it 3.31 by Churchill.
    """

    def drop(flow: float) -> float:
        return float(churchill(4889.0 * flow, 7e-6 / 0.012)) * flow**2

    assert drop(2.0) / drop(1.0) == pytest.approx(2.0**1.75, rel=0.02)
    assert drop(2.0) / drop(1.0) == pytest.approx(3.31, abs=0.006)


@given(reynolds_numbers, roughnesses, st.floats(1.0001, 3.0))
def test_pressure_drop_rises_with_flow(reynolds: float, roughness: float, more: float) -> None:
    for factor in (churchill, colebrook) if reynolds > 2000.0 else (churchill,):
        assert factor(reynolds * more, roughness) * more**2 > factor(reynolds, roughness)


@given(st.floats(10.0, 1e6), roughnesses)
def test_slope_is_the_derivative_of_the_same_formula(reynolds: float, roughness: float) -> None:
    factor, slope = churchill_with_slope(reynolds, roughness)
    step = 1e-5
    high, low = (
        churchill(reynolds * math.exp(step), roughness),
        churchill(reynolds * math.exp(-step), roughness),
    )
    assert factor == pytest.approx(churchill(reynolds, roughness), rel=1e-12)
    assert slope == pytest.approx(math.log(high / low) / (2.0 * step), abs=1e-5)


@example(1900.0, 5e-4)
@example(2100.0, 5e-4)
@example(3900.0, 5e-4)
@example(4100.0, 5e-4)
@given(reynolds_numbers, roughnesses)
def test_upper_bound_takes_the_worse_in_the_transition_only(reynolds: float, roughness: float) -> None:
    best, upper = churchill(reynolds, roughness), friction_upper(reynolds, roughness)
    if 2000.0 < reynolds < 4000.0:
        assert upper == max(best, colebrook(reynolds, roughness))
    else:
        assert upper == best


def test_upper_bound_of_an_array_is_that_of_its_members() -> None:
    singly = [friction_upper(Re, 5e-4) for Re in REYNOLDS.tolist()]
    assert friction_upper(REYNOLDS, 5e-4) == pytest.approx(singly, rel=1e-12)


@pytest.mark.parametrize(
    ("reynolds", "name"),
    [(1999.0, "laminar"), (2000.0, "transitional"), (3999.0, "transitional"), (4000.0, "turbulent")],
)
def test_regimes(reynolds: float, name: str) -> None:
    assert regime(reynolds) == name


# ---------------------------------------------------------------- bends


@pytest.mark.parametrize("angle", [30.0, 90.0, 180.0])
@pytest.mark.parametrize("radius", [0.06, 0.075, 0.1, 0.3])
@pytest.mark.parametrize("friction", [0.025, 0.0384, 0.06])
def test_bend_is_that_of_rennels_less_its_straight_arc(angle: float, radius: float, friction: float) -> None:
    oracle = fluids.fittings.bend_rounded(Di=0.012, angle=angle, rc=radius, fd=friction, method="Rennels")
    straight = friction * math.radians(angle) * radius / 0.012
    constant, factor = bend_coefficients(angle, radius, 0.012)
    assert constant + factor * friction == pytest.approx(oracle - straight, abs=1e-12)


def test_allowance_of_five_percent_holds_for_usual_circuits() -> None:
    """95 m of 12 mm bore with 60 corners or 30 U-turns of 75 mm: 2 to 4 % more than straight pipe."""
    pipe, friction = Pipe(0.016, 0.002, minimum_bend_radius=0.075), 0.0384
    for bends in ((CountedBends(60, 90.0),), (CountedBends(30, 180.0),)):
        constant, factor = counted_coefficients(bends, pipe)
        share = (constant + factor * friction) / (friction * 95.0 / pipe.bore)
        assert 0.015 < share < 0.05


# ---------------------------------------------------------------- valves


@given(st.floats(0.01, 50.0), st.floats(1e-6, 1e-2))
def test_kv_and_drop_are_inverse(kv: float, flow: float) -> None:
    assert kv_for_drop(flow, resistance(kv) * flow**2) == pytest.approx(kv, rel=1e-12)


def test_kv_is_cubic_metres_an_hour_at_one_bar() -> None:
    """IEC 60534-2-1, by the library fluids: Kv = 0.865 Cv(US)."""
    assert resistance(2.5) * (2.5 / 3600.0) ** 2 == pytest.approx(1e5, rel=1e-12)
    assert fluids.fittings.Kv_to_Cv(1.0) == pytest.approx(1.0 / 0.865, rel=1e-4)
    loss = fluids.fittings.Kv_to_K(2.5, 0.02)
    speed = 2.5 / 3600.0 / (math.pi / 4.0 * 0.02**2)
    assert resistance(2.5) * (2.5 / 3600.0) ** 2 == pytest.approx(loss * 1000.0 * speed**2 / 2.0, rel=2e-3)


@given(st.floats(0.05, 20.0), st.floats(0.05, 20.0), st.floats(1e-6, 1e-3))
def test_drops_in_series_add(first: float, second: float, flow: float) -> None:
    together = resistance(kv_in_series(first, second)) * flow**2
    assert together == pytest.approx((resistance(first) + resistance(second)) * flow**2, rel=1e-12)


@pytest.mark.parametrize("row", TABLE)
def test_valve_table_returns_its_own_lines(row: ValveSetting) -> None:
    assert setting_for_kv(TABLE, row.kv) == pytest.approx(row.setting, abs=1e-12)


def test_valve_table_is_straight_in_the_logarithm() -> None:
    assert setting_for_kv(TABLE, math.sqrt(0.2 * 0.42)) == pytest.approx(2.5, abs=1e-12)


@pytest.mark.parametrize("kv", [0.0799, 1.11])
def test_valve_table_does_not_extrapolate(kv: float) -> None:
    assert setting_for_kv(TABLE, kv) is None
