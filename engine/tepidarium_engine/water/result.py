"""What the hydraulic calculation of one manifold gives."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..quick_records import quickly_made
from ..results import Caution, Finding

__all__ = [
    "CircuitHydraulics",
    "ExpansionVessel",
    "FrostProtection",
    "HydraulicsResult",
    "Mixing",
    "OpenFlow",
    "OpenValves",
    "Pump",
    "Regime",
]

Regime = Literal["laminar", "transitional", "turbulent"]


@quickly_made
@dataclass(frozen=True, slots=True)
class OpenFlow:
    """One circuit's flow with every presetting valve wide open.

    ``flow_ratio`` is that flow over the design flow; ``temperature_drop`` [K] is what remains of the drop if
    the circuit still carries its design heat.
    """

    mass_flow: float
    flow_ratio: float
    temperature_drop: float


@quickly_made
@dataclass(frozen=True, slots=True)
class CircuitHydraulics:
    """One circuit at its design flow.

    ``pressure_drop`` [Pa] is that of the pipe with its bends by Churchill, ``pressure_drop_upper`` [Pa] the
    same with the larger of Churchill and Colebrook-White in the transition zone. ``fixed_pressure_drop``
    [Pa] is the flow meter, ``valve_pressure_drop`` [Pa] what the presetting valve takes when the manifold is
    balanced, at ``valve_kv`` [m3/h]. ``total_pressure_drop`` [Pa] is the sum and equal for every circuit.
    """

    id: str
    heat_flow: float
    mass_flow: float
    volume_flow: float
    temperature_drop: float
    return_temperature: float
    mean_temperature: float = field(metadata=named("mean_fluid_temperature"))
    density: float
    heat_capacity: float
    dynamic_viscosity: float
    velocity: float
    reynolds: float
    regime: Regime
    friction_factor: float
    friction_factor_upper: float
    pressure_gradient: float
    pressure_drop: float
    pressure_drop_upper: float
    fixed_pressure_drop: float
    open_valve_pressure_drop: float
    valve_pressure_drop: float
    total_pressure_drop: float
    valve_kv: float
    valve_setting: float | None
    valve_authority: float
    water_content: float
    open_same_pressure: OpenFlow = field(metadata=named("open_flow_same_pressure"))
    open_same_flow: OpenFlow = field(metadata=named("open_flow_same_flow"))


@quickly_made
@dataclass(frozen=True, slots=True)
class Pump:
    """Pump duty. ``pressure``, ``head`` and powers hold the upper bound of friction,
    ``pressure_best_estimate`` and ``head_best_estimate`` Churchill's. Electric power: for pump efficiencies
    of 0.45 to 0.15."""

    volume_flow: float
    pressure: float = field(metadata=named("pump_pressure"))
    head: float = field(metadata=named("pump_head"))
    hydraulic_power: float
    pressure_best_estimate: float
    head_best_estimate: float
    electric_power_low: float
    electric_power_high: float


@quickly_made
@dataclass(frozen=True, slots=True)
class OpenValves:
    """The manifold with every presetting valve wide open.

    ``same_flow_pressure`` [Pa]: the pressure across the manifold at which the circuits together take the
    design flow; ``same_pressure_mass_flow`` [kg/s]: what they take together at the balanced manifold's
    pressure.
    """

    same_flow_pressure: float
    same_pressure_mass_flow: float


@quickly_made
@dataclass(frozen=True, slots=True)
class Mixing:
    """A mixing set between source and manifold.

    ``primary_share`` is primary flow over manifold flow. A source colder than the supply has no mixing set: none could
    give the supply.
    """

    primary_share: float
    recirculated_share: float
    primary_mass_flow: float
    primary_volume_flow: float


@quickly_made
@dataclass(frozen=True, slots=True)
class ExpansionVessel:
    """The vessel by EN 12828. Pressures [Pa] above atmospheric. ``nominal_volume`` is the next common
    size."""

    expansion_ratio: float
    expansion_volume: float
    water_reserve: float
    precharge_pressure: float
    final_pressure: float
    minimum_volume: float
    nominal_volume: float | None
    fill_pressure: float | None


@quickly_made
@dataclass(frozen=True, slots=True)
class FrostProtection:
    """``frost_margin`` [K] is the frost temperature minus the freezing point. ``required_concentration`` of
    the same glycol and basis; ``None`` when water is used or no concentration in range will do."""

    freezing_point: float
    frost_margin: float
    required_concentration: float | None
    glycol_volume: float | None


@quickly_made
@dataclass(frozen=True, slots=True)
class HydraulicsResult:
    """Flows, balancing and water side of one manifold."""

    circuits: tuple[CircuitHydraulics, ...] = field(metadata=named("hydraulic_circuits"))
    index_circuit: str
    manifold_pressure: float
    mass_flow: float
    volume_flow: float
    heat_flow: float
    return_temperature: float
    system_volume: float
    freezing_point: float
    pump: Pump
    open_valves: OpenValves
    mixing: Mixing | None
    expansion_vessel: ExpansionVessel
    frost_protection: FrostProtection | None
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
