"""Heat loss of rooms in the design winter (EN 12831-1:2017, ISO 6946:2017, ISO 13370:2017).

The loss through a room's own heated floor is no part of what the floor must give (EN 1264-3); it is shown apart.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from .cautions import HEAT_LOSS
from .checking import check
from .envelope.air import ventilation_loss
from .envelope.balance import Balance, ElementLoss, GroundFloor
from .envelope.faces import Face, RoomFaces, room_faces
from .envelope.ground import characteristic_dimension
from .envelope.loss_findings import loss_findings
from .envelope.loss_workings import loss_workings
from .envelope.records import (
    Construction,
    EdgeInsulation,
    Element,
    Ground,
    GroundContact,
    HeatLossInputs,
    HeatLossRoom,
    Layer,
    Opening,
    Slab,
    UnderfloorSpace,
    UnheatedSpace,
    Wall,
)
from .envelope.relations import check_faces, check_inputs
from .errors import FaultList
from .gathering import gathered
from .glossary import named
from .quick_records import quickly_made
from .results import Caution, Finding, Working

__all__ = [
    "Construction",
    "EdgeInsulation",
    "Element",
    "ElementLoss",
    "Ground",
    "GroundContact",
    "GroundFloor",
    "HeatLossInputs",
    "HeatLossResult",
    "HeatLossRoom",
    "Layer",
    "Opening",
    "RoomLoss",
    "Slab",
    "SpaceTemperature",
    "UnderfloorSpace",
    "UnheatedSpace",
    "Wall",
    "calculate",
    "workings",
]


@quickly_made
@dataclass(frozen=True, slots=True)
class RoomLoss:
    """A room's loss [W]: ``heat_loss`` is by transmission and air, without that through its heated floor.

    ``heat_demand`` adds the reheat power, if any; ``required_heat_output`` is the demand per floor area [W/m2].
    """

    id: str
    name: str
    room_temperature: float
    area: float
    volume: float
    transmission_loss: float
    ventilation_loss: float
    heat_loss: float
    heated_floor_loss: float
    reheat_power: float
    heat_demand: float
    required_heat_output: float
    elements: tuple[ElementLoss, ...] = field(metadata=named("element_losses"))


@dataclass(frozen=True, slots=True)
class SpaceTemperature:
    """An unheated space and its temperature [degC]."""

    id: str
    name: str
    temperature: float = field(metadata=named("space_temperature"))


@quickly_made
@dataclass(frozen=True, slots=True)
class HeatLossResult:
    """Sums over the rooms [W] and each room. What rooms exchange with each other cancels in the sums.

    The sum of all rooms' ventilation is that of rooms aired one by one; a whole building is never aired at once, so
    its source may be sized for less (EN 12831-1, building)."""

    heat_loss: float
    transmission_loss: float
    ventilation_loss: float
    heated_floor_loss: float
    reheat_power: float
    heat_demand: float
    rooms: tuple[RoomLoss, ...] = field(metadata=named("room_losses"))
    unheated_spaces: tuple[SpaceTemperature, ...] = field(metadata=named("space_temperatures"))
    ground: GroundFloor | None = field(metadata=named("ground_result"))
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]


def calculate(inputs: HeatLossInputs) -> HeatLossResult:
    """Heat loss [W] of every room and element.

    Raises ``InputError`` for a layer without thickness or conductivity, an edge without a wall, openings larger
    than their wall, a room without elements, names that nothing has, and elements whose other side is not
    described or described twice.
    """
    check(inputs)
    balance = _balance(inputs)
    rooms = tuple(_room_loss(balance, index) for index in range(len(inputs.rooms)))
    return HeatLossResult(
        heat_loss=sum(room.heat_loss for room in rooms),
        transmission_loss=sum(room.transmission_loss for room in rooms),
        ventilation_loss=sum(room.ventilation_loss for room in rooms),
        heated_floor_loss=sum(room.heated_floor_loss for room in rooms),
        reheat_power=sum(room.reheat_power for room in rooms),
        heat_demand=sum(room.heat_demand for room in rooms),
        rooms=rooms,
        unheated_spaces=tuple(
            SpaceTemperature(space.id, space.name, balance.space_temperatures[space.id])
            for space in inputs.unheated_spaces
        ),
        ground=balance.ground,
        findings=gathered(loss_findings(balance, [room.heat_demand for room in rooms]), inputs),
        cautions=HEAT_LOSS,
    )


def _balance(inputs: HeatLossInputs) -> Balance:
    """The checked faces of all rooms; every fault is raised at once."""
    faults = FaultList()
    check_inputs(inputs, faults)
    rooms = room_faces(inputs, faults)
    check_faces(inputs, rooms, faults)
    ground = _ground_floor(inputs, rooms, faults)
    faults.raise_if_any()
    return Balance(inputs, rooms, ground)


def _on_ground(face: Face) -> bool:
    return face.beyond == "ground" or face.over_balanced_space


def _ground_floor(
    inputs: HeatLossInputs, rooms: tuple[RoomFaces, ...], faults: FaultList
) -> GroundFloor | None:
    """The floor on the ground of the whole building, as given or summed over the rooms that stand on it."""
    grounded = [
        (room, on_it) for room in rooms if (on_it := [face for face in room.faces if _on_ground(face)])
    ]
    floors = [face for _, on_it in grounded for face in on_it]
    area = inputs.ground.floor_area
    if area is None:
        area = sum(face.area for face in floors if face.surface == "floor")
    perimeter = inputs.ground.exposed_perimeter
    if perimeter is None:
        perimeter = sum(room.exposed_length or 0.0 for room, _ in grounded)
        known = perimeter > 0.0 and all(room.exposed_length is not None for room, _ in grounded)
        faults.require(
            known or not any(face.surface == "floor" for face in floors),
            "/ground/exposed_perimeter",
            "missing",
            "give the length of the floor's edge along outside walls: it does not follow from the rooms",
        )
    if not floors or perimeter <= 0.0:
        return None
    return GroundFloor(area, perimeter, float(characteristic_dimension(area, perimeter)))


def _room_loss(balance: Balance, index: int) -> RoomLoss:
    room, faces, elements = balance.inputs.rooms[index], balance.rooms[index], balance.element_losses[index]
    transmission = sum(item.heat_loss for item in elements if not item.through_heated_floor)
    ventilation = ventilation_loss(room, faces.volume, balance.inputs.external_temperature)
    reheat = faces.area * room.reheat_per_area
    demand = transmission + ventilation + reheat
    return RoomLoss(
        id=room.id,
        name=room.name,
        room_temperature=room.room_temperature,
        area=faces.area,
        volume=faces.volume,
        transmission_loss=transmission,
        ventilation_loss=ventilation,
        heat_loss=transmission + ventilation,
        heated_floor_loss=sum(item.heat_loss for item in elements if item.through_heated_floor),
        reheat_power=reheat,
        heat_demand=demand,
        required_heat_output=demand / faces.area,
        elements=elements,
    )


def workings(inputs: HeatLossInputs, result: HeatLossResult) -> tuple[Working, ...]:
    """U-values, ground and every element, room by room."""
    return loss_workings(_balance(inputs))
