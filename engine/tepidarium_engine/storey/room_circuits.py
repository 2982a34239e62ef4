"""The circuits of one room in the floor that tails to other rooms leave of it, joined to their own tails."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import shapely

from ..checking import Point
from ..plan.laying.laying import Laid, LayingTask, Refusal, lay
from ..plan.outlines.polygons import RoomOutline
from ..plan.outlines.regions import minus, opened, parts_of
from ..plan.pipes.pipe_path import Line, PipePath
from .division import divided
from .division_records import DividedRoom, DivisionRequest
from .layout_records import LaidRoom, RoomTask, StoreyCircuit, StoreyTask, Unplaced
from .pipe_ends import joined_ends
from .tail_records import CircuitPlace, RoutedTails

__all__ = ["FieldMemory", "laid_room"]

_NEAR = 0.02
"""How near to a field's outline the place must be where its pipes come in [m]."""


FieldMemory: TypeAlias = dict[tuple[object, ...], Laid | DividedRoom]
"""Fields laid in earlier rounds, by all that they depend on: what one room changes is laid anew, the rest is not."""


@dataclass(frozen=True)
class _Floor:
    """A room's floor for its own circuits, and where their pipes come in."""

    task: StoreyTask
    tails: RoutedTails
    index: int
    outline: RoomOutline
    places: tuple[CircuitPlace, ...]
    entry: Point
    memory: FieldMemory

    def remembered(self, request: LayingTask | DivisionRequest) -> tuple[object, ...]:
        """Floor and request; the task's own numbers stand in the request."""
        return (self.outline.polygon.wkb, self.outline.origin, request)

    @property
    def room(self) -> RoomTask:
        return self.task.rooms[self.index]


def laid_room(task: StoreyTask, tails: RoutedTails, index: int, memory: FieldMemory) -> LaidRoom:
    """Lay the circuits of a room in the floor that the tails of others leave of it."""
    places = [place for place in tails.places if place.room == index]
    if not places:
        return LaidRoom((), ())
    x = sum(place.pair.place[0] for place in places) / len(places)
    y = sum(place.pair.place[1] for place in places) / len(places)
    floor = _field_floor(task, tails, index, (x, y))
    if floor is None:
        reason = "Tails to other rooms leave no floor for the room's own circuit; they heat it."
        return LaidRoom(
            (), tuple(Unplaced(place.circuit, index, "no_floor", (x, y), reason) for place in places)
        )
    own = _Floor(task, tails, index, floor, tuple(places), (x, y), memory)
    return _single(own) if len(places) == 1 else _several(own)


def _field_floor(task: StoreyTask, tails: RoutedTails, index: int, entry: Point) -> RoomOutline | None:
    """The part of the room, without the lanes of tails, that the circuit comes into."""
    room = task.rooms[index].room
    whole = shapely.transform(room.polygon, lambda points: points + room.origin)
    lanes = [lane.floor for lane in tails.lanes if lane.room == index]
    if not lanes:
        return room
    left = opened(minus(whole, shapely.union_all(lanes)), task.wall_clearance)
    parts = sorted(parts_of(left), key=lambda part: -round(float(part.area), 6))
    at = shapely.Point(entry)
    part = next((part for part in parts if part.distance(at) < _NEAR), parts[0] if parts else None)
    if part is None:
        return None
    low = (float(part.bounds[0]), float(part.bounds[1]))
    return RoomOutline(shapely.orient_polygons(shapely.transform(part, lambda points: points - low)), low)


def _single(own: _Floor) -> LaidRoom:
    task, place, index = own.task, own.places[0], own.index
    request = LayingTask(
        pipe_spacing=own.room.pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        tail_pitch=task.tail_pitch,
        entry=place.pair.place,
        pattern=own.room.pattern,
        quick=task.quick,
    )
    key = own.remembered(request)
    laid = own.memory.get(key) or lay(own.outline, request)
    assert isinstance(laid, Laid)
    own.memory[key] = laid
    if laid.path is None or laid.check is None:
        return LaidRoom((), (_refused(place.circuit, index, laid.refusal),))
    area = shapely.transform(own.outline.polygon, lambda points: points + own.outline.origin)
    port = _port(own.tails, place.circuit)
    length = laid.path.length
    bare = StoreyCircuit(place.circuit, index, port, laid.path, length, area, laid.check.measures)
    return _joined(task, own.tails, [bare])


def _several(own: _Floor) -> LaidRoom:
    task, tails, room, index, places = own.task, own.tails, own.room, own.index, own.places
    outer = tuple(_tail_length(tails, place.circuit) / 2.0 for place in places)
    request = DivisionRequest(
        pipe_spacing=room.pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        tail_pitch=task.tail_pitch,
        entry=own.entry,
        maximum_circuit_length=room.maximum_circuit_length,
        pattern=room.pattern,
        outer_tail_lengths=max(outer),
        count=len(places),
        joints=room.joints,
        quick=True,
    )
    key = own.remembered(request)
    found = own.memory.get(key) or divided(own.outline, request)
    assert isinstance(found, DividedRoom)
    own.memory[key] = found
    if found.refusal is not None or len(found.circuits) != len(places):
        return LaidRoom((), tuple(_refused(place.circuit, index, found.refusal) for place in places))
    bare = []
    for circuit in found.circuits:
        nearest = min(places, key=lambda place: round(math.dist(place.pair.place, circuit.place.place), 6))
        assert circuit.laid.check is not None
        bare.append(
            StoreyCircuit(
                nearest.circuit,
                index,
                _port(tails, nearest.circuit),
                circuit.path,
                circuit.length,
                circuit.piece,
                circuit.laid.check.measures,
                tuple(crossing for crossing in found.crossings if crossing.circuit == circuit.id),
            )
        )
    if len({circuit.id for circuit in bare}) != len(bare):
        return LaidRoom((), tuple(_refused(place.circuit, index, None) for place in places))
    return _joined(task, tails, bare)


def _joined(task: StoreyTask, tails: RoutedTails, bare: Sequence[StoreyCircuit]) -> LaidRoom:
    """The circuits with their tails; those of the manifold's own room begin at the port."""
    circuits, unplaced = [], []
    for circuit in bare:
        pair = _tail_pair(task, tails, circuit)
        if pair is None:
            circuits.append(circuit)
            continue
        path = circuit.path
        if math.dist(path.start, pair[0].end) > math.dist(path.start, pair[1].end):
            path = path.reversed()
        whole = joined_ends(pair, path, task.bend_radius, task.tail_pitch)
        if whole is None:
            message = "No bend joins the tails to the field at the doorway; move the doorway or the entry."
            unplaced.append(Unplaced(circuit.id, circuit.room, "no_joint", pair[0].end, message))
            continue
        circuits.append(replace(circuit, path=whole[0], field_length=whole[1]))
    return LaidRoom(tuple(circuits), tuple(unplaced))


def _tail_pair(
    task: StoreyTask, tails: RoutedTails, circuit: StoreyCircuit
) -> tuple[PipePath, PipePath] | None:
    """Both tails of a circuit towards its field; ``None`` where the field begins at the port."""
    route = next((route for route in tails.routes if route.circuit == circuit.id), None)
    if route is not None:
        return route.flow, route.back.reversed()
    place = next(place for place in tails.places if place.circuit == circuit.id).pair
    (x, y), (dx, dy), half = place.place, place.ahead, task.tail_pitch / 2.0
    start, end = circuit.path.start, circuit.path.end
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    way = (middle[0] - x) * dx + (middle[1] - y) * dy
    if way < _NEAR:
        return None
    ports = ((x + half * dy, y - half * dx), (x - half * dy, y + half * dx))
    first, second = (PipePath((Line(port, (port[0] + way * dx, port[1] + way * dy)),)) for port in ports)
    return first, second


def _tail_length(tails: RoutedTails, circuit: str) -> float:
    route = next((route for route in tails.routes if route.circuit == circuit), None)
    return 0.0 if route is None else route.flow.length + route.back.length


def _port(tails: RoutedTails, circuit: str) -> int:
    return tails.ports.index(circuit) + 1


def _refused(circuit: str, room: int, refusal: Refusal | None) -> Unplaced:
    if refusal is None:
        return Unplaced(
            circuit, room, "not_divided", None, "The room could not be divided into its circuits."
        )
    fault = refusal.code.replace("_", " ")
    if refusal.value is not None and refusal.limit is not None:
        fault += f": {refusal.value:.3f} against {refusal.limit:.3f} (m)"
    message = (
        f"No pipe passes in the floor that is left for it ({fault}). Another place of the entry, another "
        "spacing or number of circuits would help."
    )
    return Unplaced(circuit, room, refusal.code, refusal.place, message)
