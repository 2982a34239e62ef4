"""The lengths of the circuits of a room as they are drawn."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..loop_length import LoopCircuit
from ..storey.model.layout_records import StoreyCircuit
from .circuits import DividedRoom, in_circuits
from .drawn_storey import DrawnStorey
from .floors import RoomToHeat
from .records import DesignsInputs

__all__ = ["measured"]


def measured(inputs: DesignsInputs, room: DividedRoom, storey: DrawnStorey | None) -> DividedRoom:
    """The room with the lengths of its drawn circuits; those that could not be drawn share what is left of the field as
    it was estimated: all of it where none is drawn, in as many circuits as the layout names."""
    if storey is None:
        return room
    drawn = _of_room(storey, room.heated)
    if not any(drawn):
        return in_circuits(room, len(drawn)) if drawn else room
    served = [
        room.manifold if circuit is None else storey.site.numbers[circuit.manifold] for circuit in drawn
    ]
    heights = [inputs.all_manifolds[number].height for number in served]
    loops = [
        _left(room, drawn) if circuit is None else _loop(circuit, height)
        for circuit, height in zip(drawn, heights, strict=True)
    ]
    in_fields = math.fsum(loop.field_length for loop in loops)
    circuits = tuple(
        replace(loop, id=str(number), area=room.heated.field_area * loop.field_length / in_fields)
        for number, loop in enumerate(loops, start=1)
    )
    return room._replace(
        loops=replace(
            room.loops,
            circuits=circuits,
            field_length=in_fields,
            pipe_length=math.fsum(circuit.total_length for circuit in circuits),
        ),
        drawn_on=tuple(served),
    )


def _left(room: DividedRoom, drawn: Sequence[StoreyCircuit | None]) -> LoopCircuit:
    """One of the circuits that could not be drawn, as estimated."""
    known = [circuit.field_length for circuit in drawn if circuit is not None]
    estimated = room.loops.circuits[-1]
    left = (room.loops.field_length - math.fsum(known)) / (len(drawn) - len(known))
    if left <= 0.0:
        return estimated
    return replace(estimated, field_length=left, total_length=left + estimated.tail_length)


def _of_room(storey: DrawnStorey, heated: RoomToHeat) -> list[StoreyCircuit | None]:
    """In the order of their numbers; ``None``: could not be drawn."""
    index, layout = storey.site.place_of(heated), storey.drawing.layout
    drawn = {circuit.id: circuit for circuit in layout.circuits if circuit.room == index}
    names = [*drawn, *(one.id for one in layout.unplaced if one.room == index)]
    return [drawn.get(name) for name in sorted(names, key=lambda name: (len(name), name))]


def _loop(circuit: StoreyCircuit, height: float) -> LoopCircuit:
    total = circuit.path.length + 2.0 * height
    return LoopCircuit(circuit.id, 0.0, circuit.field_length, total, total - circuit.field_length)
