"""A room by itself in pieces that are reached through each other: a storey of one room, its entry for a manifold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString

from ...errors import required
from ...plan.laying.home_frame import Home, home_frame
from ...plan.laying.laying import Laid, Refusal
from ...plan.model.field import Entry
from ...plan.outlines.polygons import RoomOutline
from ..division.circuit_pipes import joint_crossings
from ..division.division import gates_at_entry, judged
from ..division.division_job import DivisionJob, division_job
from ..division.fields import circuits_of_fields, more_circuits
from ..lanes.inlet_search import Inlet
from ..lanes.tail_routes import LaneMemory
from ..model.division_records import DividedCircuit, DividedRoom, DivisionRequest
from ..model.layout_records import RoomTask, StoreyTask
from ..model.records import PairPlace
from ..model.tail_records import CircuitPlace, ManifoldPlace, RoutedTails, StoreyPlan
from .own_floor import FieldMemory, OwnFloor
from .piece_circuits import laid_in_pieces

__all__ = ["alone_in_pieces"]

_TRIES = 3
"""Numbers of circuits tried."""
_MOST_WAYS = 120
"""Of tails between pieces that are looked for: of 11 random rooms in pieces that could be laid none took more than 104,
those that could not took up to 180; in a quick layout a third."""
_LEAST_FLOOR = 0.8
"""Share of the floor that is the circuits' own, less of which would be cold."""
_EARLY = 0.25
"""Share of a pipe at which it is still flow."""
_CHORD_ERROR = 1e-3


def alone_in_pieces(room: RoomOutline, request: DivisionRequest) -> DividedRoom | None:
    """The circuits of a room in pieces, none longer than the greatest length asked for, or ``None``; where no number of
    them is asked for as few as can be found. Walls with clearances of their own are not looked at.

    Computed in the frame in which a single circuit is laid, so that it does not count how the room is turned.
    """
    home = home_frame(room, request.entry)
    joints = tuple((home.local_place(start), home.local_place(end)) for start, end in request.joints)
    at_home = replace(request, entry=home.local_place(request.entry), joints=joints, entry_stays=True)
    found = _in_pieces(RoomOutline(home.polygon, (0.0, 0.0)), at_home)
    return None if found is None else _carried_home(found, home)


def _in_pieces(room: RoomOutline, request: DivisionRequest) -> DividedRoom | None:
    job = division_job(room, request)
    memory: FieldMemory = {}
    lanes = LaneMemory(most_ways=_MOST_WAYS // 3 if request.quick else _MOST_WAYS)
    count = request.count or _least(job)
    for _ in range(_TRIES if request.count is None else 1):
        own = None if count is None or count > request.most_circuits else _floor(job, count, memory, lanes)
        if own is None or count is None:
            return None
        found = laid_in_pieces(own, replace(request, count=count), last=False)
        if found is not None and found.refusal is None:
            found = judged(found, request)
            if found.refusal is None and _is_good(job, found):
                circuits = tuple(map(_flowing, found.circuits))
                return replace(found, circuits=circuits, crossings=tuple(joint_crossings(job, circuits)))
        if lanes.exhausted:
            return None
        refusal = None if found is None else found.refusal
        count = (
            count + 1
            if refusal is None or refusal.value is None
            else more_circuits(count, refusal.value, request.maximum_circuit_length)
        )
    return None


def _is_good(job: DivisionJob, found: DividedRoom) -> bool:
    """Whether no circuit is too long, and the tails leave most of the floor to the circuits' own."""
    request = job.request
    longest = max(circuit.length + 2.0 * request.outer_tail(circuit.id) for circuit in found.circuits)
    floor = sum(circuit.piece.area for circuit in found.circuits)
    return longest <= request.maximum_circuit_length and floor >= _LEAST_FLOOR * job.polygon.area


def _flowing(circuit: DividedCircuit) -> DividedCircuit:
    """The circuit with that half of its pipe as flow which was laid as such; no port says otherwise."""
    laid = required(circuit.laid.path, "the pipe of a piece")
    early = shapely.Point(laid.points_at(np.array([_EARLY * laid.length]))[0])
    whole = LineString(circuit.path.polyline(_CHORD_ERROR))
    against = whole.project(early) > whole.length / 2.0
    return replace(circuit, path=circuit.path.reversed()) if against else circuit


def _least(job: DivisionJob) -> int | None:
    """Circuits by the floor's area alone."""
    request = job.request
    length = max(1.0, request.maximum_circuit_length - 2.0 * request.outer_tail(0))
    counts = circuits_of_fields(job.fields, request.pipe_spacing, request.wall_clearance, length, None)
    return None if counts is None else sum(counts)


def _floor(job: DivisionJob, count: int, memory: FieldMemory, lanes: LaneMemory) -> OwnFloor | None:
    """The room with pairs of so many circuits at its entry, which stand on the wall."""
    request = job.request
    gates = (gate for gate in gates_at_entry(job, count) if not isinstance(gate, Refusal))
    gate = next((gate for gate in gates if not gate.behind), None)
    if gate is None:
        return None
    floor, ahead = job.room.placed, job.outer_direction(gate.inward)
    names = tuple(map(str, range(count)))
    # Ports count from the right, pairs at the entry from the left.
    places = tuple(
        CircuitPlace(name, 0, PairPlace(job.outer(gate.pair(count - 1 - number)), ahead))
        for number, name in enumerate(names)
    )
    entry = job.outer(gate.place)
    task = StoreyTask(
        plan=StoreyPlan((floor,), ()),
        rooms=(
            RoomTask(
                id="0",
                room=job.room,
                pipe_spacing=request.pipe_spacing,
                maximum_circuit_length=request.maximum_circuit_length,
                pattern=request.pattern,
                count=count,
                joints=request.joints,
                outermost_pipe=request.outermost_pipe,
            ),
        ),
        manifold=ManifoldPlace(entry, ahead, 0),
        tail_pitch=request.tail_pitch,
        wall_clearance=request.wall_clearance,
        bend_radius=request.bend_radius,
        quick=request.quick,
    )
    tails = RoutedTails(names, places, (), (), ())
    return OwnFloor(task, tails, 0, job.room, places, Inlet((), floor, entry, ahead), memory, lanes)


def _carried_home(found: DividedRoom, home: Home) -> DividedRoom:
    """The same in the caller's frame."""
    crossings = tuple(
        replace(crossing, place=home.place(crossing.place), ahead=home.direction(crossing.ahead))
        for crossing in found.crossings
    )
    circuits = tuple(_circuit_home(circuit, home) for circuit in found.circuits)
    return replace(found, circuits=circuits, crossings=crossings)


def _circuit_home(circuit: DividedCircuit, home: Home) -> DividedCircuit:
    path = home.path(circuit.path)
    (ax, ay), (bx, by) = path.start, path.end
    return replace(
        circuit,
        piece=home.area(circuit.piece),
        outline=home.area(circuit.outline),
        laid=_laid_home(circuit.laid, home),
        path=path,
        length=path.length,
        tail_length=circuit.tail_length + path.length - circuit.length,
        place=PairPlace(((ax + bx) / 2.0, (ay + by) / 2.0), home.direction(circuit.place.ahead)),
    )


def _laid_home(laid: Laid, home: Home) -> Laid:
    """The pipe of a piece, whose ends lie on no wall."""
    path, check, entry = required(laid.path, "a pipe"), required(laid.check, "its check"), laid.entry
    first, last = map(home.place, entry.ends)
    return replace(
        laid,
        entry=Entry(home.place(entry.place), (first, last), home.direction(entry.inward)),
        path=home.carried(path),
        check=home.check(check, check.measures.length),
        lost=tuple(replace(lost, place=home.place(lost.place)) for lost in laid.lost),
    )
