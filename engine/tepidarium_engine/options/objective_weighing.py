"""What a design is weighed by for an objective: the house found and the one by the rule, both designed completely."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..building.objective_records import DesignObjective, Least
from ..building.option_records import EnergyOfYear
from ..building.whole_design import WholeDesign
from ..hydraulics import Pump
from .coils_bought import coils_of, cuts_for, stock_of
from .energy import energy_of_year
from .house_options import Weighed, cost_of_use

__all__ = ["better", "lacks_more", "value_of", "weighed"]

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


def weighed(design: WholeDesign, objective: DesignObjective, beside: float) -> Weighed:
    """``beside``: price of what was chosen for rooms in place of their own coverings and patterns."""
    solved = design.solved
    pipe = math.fsum(room.loops.pipe_length for room in solved.divided)
    circuits = sum(len(room.loops.circuits) for room in solved.divided)
    cost = _material_cost(design, objective, pipe, circuits)
    cost = cost if cost is None else cost + beside
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
    """Of pipe [m], circuits and coils; None without any price."""
    prices = objective.prices
    if prices is None:
        priced = [own.price for own in objective.coverings] + [own.price for own in objective.patterns]
        return 0.0 if any(priced) else None
    cost = prices.pipe * pipe + prices.circuit * circuits
    stock = stock_of(prices)
    if stock is not None:
        circuits_of = (one for room in design.solved.divided for one in room.loops.circuits)
        cost += coils_of(stock, [cuts_for(one.total_length, 1) for one in circuits_of]).coils_price
    return cost


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


def lacks_more(missing: float, other: Weighed) -> bool:
    """Whether heat that is ``missing`` [W] is more than the other house lacks."""
    return missing > other.heat_missing + _SAME_HEAT


def better(one: Weighed, other: Weighed, least: Least) -> bool:
    less = value_of(one, least) < value_of(other, least) * (1.0 - _SAME_SHARE)
    return less and not lacks_more(one.heat_missing, other)
