"""The circuits of all rooms: divided until length and pressure hold, solved together on their manifolds."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import NamedTuple

from .. import loop_length
from ..errors import FaultList, InputError
from ..hydraulics import Circuit, CircuitHydraulics
from ..loop_length import LoopCircuit, LoopLengthInputs, LoopLengthResult
from .floors import OperatingPoint, RoomToHeat
from .house import HouseState
from .house_water import HouseWater, house_water
from .records import DesignsInputs
from .room_joints import fields_between_joints
from .tails import Tail, estimated_tail
from .warm_tails import CircuitTails

__all__ = [
    "DividedRoom",
    "balance",
    "circuit_id",
    "divide_and_balance",
    "loses_too_much",
    "pressure_with_valve",
]

_ROUNDS = 8
_FILL = 0.96
"""Share of the ideal length that a drawn field comes to, to begin with (measured on rooms of many shapes)."""


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

    def circuit_area(self, number: int) -> float:
        """Floor of one circuit [m2]: its share of the room's own field."""
        whole = math.fsum(loop.area for loop in self.loops.circuits)
        return self.heated.field_area * self.loops.circuits[number].area / whole


def pressure_with_valve(circuit: CircuitHydraulics) -> float:
    """Upper bound of the pressure drop [Pa] with the circuit's valve wide open."""
    return circuit.pressure_drop_upper + circuit.fixed_pressure_drop + circuit.open_valve_pressure_drop


def divide_and_balance(
    state: HouseState, points: tuple[OperatingPoint, ...]
) -> tuple[tuple[DividedRoom, ...], HouseWater]:
    """Divide each room by its joints and the permitted length, then further while a circuit loses too much
    pressure.

    A room that still loses too much after ``_ROUNDS`` divisions is left as it is; the findings of the hydraulics
    name it.
    """
    limit = state.house.inputs.limits.maximum_pressure_drop
    divided = [_divided(state, *each) for each in zip(state.rooms, points, state.served, strict=True)]
    water = balance(state, divided)
    for _ in range(_ROUNDS):
        finer = [index for index, room in enumerate(divided) if loses_too_much(room, water, limit)]
        if not finer:
            break
        for index in finer:
            divided[index] = _in_circuits(divided[index], len(divided[index].loops.circuits) + 1)
        water = balance(state, divided)
    return tuple(divided), water


def loses_too_much(room: DividedRoom, water: HouseWater, limit: float) -> bool:
    """Whether a circuit of the room loses more pressure than ``limit`` [Pa] with its valve open."""
    return any(pressure_with_valve(water.circuits[circuit]) > limit for circuit in room.circuit_ids)


def _divided(state: HouseState, heated: RoomToHeat, point: OperatingPoint, manifold: int) -> DividedRoom:
    """No circuit crosses a joint: there are as many as fields at least. What will be drawn is not laid before."""
    inputs = state.house.inputs
    tail = estimated_tail(heated, state.house.manifolds[manifold])
    drawn = state.house.is_drawn(heated)
    loops = _loops(inputs, heated, point, tail, manifold, measured=not drawn)
    room = DividedRoom(heated, point, tail, loops, manifold, loops.maximum_circuit_length)
    count = len(loops.circuits)
    if drawn:
        field_length = _FILL * loops.field_length
        count = math.ceil(field_length / (room.permitted_length - 2.0 * tail.length) - 1e-9)
        room = room._replace(loops=replace(loops, field_length=field_length))
    return _in_circuits(room, max(count, fields_between_joints(heated)))


def _loops(
    inputs: DesignsInputs,
    heated: RoomToHeat,
    point: OperatingPoint,
    tail: Tail,
    manifold: int,
    *,
    measured: bool,
) -> LoopLengthResult:
    request = LoopLengthInputs(
        pipe_spacing=point.choice.pipe_spacing,
        tail_length=tail.length,
        area=heated.room.area,
        outline=heated.room.outline,
        voids=heated.room.voids,
        pipe=inputs.pipe,
        maximum_circuit_length=inputs.limits.maximum_circuit_length,
        wall_clearance=inputs.limits.wall_clearance,
        entry=heated.room.entry or inputs.all_manifolds[manifold].position,
        pattern=heated.room.pattern,
        measured=measured,
    )
    with _faults_of_room(heated, inputs.manifold_pointer(manifold)):
        return loop_length.calculate(request)


def _in_circuits(room: DividedRoom, count: int) -> DividedRoom:
    """The room in so many circuits of equal length."""
    loops, tails = room.loops, 2.0 * room.tail.length
    share = loops.field_length / count
    circuits = tuple(
        LoopCircuit(str(number), loops.area / count, share, share + tails, tails)
        for number in range(1, count + 1)
    )
    findings = tuple(finding for finding in loops.findings if finding.code != "divided" or count > 1)
    return room._replace(
        loops=replace(loops, circuits=circuits, pipe_length=count * (share + tails), findings=findings)
    )


@contextmanager
def _faults_of_room(heated: RoomToHeat, manifold: str) -> Iterator[None]:
    """Faults of the room's own calculation point into the room; those of the pipe are the house's, and a tail that was
    estimated is the position's of the manifold."""
    own = ("/outline", "/voids", "/area", "/tail_length", "/pipe_spacing")
    estimated = heated.room.tail_length is None
    try:
        yield
    except InputError as error:
        raise InputError(
            *(
                replace(
                    fault,
                    pointer=f"{manifold}/position",
                    detail=f"puts the manifold too far from {heated.label}: {fault.detail}",
                )
                if estimated and fault.pointer == "/tail_length"
                else replace(fault, pointer=heated.pointer + fault.pointer)
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


def balance(state: HouseState, divided: Iterable[DividedRoom]) -> HouseWater:
    """All circuits on their manifolds, solved together at the state's supply temperature.

    Raises ``InputError`` where a room bears the name of a circuit of another room that has several.
    """
    divided = tuple(divided)
    _check_names(divided)
    circuits = [
        (room.manifold, _circuit(room, number, loop, state.tails.circuit(circuit_id(room, number))))
        for room in divided
        for number, loop in enumerate(room.loops.circuits)
    ]
    return house_water(state.house.inputs, circuits, state.supply)


def _check_names(divided: tuple[DividedRoom, ...]) -> None:
    owners = {circuit: room.heated for room in divided for circuit in room.circuit_ids}
    faults = FaultList()
    for room in divided:
        for circuit in room.circuit_ids:
            owner = owners[circuit]
            if owner is not room.heated:
                single = owner if owner.room.id == circuit else room.heated
                faults.add(
                    f"{single.pointer}/id",
                    "not_unique",
                    f"is also the name of a circuit of another room ({circuit!r}): choose another",
                )
    faults.raise_if_any()


def _circuit(room: DividedRoom, number: int, loop: LoopCircuit, tails: CircuitTails) -> Circuit:
    """The field decides the flow; from port to port the water cools by what its tails leave on the way as well."""
    field = room.circuit_area(number) * (room.point.heat_output + room.point.downward_heat_loss)
    whole = field + tails.heat
    return Circuit(
        id=circuit_id(room, number),
        length=loop.total_length,
        heat_flow=whole,
        temperature_drop=room.point.temperature_drop * whole / field,
    )
