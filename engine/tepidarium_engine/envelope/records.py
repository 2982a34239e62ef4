"""What a heat loss is given: constructions, elements, rooms, ground."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..checking import Point
from ..glossary import named

__all__ = [
    "Beyond",
    "Construction",
    "EdgeInsulation",
    "Element",
    "Ground",
    "GroundContact",
    "HeatLossInputs",
    "HeatLossRoom",
    "Layer",
    "Opening",
    "Shielding",
    "Slab",
    "Surface",
    "UnderfloorSpace",
    "UnheatedSpace",
    "Wall",
]

Surface = Literal["wall", "floor", "ceiling", "window", "door"]
Beyond = Literal["outside", "ground", "underfloor_space", "unheated", "heated_neighbour", "room", "adiabatic"]
Shielding = Literal["sheltered", "average", "exposed"]
"""From the wind: a town centre, a suburb, open country (ISO 13370:2017, suspended floors)."""


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer by thickness and conductivity, or by its resistance (air layers, products with a declared R).

    ``bridge_share`` of its area may be of another material (studs, rafters, mortar joints), of
    ``bridge_conductivity``.
    """

    thickness: float | None = field(default=None, metadata=named("layer_thickness"))
    thermal_conductivity: float | None = field(default=None, metadata=named("layer_conductivity"))
    thermal_resistance: float | None = field(default=None, metadata=named("layer_resistance"))
    bridge_share: float = 0.0
    bridge_conductivity: float | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Construction:
    """A U-value [W/(m2.K)] or the layers that it follows from; elements name it by ``id``."""

    id: str
    u_value: float | None = None
    layers: tuple[Layer, ...] = ()
    name: str = ""


@dataclass(frozen=True, slots=True)
class Opening:
    """A window or door in an element, by ``width`` and ``height`` [m] or by ``area`` [m2]."""

    u_value: float
    surface: Literal["window", "door"] = "window"
    width: float | None = field(default=None, metadata=named("opening_width"))
    height: float | None = None
    area: float | None = field(default=None, metadata=named("element_area"))
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A wall along one edge of the outline: edge 0 runs from the first corner to the second.

    An edge that borders on different things has several walls, each but one with its ``length`` [m]. A wall
    against the ground reaches up to the ground outside (the room's ``depth_below_ground``); what stands above
    is outside wall of the same construction. What lies between two rooms of the request is given on one side
    only; the wall on the other side names its neighbour and nothing else.
    """

    edge: int
    construction: str | None = None
    beyond: Beyond = "outside"
    neighbour: str | None = None
    neighbour_temperature: float | None = None
    temperature_factor: float | None = None
    thermal_bridge_supplement: float | None = field(default=None, metadata=named("element_thermal_bridges"))
    length: float | None = field(default=None, metadata=named("stretch_length"))
    openings: tuple[Opening, ...] = ()
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """What lies below or above the outline. Several of them share its area, each but one with its ``area`` [m2]."""

    construction: str | None = None
    beyond: Beyond = "outside"
    neighbour: str | None = None
    neighbour_temperature: float | None = None
    temperature_factor: float | None = None
    thermal_bridge_supplement: float | None = field(default=None, metadata=named("element_thermal_bridges"))
    area: float | None = field(default=None, metadata=named("element_area"))
    openings: tuple[Opening, ...] = ()
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Element:
    """An element by its net area [m2], with a construction or a U-value."""

    surface: Surface
    area: float = field(metadata=named("element_area"))
    construction: str | None = None
    u_value: float | None = None
    beyond: Beyond = "outside"
    neighbour: str | None = None
    neighbour_temperature: float | None = None
    temperature_factor: float | None = None
    thermal_bridge_supplement: float | None = field(default=None, metadata=named("element_thermal_bridges"))
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatLossRoom:
    """A room by its outline [m], or by its floor ``area`` [m2] and elements.

    An outline needs a wall for every edge, floors and ceilings. ``storey_height`` [m] None: that of the
    request; ``room_height`` None: the storey height, which puts the volume on the safe side. Without
    ``air_change`` [1/h] and ``air_flow`` [m3/s] half a volume an hour comes in from outside; air from a fan
    comes at ``supply_air_temperature``, or as cold as outside.
    """

    id: str
    name: str = ""
    room_temperature: float = 20.0
    outline: tuple[Point, ...] | None = None
    voids: tuple[tuple[Point, ...], ...] = ()
    area: float | None = None
    storey_height: float | None = None
    room_height: float | None = None
    depth_below_ground: float = 0.0
    walls: tuple[Wall, ...] = ()
    floors: tuple[Slab, ...] = ()
    ceilings: tuple[Slab, ...] = ()
    elements: tuple[Element, ...] = ()
    heated_floor: bool = True
    air_change: float | None = None
    air_flow: float | None = None
    supply_air_temperature: float | None = None
    reheat_per_area: float = 0.0


@dataclass(frozen=True, slots=True)
class EdgeInsulation:
    """Insulation along the edge of a floor on the ground: ``extent`` [m] is its width or depth."""

    placement: Literal["horizontal", "vertical"]
    extent: float = field(metadata=named("insulation_extent"))
    thickness: float = field(metadata=named("insulation_thickness"))
    thermal_conductivity: float = field(metadata=named("insulation_conductivity"))


@dataclass(frozen=True, slots=True)
class Ground:
    """The soil and the building's whole floor on or over it (ISO 13370 takes the building, not the room).

    The soil is sand or gravel unless said otherwise, which is ISO 13370's default too. ``floor_area`` and
    ``exposed_perimeter`` None: summed over the rooms of the request that stand on the ground.
    """

    thermal_conductivity: float = field(default=2.0, metadata=named("ground_conductivity"))
    wall_thickness: float = field(default=0.3, metadata=named("foundation_wall_thickness"))
    floor_area: float | None = field(default=None, metadata=named("ground_floor_area"))
    exposed_perimeter: float | None = None
    edge_insulation: EdgeInsulation | None = None
    groundwater_depth: float | None = None


@dataclass(frozen=True, slots=True)
class UnderfloorSpace:
    """The ventilated space below suspended floors (ISO 13370), its base no more than half a metre below the ground
    outside.

    ``floor_height`` [m] is that of the floor's upper side above the ground outside, ``ventilation_openings`` [m2/m] are
    per metre of exposed perimeter, ``wind_speed`` [m/s] is the mean at a height of 10 m; ``ground_insulation``
    [m2.K/W] lies on the base. The defaults are the assumptions of the UK's tables of such floors.
    """

    floor_height: float = 0.3
    wall_u_value: float = 1.7
    ventilation_openings: float = 0.0015
    wind_speed: float = 3.0
    shielding: Shielding = "average"
    ground_insulation: float = 0.0


@dataclass(frozen=True, slots=True)
class GroundContact:
    """The base and the buried walls of an unheated basement: ``depth_below_ground`` [m] of its base, U-values
    [W/(m2.K)] from air to air without the soil."""

    floor_area: float = field(metadata=named("ground_floor_area"))
    exposed_perimeter: float
    depth_below_ground: float
    base_u_value: float
    wall_u_value: float


@dataclass(frozen=True, slots=True)
class UnheatedSpace:
    """A space without heating: its ``temperature`` [degC], or what its heat balance needs: ``external_transmittance``
    [W/K] through what stands in the open, the air of its ``volume`` [m3], and of a basement its ``ground_contact``."""

    id: str
    name: str = ""
    temperature: float | None = field(default=None, metadata=named("space_temperature"))
    external_transmittance: float | None = None
    volume: float | None = None
    air_change: float = 0.5
    ground_contact: GroundContact | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatLossInputs:
    """The rooms of a building in its design winter.

    ``annual_mean_temperature`` [degC] is needed when something borders on ground. ``thermal_bridge_supplement``
    [W/(m2.K)] is added to everything that borders on outside air, ground or unheated spaces; 0.10 is the default of
    EN 12831-1 for buildings of which nothing better is known (0.05 and 0.02 for carefully planned new ones).
    """

    external_temperature: float
    rooms: tuple[HeatLossRoom, ...]
    constructions: tuple[Construction, ...] = ()
    annual_mean_temperature: float | None = None
    storey_height: float = 2.5
    wall_area_ratio: float = 1.0
    thermal_bridge_supplement: float = 0.10
    ground: Ground = Ground()
    underfloor_space: UnderfloorSpace = UnderfloorSpace()
    unheated_spaces: tuple[UnheatedSpace, ...] = ()
