"""What an estimate is asked and what it answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..checking import Point
from ..glossary import named
from ..ordering.material_outcome import QuantityStatus
from ..ordering.order_options import Ordering
from ..pipe import USUAL_PIPE, Pipe
from ..practice.coverings import Covering
from ..quick_records import quickly_made
from ..results import Caution, Finding

__all__ = [
    "BuildingStandard",
    "EstimateRange",
    "EstimateRoom",
    "EstimatedMaterial",
    "EstimatesInputs",
    "EstimatesResult",
    "Use",
]

BuildingStandard = Literal["new", "renovated", "unrenovated"]
Use = Literal["occupied", "bathroom"]


@dataclass(frozen=True, slots=True)
class EstimateRoom:
    """A heated room by its ``area`` [m2]."""

    area: float
    use: Use = "occupied"
    name: str = ""


@dataclass(frozen=True, slots=True)
class EstimatesInputs:
    """What a customer knows of a house.

    The heated floor is one of ``floor_area`` [m2] of all storeys, ``outline`` [m], and ``rooms``. ``room_count`` None:
    one room for an outline, for an area a hall and one for each 14 m2. The heat demand is ``heat_demand`` [W] of the
    house, or ``specific_heat_demand`` [W/m2]; None: what is usual for the ``building_standard`` at the
    ``outside_design_temperature`` [degC] of the region. ``covering_resistance`` [m2.K/W] None: what is usual for the
    ``covering``. ``ordering`` is as in ``MaterialsInputs``; its price list gives the costs.
    """

    floor_area: float | None = field(default=None, metadata=named("area"))
    outline: tuple[Point, ...] | None = None
    rooms: tuple[EstimateRoom, ...] = field(default=(), metadata=named("estimate_rooms"))
    room_count: int | None = None
    storey_count: int = 1
    building_standard: BuildingStandard = "new"
    specific_heat_demand: float | None = None
    heat_demand: float | None = None
    outside_design_temperature: float = -12.0
    covering: Covering = "ceramic"
    covering_resistance: float | None = None
    pipe: Pipe = USUAL_PIPE
    maximum_supply_temperature: float = 45.0
    ordering: Ordering = Ordering()


@quickly_made
@dataclass(frozen=True, slots=True)
class EstimateRange:
    """``low``, ``likely`` and ``high`` in the ``unit``, and what the range rests on."""

    low: float = field(metadata=named("range_low"))
    likely: float = field(metadata=named("range_likely"))
    high: float = field(metadata=named("range_high"))
    unit: str = field(metadata=named("range_unit"))
    basis: str = field(metadata=named("range_basis"))


@quickly_made
@dataclass(frozen=True, slots=True)
class EstimatedMaterial:
    """An item of the order. The range is what to order, with waste and in whole packs; the costs go with it,
    in the currency of the price list, and are None without a price."""

    item: str
    name: str
    status: QuantityStatus = field(metadata=named("quantity_status"))
    quantity: EstimateRange = field(metadata=named("estimated_quantity"))
    waste_share: float = field(metadata=named("added_waste_share"))
    pack_size: float | None
    rule: str = field(metadata=named("quantity_rule"))
    source: str = field(metadata=named("quantity_source"))
    unit_price: float | None
    cost: EstimateRange | None = field(metadata=named("estimated_cost"))


@quickly_made
@dataclass(frozen=True, slots=True)
class EstimatesResult:
    """Ranges for a quotation. ``total_cost`` is the sum over items that are needed and have a price, None without a
    price list. ``house_class`` says which drawn houses the spread was measured on, ``drawn_designs`` how many."""

    floor_area: float
    room_count: int
    specific_heat_demand: EstimateRange = field(metadata=named("estimated_specific_heat_demand"))
    pipe_length: EstimateRange = field(metadata=named("estimated_pipe_length"))
    circuit_count: EstimateRange = field(metadata=named("estimated_circuit_count"))
    manifold_count: EstimateRange = field(metadata=named("estimated_manifold_count"))
    heat_output: EstimateRange = field(metadata=named("estimated_heat_output"))
    supply_temperature: EstimateRange = field(metadata=named("estimated_supply_temperature"))
    materials: tuple[EstimatedMaterial, ...] = field(metadata=named("estimated_materials"))
    currency: str | None
    total_cost: EstimateRange | None = field(metadata=named("estimated_cost"))
    without_price: tuple[str, ...]
    house_class: str
    drawn_designs: int
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
