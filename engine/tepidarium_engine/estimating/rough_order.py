"""The items of a rough design's order, and the ranges of what to order."""

from __future__ import annotations

import math
from collections.abc import Sequence
from types import MappingProxyType
from typing import NamedTuple

from ..errors import FaultList
from ..ordering.area_take_off import area_take_off
from ..ordering.floor_items import floor_items
from ..ordering.material_outcome import MaterialQuantity
from ..ordering.material_records import MaterialArea, MaterialBuildUp, MaterialCircuit, MaterialsInputs
from ..ordering.measured_areas import measured_areas
from ..ordering.order_lines import CountedItem, order_lines
from ..ordering.order_options import Ordering
from ..ordering.pipe_items import circuit_quantities, pipe_items
from .assumptions import KnownHouse
from .estimate_records import EstimatedMaterial, EstimateRange, EstimatesInputs
from .rough_design import SCREED_COVER, RoughDesign
from .spread import Factors

__all__ = ["SPREAD_OF", "OrderRanges", "material_ranges", "rough_items", "sum_of"]

SPREAD_OF = MappingProxyType(
    {
        "pipe": "pipe_length",
        "inhibitor": "pipe_length",
        "fixings": "fixings",
        "manifold": "manifold_count",
        "manifold_cabinet": "manifold_count",
        "valve_kit": "manifold_count",
        "pipe_connection": "circuit_count",
        "bend_support": "circuit_count",
        "actuator": "circuit_count",
        "edge_strip": "edge_strip",
        "film": "film",
        "tape": "tape",
        "screed": "screed",
        "screed_bag": "screed",
        "mixer_load": "screed",
        "cement": "screed",
        "sand": "screed",
        "screed_additive": "screed",
    }
)
"""By kind of item: the quantity whose spread it has. Others go with floor area and rooms alone."""
_BASES = MappingProxyType(
    {
        "pipe_length": "goes with the pipe length, in whole coils of equal circuits",
        "circuit_count": "goes with the number of circuits",
        "manifold_count": "goes with the number of manifolds",
        "": "goes with floor area and rooms as given or assumed",
    }
)
_MEASURED = "rule of the trade times its measured spread in drawn designs"


class OrderRanges(NamedTuple):
    """``spread``: factors by quantity. ``pipe`` [m] and ``circuits``: at low, likely, high."""

    spread: dict[str, Factors]
    pipe: Factors
    circuits: Factors


def rough_items(
    inputs: EstimatesInputs, house: KnownHouse, rough: RoughDesign, manifolds: int
) -> tuple[CountedItem, ...]:
    """All items of the order by the rules for floors without outline."""
    pipe = rough.pipe_length / rough.circuit_count
    owners = [number for number, count in enumerate(rough.circuits) for _ in range(count)]
    request = MaterialsInputs(
        circuits=tuple(
            MaterialCircuit(
                f"{place + 1}", pipe, f"{owner + 1}", manifold=f"{place * manifolds // len(owners) + 1}"
            )
            for place, owner in enumerate(owners)
        ),
        areas=tuple(
            MaterialArea(f"{number + 1}", "floor", area=room.area, wall_length=house.wall_length)
            for number, room in enumerate(house.rooms)
        ),
        build_ups=(MaterialBuildUp("floor", SCREED_COVER + inputs.pipe.outside_diameter),),
        pipe=inputs.pipe,
        ordering=inputs.ordering,
    )
    areas = measured_areas(request, {}, FaultList())
    take_offs = tuple(area_take_off(area, inputs.ordering, inputs.pipe) for area in areas)
    circuits = circuit_quantities(request, {}, None)
    volume = math.fsum(circuit.water_content for circuit in circuits)
    return (
        *pipe_items(request, circuits, rough.pipe_length, volume),
        *floor_items(request, areas, take_offs, {}),
    )


def material_ranges(
    items: Sequence[CountedItem], ordering: Ordering, ranges: OrderRanges
) -> tuple[EstimatedMaterial, ...]:
    """One for each item of which there is anything at all."""

    def lines(level: int, of: Sequence[CountedItem]) -> tuple[MaterialQuantity, ...]:
        counted = [_at_level(item, level, ordering, ranges) for item in of]
        return order_lines(counted, ordering.overrides, ordering.price_list)

    kinds = {item.item: item.kind for item in items}
    spread = [item for item in items if item.kind in SPREAD_OF]
    low, likely = ({line.item: line.order_quantity for line in lines(level, spread)} for level in (0, 1))
    return tuple(
        _estimated(line, low.get(line.item, 0.0), likely.get(line.item, 0.0), SPREAD_OF[kinds[line.item]])
        if kinds[line.item] in SPREAD_OF
        else _estimated(line, line.order_quantity, line.order_quantity, "")
        for line in lines(2, items)
    )


def _at_level(item: CountedItem, level: int, ordering: Ordering, ranges: OrderRanges) -> CountedItem:
    if item.kind not in SPREAD_OF:
        return item
    if item.kind != "pipe":
        return item.in_quantity(
            item.quantity * ranges.spread[SPREAD_OF[item.kind]][level], item.order_quantity
        )
    length, count = ranges.pipe[level], ranges.circuits[level]
    # unequal circuits may fill coils without a rest: no less than the pipe itself is bought
    bought = length if level == 0 else _bought(length / count, count, ordering)
    return item.in_quantity(length, bought)


def _bought(length: float, count: float, ordering: Ordering) -> float:
    """Coils of one length for equal circuits [m], the length with which least is bought; the pipe itself where no
    coil holds a circuit."""
    cut = length + ordering.cutting_allowance
    bought = [
        math.ceil(count / math.floor(coil / cut)) * coil for coil in ordering.coil_lengths if coil >= cut
    ]
    return min(bought, default=length * count)


def _estimated(high: MaterialQuantity, low: float, likely: float, spread: str) -> EstimatedMaterial:
    """From the line of the high value and what else is ordered at least and likely."""
    values, price = (low, likely, high.order_quantity), high.unit_price
    quantity = _rising(values, high.unit, _BASES.get(spread, _MEASURED))
    return EstimatedMaterial(
        item=high.item,
        name=high.name,
        status=high.status,
        quantity=quantity,
        waste_share=high.waste_share,
        pack_size=high.pack_size,
        rule=high.rule,
        source=high.source,
        unit_price=price,
        cost=None if price is None else _times(quantity, price),
    )


def _rising(values: Sequence[float], unit: str, basis: str) -> EstimateRange:
    low, likely, high = values
    return EstimateRange(min(low, likely), likely, max(likely, high), unit, basis)


def _times(quantity: EstimateRange, price: float) -> EstimateRange:
    values = [price * value for value in (quantity.low, quantity.likely, quantity.high)]
    return _rising(values, "1", "the range of the quantity times its price")


def sum_of(costs: Sequence[EstimateRange]) -> EstimateRange:
    """All low, all likely and all high costs: wider than the spread of a sum, so on the safe side."""
    low, likely, high = (
        math.fsum(getattr(cost, name) for cost in costs) for name in ("low", "likely", "high")
    )
    return EstimateRange(low, likely, high, "1", "sum of the items' costs")
