"""Floor of heated rooms that tails cut off goes to a pipe that passes it: a side loop in that circuit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import NamedTuple

import shapely
from shapely import LineString, Polygon

from ...plan.outlines.overlays import union
from ...plan.outlines.polygons import served_area
from ...plan.outlines.regions import Region, dilated, minus, opened, parts_of
from ..judging.room_bare import CHORD_ERROR, line_of
from ..judging.storey_judge import fault_of, least_apart
from ..model.layout_records import StoreyCircuit, StoreyTask
from ..model.tail_records import Lane
from .side_loops import Border, LoopRules, borders, part_along, spliced

__all__ = ["fits_beside", "free_parts", "loop_rules", "rooms_to_fill", "size_of", "with_side_loops"]

_LEAST_AREA = 0.6
"""Smaller pieces of floor get no loop [m2]: a metre or two of pipe is not worth two bends more."""
_FILL = 0.97
"""Pipe laid, in terms of served area over spacing."""
_SPARE = 0.97
"""Of its permitted length, that a circuit with loops may come to: what is laid differs from what was expected."""
_LEAST_LOOP = 3.0
"""Of pipe that a loop is laid for [m]."""
_HOSTS, _LOOPS = 3, 12
"""Circuits that are tried for one piece of floor, and pieces of floor that are tried in one room."""
_PLAIN = 0.003
"""Corners of a piece of floor that stand out by less are left out [m]."""


class _Host(NamedTuple):
    """A circuit that passes a piece of floor, what of it the circuit can take, and the pipe that this needs [m]."""

    circuit: StoreyCircuit
    border: Border
    floor: Polygon
    need: float


def with_side_loops(
    task: StoreyTask, circuits: Sequence[StoreyCircuit], lanes: Sequence[Lane]
) -> tuple[list[StoreyCircuit], list[Lane]]:
    """The circuits with loops in floor that is cut off in rooms with circuits, as far as their permitted length goes;
    and the loops' floor in rooms of others, as lanes."""
    lines = {circuit.id: line_of(circuit) for circuit in circuits}
    work = _Loops(task, {circuit.id: circuit for circuit in circuits}, lines)
    for index in rooms_to_fill(task, lanes):
        work.fill(index)
    return [work.circuits[circuit.id] for circuit in circuits], work.lanes


def rooms_to_fill(task: StoreyTask, lanes: Sequence[Lane]) -> list[int]:
    """Rooms that tails of others cross and that are to be warm, without joints that a pipe must not cross."""
    crossed = sorted({lane.room for lane in lanes})
    warm = (index for index in crossed if task.rooms[index].count != 0 or task.rooms[index].loops)
    return [index for index in warm if not task.rooms[index].joints]


def fits_beside(task: StoreyTask, circuit: StoreyCircuit, lines: Mapping[str, LineString]) -> bool:
    """Whether a circuit is sound, not longer than its room permits, and far enough from the ``lines`` of all others."""
    least = least_apart(min(room.pipe_spacing for room in task.rooms), task.tail_pitch)
    longest = task.rooms[circuit.room].maximum_circuit_length
    if circuit.path.length > longest or fault_of(circuit.path, task.bend_radius, least):
        return False
    others = [other for name, other in lines.items() if name != circuit.id]
    return not shapely.dwithin(line_of(circuit), others, least - CHORD_ERROR).any()


@dataclass
class _Loops:
    task: StoreyTask
    circuits: dict[str, StoreyCircuit]
    lines: dict[str, LineString]
    lanes: list[Lane] = field(default_factory=list)

    def fill(self, index: int) -> None:
        """Loops in a room, the largest piece of floor first; what is left of a piece is tried again."""
        rules = loop_rules(self.task, index)
        waiting = _cut_off(self.task, self.lines.values(), index, rules)
        for _ in range(_LOOPS):
            if not waiting:
                return
            waiting.sort(key=size_of)
            part = waiting.pop()
            laid = self._laid(index, part, rules)
            if laid is not None:
                beside = dilated(laid, rules.gap - rules.clearance)
                waiting += _pieces(minus(part, beside), rules)

    def _laid(self, index: int, part: Polygon, rules: LoopRules) -> Polygon | None:
        """The floor on which a circuit lays a loop; ``None``: no circuit can."""
        for host in sorted(self._hosts(part, rules), key=_worth)[:_HOSTS]:
            whole = spliced(host.circuit.path, host.border, host.floor, rules)
            if whole is None:
                continue
            path, length = whole
            own = length if host.circuit.room == index else 0.0
            circuit = replace(host.circuit, path=path, field_length=host.circuit.field_length + own)
            if not fits_beside(self.task, circuit, self.lines):
                continue
            self.circuits[circuit.id], self.lines[circuit.id] = circuit, line_of(circuit)
            if circuit.room != index:
                self.lanes.append(Lane(index, (circuit.id,), host.floor))
            return host.floor
        return None

    def _hosts(self, part: Polygon, rules: LoopRules) -> Iterator[_Host]:
        for circuit in self.circuits.values():
            spare = _SPARE * self._longest(circuit) - circuit.path.length
            if spare < _LEAST_LOOP or not shapely.dwithin(self.lines[circuit.id], part, rules.spacing):
                continue
            border = next(borders(circuit.path, part, rules), None)
            if border is None:
                continue
            need = _need(part, rules)
            floor: Polygon | None = part
            if need > spare:
                fits = partial(_is_enough, spare, rules)
                pieces = _pieces(part_along(circuit.path, border, part, fits), rules)
                floor = max(pieces, key=size_of, default=None)
                border = None if floor is None else next(borders(circuit.path, floor, rules), None)
            if floor is not None and border is not None and (need := _need(floor, rules)) >= _LEAST_LOOP:
                yield _Host(circuit, border, floor, need)

    def _longest(self, circuit: StoreyCircuit) -> float:
        return self.task.rooms[circuit.room].maximum_circuit_length


def free_parts(task: StoreyTask, circuits: Sequence[StoreyCircuit], index: int) -> list[Polygon]:
    """Floor of a room whose pipe lies far enough from all that is laid, in parts that are wide and large enough."""
    return _cut_off(task, map(line_of, circuits), index, loop_rules(task, index))


def _cut_off(task: StoreyTask, lines: Iterable[LineString], index: int, rules: LoopRules) -> list[Polygon]:
    room = task.plan.rooms[index]
    near = [line for line in lines if shapely.dwithin(line, room, rules.spacing)]
    taken = shapely.buffer(near, rules.gap, quad_segs=4)
    return _pieces(minus(room, union(taken)), rules)


def loop_rules(task: StoreyTask, index: int) -> LoopRules:
    """Of loops in a room."""
    room = task.rooms[index]
    return LoopRules(room.pipe_spacing, task.wall_clearance, task.bend_radius, room.pattern)


def _pieces(floor: Region, rules: LoopRules) -> list[Polygon]:
    """Parts of a floor that are wide and large enough for a loop, with plain outlines."""
    wide = opened(floor, rules.clearance + rules.pitch / 2.0 - _PLAIN)
    found = [shapely.simplify(part, _PLAIN) for part in parts_of(wide)]
    return [part for part in found if part.area >= _LEAST_AREA]


def _need(floor: Polygon, rules: LoopRules) -> float:
    return _FILL * served_area(floor, rules.spacing, rules.clearance) / rules.spacing


def _is_enough(length: float, rules: LoopRules, floor: Polygon) -> bool:
    """For a floor, of pipe [m]."""
    return _need(floor, rules) <= length


def size_of(part: Polygon) -> tuple[float, tuple[float, ...]]:
    """By which parts of a floor are put in order."""
    return round(part.area, 4), part.bounds


def _worth(host: _Host) -> tuple[float, float, str]:
    """The largest loop first; of equal ones that of the shortest circuit."""
    return -round(host.need, 1), round(host.circuit.path.length, 3), host.circuit.id
