"""What a list of materials answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..checking import Point
from ..glossary import named
from ..quick_records import quickly_made
from ..results import Caution, Finding
from .coil_records import CoilPlanResult

__all__ = [
    "AreaQuantities",
    "BoardCount",
    "CircuitQuantities",
    "FilmSheet",
    "MaterialQuantity",
    "MaterialsResult",
    "QuantityStatus",
]

QuantityStatus = Literal["needed", "due", "if_wanted"]
"""due: of movement joints that the rules ask for but nobody has decided on; if_wanted: where local practice asks."""


@quickly_made
@dataclass(frozen=True, slots=True)
class MaterialQuantity:
    """One line of the order. ``net_quantity``, ``order_quantity`` and ``pack_size`` are in the line's ``unit``.

    ``order_quantity`` holds the waste and is rounded up to whole packs; ``packs`` None where the item comes in any
    quantity. Prices are None unless a price list was sent that has the item.
    """

    item: str
    name: str
    status: QuantityStatus = field(metadata=named("quantity_status"))
    unit: str = field(metadata=named("quantity_unit"))
    net_quantity: float
    waste_share: float = field(metadata=named("added_waste_share"))
    pack_size: float | None
    packs: int | None
    order_quantity: float
    rule: str = field(metadata=named("quantity_rule"))
    source: str = field(metadata=named("quantity_source"))
    unit_price: float | None
    cost: float | None


@quickly_made
@dataclass(frozen=True, slots=True)
class BoardCount:
    """One layer of insulation in one area; ``cut_off`` [m2] is what of the boards does not lie on the floor. Both are
    None where the area has no outline."""

    thickness: float | None = field(metadata=named("layer_thickness"))
    boards: int | None
    cut_off: float | None


@dataclass(frozen=True, slots=True)
class FilmSheet:
    """A sheet of film by its centre line from ``start`` to ``end`` [m] and its ``width`` [m]; what is turned up at the
    edges is drawn flat."""

    start: Point
    end: Point
    width: float = field(metadata=named("film_width"))


@quickly_made
@dataclass(frozen=True, slots=True)
class AreaQuantities:
    """What one floor takes, before waste. ``film_lap`` [m] is between neighbouring sheets, at least; None without an
    outline, or with one sheet. ``screed_volume`` [m3] is without the pipe."""

    area_id: str
    floor_area: float
    measured: bool = field(metadata=named("measured_on_outline"))
    pipe_length: float = field(metadata=named("pipe_in_area"))
    wall_length: float
    edge_strip_height: float
    boards: tuple[BoardCount, ...] = field(metadata=named("board_counts"))
    film_area: float
    film_sheets: tuple[FilmSheet, ...]
    film_lap: float | None = field(metadata=named("laid_film_lap"))
    tape_length: float
    screed_volume: float
    total_screed_mass: float


@quickly_made
@dataclass(frozen=True, slots=True)
class CircuitQuantities:
    """What one circuit takes. ``coil`` and the marks are those of the coil plan; None for one that is not planned."""

    circuit: str
    length: float = field(metadata=named("circuit_length"))
    coil: str | None
    start_mark: float | None
    end_mark: float | None
    fixings_on_straights: int
    fixings_at_bends: int
    water_content: float


@dataclass(frozen=True, slots=True)
class MaterialsResult:
    """The order. ``currency`` and ``total_cost`` are None without a price list; ``total_cost`` leaves out lines with
    the status due or if_wanted, and items ``without_price``."""

    quantities: tuple[MaterialQuantity, ...] = field(metadata=named("material_quantities"))
    circuits: tuple[CircuitQuantities, ...] = field(metadata=named("circuit_quantities"))
    areas: tuple[AreaQuantities, ...] = field(metadata=named("area_quantities"))
    coil_plan: CoilPlanResult
    floor_area: float
    pipe_length: float
    screed_volume: float
    total_screed_mass: float
    system_volume: float
    currency: str | None
    total_cost: float | None
    without_price: tuple[str, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
