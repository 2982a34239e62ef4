"""The circuits of all rooms: divided until length and pressure hold, solved together on their manifolds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import NamedTuple

from .. import loop_length
from ..errors import InputError
from ..hydraulics import Circuit, CircuitHydraulics
from ..loop_length import LoopLengthInputs, LoopLengthResult
from .floors import OperatingPoint, RoomToHeat
from .house import House
from .house_water import HouseWater, house_water
from .records import DesignsInputs
from .room_joints import fields_between_joints
from .tails import Tail, estimated_tail

__all__ = [
    "DividedRoom",
    "balance",
    "circuit_id",
    "divide_and_balance",
    "loses_too_much",
    "pressure_with_valve",
]

_ROUNDS = 8
_CLEARLY = 1.0 + 1e-9


class DividedRoom(NamedTuple):
    """A room on its operating point with its circuits; ``manifold`` is the number of the one that serves it,
    ``permitted_length`` [m] what a circuit may have, whatever number of circuits was asked for."""

    heated: RoomToHeat
    point: OperatingPoint
    tail: Tail
    loops: LoopLengthResult
    manifold: int
    permitted_length: float

    @property
    def circuit_ids(self) -> tuple[str, ...]:
        return tuple(circuit_id(self, number) for number in range(len(self.loops.circuits)))


def pressure_with_valve(circuit: CircuitHydraulics) -> float:
    """Upper bound of the pressure drop [Pa] with the circuit's valve wide open."""
    return circuit.pressure_drop_upper + circuit.fixed_pressure_drop + circuit.open_valve_pressure_drop


def divide_and_balance(
    house: House, points: tuple[OperatingPoint, ...], served: tuple[int, ...], supply: float
) -> tuple[tuple[DividedRoom, ...], HouseWater]:
    """Divide each room by its joints and the permitted length, then further while a circuit loses too much
    pressure; ``served`` is the number of the manifold of each room.

    A room that still loses too much after ``_ROUNDS`` divisions, or whose circuits would become shorter than any
    circuit may be limited to, is left as it is; the findings of the hydraulics name it.
    """
    inputs = house.inputs
    divided = [_divided(house, *each) for each in zip(house.rooms, points, served, strict=True)]
    for number in range(_ROUNDS + 1):
        water = balance(inputs, divided, supply)
        if number == _ROUNDS:
            break
        limit = inputs.limits.maximum_pressure_drop
        finer = {
            index: _one_more(inputs, room)
            for index, room in enumerate(divided)
            if loses_too_much(room, water, limit)
        }
        changed = {index: room for index, room in finer.items() if room is not None}
        if not changed:
            break
        for index, room in changed.items():
            divided[index] = room
    return tuple(divided), water


def loses_too_much(room: DividedRoom, water: HouseWater, limit: float) -> bool:
    """Whether a circuit of the room loses more pressure than ``limit`` [Pa] with its valve open."""
    return any(pressure_with_valve(water.circuits[circuit]) > limit for circuit in room.circuit_ids)


def _divided(house: House, heated: RoomToHeat, point: OperatingPoint, manifold: int) -> DividedRoom:
    """No circuit crosses a joint: there are as many as fields at least."""
    inputs = house.inputs
    tail = estimated_tail(heated, house.manifolds[manifold])
    loops = _loops(inputs, heated, point, tail, manifold)
    room = DividedRoom(heated, point, tail, loops, manifold, loops.maximum_circuit_length)
    for _ in range(fields_between_joints(heated) - len(loops.circuits)):
        room = _one_more(inputs, room) or room
    return room


def _loops(
    inputs: DesignsInputs,
    heated: RoomToHeat,
    point: OperatingPoint,
    tail: Tail,
    manifold: int,
    *,
    maximum_circuit_length: float | None = None,
) -> LoopLengthResult:
    request = LoopLengthInputs(
        pipe_spacing=point.choice.pipe_spacing,
        tail_length=tail.length,
        area=heated.room.area,
        outline=heated.room.outline,
        voids=heated.room.voids,
        pipe=inputs.pipe,
        maximum_circuit_length=maximum_circuit_length or inputs.limits.maximum_circuit_length,
        wall_clearance=inputs.limits.wall_clearance,
        entry=heated.room.entry or inputs.all_manifolds[manifold].position,
        pattern=heated.room.pattern,
    )
    with _faults_of_room(heated):
        return loop_length.calculate(request)


def _one_more(inputs: DesignsInputs, room: DividedRoom) -> DividedRoom | None:
    """The room with one circuit more; ``None`` where such short circuits cannot be asked for."""
    count = len(room.loops.circuits) + 1
    limit = _CLEARLY * (room.loops.field_length / count + 2.0 * room.tail.length)
    try:
        return room._replace(
            loops=_loops(
                inputs, room.heated, room.point, room.tail, room.manifold, maximum_circuit_length=limit
            )
        )
    except InputError:
        return None


@contextmanager
def _faults_of_room(heated: RoomToHeat) -> Iterator[None]:
    """Faults of the room's own calculation point into the room; those of the pipe are the house's."""
    own = ("/outline", "/voids", "/area", "/tail_length", "/pipe_spacing")
    try:
        yield
    except InputError as error:
        raise InputError(
            *(
                replace(fault, pointer=heated.pointer + fault.pointer)
                if fault.pointer.startswith(own)
                else replace(fault, pointer="/limits" + fault.pointer)
                if not fault.pointer.startswith("/pipe/")
                else fault
                for fault in error.faults
            )
        ) from None


def circuit_id(room: DividedRoom, number: int) -> str:
    """Name of a circuit: the room's, and the number in it where there are several."""
    several = len(room.loops.circuits) > 1
    return f"{room.heated.room.id}-{number + 1}" if several else room.heated.room.id


def balance(inputs: DesignsInputs, divided: Iterable[DividedRoom], supply: float) -> HouseWater:
    """All circuits on their manifolds, solved together at a supply temperature [degC]."""
    circuits = [
        (
            room.manifold,
            Circuit(
                id=circuit_id(room, number),
                length=loop.total_length,
                heat_flow=loop.area * (room.point.heat_output + room.point.downward_heat_loss),
                temperature_drop=room.point.temperature_drop,
            ),
        )
        for room in divided
        for number, loop in enumerate(room.loops.circuits)
    ]
    return house_water(inputs, circuits, supply)
