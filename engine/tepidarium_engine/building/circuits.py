"""The circuits of all rooms: divided until length and pressure hold, solved together on the manifold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import NamedTuple

from .. import hydraulics, loop_length
from ..errors import InputError
from ..hydraulics import Circuit, CircuitHydraulics, HydraulicsInputs, HydraulicsLimits, HydraulicsResult
from ..loop_length import LoopLengthInputs, LoopLengthResult
from .floors import OperatingPoint, RoomToHeat
from .records import DesignsInputs
from .tails import Tail, estimated_tail

__all__ = [
    "DividedRoom",
    "balance",
    "circuit_id",
    "divide_and_balance",
    "loses_too_much",
    "numbered",
    "pressure_with_valve",
]

_ROUNDS = 8
_CLEARLY = 1.0 + 1e-9


class DividedRoom(NamedTuple):
    """A room on its operating point with its circuits; ``first`` counts its first circuit in the house."""

    heated: RoomToHeat
    point: OperatingPoint
    tail: Tail
    loops: LoopLengthResult
    first: int


def pressure_with_valve(circuit: CircuitHydraulics) -> float:
    """Upper bound of the pressure drop [Pa] with the circuit's valve wide open."""
    return circuit.pressure_drop_upper + circuit.fixed_pressure_drop + circuit.open_valve_pressure_drop


def divide_and_balance(
    inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...], points: tuple[OperatingPoint, ...], supply: float
) -> tuple[tuple[DividedRoom, ...], HydraulicsResult]:
    """Divide each room by the permitted length, then further while a circuit loses too much pressure.

    A room that still loses too much after ``_ROUNDS`` divisions, or whose circuits would become shorter than any
    circuit may be limited to, is left as it is; the findings of the hydraulics name it.
    """
    tails = tuple(estimated_tail(room, inputs.manifold) for room in rooms)
    loops = [_loops(inputs, *each) for each in zip(rooms, points, tails, strict=True)]
    for _ in range(_ROUNDS):
        divided = _numbered(rooms, points, tails, loops)
        balanced = balance(inputs, divided, supply)
        finer = {
            index: _one_more(inputs, room)
            for index, room in enumerate(divided)
            if loses_too_much(room, balanced, inputs.limits.maximum_pressure_drop)
        }
        changed = {index: result for index, result in finer.items() if result is not None}
        if not changed:
            return divided, balanced
        for index, result in changed.items():
            loops[index] = result
    divided = _numbered(rooms, points, tails, loops)
    return divided, balance(inputs, divided, supply)


def loses_too_much(room: DividedRoom, balanced: HydraulicsResult, limit: float) -> bool:
    """Whether a circuit of the room loses more pressure than ``limit`` [Pa] with its valve open."""
    own = balanced.circuits[room.first : room.first + len(room.loops.circuits)]
    return any(pressure_with_valve(circuit) > limit for circuit in own)


def _loops(
    inputs: DesignsInputs,
    heated: RoomToHeat,
    point: OperatingPoint,
    tail: Tail,
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
        entry=heated.room.entry or inputs.manifold.position,
        pattern=heated.room.pattern,
    )
    with _faults_of_room(heated):
        return loop_length.calculate(request)


def _one_more(inputs: DesignsInputs, room: DividedRoom) -> LoopLengthResult | None:
    """The room with one circuit more; ``None`` where such short circuits cannot be asked for."""
    count = len(room.loops.circuits) + 1
    limit = _CLEARLY * (room.loops.field_length / count + 2.0 * room.tail.length)
    try:
        return _loops(inputs, room.heated, room.point, room.tail, limit)
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


def _numbered(
    rooms: tuple[RoomToHeat, ...],
    points: tuple[OperatingPoint, ...],
    tails: tuple[Tail, ...],
    loops: list[LoopLengthResult],
) -> tuple[DividedRoom, ...]:
    parts = zip(rooms, points, tails, loops, strict=True)
    return numbered(DividedRoom(heated, point, tail, result, 0) for heated, point, tail, result in parts)


def numbered(rooms: Iterable[DividedRoom]) -> tuple[DividedRoom, ...]:
    """The rooms with their first circuits counted through."""
    counted: list[DividedRoom] = []
    first = 0
    for room in rooms:
        counted.append(room._replace(first=first))
        first += len(room.loops.circuits)
    return tuple(counted)


def circuit_id(room: DividedRoom, number: int) -> str:
    """Name of a circuit: the room's, and the number in it where there are several."""
    several = len(room.loops.circuits) > 1
    return f"{room.heated.room.id}-{number + 1}" if several else room.heated.room.id


def balance(inputs: DesignsInputs, divided: tuple[DividedRoom, ...], supply: float) -> HydraulicsResult:
    """All circuits on the manifold, solved together at a supply temperature [degC]."""
    circuits = tuple(
        Circuit(
            id=circuit_id(room, number),
            length=loop.total_length,
            heat_flow=loop.area * (room.point.heat_output + room.point.downward_heat_loss),
            temperature_drop=room.point.temperature_drop,
        )
        for room in divided
        for number, loop in enumerate(room.loops.circuits)
    )
    limits = inputs.limits
    manifold = inputs.manifold
    return hydraulics.calculate(
        HydraulicsInputs(
            pipe=inputs.pipe,
            circuits=circuits,
            supply_temperature=supply,
            temperature_drop=inputs.source.temperature_drop,
            fluid=inputs.fluid,
            valve_kv_open=manifold.valve_kv_open,
            flow_meter_kv=manifold.flow_meter_kv,
            valve_table=manifold.valve_table,
            mains_pressure_drop=manifold.mains_pressure_drop,
            primary_temperature=inputs.source.primary_temperature,
            frost_temperature=inputs.frost_temperature,
            expansion=inputs.expansion,
            limits=HydraulicsLimits(
                maximum_pressure_drop=limits.maximum_pressure_drop,
                advised_pressure_drop=min(
                    HydraulicsLimits().advised_pressure_drop, limits.maximum_pressure_drop
                ),
                maximum_length=limits.maximum_circuit_length,
                maximum_circuits=limits.maximum_circuits,
            ),
        )
    )
