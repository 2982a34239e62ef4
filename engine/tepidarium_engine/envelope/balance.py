"""Heat through every face of every room, and with the air (EN 12831-1:2017)."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from ..glossary import named
from . import ground as soil
from .faces import Face, RoomFaces
from .records import Beyond, HeatLossInputs, HeatLossRoom, Surface
from .relations import facing
from .u_values import EXTERNAL_RESISTANCE, INTERNAL_RESISTANCE, construction_u_value

__all__ = [
    "AIR_HEAT_CAPACITY",
    "ANNUAL_FLUCTUATION",
    "LEAST_AIR_CHANGE",
    "UNHEATED_FACTOR",
    "Balance",
    "ElementLoss",
    "GroundFloor",
    "outside_air_change",
    "ventilation_loss",
]

AIR_HEAT_CAPACITY = 1224.0
"""Of air per volume [J/(m3.K)]: 0.34 Wh/(m3.K), EN 12831-1:2017."""
ANNUAL_FLUCTUATION = 1.45
"""f_theta,ann: the soil's share in the swing of the outside air over the year, EN 12831-1:2017."""
GROUNDWATER_FACTOR = 1.15
"""f_GW for groundwater at most 1 m below the floor; 1 otherwise, EN 12831-1:2017."""
NEAR_GROUNDWATER = 1.0
LEAST_AIR_CHANGE = 0.5
"""Of a single room [1/h], EN 12831-1:2017, Annex B."""
UNHEATED_FACTOR = 0.5
"""Temperature factor of unheated spaces of which nothing is known, EN 12831-1:2017, Annex B."""
_SPACE_AIR = 0.33
"""Heat capacity of the air in an unheated space [Wh/(m3.K)], ISO 6946:2017, unheated spaces."""

_BRIDGED: frozenset[Beyond] = frozenset({"outside", "ground", "unheated"})


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
    """The building's floor on the ground: area [m2], exposed perimeter and characteristic dimension [m]."""

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
            assert face.u_value is not None
            return face.u_value
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
        assert self.ground is not None
        given, dimension = self.inputs.ground, self.ground.characteristic_dimension
        depth = self.inputs.rooms[face.room].depth_below_ground
        thickness, conductivity = self.equivalent_thickness(face), given.thermal_conductivity
        if depth > 0.0:
            return float(soil.floor_u_value(dimension, thickness, conductivity, depth))
        return float(soil.insulated_floor_u_value(dimension, thickness, conductivity, given.edge_insulation))

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
        total, heat = out, out * outside
        for room, faces in zip(self.inputs.rooms, self.rooms, strict=True):
            for face in faces.faces:
                if face.beyond == "unheated" and face.neighbour == space.id:
                    passed = face.area * self.u_value(face)
                    total += passed
                    heat += passed * room.room_temperature
        return heat / total if total > 0.0 else outside

    def temperature_beyond(self, face: Face) -> float:
        """[degC]; of adiabatic faces that of the room."""
        if face.neighbour_temperature is not None:
            return face.neighbour_temperature
        inside = self.inputs.rooms[face.room].room_temperature
        match face.beyond:
            case "outside":
                return self.inputs.external_temperature
            case "ground":
                assert self.inputs.annual_mean_temperature is not None
                return self.inputs.annual_mean_temperature
            case "room":
                return self.room_temperatures[str(face.neighbour)]
            case "unheated":
                return self._unheated_temperature(face, inside)
        return inside

    def _unheated_temperature(self, face: Face, inside: float) -> float:
        if face.neighbour is not None:
            return self.space_temperatures[face.neighbour]
        factor = UNHEATED_FACTOR if face.temperature_factor is None else face.temperature_factor
        return inside - factor * (inside - self.inputs.external_temperature)

    def element_loss(self, face: Face) -> ElementLoss:
        """Heat through a face that is given with its construction."""
        room = self.inputs.rooms[face.room]
        u_value, beyond = self.u_value(face), self.temperature_beyond(face)
        factor = self.ground_factor if face.beyond == "ground" else 1.0
        return ElementLoss(
            where=face.pointer,
            name=face.name,
            surface=face.surface,
            beyond=face.beyond,
            neighbour=face.neighbour,
            area=face.area,
            u_value=u_value,
            temperature_beyond=beyond,
            through_heated_floor=face.surface == "floor" and room.heated_floor,
            heat_loss=face.area * u_value * factor * (room.room_temperature - beyond),
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
            where=loss.where,
            name=loss.name,
            surface=surface,
            beyond="room",
            neighbour=self.inputs.rooms[here].id,
            area=loss.area,
            u_value=loss.u_value,
            temperature_beyond=self.inputs.rooms[here].room_temperature,
            through_heated_floor=surface == "floor" and self.inputs.rooms[there].heated_floor,
            heat_loss=-loss.heat_loss,
        )


def outside_air_change(room: HeatLossRoom) -> float:
    """By leaks and windows [1/h]: as given; none beside a fan; else the least of a single room."""
    if room.air_change is not None:
        return room.air_change
    return LEAST_AIR_CHANGE if room.air_flow is None else 0.0


def ventilation_loss(room: HeatLossRoom, volume: float, outside: float) -> float:
    """Heat for the air from outside and from a fan [W]; ``volume`` [m3], ``outside`` [degC]. EN 12831-1:2017."""
    supply = outside if room.supply_air_temperature is None else room.supply_air_temperature
    from_outside = outside_air_change(room) * volume / 3600.0
    inside = room.room_temperature
    return AIR_HEAT_CAPACITY * (
        from_outside * (inside - outside) + (room.air_flow or 0.0) * (inside - supply)
    )
