"""Fluid properties against iapws and CoolProp over the whole range, freezing points against a handbook."""

from __future__ import annotations

import warnings
from collections.abc import Callable

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS95, IAPWS97
from iapws._iapws import _Liquid
from tepidarium_engine.water.coefficients import GLYCOLS
from tepidarium_engine.water.fluid import FluidModel, WaterModel, fluid_model
from tepidarium_engine.water.frost import required_concentration
from tepidarium_engine.water.inputs import Fluid

PRESSURE = 2e5
WATER_TEMPERATURES = [0.5, *np.linspace(1.0, 95.0, 48).tolist()]
SETS = {
    ("propylene_glycol", "mass"): "MPG",
    ("ethylene_glycol", "mass"): "MEG",
    ("propylene_glycol", "volume"): "APG",
    ("ethylene_glycol", "volume"): "AEG",
}
PROPERTIES: dict[str, Callable[[FluidModel, float], float]] = {
    "D": lambda model, t: model.density(t),
    "C": lambda model, t: model.heat_capacity(t),
    "V": lambda model, t: model.dynamic_viscosity(t),
    "L": lambda model, t: model.thermal_conductivity(t),
}


def glycol(kind: str, basis: str, concentration: float) -> FluidModel:
    return fluid_model(Fluid(kind, concentration, basis))  # type: ignore[arg-type]


def concentrations(basis: str) -> list[float]:
    return np.linspace(0.1 if basis == "volume" else 0.02, 0.6, 9).tolist()


# ---------------------------------------------------------------- water


@pytest.mark.parametrize("temperature", WATER_TEMPERATURES)
def test_water_is_that_of_iapws_if97(temperature: float) -> None:
    """Density within 0.01 %, transport within 0.05 %; the heat capacity of IF97 is itself 0.06 % off IAPWS-95."""
    water, oracle = WaterModel(), IAPWS97(T=temperature + 273.15, P=PRESSURE / 1e6)
    assert water.density(temperature) == pytest.approx(oracle.rho, rel=1e-4)
    assert water.heat_capacity(temperature) == pytest.approx(oracle.cp * 1000.0, rel=7e-4)
    assert water.dynamic_viscosity(temperature) == pytest.approx(oracle.mu, rel=5e-4)
    assert water.thermal_conductivity(temperature) == pytest.approx(oracle.k, rel=5e-4)


@pytest.mark.parametrize("temperature", [2.0, 10.0, 35.0, 60.0, 90.0])
def test_water_is_that_of_the_scientific_formulation(temperature: float) -> None:
    with warnings.catch_warnings():
        # The library's own numerics, not ours.
        warnings.simplefilter("ignore", RuntimeWarning)
        oracle = IAPWS95(T=temperature + 273.15, P=PRESSURE / 1e6)
    assert WaterModel().density(temperature) == pytest.approx(oracle.rho, rel=1e-5)
    assert WaterModel().heat_capacity(temperature) == pytest.approx(oracle.cp * 1000.0, rel=1.5e-4)


@pytest.mark.parametrize("temperature", WATER_TEMPERATURES)
def test_water_is_that_of_coolprop(temperature: float) -> None:
    """CoolProp computes water by IAPWS-95. Stated: within 0.05 %, heat capacity 0.015 %, density 0.001 %."""
    for name, own in PROPERTIES.items():
        oracle = PropsSI(name, "T", temperature + 273.15, "P", PRESSURE, "Water")
        within = {"D": 1e-5, "C": 1.5e-4}.get(name, 5e-4)
        assert own(WaterModel(), temperature) == pytest.approx(oracle, rel=within), name


@pytest.mark.parametrize("temperature", [2.0, 25.0, 60.0, 95.0])
def test_water_is_that_of_the_same_formulation_elsewhere(temperature: float) -> None:
    """IAPWS SR6-08(2011) at 0.1 MPa in the library iapws; density at 0.2 MPa by a compressibility of 4.5e-10 1/Pa."""
    oracle, water = _Liquid(temperature + 273.15, 0.1), WaterModel()
    assert water.density(temperature) == pytest.approx(oracle["rho"] * (1.0 + 4.5e-5), rel=1e-9)
    assert water.heat_capacity(temperature) == pytest.approx(oracle["cp"] * 1000.0, rel=1e-9)
    assert water.dynamic_viscosity(temperature) == pytest.approx(oracle["mu"], rel=1e-9)
    assert water.thermal_conductivity(temperature) == pytest.approx(oracle["k"], rel=1e-9)


def test_water_is_densest_at_4_degrees() -> None:
    """3.98 degC at atmospheric pressure (any handbook)."""
    temperatures = np.linspace(1.0, 8.0, 7001)
    assert temperatures[np.argmax(WaterModel().density(temperatures))] == pytest.approx(3.98, abs=0.02)


# ---------------------------------------------------------------- glycol


@pytest.mark.parametrize(("kind", "basis"), SETS)
def test_glycol_is_that_of_coolprop(kind: str, basis: str) -> None:
    """From freezing to 95 degC and over all concentrations: the same coefficients, so the same to a millionth."""
    name = SETS[kind, basis]
    for concentration in concentrations(basis):
        model = glycol(kind, basis, concentration)
        lowest = max(model.freezing_point + 0.05, -34.9 if basis == "volume" else -90.0)
        for temperature in np.linspace(lowest, 95.0, 14).tolist():
            for symbol, own in PROPERTIES.items():
                fluid = f"INCOMP::{name}[{concentration}]"
                oracle = PropsSI(symbol, "T", temperature + 273.15, "P", PRESSURE, fluid)
                assert own(model, temperature) == pytest.approx(oracle, rel=1e-6), (symbol, temperature)


@pytest.mark.parametrize(("kind", "basis"), SETS)
def test_freezing_points_are_those_of_coolprop(kind: str, basis: str) -> None:
    for concentration in concentrations(basis):
        fluid = f"INCOMP::{SETS[kind, basis]}[{concentration}]"
        oracle = PropsSI("T_freeze", "T", 320.0, "P", PRESSURE, fluid) - 273.15
        assert glycol(kind, basis, concentration).freezing_point == pytest.approx(oracle, abs=1e-6)


@pytest.mark.parametrize(
    ("concentration", "freezing"), [(0.2, -6.7), (0.3, -12.8), (0.4, -20.6), (0.5, -33.3)]
)
def test_freezing_points_of_a_handbook(concentration: float, freezing: float) -> None:
    """Lange's Handbook of Chemistry, 15th ed., Table 5.13; the sources differ by up to 1 K."""
    own = glycol("propylene_glycol", "volume", concentration).freezing_point
    assert own == pytest.approx(freezing, abs=1.1)


@pytest.mark.parametrize(("kind", "basis"), SETS)
def test_properties_run_smoothly_the_way_of_physics(kind: str, basis: str) -> None:
    """Warmer fluid is thinner and lighter; more glycol freezes later."""
    temperatures = np.linspace(0.0, 95.0, 400)
    freezing = [glycol(kind, basis, x).freezing_point for x in np.linspace(0.1, 0.6, 60).tolist()]
    assert (np.diff(freezing) < 0.0).all()
    for concentration in (0.2, 0.35, 0.5):
        model = glycol(kind, basis, concentration)
        assert (np.diff(model.dynamic_viscosity(temperatures)) < 0.0).all()
        assert (np.diff(model.density(temperatures)) < 0.0).all()


@pytest.mark.parametrize(("kind", "basis"), SETS)
def test_an_array_gives_what_each_float_gives(kind: str, basis: str) -> None:
    temperatures = np.linspace(5.0, 90.0, 40)
    for model in (WaterModel(), glycol(kind, basis, 0.3)):
        for own in PROPERTIES.values():
            together = own(model, temperatures)  # type: ignore[arg-type]
            singly = [own(model, temperature) for temperature in temperatures.tolist()]
            assert together == pytest.approx(singly, rel=1e-12)


@pytest.mark.parametrize(("kind", "basis"), SETS)
@pytest.mark.parametrize("frost", [-6.0, -12.5, -20.0, -30.0])
def test_required_concentration_inverts_the_freezing_point(kind: str, basis: str, frost: float) -> None:
    needed = required_concentration(GLYCOLS[kind, basis], frost)
    assert needed is not None
    assert glycol(kind, basis, needed).freezing_point == pytest.approx(frost, abs=1e-9)


def test_no_concentration_stands_any_frost() -> None:
    assert required_concentration(GLYCOLS["propylene_glycol", "mass"], -80.0) is None


def test_little_frost_asks_for_the_least_published_concentration() -> None:
    assert required_concentration(GLYCOLS["ethylene_glycol", "volume"], -0.5) == 0.1


@pytest.mark.parametrize(("kind", "basis"), list(SETS))
@pytest.mark.parametrize("name", list(PROPERTIES))
def test_every_coefficient_of_glycol_is_that_of_coolprop(kind: str, basis: str, name: str) -> None:
    """The same published polynomials: at the corners of their range no coefficient is small enough to hide."""
    for concentration in (0.12, 0.35, 0.6):
        model = glycol(kind, basis, concentration)
        for temperature in (0.0, 40.0, 95.0):
            fluid = f"INCOMP::{SETS[kind, basis]}[{concentration}]"
            try:
                oracle = PropsSI(name, "T", temperature + 273.15, "P", PRESSURE, fluid)
            except ValueError:  # beyond the range of the library
                continue
            assert PROPERTIES[name](model, temperature) == pytest.approx(
                oracle, rel=1e-9 if basis == "volume" else 4e-7
            )
