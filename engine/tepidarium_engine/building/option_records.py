"""What the options of a house are asked with, and what they come to."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..glossary import named
from ..hydraulics import Pump
from ..ordering.coil_records import CoilOrder
from ..plan.laying.ways import Pattern
from ..practice.coverings import Covering
from ..results import Caution, Finding
from .house_records import HouseToDesign, PeripheralStrip
from .objective_records import (
    BesideNeighbour,
    CoilPrice,
    CoveringOption,
    EfficiencyPoint,
    HeatPump,
    OptionPrices,
    PatternOption,
    PumpStage,
    StripOption,
)

__all__ = [
    "BesideNeighbour",
    "CoilPrice",
    "CoveringOption",
    "DesignOption",
    "DesignOptionsInputs",
    "DesignOptionsResult",
    "EfficiencyPoint",
    "EnergyOfYear",
    "HeatPump",
    "ManifoldPorts",
    "OptionCoils",
    "OptionPrices",
    "OptionRoom",
    "PatternOption",
    "PumpStage",
    "StripOption",
]


@dataclass(frozen=True, slots=True)
class DesignOptionsInputs:
    """``design`` is a request of designs; what of it concerns drawings, dates and orders does not matter here.

    ``supply_temperatures`` [degC] are those to look at; none: all at which the choice of a room changes.
    ``temperature_drops`` [K] of the governing room in place of the source's. A room may have ``additional_circuits``
    above the fewest. ``patterns`` and ``strips`` are what rooms may have beside their own; no floor may be warmer at
    one end than at the other by more than ``maximum_surface_range`` [K]. ``permitted_heat_missing`` [W] is what all
    rooms may lack above what they lack in the design by the rule of designs. ``nodes`` bounds each search.
    """

    design: HouseToDesign = field(metadata=named("design_request"))
    supply_temperatures: tuple[float, ...] = field(default=(), metadata=named("option_supplies"))
    temperature_drops: tuple[float, ...] = field(default=(), metadata=named("option_drops"))
    additional_circuits: int = 1
    coverings: tuple[CoveringOption, ...] = field(default=(), metadata=named("covering_options"))
    patterns: tuple[PatternOption, ...] = field(default=(), metadata=named("pattern_options"))
    strips: tuple[StripOption, ...] = field(default=(), metadata=named("strip_options"))
    maximum_surface_range: float | None = None
    pump_stages: tuple[PumpStage, ...] = ()
    permitted_heat_missing: float = 0.0
    prices: OptionPrices | None = field(default=None, metadata=named("option_prices"))
    heat_pump: HeatPump | None = None
    maximum_options: int = 12
    nodes: int = field(default=2000, metadata=named("search_nodes"))


@dataclass(frozen=True, slots=True)
class OptionRoom:
    """A room in an option. ``circuit_count`` circuits are alike, each ``circuit_length`` [m] long with both tails and
    with ``pressure_drop_upper`` [Pa]. ``covering_option`` and ``pattern_option`` are the number among those of the
    request, None where it is the room's own. ``peripheral`` is the strip that lies closer; send it to designs with the
    rest. ``surface_range`` [K]: how much warmer the surface is where the water comes in than where it leaves, on
    average across flow and return, so that a counterflow has none."""

    id: str
    name: str
    pipe_spacing: float
    covering: Covering
    covering_resistance: float
    covering_option: int | None
    pattern: Pattern
    pattern_option: int | None
    peripheral: PeripheralStrip | None
    manifold: str = field(metadata=named("manifold_id"))
    circuit_count: int
    circuit_length: float = field(metadata=named("circuit_length_of_room"))
    pipe_length: float
    heat_demand: float
    heat_given: float
    heat_missing: float
    temperature_drop: float
    return_temperature: float
    mean_surface_temperature: float
    surface_range: float
    pressure_drop_upper: float


@dataclass(frozen=True, slots=True)
class ManifoldPorts:
    """How many circuits a manifold has."""

    manifold: str = field(metadata=named("manifold_id"))
    circuit_count: int


@dataclass(frozen=True, slots=True)
class OptionCoils:
    """Coils that hold the circuits of a house without joints: ``bought_length`` [m] in all, with the ``coils_price``,
    which is part of the material."""

    to_buy: tuple[CoilOrder, ...] = field(metadata=named("bought_coils"))
    bought_length: float
    coils_price: float


@dataclass(frozen=True, slots=True)
class EnergyOfYear:
    """A year of heating: its heat and the ``electricity`` of the source [kWh], and what that costs, None without a
    price. ``cost_of_use`` is the material with all years, without interest; None without both prices."""

    heating_energy: float
    coefficient_of_performance: float
    electricity: float
    yearly_cost: float | None
    cost_of_use: float | None


@dataclass(frozen=True, slots=True)
class DesignOption:
    """A house by area that no other option beats in everything.

    ``number`` counts from 1, and is 0 in the house by the rule. ``supply_temperature`` and ``return_temperature``
    [degC] of all circuits together; ``design_drop`` [K] is that of the source. ``pump_stage``: the number of the stage
    with the least pressure that does. ``material_cost`` needs prices, ``energy`` a heat pump. ``gap``: the share by
    which another choice at this supply could be better in the first measure that is not proven; 0 where ``proven``.
    ``breaks`` are the limits that it breaks, by the code that designs uses. ``beside`` compares it to the option
    before, which has the next warmer supply.
    """

    number: int = field(metadata=named("number_of_option"))
    supply_temperature: float
    return_temperature: float
    design_drop: float
    rooms: tuple[OptionRoom, ...] = field(metadata=named("rooms_of_option"))
    manifolds: tuple[ManifoldPorts, ...] = field(metadata=named("ports_of_option"))
    pipe_length: float
    circuit_count: int
    heat_missing: float
    mass_flow: float
    pump: Pump
    pump_stage: int | None
    material_cost: float | None
    coils: OptionCoils | None = field(metadata=named("coils_of_option"))
    energy: EnergyOfYear | None
    proven: bool = field(metadata=named("option_proven"))
    gap: float = field(metadata=named("option_gap"))
    breaks: tuple[str, ...]
    beside: BesideNeighbour | None


@dataclass(frozen=True, slots=True)
class DesignOptionsResult:
    """The options from the warmest supply to the coldest. ``by_rule`` is the house as designs does it, by area.
    ``least_material``, ``least_supply``, ``least_pump_power`` and ``least_cost_of_use`` are the ``number`` of an
    option. ``solver`` names what searched, empty where no search was needed; ``searches`` how often it did."""

    options: tuple[DesignOption, ...] = field(metadata=named("design_options"))
    by_rule: DesignOption
    least_material: int
    least_supply: int
    least_pump_power: int
    least_cost_of_use: int | None
    supplies_considered: int
    searches: int
    solver: str
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
