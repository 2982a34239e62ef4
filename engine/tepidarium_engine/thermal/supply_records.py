"""What is asked and answered about floors on one supply."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..glossary import named
from ..pipe import Pipe
from ..quick_records import quickly_made
from ..results import Caution, Finding
from .limit_curves import SURFACE_EXCESS

__all__ = ["OtherRoom", "RoomOnSupply", "SpacingOption", "SupplyTemperatureInputs", "SupplyTemperatureResult"]


@dataclass(frozen=True, slots=True)
class OtherRoom:
    """A further room on the supply of the governing room.

    What is left out is taken from the governing room; the surface limit from the room's own temperature
    plus 9 K. ``counts_for_supply``: whether the room may ask for more than the governing room without a finding; None:
    rooms of 24 degC and more are taken for bathrooms, which EN 1264-3 leaves out."""

    id: str
    required_heat_output: float
    area: float
    pipe_spacing: float | None = None
    pipe: Pipe | None = None
    screed_cover: float | None = None
    screed_conductivity: float | None = None
    covering_resistance: float | None = None
    resistance_below: float | None = None
    room_temperature: float | None = None
    temperature_below: float | None = None
    surface_temperature_limit: float | None = None
    counts_for_supply: bool | None = field(default=None, metadata=named("other_counts_for_supply"))


@dataclass(frozen=True, slots=True)
class SupplyTemperatureInputs:
    """The floor of the governing room, the heat it must give, and the rooms that share its supply.

    One of ``pipe_spacing`` and ``pipe_spacings`` is needed; with both, all of them are compared.
    ``temperature_below`` defaults to the room temperature, ``surface_temperature_limit`` to the room
    temperature plus 9 K.
    """

    pipe: Pipe
    screed_cover: float
    resistance_below: float
    required_heat_output: float
    pipe_spacing: float | None = None
    pipe_spacings: tuple[float, ...] | None = None
    screed_conductivity: float = 1.2
    covering_resistance: float = 0.1
    room_temperature: float = 20.0
    temperature_below: float | None = None
    surface_temperature_limit: float | None = None
    temperature_drop: float = 5.0
    area: float | None = None
    other_rooms: tuple[OtherRoom, ...] = ()

    def __post_init__(self) -> None:
        if self.temperature_below is None:
            object.__setattr__(self, "temperature_below", self.room_temperature)
        if self.surface_temperature_limit is None and isinstance(self.room_temperature, float | int):
            object.__setattr__(self, "surface_temperature_limit", self.room_temperature + SURFACE_EXCESS)


@quickly_made
@dataclass(frozen=True, slots=True)
class SpacingOption:
    """What one spacing would need. ``within_limits``: every room keeps its surface limit at this spacing."""

    pipe_spacing: float
    pipe_length_per_area: float
    heat_transmittance: float
    mean_excess_temperature: float
    supply_temperature: float
    return_temperature: float
    mean_surface_temperature: float
    limit_heat_output: float
    within_limits: bool
    chosen: bool
    reason: str


@quickly_made
@dataclass(frozen=True, slots=True)
class RoomOnSupply:
    """Another room on the chosen supply. ``reached``: its floor gives the heat that is asked of it."""

    id: str
    reached: bool
    pipe_spacing: float
    heat_transmittance: float
    mean_excess_temperature: float
    temperature_drop: float
    return_temperature: float
    heat_output: float
    missing_heat_output: float
    limit_heat_output: float
    mean_surface_temperature: float
    downward_heat_loss: float
    mass_flow_per_area: float
    mass_flow: float


@quickly_made
@dataclass(frozen=True, slots=True)
class SupplyTemperatureResult:
    """The governing room at the chosen spacing, the spacings compared, and the rooms on the same supply.

    ``mass_flow`` is the governing room's and needs its ``area``; ``total_mass_flow`` is that of all rooms.
    ``missing_heat_output`` is what the floor may not give without passing its surface limit.
    """

    supply_temperature: float
    return_temperature: float
    pipe_spacing: float
    reason: str
    heat_transmittance: float
    mean_excess_temperature: float
    mean_surface_temperature: float
    limit_heat_output: float
    limit_excess_temperature: float
    missing_heat_output: float
    downward_heat_loss: float
    total_heat_output: float
    pipe_length_per_area: float
    mass_flow_per_area: float
    mass_flow: float | None
    total_mass_flow: float | None
    options: tuple[SpacingOption, ...]
    rooms_on_supply: tuple[RoomOnSupply, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
