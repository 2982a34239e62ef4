"""The circuits of one room in the floor that tails to other rooms leave of it, joined to their own tails."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TypeAlias

import shapely
from shapely import Polygon

from ..plan.judging.route_faults import CLEARANCE_TOLERANCE, ENTRY_TOLERANCE
from ..plan.laying.laying import Laid, LayingTask, Refusal, lay
from ..plan.outlines.polygons import RoomOutline
from ..plan.pipes.pipe_path import Line, PipePath
from .division import divided
from .division_records import DividedRoom, DivisionRequest
from .inlets import Inlet, InletTask, inlets
from .layout_records import LaidRoom, RoomTask, StoreyCircuit, StoreyTask, Unplaced
from .pipe_ends import joined_ends
from .tail_pipes import pair_pipes
from .tail_records import CircuitPlace, RoutedTails, TailRules
from .walkways import walkable

__all__ = ["FieldMemory", "laid_room"]

_TRIED = 2
"""Ways into its field that a room is tried to be laid with."""
_CHORD_ERROR = 1e-3
_BIT = 0.002
"""Of straight pipe at a port, before the first bend may begin [m]."""


FieldMemory: TypeAlias = dict[tuple[object, ...], Laid | DividedRoom]
"""Fields laid in earlier rounds, by all that they depend on: what one room changes is laid anew, the rest is not."""


@dataclass(frozen=True)
class _Floor:
    """A room's floor for its own circuits, and where their pipes come in."""

    task: StoreyTask
    routed: RoutedTails
    index: int
    outline: RoomOutline
    places: tuple[CircuitPlace, ...]
    inlet: Inlet
    memory: FieldMemory

    def remembered(self, request: LayingTask | DivisionRequest) -> tuple[object, ...]:
        """Floor and request; the task's own numbers stand in the request."""
        return (self.outline.polygon.wkb, self.outline.origin, request)

    @property
    def room(self) -> RoomTask:
        return self.task.rooms[self.index]

    @cached_property
    def tails(self) -> list[tuple[PipePath, PipePath]]:
        """Flow and return from the manifold to the field, of each place."""
        return [self._tail(number) for number in range(len(self.places))]

    def _at_port(self, number: int) -> tuple[PipePath, PipePath]:
        """The first straight bit of a field that begins at the port, from which it goes on squarely."""
        (x, y), (dx, dy) = self.places[number].pair.place, self.places[number].pair.ahead
        right, left = (sign * self.task.tail_pitch / 2.0 for sign in (1.0, -1.0))
        first, last = (
            Line((x + side * dy, y - side * dx), (x + side * dy + _BIT * dx, y - side * dx + _BIT * dy))
            for side in (right, left)
        )
        return PipePath((first,)), PipePath((last,))

    def _tail(self, number: int) -> tuple[PipePath, PipePath]:
        circuit = self.places[number].circuit
        route = next((route for route in self.routed.routes if route.circuit == circuit), None)
        pipes = () if route is None else ((route.flow, route.back.reversed()),)
        if self.inlet.corners:
            rules = TailRules(self.task.tail_pitch, self.task.wall_clearance, self.task.bend_radius)
            inner = pair_pipes(self.inlet.corners[number], rules)
            assert inner is not None
            pipes = (*pipes, (inner[0], inner[1].reversed()))
        if not pipes:
            pipes = (self._at_port(number),)
        flow, back = (
            tuple(piece for pipe in side for piece in pipe.pieces) for side in zip(*pipes, strict=True)
        )
        return PipePath(flow), PipePath(back)

    def for_curves(self, circuit: str) -> shapely.Geometry:
        """Where pipe between a tail and the field may lie: off walls and jambs, off the tails of others."""
        task = self.task
        walls = task.wall_clearance - CLEARANCE_TOLERANCE
        free = shapely.buffer(walkable(task.plan, self.index), -walls, join_style="mitre")
        others = [
            shapely.LineString(pipe.polyline(_CHORD_ERROR))
            for route in self.routed.routes
            if route.circuit != circuit and self.index in route.rooms
            for pipe in (route.flow, route.back)
        ]
        beside = shapely.buffer(shapely.union_all(others), task.tail_pitch - ENTRY_TOLERANCE)
        found = shapely.difference(shapely.union(free, self._before_ports()), beside)
        shapely.prepare(found)
        return found

    def _before_ports(self) -> shapely.Geometry:
        """Where pipes of the room begin at a wall."""
        reach = self.task.wall_clearance
        ways = [
            shapely.LineString([(x, y), (x + reach * dx, y + reach * dy)])
            for (x, y), (dx, dy) in ((place.pair.place, place.pair.ahead) for place in self.places)
        ]
        return shapely.buffer(shapely.union_all(ways), 2.0 * self.task.tail_pitch, cap_style="flat")

    def tail_length(self, number: int) -> float:
        """Of both pipes [m]."""
        flow, back = self.tails[number]
        return flow.length + back.length


def laid_room(task: StoreyTask, tails: RoutedTails, index: int, memory: FieldMemory) -> LaidRoom:
    """Lay the circuits of a room in the floor that the tails of others leave of it."""
    places = [place for place in tails.places if place.room == index]
    if not places:
        return LaidRoom((), ())
    inlet_task = _inlet_task(task, tails, index, places)
    first: LaidRoom | None = None
    for inlet in inlets(inlet_task)[:_TRIED]:
        own = _Floor(task, tails, index, _outlined(inlet.floor), tuple(places), inlet, memory)
        laid = _single(own) if len(places) == 1 else _several(own)
        if not laid.unplaced:
            return laid
        first = first or laid
    return first or _no_floor(index, places)


def _no_floor(index: int, places: Sequence[CircuitPlace]) -> LaidRoom:
    reason = (
        "Tails to other rooms leave no floor in which the room's own pipe could begin; they heat it. Another "
        "place of the doorway or the manifold would help."
    )
    return LaidRoom(
        (), tuple(Unplaced(place.circuit, index, "no_floor", place.pair.place, reason) for place in places)
    )


def _inlet_task(
    task: StoreyTask, tails: RoutedTails, index: int, places: Sequence[CircuitPlace]
) -> InletTask:
    """The room with what tails of other rooms' circuits take of it."""
    lanes = [lane for lane in tails.lanes if lane.room == index]
    known = {route.circuit for route in tails.routes}
    # Of lanes from another manifold only the floor is told.
    foreign = [
        shapely.buffer(lane.floor, -task.tail_pitch / 2.0, join_style="mitre")
        for lane in lanes
        if not known.issuperset(lane.circuits)
    ]
    own = {place.circuit for place in places}
    pipes = [
        shapely.LineString(pipe.polyline(_CHORD_ERROR))
        for route in tails.routes
        if route.circuit not in own and index in route.rooms
        for pipe in (route.flow, route.back)
    ]
    return InletTask(
        task.plan.rooms[index],
        shapely.union_all([lane.floor for lane in lanes]) if lanes else None,
        shapely.union_all([*pipes, *foreign]),
        tuple(place.pair for place in places),
        task.rooms[index].pipe_spacing,
        TailRules(task.tail_pitch, task.wall_clearance, task.bend_radius),
    )


def _outlined(floor: Polygon) -> RoomOutline:
    low = (float(floor.bounds[0]), float(floor.bounds[1]))
    return RoomOutline(shapely.orient_polygons(shapely.transform(floor, lambda points: points - low)), low)


def _single(own: _Floor) -> LaidRoom:
    task, place, index = own.task, own.places[0], own.index
    request = LayingTask(
        pipe_spacing=own.room.pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        tail_pitch=task.tail_pitch,
        entry=own.inlet.entry,
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
    port = _port(own.routed, place.circuit)
    length = laid.path.length
    bare = StoreyCircuit(place.circuit, index, port, laid.path, length, area, laid.check.measures)
    return _joined(own, [bare])


def _several(own: _Floor) -> LaidRoom:
    task, room, index, places = own.task, own.room, own.index, own.places
    # Counter-clockwise along the wall is from the left for who looks into the room.
    outer = tuple(own.tail_length(number) / 2.0 for number in reversed(range(len(places))))
    request = DivisionRequest(
        pipe_spacing=room.pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        tail_pitch=task.tail_pitch,
        entry=own.inlet.entry,
        maximum_circuit_length=room.maximum_circuit_length,
        pattern=room.pattern,
        outer_tail_lengths=outer,
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
    for place, circuit in zip(reversed(places), found.circuits, strict=True):
        assert circuit.laid.check is not None
        bare.append(
            StoreyCircuit(
                place.circuit,
                index,
                _port(own.routed, place.circuit),
                circuit.path,
                circuit.length,
                circuit.piece,
                circuit.laid.check.measures,
                tuple(crossing for crossing in found.crossings if crossing.circuit == circuit.id),
            )
        )
    return _joined(own, bare)


def _joined(own: _Floor, bare: Sequence[StoreyCircuit]) -> LaidRoom:
    """The circuits with their tails; those of the manifold's own room may begin at the port."""
    circuits, unplaced = [], []
    tails = {place.circuit: tail for place, tail in zip(own.places, own.tails, strict=True)}
    for circuit in bare:
        pair, path = tails[circuit.id], circuit.path
        if math.dist(path.start, pair[0].end) > math.dist(path.start, pair[1].end):
            path = path.reversed()
        floor = own.for_curves(circuit.id)
        whole = joined_ends(pair, path, own.task.bend_radius, own.task.tail_pitch, floor=floor)
        if whole is None:
            message = "No bend joins the tails to the field at the doorway; move the doorway or the entry."
            unplaced.append(Unplaced(circuit.id, circuit.room, "no_joint", pair[0].end, message))
            continue
        circuits.append(replace(circuit, path=whole[0], field_length=whole[1]))
    return LaidRoom(tuple(circuits), tuple(unplaced))


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
