"""What a section is made of and what is said about it beside its steady heat flows."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named

__all__ = [
    "ColdEdge",
    "ComparedSection",
    "EdgeResult",
    "ProfilePoint",
    "SectionLayer",
    "Setback",
    "SetbackResult",
    "SurfaceExchange",
    "WarmUp",
    "WarmUpPoint",
    "WarmUpResult",
]

SurfaceExchange = Literal["constant", "basic_curve", "given"]
"""constant: 10.8 W/(m2.K); basic_curve: by the basic characteristic curve of EN 1264-2; given: as stated."""


@dataclass(frozen=True, slots=True)
class SectionLayer:
    """A layer right across the section [m, W/(m.K), J/(m3.K)]. The heat capacity matters in time only."""

    thickness: float = field(metadata=named("section_layer_thickness"))
    thermal_conductivity: float = field(metadata=named("section_layer_conductivity"))
    volumetric_heat_capacity: float = field(default=1.5e6, metadata=named("layer_heat_capacity"))


@dataclass(frozen=True, slots=True)
class ColdEdge:
    """The cold edge of the outermost bay: ``distance`` [m] from the axis of its pipe to the edge of the screed,
    ``temperature`` [degC] beyond it, and ``resistance`` [m2.K/W] of edge strip, wall and outer surface."""

    distance: float = field(metadata=named("edge_distance"))
    temperature: float = field(metadata=named("edge_temperature"))
    resistance: float = field(metadata=named("edge_resistance"))


@dataclass(frozen=True, slots=True)
class Setback:
    """A lowering at night out of the steady state: for ``duration`` [s] the water has ``water_temperature``
    [degC], or does not flow at all when none is given."""

    duration: float = field(metadata=named("setback_duration"))
    water_temperature: float | None = None


@dataclass(frozen=True, slots=True)
class WarmUp:
    """The section in time, from an even ``initial_temperature`` [degC] on, or as it lies unheated between the room and
    what is below. The water is held at its temperature, or gives no more than ``source_power`` [W/m2] of floor."""

    duration: float = field(default=172_800.0, metadata=named("warm_up_duration"))
    time_step: float = 900.0
    initial_temperature: float | None = None
    source_power: float | None = None
    setback: Setback | None = None


@dataclass(frozen=True, slots=True)
class ProfilePoint:
    """Floor surface at ``distance`` [m] beside the pipe's axis [degC]."""

    distance: float = field(metadata=named("profile_distance"))
    temperature: float = field(metadata=named("profile_temperature"))


@dataclass(frozen=True, slots=True)
class ComparedSection:
    """The same floor at another spacing [m] or water temperature [degC]: heat flows [W/m2], what the room gets more
    for each kelvin of the water [W/(m2.K)], and temperatures [degC]."""

    pipe_spacing: float
    water_temperature: float
    heat_output: float
    downward_heat_loss: float
    total_heat_output: float
    heat_transmittance: float
    mean_surface_temperature: float
    highest_surface_temperature: float
    lowest_surface_temperature: float
    pipe_surface_temperature: float
    below_covering_temperature: float


@dataclass(frozen=True, slots=True)
class EdgeResult:
    """The outermost bay, from the edge to midway between its pipe and the next: heat flows per floor area
    [W/m2], the loss through the edge per metre of it [W/m], and its surface [degC] by distance from the edge."""

    bay_width: float
    heat_output: float
    downward_heat_loss: float
    edge_heat_loss: float
    water_heat: float
    mean_surface_temperature: float
    lowest_surface_temperature: float
    surface_profile: tuple[ProfilePoint, ...]


@dataclass(frozen=True, slots=True)
class WarmUpPoint:
    """The section at one time [s]: water [degC], heat [W/m2] from the water, up and down, surface [degC]."""

    time: float
    water_temperature: float | None
    water_heat: float
    heat_output: float
    downward_heat_loss: float
    mean_surface_temperature: float


@dataclass(frozen=True, slots=True)
class SetbackResult:
    """What a setback does: output [W/m2] and surface [degC] at its end, heat that the floor gave up [J/m2], and
    the time [s] from its end until the output is back at nine tenths of the steady one, if within the duration."""

    heat_output_at_end: float = field(metadata=named("heat_output"))
    surface_temperature_at_end: float = field(metadata=named("mean_surface_temperature"))
    released_energy: float
    recovery_time: float | None
    course: tuple[WarmUpPoint, ...]


@dataclass(frozen=True, slots=True)
class WarmUpResult:
    """The section in time. ``warm_up_time`` [s] is that to nine tenths of the steady output, null when it is not
    reached within the duration. Energies [J/m2] are counted from the start; ``stored_energy`` is what the floor
    holds at the end beyond its start, ``balance_error`` the largest of all steps over the heat stored or moved."""

    warm_up_time: float | None
    steady_heat_output: float = field(metadata=named("heat_output"))
    stored_energy: float
    supplied_energy: float
    energy_to_room: float
    energy_downwards: float
    balance_error: float
    course: tuple[WarmUpPoint, ...]
    setback: SetbackResult | None = field(default=None, metadata=named("setback_result"))
