"""The circuits of one room in the floor that tails to other rooms leave of it, joined to their own tails."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import NamedTuple

import shapely
from shapely import LineString
from shapely.errors import GEOSException

from ...checking import Point
from ...errors import InvariantError
from ...plan.laying.laying import Refusal
from ...plan.outlines.overlays import intersection
from ...plan.pipes.pipe_path import Line, PipePath
from ...plan.tolerances import GRID
from ..division.division import divided
from ..model.division_records import DividedCircuit, DividedRoom, DivisionRequest, JointCrossing
from ..model.layout_records import LaidRoom, StoreyCircuit, StoreyTask
from ..model.tail_records import RoutedTails
from .field_circuits import joined_to_tails, laid_single, refused
from .own_floor import FieldMemory, OwnFloor, no_floor, own_floors
from .piece_circuits import laid_in_pieces
from .served_part import laid_in_part

__all__ = ["FieldMemory", "RoomJob", "laid_room"]

_CHORD_ERROR = 5e-4
_SAME_TAILS = 0.005
"""By how much the ways to a room may change, of the permitted length, before it is divided anew: its circuits differ in
length by more."""


class RoomJob(NamedTuple):
    """All that the circuits of a room depend on, and what is remembered of the room; ``in_part``: they are laid in as
    large a part of the floor as they serve within their permitted length; ``last``: circuits that are too long are laid
    all the same, as there will be no more of them; after so ``most_fields`` of the room no way to cut it is looked
    for."""

    task: StoreyTask
    tails: RoutedTails
    room: int
    memory: FieldMemory
    in_part: bool
    last: bool
    most_fields: float

    @property
    def key(self) -> tuple[object, ...]:
        """All that the circuits of the room depend on, but for what is remembered of it."""
        task, tails, index = self.task, self.tails, self.room
        places = tuple(place for place in tails.places if place.room == index)
        own = {place.circuit for place in places}
        routes = tuple(route for route in tails.routes if route.circuit in own or index in route.rooms)
        known = {route.circuit for route in tails.routes}
        lanes = tuple(
            (lane.circuits, known.issuperset(lane.circuits), lane.floor)
            for lane in tails.lanes
            if lane.room == index
        )
        ports = tuple(tails.ports.index(place.circuit) for place in places)
        plan = task.plan.rooms, task.plan.doorways
        rules = task.tail_pitch, task.wall_clearance, task.bend_radius, task.quick
        asked = task.rooms[index], self.in_part, self.last, self.most_fields
        return index, asked, rules, places, ports, lanes, routes, plan


def laid_room(job: RoomJob) -> tuple[LaidRoom, FieldMemory]:
    """Lay the circuits of a room in the floor that the tails of others leave of it; with what is to be remembered."""
    try:
        return _of_room(job), job.memory
    except GEOSException:
        refusal = Refusal("geometry_failed")
        places = [place for place in job.tails.places if place.room == job.room]
        unplaced = tuple(refused(place.circuit, job.room, refusal) for place in places)
        return LaidRoom((), unplaced), job.memory


def _of_room(job: RoomJob) -> LaidRoom:
    task, tails, index, memory, in_part, last, most_fields = job
    if all(place.room != index for place in tails.places):
        return LaidRoom((), ())
    first: LaidRoom | None = None
    laying = partial(_laid, last=last and not in_part, in_part=in_part, most_fields=most_fields)
    for own in own_floors(task, tails, index, memory):
        laid = laid_in_part(own, laying) if in_part else laying(own)
        if laid.too_few or not laid.unplaced:
            return laid
        first = first or laid
    return first or no_floor(tails, index)


def _laid(own: OwnFloor, last: bool, in_part: bool, most_fields: float) -> LaidRoom:
    return laid_single(own) if len(own.places) == 1 else _several(own, last, in_part, most_fields)


def _several(own: OwnFloor, last: bool, in_part: bool, most_fields: float) -> LaidRoom:
    """A part of a room, of which several are tried, is only cut in pieces that are reached through each other."""
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
        quick=task.quick,
        strip=own.strip,
    )
    found = DividedRoom(refusal=Refusal("no_way_for_tails")) if in_part else _divided(own, request)
    if found.refusal is not None:
        found = laid_in_pieces(own, request, last=last, most_fields=most_fields) or found
    if found.refusal is not None:
        unplaced = tuple(refused(place.circuit, index, found.refusal) for place in places)
        is_length = found.refusal.code == "circuit_too_long"
        length = (found.refusal.value or 0.0) if is_length else 0.0
        return LaidRoom((), unplaced, too_few=found.too_few, length=length)
    if found.in_pieces:
        return LaidRoom(tuple(_from_manifold(own, request, circuit) for circuit in found.circuits), ())
    return _joined_at_entry(own, found)


def _joined_at_entry(own: OwnFloor, found: DividedRoom) -> LaidRoom:
    """The circuits of a room that is divided round its entry, with their tails."""
    bare = []
    for number, circuit in zip(reversed(range(len(own.places))), found.circuits, strict=True):
        bare.append(
            StoreyCircuit(
                own.places[number].circuit,
                own.index,
                own.room.manifold,
                own.port(number),
                circuit.path,
                circuit.length,
                circuit.piece,
                tuple(crossing for crossing in found.crossings if crossing.circuit == circuit.id),
            )
        )
    return joined_to_tails(own, bare)


def _from_manifold(own: OwnFloor, request: DivisionRequest, circuit: DividedCircuit) -> StoreyCircuit:
    """A circuit of a room in pieces with its way from the manifold; the way through its own room to the piece heats
    that room, as it does where a room is divided."""
    number = len(own.places) - 1 - circuit.id
    place, path = own.places[number], circuit.path
    if own.inlet.corners or any(route.circuit == place.circuit for route in own.routed.routes):
        flow, back = own.tails[number]
        there, on = _meeting(flow, path.start), _meeting(back, path.end)
        path = PipePath(there.pieces + path.pieces + on.reversed().pieces)
    crossings = tuple(_crossings(request, path, number))
    return StoreyCircuit(
        place.circuit,
        own.index,
        own.room.manifold,
        own.port(number),
        path,
        circuit.length,
        circuit.piece,
        crossings,
    )


def _meeting(tail: PipePath, place: Point) -> PipePath:
    """A tail that ends exactly where the pipe in its piece begins: they are found in other frames."""
    last = tail.pieces[-1]
    if not isinstance(last, Line) or math.dist(last.end, place) > GRID:
        return tail
    return PipePath((*tail.pieces[:-1], Line(last.start, place)))


def _crossings(request: DivisionRequest, path: PipePath, number: int) -> Iterator[JointCrossing]:
    """Where the pipe of a circuit passes movement joints."""
    drawn = LineString(path.polyline(_CHORD_ERROR))
    for joint in request.joints:
        for x, y in shapely.get_coordinates(intersection(drawn, LineString(joint))).tolist():
            at = drawn.project(shapely.Point(x, y))
            (x0, y0), (x1, y1) = (drawn.interpolate(at + shift).coords[0] for shift in (-1e-3, 1e-3))
            length = math.dist((x0, y0), (x1, y1))
            yield JointCrossing(number, (x, y), ((x1 - x0) / length, (y1 - y0) / length))


def _divided(own: OwnFloor, request: DivisionRequest) -> DividedRoom:
    """The room divided, as it was before where only its tails to the entry have changed, and by little."""
    key = own.remembered(replace(request, outer_tail_lengths=0.0))
    known = own.memory.get(key, ())
    if not isinstance(known, tuple):
        raise InvariantError("divided rooms must be remembered under their request")
    found = next((room for before, room in known if _serves(room, before, request)), None)
    if found is None:
        found = divided(own.outline, request)
        own.memory[key] = (*known, (request, found))
    return found


def _serves(room: DividedRoom, before: DivisionRequest, request: DivisionRequest) -> bool:
    """Whether a room as divided for other outer tails has circuits of about equal length with those of a request, none
    of them too long."""
    longest = request.maximum_circuit_length
    changes = [
        abs(request.outer_tail(index) - before.outer_tail(index)) for index in range(request.count or 0)
    ]
    if max(changes) > _SAME_TAILS * longest:
        return False
    if room.refusal is not None:
        return room.refusal.code != "circuit_too_long" or not any(changes)
    return all(circuit.length + 2.0 * request.outer_tail(circuit.id) <= longest for circuit in room.circuits)
