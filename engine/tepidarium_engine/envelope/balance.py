"""Heat through every face of every room (EN 12831-1:2017)."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property, lru_cache

from ..errors import required
from ..glossary import named
from ..quick_records import quickly_made
from . import ground as soil
from .faces import Face, RoomFaces
from .records import Beyond, HeatLossInputs, Surface, UnheatedSpace
from .relations import facing
from .u_values import EXTERNAL_RESISTANCE, INTERNAL_RESISTANCE, construction_u_value

__all__ = [
    "ANNUAL_FLUCTUATION",
    "SUSPENDED_FACTOR",
    "UNHEATED_FACTOR",
    "Balance",
    "ElementLoss",
    "GroundFloor",
]

ANNUAL_FLUCTUATION = 1.45
"""f_theta,ann: the soil's share in the swing of the outside air over the year, EN 12831-1:2017."""
GROUNDWATER_FACTOR = 1.15
"""f_GW for groundwater at most 1 m below the floor; 1 otherwise, EN 12831-1:2017."""
NEAR_GROUNDWATER = 1.0
SUSPENDED_FACTOR = 0.8
"""Temperature factor of suspended floors of which nothing is known, EN 12831-1:2017, Annex B."""
UNHEATED_FACTOR = 0.5
"""Temperature factor of unheated spaces of which nothing is known, EN 12831-1:2017, Annex B."""
_SPACE_AIR = 0.33
"""Heat capacity of the air in an unheated space [Wh/(m3.K)], ISO 6946:2017, unheated spaces."""

# Rooms on the same slab ask for the same one.
_floor_u_value = lru_cache(maxsize=1024)(soil.insulated_floor_u_value)

_BRIDGED: frozenset[Beyond] = frozenset({"outside", "ground", "underfloor_space", "unheated"})


@quickly_made
@dataclass(frozen=True, slots=True)
class ElementLoss:
    """Heat through an element [W], negative when it comes in; ``where`` points to the element in the inputs.

    ``u_value`` is that used, with thermal bridges and soil. Losses to the ground are for the year's coldest time:
    1.45 (and 1.15 over near groundwater) times area, U-value and the difference to the annual mean.
    """

    where: str
    name: str
    surface: Surface
    beyond: Beyond
    neighbour: str | None
    area: float = field(metadata=named("element_area"))
    u_value: float = field(metadata=named("effective_u_value"))
    temperature_beyond: float
    through_heated_floor: bool
    heat_loss: float


@dataclass(frozen=True, slots=True)
class GroundFloor:
    """The building's floor on the ground or over an underfloor space: area [m2], exposed perimeter and characteristic
    dimension [m]."""

    floor_area: float = field(metadata=named("ground_floor_area"))
    exposed_perimeter: float
    characteristic_dimension: float


@dataclass(frozen=True)
class Balance:
    """The faces with their U-values and temperatures. ``ground`` is None when nothing borders on the ground."""

    inputs: HeatLossInputs
    rooms: tuple[RoomFaces, ...]
    ground: GroundFloor | None

    @cached_property
    def ground_factor(self) -> float:
        """f_theta,ann times f_GW."""
        depth = self.inputs.ground.groundwater_depth
        near = depth is not None and depth <= NEAR_GROUNDWATER
        return ANNUAL_FLUCTUATION * (GROUNDWATER_FACTOR if near else 1.0)

    def soil_temperature(self, inside: float) -> float:
        """Of the soil in the year's coldest time as a space of the temperature ``inside`` sees it [degC]."""
        return inside - self.ground_factor * (inside - self._annual_mean)

    @property
    def _annual_mean(self) -> float:
        """Of the air outside [degC]; given wherever something touches the soil."""
        return required(self.inputs.annual_mean_temperature, "the annual mean temperature")

    @property
    def _soil(self) -> GroundFloor:
        return required(self.ground, "the floor on the ground")

    @cached_property
    def room_temperatures(self) -> dict[str, float]:
        return {room.id: room.room_temperature for room in self.inputs.rooms}

    def supplement(self, face: Face) -> float:
        """For thermal bridges [W/(m2.K)]."""
        if face.thermal_bridge_supplement is not None:
            return face.thermal_bridge_supplement
        return self.inputs.thermal_bridge_supplement if face.beyond in _BRIDGED else 0.0

    @cached_property
    def _known(self) -> dict[tuple[str, Surface, bool], float]:
        """U-values of constructions by id, direction and whether the other side is in the open."""
        return {}

    def plain_u_value(self, face: Face) -> float:
        """Of the element from air to air [W/(m2.K)], without bridges and soil."""
        if face.construction is None:
            return required(face.u_value, "the U-value of a face without a construction")
        in_the_open = face.beyond in ("outside", "ground")
        key = (face.construction.id, face.surface, in_the_open)
        known = self._known.get(key)
        if known is None:
            other_side = EXTERNAL_RESISTANCE if in_the_open else INTERNAL_RESISTANCE[face.surface]
            known = self._known[key] = construction_u_value(face.construction, face.surface, other_side)
        return known

    def u_value(self, face: Face) -> float:
        """As used [W/(m2.K)]. On ground the supplement goes into the floor's or wall's resistance, as in the
        U_equiv of EN 12831-1, and the soil is added after ISO 13370."""
        bridged = self.plain_u_value(face) + self.supplement(face)
        if face.beyond != "ground":
            return bridged
        return self._wall_on_ground(face) if face.surface == "wall" else self._floor_on_ground(face)

    def equivalent_thickness(self, face: Face) -> float:
        """Of a face on ground in soil [m]: d_f of a floor, d_w of a wall."""
        given = self.inputs.ground
        resistance = 1.0 / (self.plain_u_value(face) + self.supplement(face))
        wall = given.wall_thickness if face.surface == "floor" else 0.0
        return float(soil.equivalent_thickness(wall, given.thermal_conductivity, resistance))

    def _floor_on_ground(self, face: Face) -> float:
        given, dimension = self.inputs.ground, self._soil.characteristic_dimension
        depth = self.inputs.rooms[face.room].depth_below_ground
        thickness, conductivity = self.equivalent_thickness(face), given.thermal_conductivity
        if depth > 0.0:
            return float(soil.floor_u_value(dimension, thickness, conductivity, depth))
        return float(_floor_u_value(dimension, thickness, conductivity, given.edge_insulation))

    @cached_property
    def _floor_thickness(self) -> dict[int, float]:
        """Equivalent thickness [m] of each room's first floor on the ground, by the room's index."""
        floors = (
            face
            for room in reversed(self.rooms)
            for face in reversed(room.faces)
            if face.beyond == "ground" and face.surface == "floor"
        )
        return {face.room: self.equivalent_thickness(face) for face in floors}

    def _wall_on_ground(self, face: Face) -> float:
        wall = self.equivalent_thickness(face)
        floor = self._floor_thickness.get(face.room, wall)
        depth = self.inputs.rooms[face.room].depth_below_ground
        conductivity = self.inputs.ground.thermal_conductivity
        return float(soil.basement_wall_u_value(depth, wall, floor, conductivity))

    @cached_property
    def space_temperatures(self) -> dict[str, float]:
        """Of the unheated spaces [degC]: as given, or where what comes in from the rooms goes out."""
        return {
            space.id: self._space_temperature(index)
            for index, space in enumerate(self.inputs.unheated_spaces)
        }

    def _space_temperature(self, index: int) -> float:
        space, outside = self.inputs.unheated_spaces[index], self.inputs.external_temperature
        if space.temperature is not None:
            return space.temperature
        out = (space.external_transmittance or 0.0) + _SPACE_AIR * space.air_change * (space.volume or 0.0)
        passed, heat = 0.0, 0.0
        for room, faces in zip(self.inputs.rooms, self.rooms, strict=True):
            for face in faces.faces:
                if face.beyond == "unheated" and face.neighbour == space.id:
                    transmittance = face.area * self.u_value(face)
                    passed += transmittance
                    heat += transmittance * room.room_temperature
        total, to_soil = passed + out, self.space_to_soil(space)
        if to_soil > 0.0 and passed > 0.0:
            heat += to_soil * self.soil_temperature(heat / passed)
            total += to_soil
        return (heat + out * outside) / total if total > 0.0 else outside

    def space_to_soil(self, space: UnheatedSpace) -> float:
        """From an unheated basement to the soil [W/K] (ISO 13370, unheated basements); 0 without ground contact."""
        contact, ground = space.ground_contact, self.inputs.ground
        if contact is None:
            return 0.0
        depth, conductivity = contact.depth_below_ground, ground.thermal_conductivity
        base = soil.equivalent_thickness(ground.wall_thickness, conductivity, 1.0 / contact.base_u_value)
        wall = soil.equivalent_thickness(0.0, conductivity, 1.0 / contact.wall_u_value)
        dimension = soil.characteristic_dimension(contact.floor_area, contact.exposed_perimeter)
        through = contact.floor_area * soil.floor_u_value(dimension, base, conductivity, depth)
        if depth > 0.0:
            buried = depth * contact.exposed_perimeter
            through += buried * soil.basement_wall_u_value(depth, wall, base, conductivity)
        return float(through)

    @cached_property
    def underfloor(self) -> tuple[float, float]:
        """U_g and U_x [W/(m2.K)] of the space below suspended floors: to the soil and to the air outside."""
        space, ground = self.inputs.underfloor_space, self.inputs.ground
        dimension, conductivity = self._soil.characteristic_dimension, ground.thermal_conductivity
        resistance = INTERNAL_RESISTANCE["floor"] + space.ground_insulation + EXTERNAL_RESISTANCE
        thickness = soil.equivalent_thickness(ground.wall_thickness, conductivity, resistance)
        to_outside = soil.underfloor_transmittance(
            dimension,
            height=space.floor_height,
            wall_u_value=space.wall_u_value,
            openings=space.ventilation_openings,
            wind_speed=space.wind_speed,
            shielding=soil.WIND_SHIELDING[space.shielding],
        )
        return float(soil.floor_u_value(dimension, thickness, conductivity)), float(to_outside)

    def _underfloor_temperature(self, face: Face, inside: float) -> float:
        """Where what comes through the floor goes out [degC], as if all floors over the space were like this one."""
        floor, (to_soil, to_outside) = self.u_value(face), self.underfloor
        heat = floor * inside + to_soil * self.soil_temperature(inside)
        heat += to_outside * self.inputs.external_temperature
        return heat / (floor + to_soil + to_outside)

    def temperature_beyond(self, face: Face) -> float:
        """[degC]; of adiabatic faces that of the room."""
        if face.neighbour_temperature is not None:
            return face.neighbour_temperature
        inside = self.inputs.rooms[face.room].room_temperature
        match face.beyond:
            case "outside":
                return self.inputs.external_temperature
            case "ground":
                return self._annual_mean
            case "room":
                return self.room_temperatures[str(face.neighbour)]
            case "unheated" | "underfloor_space":
                return self._unheated_temperature(face, inside)
        return inside

    def _unheated_temperature(self, face: Face, inside: float) -> float:
        if face.over_balanced_space:
            return self._underfloor_temperature(face, inside)
        if face.neighbour is not None:
            return self.space_temperatures[face.neighbour]
        factor = UNHEATED_FACTOR if face.temperature_factor is None else face.temperature_factor
        return inside - factor * (inside - self.inputs.external_temperature)

    def element_loss(self, face: Face) -> ElementLoss:
        """Heat through a face that is given with its construction."""
        room = self.inputs.rooms[face.room]
        u_value, beyond = self.u_value(face), self.temperature_beyond(face)
        factor = self.ground_factor if face.beyond == "ground" else 1.0
        return ElementLoss(  # by place: by name it takes twice as long
            face.pointer,
            face.name,
            face.surface,
            face.beyond,
            face.neighbour,
            face.area,
            u_value,
            beyond,
            face.surface == "floor" and room.heated_floor,
            face.area * u_value * factor * (room.room_temperature - beyond),
        )

    @cached_property
    def element_losses(self) -> tuple[tuple[ElementLoss, ...], ...]:
        """By room. What lies between two rooms stands in both, with opposite heat."""
        index = {room.id: number for number, room in enumerate(self.inputs.rooms)}
        losses: list[list[ElementLoss]] = [[] for _ in self.inputs.rooms]
        for face in (face for room in self.rooms for face in room.faces):
            if face.beyond == "adiabatic" or not face.given:
                continue
            loss = self.element_loss(face)
            losses[face.room].append(loss)
            if face.beyond == "room":
                other = index[str(face.neighbour)]
                losses[other].append(self._from_other_side(loss, face.room, other))
        return tuple(map(tuple, losses))

    def _from_other_side(self, loss: ElementLoss, here: int, there: int) -> ElementLoss:
        surface = facing(loss.surface)
        return ElementLoss(
            loss.where,
            loss.name,
            surface,
            "room",
            self.inputs.rooms[here].id,
            loss.area,
            loss.u_value,
            self.inputs.rooms[here].room_temperature,
            surface == "floor" and self.inputs.rooms[there].heated_floor,
            0.0 - loss.heat_loss,
        )
