"""In what sizes things are ordered, what is added for waste, and what they cost."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..practice.screed import FILM_LAP, SCREED_DENSITY
from .coil_records import COMMON_COIL_LENGTHS, CUTTING_ALLOWANCE, CoilInStock

__all__ = [
    "BoardSize",
    "FilmRoll",
    "ManifoldParts",
    "MaterialOverride",
    "Ordering",
    "Price",
    "PriceList",
    "ScreedSupply",
]


@dataclass(frozen=True, slots=True)
class BoardSize:
    """A board of insulation, or a roll of it [m]."""

    length: float = field(default=1.0, metadata=named("board_length"))
    width: float = field(default=0.5, metadata=named("board_width"))


@dataclass(frozen=True, slots=True)
class FilmRoll:
    """Film of ``width`` and ``length`` [m]; its sheets lap by ``lap`` [m] at least and are turned up at the edges by
    ``upturn`` [m], None: by the thickness of the screed."""

    width: float = field(default=2.0, metadata=named("film_width"))
    length: float = field(default=50.0, metadata=named("film_length"))
    lap: float = field(default=FILM_LAP, metadata=named("least_film_lap"))
    upturn: float | None = field(default=None, metadata=named("film_upturn"))


@dataclass(frozen=True, slots=True)
class ScreedSupply:
    """How the screed comes to the site.

    ``form`` None: ready mixed for flowing screed, bags for other calcium sulphate, mixed on site for cement.
    ``density`` [kg/m3]; a bag of ``bag_mass`` [kg] gives ``bag_yield`` [m3] of screed, a load of the mixer
    ``mixer_load`` [m3]. ``cement_content`` and ``sand_content`` [kg/m3] go with mixing on site, ``additive_share``
    [kg/kg] with its cement. ``pump_rest`` [m3] stays in the hoses of the pump.
    """

    form: Literal["bags", "site_mixed", "ready_mixed"] | None = field(
        default=None, metadata=named("supply_form")
    )
    density: float = field(default=SCREED_DENSITY, metadata=named("screed_density"))
    bag_mass: float = 40.0
    bag_yield: float = 0.020
    mixer_load: float = 0.2
    cement_content: float = 390.0
    sand_content: float = 1600.0
    additive_share: float = 0.008
    pump_rest: float = 0.2


@dataclass(frozen=True, slots=True)
class ManifoldParts:
    """``port_pitch`` [m] is between ports, ``end_length`` [m] what valves and vents at both ends take in the cabinet;
    ``cabinet_widths`` [m] are those to choose from."""

    actuators: bool = True
    port_pitch: float = 0.05
    end_length: float = 0.25
    cabinet_widths: tuple[float, ...] = (0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.5)


@dataclass(frozen=True, slots=True)
class MaterialOverride:
    """What holds for one item instead of the rule: ``net_quantity`` in the item's unit, ``waste_share`` [1], or
    ``pack_size`` in the item's unit; None: the rule's."""

    item: str
    net_quantity: float | None = field(default=None, metadata=named("override_quantity"))
    waste_share: float | None = field(default=None, metadata=named("added_waste_share"))
    pack_size: float | None = field(default=None, metadata=named("override_pack_size"))


@dataclass(frozen=True, slots=True)
class Price:
    """What one unit of an item costs."""

    item: str
    unit_price: float


@dataclass(frozen=True, slots=True)
class PriceList:
    """Prices without tax in one ``currency``; items that this order has no use for may be on it, what is no item of any
    order is reported."""

    prices: tuple[Price, ...]
    currency: str = "EUR"


@dataclass(frozen=True, slots=True)
class Ordering:
    """How everything is ordered; lengths in metres.

    ``coil_lengths``, ``stock`` and ``cutting_allowance`` are as in ``CoilPlanInputs``. ``fixing_distance`` is on
    straight pipe. ``film`` None: the boards' own foil replaces it. ``sleeve_length`` of one sleeve.
    ``inhibitor_share`` [1] of the water, where it is water.
    """

    coil_lengths: tuple[float, ...] = COMMON_COIL_LENGTHS
    stock: tuple[CoilInStock, ...] = field(default=(), metadata=named("coil_stock"))
    cutting_allowance: float = CUTTING_ALLOWANCE
    fixing_distance: float = 0.4
    fixings_per_box: int = 300
    board: BoardSize = BoardSize()
    film: FilmRoll | None = field(default=FilmRoll(), metadata=named("film_roll"))
    edge_strip_roll: float = 50.0
    tape_roll: float = 50.0
    joint_profile_length: float = 2.0
    sleeve_length: float = 0.3
    screed_supply: ScreedSupply = ScreedSupply()
    manifold_parts: ManifoldParts = ManifoldParts()
    inhibitor_share: float = 0.01
    overrides: tuple[MaterialOverride, ...] = field(default=(), metadata=named("material_overrides"))
    price_list: PriceList | None = None
