"""What a design is weighed by for an objective: the house found and the one by the rule, both designed completely."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..building.floors import RoomToHeat
from ..building.objective_records import DesignObjective, Least
from ..building.whole_design import WholeDesign
from ..hydraulics import Pump
from .coils_bought import coils_of, cuts_for, stock_of
from .energy import energy_of_year
from .house_options import Weighed, cost_of_use
from .option_records import EnergyOfYear

__all__ = ["better", "value_of", "weighed"]

_SAME_HEAT, _SAME_SHARE = 1.0, 1e-6
"""Heat [W] that may be missing beside the rule, and the share by which a house must be better."""


@dataclass(frozen=True)
class _Whole:
    """A complete design with what it is weighed by."""

    supply_temperature: float
    pipe_length: float
    circuit_count: int
    heat_missing: float
    pump: Pump
    material_cost: float | None
    energy: EnergyOfYear | None


def weighed(design: WholeDesign, objective: DesignObjective) -> Weighed:
    solved = design.solved
    pipe = math.fsum(room.loops.pipe_length for room in solved.divided)
    circuits = sum(len(room.loops.circuits) for room in solved.divided)
    cost = _material_cost(design, objective, pipe, circuits)
    supply = solved.supply.temperature
    return _Whole(
        supply_temperature=supply,
        pipe_length=pipe,
        circuit_count=circuits,
        heat_missing=math.fsum(room.heat_missing for room in solved.divided),
        pump=solved.water.whole.pump,
        material_cost=cost,
        energy=energy_of_year(
            objective.heat_pump, supply, math.fsum(room.heated.heat_demand for room in solved.divided), cost
        ),
    )


def _material_cost(
    design: WholeDesign, objective: DesignObjective, pipe: float, circuits: int
) -> float | None:
    """Of pipe [m], circuits, coils and patterns beside those asked for; None without any price."""
    prices, divided = objective.prices, design.solved.divided
    if prices is None and not any(option.price for option in objective.patterns):
        return None
    cost = 0.0 if prices is None else prices.pipe * pipe + prices.circuit * circuits
    stock = stock_of(prices)
    if stock is not None:
        cuts = [cuts_for(one.total_length, 1) for room in divided for one in room.loops.circuits]
        cost += coils_of(stock, cuts).coils_price
    asked = design.sited.house.inputs.rooms
    return cost + math.fsum(
        _price_of_pattern(objective, room.heated)
        for room in divided
        if room.heated.room.pattern != asked[room.heated.index].pattern
    )


def _price_of_pattern(objective: DesignObjective, room: RoomToHeat) -> float:
    return room.area * min(
        option.price
        for option in objective.patterns
        if option.pattern == room.room.pattern and (not option.rooms or room.room.id in option.rooms)
    )


def value_of(house: Weighed, least: Least) -> float:
    """What is to be least; infinite where it is not known."""
    values: dict[Least, float | None] = {
        "supply_temperature": house.supply_temperature,
        "material": house.pipe_length if house.material_cost is None else house.material_cost,
        "pump_power": house.pump.hydraulic_power,
        "cost_of_use": cost_of_use(house),
    }
    value = values[least]
    return math.inf if value is None else value


def better(one: Weighed, other: Weighed, least: Least) -> bool:
    enough = one.heat_missing <= other.heat_missing + _SAME_HEAT
    return enough and value_of(one, least) < value_of(other, least) * (1.0 - _SAME_SHARE)
