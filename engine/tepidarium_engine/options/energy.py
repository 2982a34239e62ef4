"""Energy of a year by the supply temperature, and what it costs."""

from __future__ import annotations

from itertools import pairwise

from .option_records import EnergyOfYear, HeatPump

__all__ = ["coefficient_at", "energy_of_year"]


def coefficient_at(heat_pump: HeatPump, supply: float) -> float | None:
    """Heat over electricity [1] at a supply [degC], on a straight line between the lines of the curve; None beyond its
    ends."""
    curve = heat_pump.efficiency
    for one, other in pairwise(curve):
        if one.supply_temperature <= supply <= other.supply_temperature:
            share = (supply - one.supply_temperature) / (other.supply_temperature - one.supply_temperature)
            rise = other.coefficient_of_performance - one.coefficient_of_performance
            return one.coefficient_of_performance + share * rise
    only = curve[0]
    return only.coefficient_of_performance if supply == only.supply_temperature else None


def energy_of_year(
    heat_pump: HeatPump | None, supply: float, material_cost: float | None
) -> EnergyOfYear | None:
    """None where there is no heat pump, or nothing is known of it on the supply [degC]."""
    coefficient = None if heat_pump is None else coefficient_at(heat_pump, supply)
    if heat_pump is None or coefficient is None:
        return None
    electricity = heat_pump.heating_energy / coefficient
    price = heat_pump.electricity_price
    yearly = None if price is None else price * electricity
    whole = None if yearly is None or material_cost is None else material_cost + heat_pump.years * yearly
    return EnergyOfYear(coefficient, electricity, yearly, whole)
