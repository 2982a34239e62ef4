"""Expansion vessel by EN 12828, annex D."""

from __future__ import annotations

from .duty import GRAVITY
from .fluid import FluidModel
from .inputs import Expansion
from .result import ExpansionVessel

__all__ = [
    "COMMON_VESSELS",
    "expansion_vessel",
    "final_pressure",
    "fluid_growth",
    "least_reserve",
    "precharge",
]

COMMON_VESSELS = tuple(
    litres / 1000.0 for litres in (8, 12, 18, 25, 35, 50, 80, 100, 140, 200, 250, 300, 400, 500)
)
"""Usual nominal volumes [m3] (common practice, no source)."""

_ATMOSPHERE = 100_000.0
_RESERVE_SHARE = 0.005
_LEAST_RESERVE = 0.003
_SMALL_VESSEL, _SMALL_SHARE = 0.015, 0.2
_LEAST_PRECHARGE = 100_000.0
_PRECHARGE_MARGIN = 30_000.0


def fluid_growth(maximum_temperature: float, expansion: Expansion, fluid: FluidModel) -> float:
    """Share [1] by which ``fluid`` grows from filling to ``maximum_temperature`` [degC]."""
    return float(fluid.density(expansion.fill_temperature) / fluid.density(maximum_temperature)) - 1.0


def least_reserve(system_volume: float, vessel: float) -> float:
    """Least water reserve [m3] of a ``vessel`` [m3] by EN 12828: a fifth of a vessel up to 15 l; in larger ones 0.5 %
    of the system and at least 3 l."""
    if vessel <= _SMALL_VESSEL:
        return _SMALL_SHARE * vessel
    return max(_RESERVE_SHARE * system_volume, _LEAST_RESERVE)


def precharge(expansion: Expansion, fluid: FluidModel) -> float:
    """Gas pressure of the empty vessel [Pa above atmospheric].

    The one given, or static height plus 0.3 bar, at least 1 bar (common practice; EN 12828 asks for 0.7). Up
    to 95 degC the fluid's vapour pressure is below atmospheric and adds nothing.
    """
    if expansion.precharge_pressure is not None:
        return expansion.precharge_pressure
    static = fluid.density(expansion.fill_temperature) * GRAVITY * expansion.static_height
    return float(max(_LEAST_PRECHARGE, static + _PRECHARGE_MARGIN))


def final_pressure(safety_valve_pressure: float) -> float:
    """Highest pressure in operation [Pa above atmospheric]: 0.5 bar, or a tenth, below the safety valve."""
    return min(safety_valve_pressure - 50_000.0, 0.9 * safety_valve_pressure)


def expansion_vessel(
    system_volume: float, maximum_temperature: float, expansion: Expansion, fluid: FluidModel
) -> ExpansionVessel:
    """The vessel for ``system_volume`` [m3] of ``fluid`` that reaches ``maximum_temperature`` [degC].

    The precharge must be below the final pressure. Growth and water reserve are those given; without a reserve it is
    that of larger vessels for small ones too, which is on the safe side of the fifth that EN 12828 lets them do with.
    """
    ratio = expansion.expansion_ratio
    if ratio is None:
        ratio = fluid_growth(maximum_temperature, expansion, fluid)
    grown = ratio * system_volume
    reserve = expansion.water_reserve
    if reserve is None:
        reserve = max(_RESERVE_SHARE * system_volume, _LEAST_RESERVE)
    gas = precharge(expansion, fluid)
    final = final_pressure(expansion.safety_valve_pressure)
    least = (grown + reserve) * (final + _ATMOSPHERE) / (final - gas)
    nominal = next((volume for volume in COMMON_VESSELS if volume >= least), None)
    return ExpansionVessel(
        expansion_ratio=ratio,
        expansion_volume=grown,
        water_reserve=reserve,
        precharge_pressure=gas,
        final_pressure=final,
        minimum_volume=least,
        nominal_volume=nominal,
        fill_pressure=None if nominal is None else _fill_pressure(nominal, gas, reserve),
    )


def _fill_pressure(vessel: float, gas: float, reserve: float) -> float:
    """Pressure at which the cold vessel holds its reserve, at least 0.3 bar above the precharge [Pa]."""
    holds_reserve = vessel * (gas + _ATMOSPHERE) / (vessel - reserve) - _ATMOSPHERE
    return max(holds_reserve, gas + _PRECHARGE_MARGIN)
