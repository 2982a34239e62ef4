"""The pipe of a room as it is to be laid: its centre line, or the verdict on one that the caller brings.

The layer makes the pipe and knows nothing of quality; the judge measures it and knows nothing of how it was made.
No route that the judge does not pass is answered as laid.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from .cautions import LAYING
from .checking import check
from .errors import Fault, FaultList, InputError
from .gathering import gathered
from .own_place import at_own_place, lower_left
from .plan.asking.floor_findings import Route
from .plan.asking.given_path import as_asked, given_path
from .plan.asking.laid_spacings import laid_spacings
from .plan.asking.route_circuits import route_circuit, route_coverage
from .plan.asking.route_entries import EntryPlace, main_entry, second_entry
from .plan.asking.route_fields import CircuitField, circuit_fields, parting_joints, whole_field
from .plan.asking.route_findings import field_findings, pair_findings, request_findings
from .plan.asking.route_records import (
    LaidSpacing,
    PathPiece,
    PeripheralArea,
    RouteCircuit,
    RouteCoverage,
    RouteQuality,
    RoutesInputs,
    RouteSleeve,
    RoutesResult,
    WallStretch,
    path_piece,
)
from .plan.asking.route_refusals import check_relations, check_room, length_limit, refused
from .plan.asking.route_remedies import with_remedy
from .plan.asking.route_walls import clearance_rings, moved_wall, wall_clearances
from .plan.asking.route_workings import route_workings
from .plan.judging.route_check import check_route
from .plan.judging.route_measures import bend_count
from .plan.laying.laying import LayingTask, lay
from .plan.lengths.lengths import laid_diameter
from .plan.outlines.intake import on_grid, settled_rings
from .plan.outlines.polygons import RoomOutline, room_outline, sound_outline
from .plan.pipes.pipe_path import Arc, PipePath
from .results import Finding, Working
from .storey.division.division_findings import division_findings
from .storey.joints.joint_checks import check_joints
from .storey.joints.joint_findings import joint_findings
from .storey.judging.room_coverage import CoveredFloor, room_coverage
from .storey.model.division_records import DividedCircuit
from .storey.rooms.route_division import (
    Division,
    check_division,
    circuits_needed,
    divided_route,
    division_refused,
)

__all__ = [
    "LaidSpacing",
    "PathPiece",
    "PeripheralArea",
    "RouteCircuit",
    "RouteCoverage",
    "RouteQuality",
    "RouteSleeve",
    "RoutesInputs",
    "RoutesResult",
    "WallStretch",
    "calculate",
    "clearance_rings",
    "workings",
]

_NEARLY_ONE = 1.03
"""Circuits that a room takes by its area for one to be tried: the length laid strays a little from that."""
_SHOWN_RADIUS = 0.85
"""Share of the bend radius that a polyline has to show: chords make the arcs they stand for seem tighter."""


@dataclass(frozen=True)
class _Answer:
    """Routes and their circuits, one each; ``told`` beside what is said about every route."""

    routes: tuple[Route, ...]
    circuits: tuple[RouteCircuit, ...]
    coverage: RouteCoverage
    sleeves: tuple[RouteSleeve, ...] = ()
    length_spread: float | None = None
    told: tuple[Finding, ...] = ()


def calculate(inputs: RoutesInputs) -> RoutesResult:
    """Lay the circuits of a room, or judge the route that comes with the request.

    Raises ``InputError`` for an outline or movement joints that are not valid, an entry off the outline, a bend
    radius above 1.1 spacings, a room too narrow for pipe there and back or beyond ``MOST_SQUARES``, a room to be
    divided in more than ``MOST_DIVIDED_CIRCUITS`` or beyond ``MOST_DIVIDED_SQUARES``, and where no pipe was found
    that the judge passes; each says what would do instead.
    """
    check(inputs)
    return at_own_place(inputs, lower_left([inputs.outline]), _advised)


def _advised(inputs: RoutesInputs) -> RoutesResult:
    """The circuits, or the refusal with a change that was tried."""
    try:
        return _calculated(inputs)
    except InputError as error:
        raise with_remedy(error, inputs, _fault_of) from error


def _fault_of(inputs: RoutesInputs) -> Fault | None:
    """Why a request that was changed is refused, if it is. No room is cut in pieces that are reached through each other
    for that: of 9 changes that helped in 450 random rooms 8 did without, and as many that did not took up to 1.4 s."""
    try:
        inputs, room, _ = _settled(replace(inputs, quick=True))
        _answer(inputs, room, in_pieces=False)
    except InputError as error:
        return error.faults[0]
    return None


def _calculated(inputs: RoutesInputs) -> RoutesResult:
    inputs, room, area = _settled(inputs)
    answer = _answer(inputs, room)
    return RoutesResult(
        circuits=answer.circuits,
        area=area,
        bend_radius=inputs.pipe.bend_radius,
        maximum_circuit_length=length_limit(inputs),
        pipe_length=math.fsum(circuit.total_length for circuit in answer.circuits),
        spacer_length=inputs.pipe_spacing - laid_diameter(inputs.pipe),
        coverage=answer.coverage,
        sleeves=answer.sleeves,
        length_spread=answer.length_spread,
        findings=_findings(inputs, answer, room),
        cautions=LAYING,
    )


def _settled(inputs: RoutesInputs) -> tuple[RoutesInputs, RoomOutline, float]:
    """The request with its outlines settled, the room, and the room's area as it was sent [m2]; all checked."""
    check_relations(inputs)
    numbered_walls = inputs.peripheral is not None or any(
        wall.edge is not None for wall in inputs.wall_stretches
    )
    area = room_outline(inputs.outline, inputs.voids, numbered_walls=numbered_walls).area
    brought = inputs.path is not None or inputs.pieces is not None
    outline, *voids = (on_grid if brought else settled_rings)(inputs.outline, inputs.voids)
    inputs = replace(inputs, outline=outline, voids=tuple(voids))
    room = sound_outline(outline, voids)
    check_room(inputs, room, divided=_takes_several(inputs, room))
    faults = FaultList()
    check_joints(inputs.movement_joints, room, "/movement_joints", faults)
    faults.raise_if_any()
    return inputs, room, area


def workings(inputs: RoutesInputs, result: RoutesResult) -> tuple[Working, ...]:
    """The chain from the room to the pipe of its circuits."""
    return route_workings(inputs, result)


def _answer(inputs: RoutesInputs, room: RoomOutline, *, in_pieces: bool = True) -> _Answer:
    faults = FaultList()
    first, second = main_entry(inputs, faults), second_entry(inputs, faults)
    faults.raise_if_any()
    if first is None:  # pragma: no cover - without an entry there is a fault
        raise InputError(Fault("/entry", "missing", "is required"))
    path = given_path(inputs)
    if path is not None:
        return _undivided(inputs, (_judged(inputs, whole_field(inputs, room, first), path),))
    if second is not None or inputs.peripheral is not None:
        fields = circuit_fields(inputs, room, first, second)
        return _undivided(inputs, tuple(_laid(inputs, field) for field in fields))
    if parting_joints(inputs, room) or (inputs.circuits or 1) > 1:
        return _divided(inputs, room, first, in_pieces)
    return _one_or_divided(inputs, room, first, in_pieces)


def _takes_several(inputs: RoutesInputs, room: RoomOutline) -> bool:
    """Whether a room is to be divided whatever a single pipe in it comes to."""
    single = (inputs.path, inputs.pieces, inputs.second_entry, inputs.peripheral) != (None,) * 4
    return not single and inputs.circuits != 1 and circuits_needed(inputs, room) > _NEARLY_ONE


def _one_or_divided(inputs: RoutesInputs, room: RoomOutline, first: EntryPlace, in_pieces: bool) -> _Answer:
    """One circuit if it is short enough, or asked for however long; otherwise several."""
    if not _takes_several(inputs, room):
        one = _undivided(inputs, (_laid(inputs, whole_field(inputs, room, first)),))
        if inputs.circuits == 1 or one.circuits[0].total_length <= length_limit(inputs):
            return one
    return _divided(inputs, room, first, in_pieces)


def _divided(inputs: RoutesInputs, room: RoomOutline, first: EntryPlace, in_pieces: bool) -> _Answer:
    check_division(inputs, room)
    found = divided_route(inputs, room, first, in_pieces=in_pieces)
    if not isinstance(found, Division):
        raise division_refused(found, inputs, first)
    circuits = tuple(
        _whole_circuit(inputs, route_circuit(inputs, route), circuit, found.tail_pitch)
        for route, circuit in zip(found.routes, found.room.circuits, strict=True)
    )
    walls = [moved_wall(wall, room.origin) for wall in wall_clearances(inputs)]
    paths = [circuit.path for circuit in found.room.circuits]
    sleeves = tuple(
        RouteSleeve(str(crossing.circuit + 1), crossing.place, crossing.ahead)
        for crossing in found.room.crossings
    )
    coverage = room_coverage(CoveredFloor(room, paths, inputs.pipe_spacing, inputs.wall_clearance, walls))
    return _Answer(
        found.routes,
        circuits,
        coverage,
        sleeves,
        found.room.spread if len(circuits) > 1 else None,
        tuple(division_findings(found.room, circuits, coverage, first)),
    )


def _undivided(inputs: RoutesInputs, routes: tuple[Route, ...]) -> _Answer:
    circuits = tuple(route_circuit(inputs, route) for route in routes)
    return _Answer(routes, circuits, route_coverage(inputs, routes))


def _laid(inputs: RoutesInputs, field: CircuitField) -> Route:
    task = LayingTask(
        pipe_spacing=field.pipe_spacing,
        wall_clearance=inputs.wall_clearance,
        bend_radius=inputs.pipe.bend_radius,
        tail_pitch=field.entry.tail_pitch,
        entry=field.entry.place,
        pattern=inputs.pattern,
        quick=inputs.quick,
        outermost_pipe=inputs.outermost_pipe,
        walls=field.walls,
        closer_strip=field.closer_strip,
    )
    try:
        laid = lay(field.room, task)
    except InputError as error:
        raise as_asked(error, inputs) from error
    if laid.refusal is not None:
        raise refused(laid.refusal, field)
    if laid.path is None or laid.check is None:
        raise AssertionError("the layer answers with a path or a refusal")
    return Route(field, laid.path, laid.check, _spacings(inputs, field, laid.path), laid)


def _judged(inputs: RoutesInputs, field: CircuitField, path: PipePath) -> Route:
    radius = inputs.pipe.bend_radius * (1.0 if inputs.path is None else _SHOWN_RADIUS)
    try:
        verdict = check_route(
            path,
            field.room,
            pipe_spacing=field.pipe_spacing,
            wall_clearance=inputs.wall_clearance,
            bend_radius=radius,
            entry=field.entry.place,
            tail_pitch=field.entry.tail_pitch,
            walls=field.walls,
            denser=field.spacings.denser,
        )
    except InputError as error:
        raise as_asked(error, inputs) from error
    return Route(field, path, verdict, _spacings(inputs, field, path), None)


def _spacings(inputs: RoutesInputs, field: CircuitField, path: PipePath) -> tuple[LaidSpacing, ...]:
    return laid_spacings(path, field.room, field.spacings, inputs.wall_clearance)


def _whole_circuit(
    inputs: RoutesInputs, circuit: RouteCircuit, divided: DividedCircuit, tail_pitch: float
) -> RouteCircuit:
    """A circuit of a divided room with its pipe from the entry on; its quality stays that of its own floor."""
    path = divided.path
    radii = [piece.radius for piece in path.pieces if isinstance(piece, Arc)]
    return replace(
        circuit,
        entry=divided.place.place,
        tail_pitch=tail_pitch,
        area=float(divided.piece.area),
        length=path.length,
        inner_tail_length=divided.tail_length,
        total_length=path.length + circuit.tail_length,
        least_radius=min(radii, default=None),
        bends=bend_count(path, inputs.pipe_spacing),
        path=tuple((x, y) for x, y in path.polyline(inputs.chord_error).tolist()),
        pieces=tuple(map(path_piece, path.pieces)),
    )


def _findings(inputs: RoutesInputs, answer: _Answer, room: RoomOutline) -> tuple[Finding, ...]:
    told = list(request_findings(inputs))
    for number, (route, circuit) in enumerate(zip(answer.routes, answer.circuits, strict=True)):
        about = field_findings(inputs, number, route, circuit, room)
        told += (
            about if len(answer.circuits) == 1 else [_of_circuit(finding, circuit.id) for finding in about]
        )
    if answer.length_spread is None:
        told += pair_findings(inputs, answer.circuits)
    return gathered((*told, *answer.told, *joint_findings(inputs, room)), inputs)


def _of_circuit(finding: Finding, circuit: str) -> Finding:
    return finding.moved(
        lambda place: replace(place, subject=f"circuit {circuit}") if place.where_in == "answer" else place
    )
