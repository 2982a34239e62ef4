"""Energy of a year by the supply temperature, and what it costs."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..building.option_records import EfficiencyPoint, EnergyOfYear, HeatPump
from ..errors import required

__all__ = ["coefficient_at", "energy_of_year"]

_KILO = 1000.0


def coefficient_at(curve: Sequence[EfficiencyPoint], supply: float) -> float | None:
    """Heat over electricity [1] at a supply [degC], on a straight line between the lines of the curve; None beyond its
    ends."""
    for one, other in pairwise(curve):
        if one.supply_temperature <= supply <= other.supply_temperature:
            share = (supply - one.supply_temperature) / (other.supply_temperature - one.supply_temperature)
            rise = other.coefficient_of_performance - one.coefficient_of_performance
            return one.coefficient_of_performance + share * rise
    only = curve[0]
    return only.coefficient_of_performance if supply == only.supply_temperature else None


def energy_of_year(
    heat_pump: HeatPump | None, supply: float, heat_demand: float, material_cost: float | None
) -> EnergyOfYear | None:
    """None where there is no heat pump, or nothing is known of it on the supply [degC]. ``heat_demand`` [W] of the
    house gives the heat of a year where only hours are known: Q = hours x demand (EN 14825)."""
    coefficient = None if heat_pump is None else coefficient_at(heat_pump.efficiency, supply)
    if heat_pump is None or coefficient is None:
        return None
    heat = heat_pump.heating_energy
    if heat is None:
        heat = required(heat_pump.heating_hours, "the hours of a source without heat") * heat_demand / _KILO
    electricity = heat / coefficient
    price = heat_pump.electricity_price
    yearly = None if price is None else price * electricity
    whole = None if yearly is None or material_cost is None else material_cost + heat_pump.years * yearly
    return EnergyOfYear(heat, coefficient, electricity, yearly, whole)
