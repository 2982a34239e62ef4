"""The items of a rough design's order, and the ranges of what to order."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Mapping, Sequence
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from ..errors import FaultList
from ..ordering.area_take_off import area_take_off
from ..ordering.floor_items import floor_items
from ..ordering.material_records import MaterialArea, MaterialBuildUp, MaterialCircuit, MaterialsInputs
from ..ordering.measured_areas import measured_areas, usual_wall_length
from ..ordering.order_lines import CountedItem, OrderTerms, order_terms, packed
from ..ordering.order_options import Ordering
from ..ordering.pipe_items import pipe_items
from ..plan.lengths.lengths import fixing_count
from .assumptions import KnownHouse
from .estimate_records import EstimatedMaterial, EstimateRange, EstimatesInputs
from .rough_design import SCREED_COVER, RoughDesign
from .spread import Factors

__all__ = ["SPREAD_OF", "Counts", "OrderRanges", "material_ranges", "rough_items", "sum_of"]

SPREAD_OF = MappingProxyType(
    {
        "pipe": "ordered pipe",
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
        "ordered pipe": "pipe with the rests of coils, by its measured spread in drawn designs, in whole coils",
        "pipe_length": "goes with the pipe length",
        "circuit_count": "goes with the number of circuits",
        "manifold_count": "goes with the number of manifolds",
        "": "goes with floor area and rooms as given or assumed",
    }
)
_ROUNDING = 1e-9
_MEASURED = "rule of the trade times its measured spread in drawn designs"


class Counts(NamedTuple):
    """Likely numbers of an order."""

    circuits: int
    manifolds: int


class OrderRanges(NamedTuple):
    """Factors by quantity about the likely order; ``pipe`` [m] is what to buy, from low to high, before it is whole
    coils."""

    spread: Mapping[str, Factors]
    pipe: Factors


def rough_items(
    inputs: EstimatesInputs, house: KnownHouse, rough: RoughDesign, counts: Counts
) -> tuple[CountedItem, ...]:
    """All items of the order by the rules for floors without outline: one floor as large as all rooms, with their
    walls, and circuits of one length."""
    share = rough.pipe_length / counts.circuits
    manifolds = [number * counts.manifolds // counts.circuits for number in range(counts.circuits)]
    places = {number: MaterialCircuit("", share, manifold=f"{number + 1}") for number in set(manifolds)}
    request = MaterialsInputs(
        circuits=tuple([places[number] for number in manifolds]),
        areas=(MaterialArea("", "floor", area=house.floor_area, wall_length=_walls(house)),),
        build_ups=(MaterialBuildUp("floor", SCREED_COVER + inputs.pipe.outside_diameter),),
        pipe=inputs.pipe,
        room_controls=house.room_count,
        ordering=inputs.ordering,
    )
    areas = measured_areas(request, {}, FaultList())
    take_offs = [area_take_off(area, inputs.ordering, inputs.pipe) for area in areas]
    volume = rough.pipe_length * inputs.pipe.water_content
    fixings = counts.circuits * fixing_count(share, inputs.ordering.fixing_distance)
    return (
        *pipe_items(request, fixings, rough.pipe_length, volume),
        *floor_items(request, areas, take_offs, {}),
    )


def _walls(house: KnownHouse) -> float:
    if house.wall_length is not None:
        return house.wall_length
    return math.fsum(rooms.number * usual_wall_length(rooms.area) for rooms in house.rooms)


def material_ranges(
    items: Sequence[CountedItem], ordering: Ordering, ranges: OrderRanges
) -> tuple[EstimatedMaterial, ...]:
    """One for each item of which there is anything at all."""
    overrides = {override.item: override for override in ordering.overrides}
    prices = ordering.price_list
    unit_prices = {} if prices is None else {price.item: price.unit_price for price in prices.prices}
    found = []
    for item in items:
        called = item.item
        override = overrides.get(called)
        if override is None and item.quantity <= 0.0:
            continue
        terms = order_terms(item, override)
        of = SPREAD_OF.get(item.kind)
        if item.kind == "pipe" and override is None:
            low, likely, high = ranges.pipe
            lengths = ordering.coil_lengths
            ordered = _coils(low, lengths), _coils(likely, lengths), _coils(high, lengths)
        else:
            ordered = _ordered(item, terms, ranges.spread[of] if of else None)
        if ordered[2] > 0.0:
            quantity = _rising(ordered, terms.unit, _BASES.get(of or "", _MEASURED))
            found.append(_material(item, called, terms, quantity, unit_prices.get(called)))
    return tuple(found)


def _ordered(item: CountedItem, terms: OrderTerms, spread: Factors | None) -> Factors:
    """What to order at low, likely and high; nothing where there is nothing of it."""
    if terms.net_quantity is not None or spread is None:
        one = _packed(item.quantity if terms.net_quantity is None else terms.net_quantity, item, terms)
        return one, one, one
    low, likely, high = spread
    return (
        _packed(low * item.quantity, item, terms),
        _packed(likely * item.quantity, item, terms),
        _packed(high * item.quantity, item, terms),
    )


def _packed(quantity: float, item: CountedItem, terms: OrderTerms) -> float:
    if quantity <= 0.0:
        return 0.0
    return packed(quantity * (1.0 + terms.waste_share) + item.extra, terms.pack_size, terms.unit)[1]


def _coils(length: float, coil_lengths: tuple[float, ...]) -> float:
    """Whole coils that hold a length [m]: the longest ones, and one or two for the rest, so that less is never bought
    for more."""
    longest, sums = _coil_sums(coil_lengths)
    whole = math.floor(length / longest) * longest
    rest = length - whole
    return whole + sums[bisect_left(sums, rest * (1.0 - _ROUNDING))]


@lru_cache(maxsize=64)
def _coil_sums(coil_lengths: tuple[float, ...]) -> tuple[float, tuple[float, ...]]:
    """The longest coil [m], and what no coil, one and two hold."""
    lengths = (0.0, *coil_lengths)
    return max(lengths), tuple(sorted({one + other for one in lengths for other in lengths}))


def _material(
    item: CountedItem, called: str, terms: OrderTerms, quantity: EstimateRange, price: float | None
) -> EstimatedMaterial:
    return EstimatedMaterial(
        called,
        item.name,
        item.status,
        quantity,
        terms.waste_share,
        terms.pack_size,
        terms.rule,
        terms.source,
        price,
        None if price is None else _times(quantity, price),
    )


def _rising(values: Factors, unit: str, basis: str) -> EstimateRange:
    low, likely, high = values
    return EstimateRange(
        low if low < likely else likely, likely, high if high > likely else likely, unit, basis
    )


def _times(quantity: EstimateRange, price: float) -> EstimateRange:
    values = price * quantity.low, price * quantity.likely, price * quantity.high
    return _rising(values, "1", "the range of the quantity times its price")


def sum_of(costs: Sequence[EstimateRange]) -> EstimateRange:
    """All low, all likely and all high costs: wider than the spread of a sum, so on the safe side."""
    low, likely, high = (
        math.fsum(getattr(cost, name) for cost in costs) for name in ("low", "likely", "high")
    )
    return EstimateRange(low, likely, high, "1", "sum of the items' costs")
