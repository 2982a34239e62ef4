"""Pump and mixing set."""

from __future__ import annotations

from .fluid import FluidModel
from .result import Mixing, Pump

__all__ = ["GRAVITY", "PUMP_EFFICIENCIES", "mixing", "pump_duty"]

GRAVITY = 9.80665
"""Standard gravity [m/s2]."""

PUMP_EFFICIENCIES = (0.45, 0.15)
"""Best and worst overall efficiency of a small wet-rotor pump (common practice, no source)."""


def pump_duty(volume_flow: float, density: float, pressure: float, best_estimate: float) -> Pump:
    """Duty for ``volume_flow`` [m3/s] at ``pressure`` [Pa] (upper bound) and ``best_estimate`` [Pa]."""
    power = volume_flow * pressure
    best, worst = PUMP_EFFICIENCIES
    return Pump(
        volume_flow=volume_flow,
        pressure=pressure,
        head=pressure / (density * GRAVITY),
        hydraulic_power=power,
        pressure_best_estimate=best_estimate,
        head_best_estimate=best_estimate / (density * GRAVITY),
        electric_power_low=power / best,
        electric_power_high=power / worst,
    )


def mixing(
    supply_temperature: float,
    return_temperature: float,
    primary_temperature: float | None,
    mass_flow: float,
    fluid: FluidModel,
) -> Mixing | None:
    """Share of hot water that a mixing set takes from the source: the energy balance of two streams.

    Temperatures [degC], ``mass_flow`` [kg/s] of the manifold. The heat capacity is taken as equal in all streams. The
    primary must be above the return. None without a primary, and with one below the supply: no mixing warms water.
    """
    if primary_temperature is None or primary_temperature < supply_temperature:
        return None
    share = (supply_temperature - return_temperature) / (primary_temperature - return_temperature)
    return Mixing(
        primary_share=share,
        recirculated_share=1.0 - share,
        primary_mass_flow=share * mass_flow,
        primary_volume_flow=share * mass_flow / float(fluid.density(primary_temperature)),
    )
