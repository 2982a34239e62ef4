"""What the hydraulic calculation of one manifold needs."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..pipe import Pipe

__all__ = [
    "Circuit",
    "CountedBends",
    "Expansion",
    "Fluid",
    "HydraulicsInputs",
    "HydraulicsLimits",
    "ValveSetting",
]

FluidKind = Literal["water", "propylene_glycol", "ethylene_glycol"]
Basis = Literal["mass", "volume"]


@dataclass(frozen=True, slots=True)
class Fluid:
    """Water, or a glycol without inhibitors in water.

    ``concentration`` is the fraction of glycol by ``basis``: mass 0 to 0.6, volume 0.1 to 0.6, and 0 for
    water. The two bases use two published sets of properties, which do not convert into each other exactly.
    """

    kind: FluidKind = field(default="water", metadata=named("fluid_kind"))
    concentration: float = 0.0
    basis: Basis = field(default="volume", metadata=named("concentration_basis"))


@dataclass(frozen=True, slots=True)
class CountedBends:
    """Equal bends of one circuit; their arcs are part of its length."""

    count: int = field(metadata=named("bend_count"))
    angle: float = field(default=90.0, metadata=named("bend_angle"))
    radius: float | None = field(default=None, metadata=named("bend_radius"))


@dataclass(frozen=True, slots=True)
class Circuit:
    """One circuit from the manifold and back.

    ``length`` runs along the pipe's axis, arcs and both tails included. Exactly one of ``heat_flow`` (to the
    room and downwards) and ``mass_flow`` is given. What is ``None`` is taken from the manifold's inputs.
    Counted ``bends`` replace ``bend_allowance``.
    """

    id: str
    length: float = field(metadata=named("circuit_length"))
    heat_flow: float | None = None
    mass_flow: float | None = None
    temperature_drop: float | None = None
    pipe: Pipe | None = None
    bend_allowance: float | None = None
    bends: tuple[CountedBends, ...] | None = field(default=None, metadata=named("counted_bends"))
    valve_kv_open: float | None = None


@dataclass(frozen=True, slots=True)
class ValveSetting:
    """One line of the valve maker's table: what is set on the valve, and its flow coefficient there."""

    setting: float = field(metadata=named("valve_setting"))
    kv: float = field(metadata=named("valve_kv"))


@dataclass(frozen=True, slots=True)
class HydraulicsLimits:
    """What is judged. The defaults are common practice; ``None`` for a length: by size of pipe."""

    advised_pressure_drop: float = 20_000.0
    maximum_pressure_drop: float = 30_000.0
    maximum_valve_pressure_drop: float = 25_000.0
    minimum_velocity: float = 0.25
    advised_velocity: float = 0.6
    maximum_velocity: float = 1.0
    advised_length: float | None = None
    maximum_length: float | None = None
    minimum_meter_flow: float = 0.5e-3 / 60.0
    maximum_meter_flow: float = 5.0e-3 / 60.0
    maximum_circuits: int = 12
    supply_temperature_limit: float = 55.0


@dataclass(frozen=True, slots=True)
class Expansion:
    """The closed system round the circuits, for its expansion vessel (EN 12828).

    ``maximum_temperature`` is the highest the fluid can reach (the source's limit); ``None`` takes the
    higher of supply and primary temperature. ``precharge_pressure`` ``None``: from the static height, at
    least 1 bar. ``additional_volume`` is all water outside the circuits. ``expansion_ratio`` ``None``: from the
    fluid's densities. ``water_reserve`` ``None``: 0.5 % of the system, at least 3 l; 0 is allowed. Pressures are above
    atmospheric.
    """

    additional_volume: float = 0.0
    fill_temperature: float = 10.0
    maximum_temperature: float | None = field(default=None, metadata=named("maximum_fluid_temperature"))
    static_height: float = 5.0
    safety_valve_pressure: float = 300_000.0
    precharge_pressure: float | None = None
    expansion_ratio: float | None = field(default=None, metadata=named("given_expansion_ratio"))
    water_reserve: float | None = field(default=None, metadata=named("given_water_reserve"))


@dataclass(frozen=True, slots=True)
class HydraulicsInputs:
    """The circuits of one manifold and the water side behind it.

    The default temperatures give a mean of 35 degC, at which friction tables of the trade are drawn up.
    ``valve_kv_open`` holds the presetting valve wide open, with flow meter and return valve unless
    ``flow_meter_kv`` is given; ``None`` takes the largest of ``valve_table``, or 1.1 m3/h (common practice).
    """

    pipe: Pipe
    circuits: tuple[Circuit, ...] = field(metadata=named("hydraulic_circuits"))
    supply_temperature: float = 37.5
    temperature_drop: float = 5.0
    fluid: Fluid = field(default_factory=Fluid)
    bend_allowance: float = 0.05
    valve_kv_open: float | None = None
    flow_meter_kv: float | None = None
    valve_table: tuple[ValveSetting, ...] = ()
    manifold_pressure_drop: float = 0.0
    mains_pressure_drop: float = 0.0
    primary_temperature: float | None = None
    frost_temperature: float | None = None
    expansion: Expansion = field(default_factory=Expansion)
    limits: HydraulicsLimits = field(
        default_factory=HydraulicsLimits, metadata={"glossary": "hydraulics_limits"}
    )
