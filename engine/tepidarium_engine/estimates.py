"""Ranges for a quotation, from a few words about a house.

The likely values come from the physics of a design and the trade's rules of thumb; the ranges from how far drawn
designs of generated and real rooms lie from them (``estimating/measured_spread.py``). Nothing is drawn here.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from .cautions import FLOOR, LENGTHS, once, order_cautions
from .checking import check
from .errors import FaultList
from .estimating.assumptions import Known, KnownHouse, demand_range, known_house
from .estimating.estimate_findings import estimate_findings
from .estimating.estimate_records import (
    BuildingStandard,
    EstimatedMaterial,
    EstimateRange,
    EstimateRoom,
    EstimatesInputs,
    EstimatesResult,
)
from .estimating.estimate_workings import estimate_workings
from .estimating.rough_design import (
    BATHROOM_TEMPERATURE,
    LEAST_SUPPLY,
    SCREED_COVER,
    RoughDesign,
    rough_designs,
)
from .estimating.rough_order import Counts, OrderRanges, material_ranges, rough_items, sum_of
from .estimating.spread import DRAWN, FACTORS, SUPPLY_FROM, Factors, spread_range, whole_range
from .gathering import gathered
from .ordering.order_lines import check_ordering, check_prices
from .own_place import at_own_place, lower_left
from .pipe import check_pipe
from .results import Working

__all__ = [
    "BuildingStandard",
    "EstimateRange",
    "EstimateRoom",
    "EstimatedMaterial",
    "EstimatesInputs",
    "EstimatesResult",
    "calculate",
    "workings",
]

_PORTS = 12
"""Of a manifold at most (common practice, no source)."""


def calculate(inputs: EstimatesInputs) -> EstimatesResult:
    """The ranges; see the records for units.

    Raises ``InputError`` unless exactly one of floor area, outline and rooms is given; for an outline that is none,
    more rooms than the floor has space for, more storeys than rooms, two heat demands or one that no floor has, and a
    supply no warmer than the rooms.
    """
    check(inputs)
    if inputs.outline is None:
        return _calculated(inputs)
    return at_own_place(inputs, lower_left([inputs.outline]), _calculated)


def _calculated(inputs: EstimatesInputs) -> EstimatesResult:
    faults = FaultList()
    house = known_house(inputs, faults)
    _check_relations(inputs, house, faults)
    faults.raise_if_any()
    demands = demand_range(inputs, house.floor_area)
    roughs = rough_designs(inputs, house, demands)
    whence, factors = _whence(inputs, house.known), FACTORS[house.known]
    pipe = spread_range(_each(roughs, "pipe_length"), factors["pipe_length"], "m", whence)
    circuits = spread_range(_each(roughs, "circuit_count"), factors["circuit_count"], "1", whence)
    circuits = whole_range(circuits, inputs.storey_count)
    manifolds = _manifolds(inputs, circuits)
    items = rough_items(inputs, house, roughs[1], Counts(int(circuits.likely), int(manifolds.likely)))
    check_ordering(items, inputs.ordering.overrides, faults)
    faults.raise_if_any()
    materials = material_ranges(items, inputs.ordering, _order_ranges(roughs, factors, circuits, manifolds))
    currency, total, without_price = _costs(inputs, materials)
    screed_mass = (SCREED_COVER + inputs.pipe.outside_diameter) * inputs.ordering.screed_supply.density
    return EstimatesResult(
        floor_area=house.floor_area,
        room_count=house.room_count,
        specific_heat_demand=EstimateRange(*demands, "W/m2", _demand_basis(inputs)),
        pipe_length=pipe,
        circuit_count=circuits,
        manifold_count=manifolds,
        heat_output=spread_range(_each(roughs, "heat_output"), factors["heat_output"], "W", whence),
        supply_temperature=_supply(inputs, roughs, factors["supply_temperature"], whence),
        materials=materials,
        currency=currency,
        total_cost=total,
        without_price=without_price,
        house_class=house.known,
        drawn_designs=DRAWN[house.known],
        findings=gathered(estimate_findings(inputs, house, roughs, materials, items), inputs),
        cautions=once((*FLOOR, *LENGTHS, *order_cautions(screed_mass, glycol=False))),
    )


def _order_ranges(
    roughs: tuple[RoughDesign, ...],
    factors: Mapping[str, Factors],
    circuits: EstimateRange,
    manifolds: EstimateRange,
) -> OrderRanges:
    """About the likely order, which has the likely numbers of circuits and manifolds."""
    lengths, likely = _each(roughs, "pipe_length"), roughs[1].pipe_length
    laid = spread_range(lengths, factors["pipe_length"], "m", "")
    bought = spread_range(lengths, factors["ordered pipe"], "m", "")
    spread = {
        **factors,
        "pipe_length": _over(laid, likely),
        "circuit_count": _over(circuits, circuits.likely),
        "manifold_count": _over(manifolds, manifolds.likely),
    }
    return OrderRanges(spread, _values(bought))


def _costs(
    inputs: EstimatesInputs, materials: Sequence[EstimatedMaterial]
) -> tuple[str | None, EstimateRange | None, tuple[str, ...]]:
    """Currency, total and what has no price; without a price list there are none."""
    prices = inputs.ordering.price_list
    if prices is None:
        return None, None, ()
    costs = [line.cost for line in materials if line.cost is not None and line.status == "needed"]
    missing = tuple([line.item for line in materials if line.unit_price is None])
    return prices.currency, sum_of(costs), missing


def _check_relations(inputs: EstimatesInputs, house: KnownHouse, faults: FaultList) -> None:
    check_pipe(inputs.pipe, "/pipe", faults)
    check_prices(inputs.ordering.price_list, faults)
    faults.require(
        inputs.heat_demand is None or inputs.specific_heat_demand is None,
        "/specific_heat_demand",
        "one_of",
        "heat_demand of the house says it already; do not give both",
    )
    faults.require(
        inputs.storey_count <= house.room_count or bool(faults.faults),
        "/storey_count",
        "too_large",
        f"must be at most {house.room_count}, the number of rooms: each storey has one at least",
        house.room_count,
    )
    faults.require(
        inputs.maximum_supply_temperature >= LEAST_SUPPLY,
        "/maximum_supply_temperature",
        "supply_below_room",
        f"the supply must be at least {LEAST_SUPPLY - BATHROOM_TEMPERATURE:g} K above a bathroom of "
        f"{BATHROOM_TEMPERATURE:g} degC",
        LEAST_SUPPLY,
    )
    if inputs.heat_demand is not None:
        specific = inputs.heat_demand / house.floor_area
        least, most = 1.0, _MOST_SPECIFIC
        detail = f"comes to {specific:.3g} W/m2 of floor; it must be {least:g} to {most:g} W/m2"
        faults.require(least <= specific <= most, "/heat_demand", "implausible", detail)


_MOST_SPECIFIC = 400.0
"""Heat demand that is taken for one of floors [W/m2]."""


def _manifolds(inputs: EstimatesInputs, circuits: EstimateRange) -> EstimateRange:
    low, likely, high = (
        float(inputs.storey_count * math.ceil(count / inputs.storey_count / _PORTS))
        for count in _values(circuits)
    )
    basis = f"one for each storey, and one more for every {_PORTS} circuits of it"
    return EstimateRange(low, likely, high, "1", basis)


def _supply(
    inputs: EstimatesInputs, roughs: tuple[RoughDesign, ...], spread: Factors, whence: str
) -> EstimateRange:
    """The excess over the room spreads; no range goes beyond the warmest supply."""
    low, likely, high = (rough.supply_temperature - SUPPLY_FROM for rough in roughs)
    found = spread_range((low, likely, high), spread, "degC", whence)
    most = inputs.maximum_supply_temperature
    low, likely, high = (min(SUPPLY_FROM + value, most) for value in _values(found))
    return EstimateRange(low, likely, high, "degC", whence)


def _each(roughs: tuple[RoughDesign, ...], name: str) -> Factors:
    low, likely, high = [getattr(rough, name) for rough in roughs]
    return low, likely, high


def _values(one: EstimateRange) -> Factors:
    return one.low, one.likely, one.high


def _over(one: EstimateRange, rough: float) -> Factors:
    return one.low / rough, one.likely / rough, one.high / rough


def _whence(inputs: EstimatesInputs, known: Known) -> str:
    given = inputs.heat_demand is not None or inputs.specific_heat_demand is not None
    spread = f"spread of {DRAWN[known]} drawn designs about the rough one"
    return spread if given else f"spread of the heat demand for this standard of building, and {spread}"


def _demand_basis(inputs: EstimatesInputs) -> str:
    if inputs.heat_demand is not None:
        return "given heat demand over the floor area"
    if inputs.specific_heat_demand is not None:
        return "given"
    return (
        "usual for the standard of building, in proportion to 20 degC inside less the outside design temperature "
        "(common practice, no source)"
    )


def workings(inputs: EstimatesInputs, result: EstimatesResult) -> tuple[Working, ...]:
    """From the floor area to the likely values, and the factors that make them ranges."""
    return estimate_workings(inputs, result)
