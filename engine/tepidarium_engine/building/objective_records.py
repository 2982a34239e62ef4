"""What a design is to have least of, and what that comes to."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..plan.laying.ways import Pattern
from ..practice.coverings import Covering
from .house_records import PeripheralStrip

__all__ = [
    "BesideNeighbour",
    "CoilPrice",
    "CoveringOption",
    "DesignObjective",
    "EfficiencyPoint",
    "HeatPump",
    "Least",
    "ObjectiveOutcome",
    "OptionPrices",
    "PatternOption",
    "PumpStage",
    "StripOption",
]

Least = Literal["supply_temperature", "material", "pump_power", "cost_of_use"]


@dataclass(frozen=True, slots=True)
class CoilPrice:
    """A coil of one ``length`` [m], of which any number can be bought."""

    length: float = field(metadata=named("coil_length"))
    coil_price: float


@dataclass(frozen=True, slots=True)
class OptionPrices:
    """``pipe`` per metre, laid; ``circuit`` for each, with its ports, valve and connections. With ``coils`` the pipe is
    bought in whole coils, cut so that no circuit has a joint, and ``pipe`` is what a metre costs beside them."""

    pipe: float = field(default=0.0, metadata=named("price_of_pipe"))
    circuit: float = field(default=0.0, metadata=named("price_of_circuit"))
    currency: str = "EUR"
    coils: tuple[CoilPrice, ...] = field(default=(), metadata=named("coil_prices"))


@dataclass(frozen=True, slots=True)
class EfficiencyPoint:
    """One line of the source's data: heat given over electricity taken at a supply temperature [degC]."""

    supply_temperature: float
    coefficient_of_performance: float


@dataclass(frozen=True, slots=True)
class HeatPump:
    """What the source makes of electricity, by supply temperature, coldest first: seasonal values where they are
    known (EN 14825), else those of one outside temperature (EN 14511). Either ``heating_energy`` [kWh], the heat of a
    year, or ``heating_hours`` [h] in which the design's whole demand would come to it (EN 14825: equivalent hours).
    ``electricity_price`` is that of one kWh, ``years`` how long an option is used."""

    efficiency: tuple[EfficiencyPoint, ...] = field(metadata=named("efficiency_curve"))
    heating_energy: float | None = None
    electricity_price: float | None = None
    years: float = field(default=20.0, metadata=named("years_of_use"))
    heating_hours: float | None = field(default=None, metadata=named("equivalent_hours"))


@dataclass(frozen=True, slots=True)
class CoveringOption:
    """A covering that the ``rooms`` may have in place of their own; none named: all rooms. ``price`` per m2 is above
    that of the room's own covering."""

    covering: Covering
    covering_resistance: float
    rooms: tuple[str, ...] = field(default=(), metadata=named("option_rooms"))
    price: float = field(default=0.0, metadata=named("price_per_area"))


@dataclass(frozen=True, slots=True)
class PatternOption:
    """A pattern that the ``rooms`` may have in place of their own; none named: all rooms. ``price`` per m2 is above
    that of the room's own pattern."""

    pattern: Pattern
    rooms: tuple[str, ...] = field(default=(), metadata=named("option_rooms"))
    price: float = field(default=0.0, metadata=named("price_of_pattern"))


@dataclass(frozen=True, slots=True)
class StripOption:
    """A strip of closer pipe that a ``room`` may have in place of none, or of its own."""

    room: str
    strip: PeripheralStrip = field(metadata=named("peripheral"))


@dataclass(frozen=True, slots=True)
class PumpStage:
    """A setting of the pump: ``pressure`` [Pa] up to ``maximum_volume_flow`` [m3/s]; None: any flow."""

    pressure: float = field(metadata=named("stage_pressure"))
    maximum_volume_flow: float | None = None


@dataclass(frozen=True, slots=True)
class BesideNeighbour:
    """This option less the one before it: how much warmer its supply is [K], how much more pipe [m], circuits, heat
    that is missing [W], pump power [W] and money it takes."""

    supply_difference: float
    pipe_difference: float
    circuit_difference: int
    missing_difference: float
    power_difference: float
    material_difference: float | None
    use_difference: float | None
    message: str


@dataclass(frozen=True, slots=True)
class DesignObjective:
    """What the house is to have ``least`` of. ``material`` is metres of pipe, or money with ``prices``; ``cost_of_use``
    needs prices and a ``heat_pump`` with the price of its electricity. ``coverings``,
    ``patterns``, ``strips``, ``maximum_surface_range`` [K], ``temperature_drops`` [K] and ``pump_stages`` are as in
    ``DesignOptionsInputs``."""

    least: Least = field(metadata=named("least_of"))
    prices: OptionPrices | None = field(default=None, metadata=named("option_prices"))
    heat_pump: HeatPump | None = None
    coverings: tuple[CoveringOption, ...] = field(default=(), metadata=named("covering_options"))
    patterns: tuple[PatternOption, ...] = field(default=(), metadata=named("pattern_options"))
    strips: tuple[StripOption, ...] = field(default=(), metadata=named("strip_options"))
    maximum_surface_range: float | None = None
    temperature_drops: tuple[float, ...] = field(default=(), metadata=named("option_drops"))
    pump_stages: tuple[PumpStage, ...] = ()


@dataclass(frozen=True, slots=True)
class ObjectiveOutcome:
    """The house beside the one by the rule, both designed completely: ``value`` and ``value_by_rule`` are what was to
    be least [degC, m, W or money]. ``taken``: which of both was answered; never the worse. ``design_drop`` [K] is that
    of its source, ``pump_stage`` the number of the stage with the least pressure that does, None where none does.

    The best house was sought by area: ``proven`` says that no other choice of spacings, circuits and manifolds is
    better there, on any supply from which on a room can have another spacing; else ``gap`` is the share by which one
    could be on the supplies that were looked at, None where no bound is known. ``solver`` names what searched, empty
    where no search was needed.
    """

    least: Least = field(metadata=named("least_of"))
    taken: Literal["best", "rule"] = field(metadata=named("objective_taken"))
    value: float = field(metadata=named("objective_value"))
    value_by_rule: float = field(metadata=named("objective_by_rule"))
    beside_rule: BesideNeighbour
    design_drop: float
    pump_stage: int | None
    proven: bool = field(metadata=named("objective_proven"))
    gap: float | None = field(metadata=named("objective_gap"))
    solver: str
