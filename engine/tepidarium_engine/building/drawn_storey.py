"""The rooms of a design with the circuits that were drawn, until length and pressure hold."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import NamedTuple

from ..loop_length import LoopCircuit
from ..plan.asking.route_records import path_piece
from ..storey.layout_records import RoomTask, StoreyCircuit, StoreyLayout, StoreyTask
from ..storey.room_circuits import FieldMemory
from ..storey.storey_layout import laid_storey
from ..water.result import HydraulicsResult
from .circuits import DividedRoom, balance, loses_too_much, numbered
from .layout_outcome import DesignLayout, DrawnCircuit, DrawnDoorway, DrawnSleeve, UnplacedCircuit
from .records import DesignsInputs
from .storey_input import Storey

__all__ = ["DrawnStorey", "design_layout", "draw_storey"]

_ROUNDS = 3


class DrawnStorey(NamedTuple):
    """Rooms and water with drawn lengths, and the drawing."""

    divided: tuple[DividedRoom, ...]
    balanced: HydraulicsResult
    storey: Storey
    layout: StoreyLayout
    settled: bool

    @property
    def ports(self) -> dict[str, int]:
        """Port of each drawn circuit."""
        return {circuit.id: circuit.port for circuit in self.layout.circuits}


def draw_storey(
    inputs: DesignsInputs, storey: Storey, divided: tuple[DividedRoom, ...], supply: float
) -> DrawnStorey:
    """Draw all circuits, take their lengths, solve the water, and give one circuit more to rooms that lose too
    much pressure: at most three times, then the findings of the hydraulics name what is left."""
    counts = {room.heated.index: len(room.loops.circuits) for room in divided}
    memory: FieldMemory = {}
    for number in range(1, _ROUNDS + 1):
        layout = laid_storey(_task(inputs, storey, divided, counts), memory)
        measured = numbered(_with_drawing(inputs, storey, room, layout) for room in divided)
        balanced = balance(inputs, measured, supply)
        finer = [
            room.heated.index
            for room in measured
            if room.heated.outline is not None
            and loses_too_much(room, balanced, inputs.limits.maximum_pressure_drop)
        ]
        if not finer or number == _ROUNDS:
            break
        for index in finer:
            counts[index] += 1
    return DrawnStorey(measured, balanced, storey, layout, not finer and layout.settled)


def _task(
    inputs: DesignsInputs, storey: Storey, divided: tuple[DividedRoom, ...], counts: dict[int, int]
) -> StoreyTask:
    by_index = {room.heated.index: room for room in divided}
    tasks = []
    for heated in storey.rooms:
        room = by_index[heated.index]
        assert heated.outline is not None
        tasks.append(
            RoomTask(
                id=heated.room.id,
                room=heated.outline,
                pipe_spacing=room.point.choice.pipe_spacing,
                maximum_circuit_length=room.loops.maximum_circuit_length - 2.0 * inputs.manifold.height,
                pattern=heated.room.pattern,
                count=counts[heated.index],
            )
        )
    return StoreyTask(
        plan=storey.plan,
        rooms=tuple(tasks),
        manifold=storey.manifold,
        tail_pitch=inputs.limits.tail_pitch,
        wall_clearance=inputs.limits.wall_clearance,
        bend_radius=inputs.pipe.bend_radius,
        quick=inputs.quick,
    )


def _with_drawing(
    inputs: DesignsInputs, storey: Storey, room: DividedRoom, layout: StoreyLayout
) -> DividedRoom:
    """The room with the lengths of its drawn circuits; as estimated where one of them could not be drawn."""
    if room.heated not in storey.rooms:
        return room
    index = storey.rooms.index(room.heated)
    drawn = _of_room(layout, index)
    if not drawn or any(one.room == index for one in layout.unplaced):
        return room
    area = room.heated.area / len(drawn)
    circuits = tuple(
        _loop(str(number), area, circuit, inputs) for number, circuit in enumerate(drawn, start=1)
    )
    return room._replace(
        loops=replace(
            room.loops,
            circuits=circuits,
            field_length=sum(circuit.field_length for circuit in circuits),
            pipe_length=sum(circuit.total_length for circuit in circuits),
        )
    )


def _of_room(layout: StoreyLayout, index: int) -> list[StoreyCircuit]:
    """In the order of their numbers."""
    found = [circuit for circuit in layout.circuits if circuit.room == index]
    return sorted(found, key=lambda circuit: (len(circuit.id), circuit.id))


def _loop(number: str, area: float, circuit: StoreyCircuit, inputs: DesignsInputs) -> LoopCircuit:
    total = circuit.path.length + 2.0 * inputs.manifold.height
    return LoopCircuit(number, area, circuit.field_length, total, total - circuit.field_length)


def design_layout(drawn: DrawnStorey) -> DesignLayout:
    """The drawing as part of the result."""
    layout, rooms = drawn.layout, drawn.storey.rooms
    circuits = tuple(
        DrawnCircuit(
            id=circuit.id,
            port=circuit.port,
            room=rooms[circuit.room].room.id,
            length=circuit.path.length,
            field_length=circuit.field_length,
            pieces=tuple(map(path_piece, circuit.path.pieces)),
        )
        for circuit in layout.circuits
    )
    return DesignLayout(
        manifold_place=drawn.storey.manifold.place,
        drawn_length=math.fsum(circuit.length for circuit in circuits),
        drawn_circuits=circuits,
        doorway_stretches=tuple(DrawnDoorway(*doorway.stretches) for doorway in drawn.storey.plan.doorways),
        sleeves=tuple(
            DrawnSleeve(circuit.id, crossing.place)
            for circuit in layout.circuits
            for crossing in circuit.crossings
        ),
        unplaced=tuple(
            UnplacedCircuit(one.id, rooms[one.room].room.id, one.code, one.place, one.message)
            for one in layout.unplaced
        ),
    )
