"""Side loops of a storey: floor that lanes cut off from a room's own pipe goes to a circuit that passes it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shapely import LineString, Polygon

from ..plan.outlines.polygons import served_area
from .lanes.side_loops import Border, LoopRules, borders, spliced
from .layout_records import StoreyCircuit
from .storey_drawing import StoreyDrawing
from .storey_judge import fault_of, least_apart

__all__ = ["with_side_loops"]

_LEAST_AREA = 0.35
"""Smaller pieces of floor get no loop [m2]."""
_FILL = 0.97
"""Pipe laid, in terms of served area over spacing."""
_TRIES = 3
_CHORD_ERROR = 1e-3


def with_side_loops(drawing: StoreyDrawing, circuits: Sequence[StoreyCircuit]) -> list[StoreyCircuit]:
    """The circuits with loops in floor of heated rooms that is cut off, as far as their permitted length goes."""
    work = _Loops(drawing, {circuit.id: circuit for circuit in circuits})
    task = drawing.task
    for index, over in sorted(drawing.lanes.lanes.items()):
        if over.lanes and task.rooms[index].count != 0:
            for part in drawing.floors.free[index].cut_off(drawing.fields.get(index)):
                if part.area >= _LEAST_AREA:
                    work.put_in(index, part)
    return [work.circuits[circuit.id] for circuit in circuits]


@dataclass
class _Loops:
    drawing: StoreyDrawing
    circuits: dict[str, StoreyCircuit]

    def put_in(self, index: int, part: Polygon) -> None:
        """A loop in a part of a room, of the shortest circuit that can take it."""
        room = self.drawing.task.rooms[index]
        task = self.drawing.task
        rules = LoopRules(room.pipe_spacing, task.wall_clearance, task.bend_radius, task.quick, room.pattern)
        need = _FILL * served_area(part, room.pipe_spacing, task.wall_clearance) / room.pipe_spacing
        for circuit, border in sorted(self._hosts(index, part, rules, need), key=_by_length)[:_TRIES]:
            whole = spliced(circuit.path, border, part, rules)
            if whole is not None and self._is_sound(replace(circuit, path=whole[0])):
                self.circuits[circuit.id] = replace(circuit, path=whole[0])
                return

    def _hosts(
        self, index: int, part: Polygon, rules: LoopRules, need: float
    ) -> Iterator[tuple[StoreyCircuit, Border]]:
        for lane in self.drawing.lanes.lanes[index].lanes:
            circuit = self.circuits.get(lane.circuit)
            if circuit is None or circuit.path.length + need > self._longest(circuit):
                continue
            border = next(borders(circuit.path, part, rules), None)
            if border is not None:
                yield circuit, border

    def _longest(self, circuit: StoreyCircuit) -> float:
        return self.drawing.task.rooms[circuit.room].maximum_circuit_length

    def _is_sound(self, circuit: StoreyCircuit) -> bool:
        task = self.drawing.task
        least = least_apart(min(room.pipe_spacing for room in task.rooms), task.tail_pitch)
        if circuit.path.length > self._longest(circuit) or fault_of(circuit.path, task.bend_radius, least):
            return False
        line = LineString(circuit.path.polyline(_CHORD_ERROR))
        return all(
            line.distance(LineString(other.path.polyline(_CHORD_ERROR))) >= least - _CHORD_ERROR
            for other in self.circuits.values()
            if other.id != circuit.id
        )


def _by_length(host: tuple[StoreyCircuit, Border]) -> tuple[float, str]:
    return round(host[0].path.length, 3), host[0].id
