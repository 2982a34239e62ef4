"""Properties of the fluid in the circuits, from its freezing point to 95 degC."""

from __future__ import annotations

from functools import lru_cache
from typing import Protocol

from ..elementwise import Real, exp
from .coefficients import GLYCOLS, GlycolSet, Polynomial
from .inputs import Fluid

__all__ = [
    "FluidModel",
    "GlycolModel",
    "WaterModel",
    "fluid_model",
    "glycol_freezing_point",
]

_ZERO_CELSIUS = 273.15
_GAS_CONSTANT = 461.51805
_COMPRESSION = 1.000045
_HOT_VOLUME = (
    (6.74458446e3, 4),
    (-2.22521604e5, 5),
    (1.00231247e8, 7),
    (-1.63552118e9, 8),
    (8.32299658e9, 9),
)
_COLD_VOLUME = (
    (5.78545292e-3, 1),
    (-1.53195665e-2, 2),
    (3.11337859e-2, 3),
    (-4.23546241e-2, 4),
    (3.38713507e-2, 5),
    (-1.19946761e-2, 6),
)
_HOT_GIBBS = ((-1.661470539e5, 4), (2.708781640e6, 5), (-1.557191544e8, 7))
_COLD_GIBBS = ((-8.237426256e-1, 2), (1.908956353, 3), (-2.017597384, 4), (8.546361348e-1, 5))
_HOT_HEAT = tuple((n * (n + 1) * a, n + 2) for a, n in _HOT_GIBBS)
_COLD_HEAT = tuple((m * (m + 1) * b, m + 2) for b, m in _COLD_GIBBS)
_VISCOSITY = ((280.68e-6, -1.9), (511.45e-6, -7.7), (61.131e-6, -19.6), (0.45903e-6, -40.0))
_CONDUCTIVITY = ((1.6630, -1.15), (-1.7781, -3.4), (1.1567, -6.0), (-0.432115, -7.6))


class FluidModel(Protocol):
    """A fluid of fixed composition; temperatures [degC] from ``freezing_point`` to 95, float or array.

    Density [kg/m3], heat capacity [J/(kg.K)], dynamic viscosity [Pa.s], thermal conductivity [W/(m.K)].
    """

    @property
    def source(self) -> str: ...
    @property
    def freezing_point(self) -> float: ...
    def density(self, temperature: Real) -> Real: ...
    def heat_capacity(self, temperature: Real) -> Real: ...
    def dynamic_viscosity(self, temperature: Real) -> Real: ...
    def thermal_conductivity(self, temperature: Real) -> Real: ...


@lru_cache(maxsize=256)
def fluid_model(fluid: Fluid) -> FluidModel:
    """The model of ``fluid``, whose kind, basis and concentration must fit together."""
    if fluid.kind == "water":
        return WaterModel()
    return GlycolModel(GLYCOLS[fluid.kind, fluid.basis], fluid.concentration)


def _sum(terms: tuple[tuple[float, float], ...], x: Real) -> Real:
    total = 0.0 * x
    for factor, exponent in terms:
        term: Real = x**exponent
        total = total + factor * term
    return total


class WaterModel:
    """Liquid water by IAPWS SR6-08(2011) at 0.1 MPa.

    The density is carried on to the 0.2 MPa of a usual heating system with a compressibility of 4.5e-10
    1/Pa; the other properties change by less than 0.015 % on the way.
    """

    source = "IAPWS SR6-08(2011), liquid water at 0.1 MPa"
    freezing_point = 0.0

    def density(self, temperature: Real) -> Real:
        hot = 10.0 / (593.0 - _ZERO_CELSIUS - temperature)
        cold = 10.0 / (temperature + _ZERO_CELSIUS - 232.0)
        reduced = 1.93763157e-2 + _sum(_HOT_VOLUME, hot) + _sum(_COLD_VOLUME, cold)
        return _COMPRESSION / (_GAS_CONSTANT * 1e-4 * reduced)

    def heat_capacity(self, temperature: Real) -> Real:
        kelvin = temperature + _ZERO_CELSIUS
        curvature = _sum(_HOT_HEAT, 10.0 / (593.0 - kelvin)) + _sum(_COLD_HEAT, 10.0 / (kelvin - 232.0))
        return _GAS_CONSTANT * (8.983025854 - kelvin / 10.0 * curvature)

    def dynamic_viscosity(self, temperature: Real) -> Real:
        return _sum(_VISCOSITY, (temperature + _ZERO_CELSIUS) / 300.0)

    def thermal_conductivity(self, temperature: Real) -> Real:
        return _sum(_CONDUCTIVITY, (temperature + _ZERO_CELSIUS) / 300.0)


def _cubic(rows: Polynomial, excess: float) -> tuple[float, ...]:
    """The polynomial in temperature that remains at one concentration."""
    return tuple(_horner(row, excess) for row in rows)


def _horner(coefficients: tuple[float, ...], x: Real) -> Real:
    total = 0.0 * x + coefficients[-1]
    for coefficient in coefficients[-2::-1]:
        total = total * x + coefficient
    return total


def glycol_freezing_point(data: GlycolSet, concentration: float) -> float:
    """Freezing point [degC] of a glycol in water; falls as the concentration rises."""
    value = _horner(data.freezing_point, concentration - data.base_concentration)
    return float(exp(value) if data.freezing_is_log else value) - _ZERO_CELSIUS


class GlycolModel:
    """Glycol without inhibitors in water, by one of the sets in ``coefficients``."""

    def __init__(self, data: GlycolSet, concentration: float) -> None:
        excess = concentration - data.base_concentration
        self.source = data.source
        self.freezing_point = glycol_freezing_point(data, concentration)
        self._base = data.base_temperature - _ZERO_CELSIUS
        self._viscosity_unit = data.viscosity_unit
        self._density = _cubic(data.density, excess)
        self._heat_capacity = _cubic(data.heat_capacity, excess)
        self._conductivity = _cubic(data.thermal_conductivity, excess)
        self._log_viscosity = _cubic(data.log_viscosity, excess)

    def density(self, temperature: Real) -> Real:
        return _horner(self._density, temperature - self._base)

    def heat_capacity(self, temperature: Real) -> Real:
        return _horner(self._heat_capacity, temperature - self._base)

    def dynamic_viscosity(self, temperature: Real) -> Real:
        return self._viscosity_unit * exp(_horner(self._log_viscosity, temperature - self._base))

    def thermal_conductivity(self, temperature: Real) -> Real:
        return _horner(self._conductivity, temperature - self._base)
