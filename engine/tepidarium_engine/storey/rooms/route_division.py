"""A request for a route divided in circuits: when it has to be, what is asked of the division, what it answers."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np
import shapely
from shapely import LineString
from shapely.ops import substring

from ...checking import Point
from ...errors import Fault, InputError
from ...plan.asking.floor_findings import Route
from ...plan.asking.laid_spacings import laid_spacings
from ...plan.asking.route_entries import EntryPlace
from ...plan.asking.route_fields import CircuitField, drawn_out, parting_joints
from ...plan.asking.route_records import RoutesInputs
from ...plan.asking.route_refusals import MOST_SQUARES, length_limit
from ...plan.asking.route_walls import wall_clearances
from ...plan.judging.crossing import first_crossing
from ...plan.judging.route_faults import LEAST_PIPE_DISTANCE
from ...plan.laying.laying import Refusal
from ...plan.lengths.lengths import laid_diameter
from ...plan.outlines.overlays import difference, intersection
from ...plan.outlines.polygons import RoomOutline, served_area
from ...plan.tolerances import SAME_AREA
from ..division.division import divided
from ..judging.storey_judge import least_apart
from ..model.division_records import DividedCircuit, DividedRoom, DivisionRequest
from ..model.records import Segment
from .room_alone import alone_in_pieces

__all__ = [
    "MOST_DIVIDED_CIRCUITS",
    "MOST_DIVIDED_SQUARES",
    "Division",
    "check_division",
    "circuits_needed",
    "divided_route",
    "division_refused",
]

MOST_DIVIDED_CIRCUITS = 16
"""Of a room divided in one request: as many as come out about equally long, in a third of the time for a request."""
MOST_DIVIDED_SQUARES = 12_000
"""Of a room divided in one request: squares as wide as the pipe spacing. 270 m2 at 150 mm, 1080 m2 at 300 mm."""
_ROUNDS = 3
"""Of laying all circuits: what one request has time for."""
_TAIL_PITCH = 0.05
"""Of several circuits at one entry where none is given [m]: common practice, no source."""
_LEAST_PITCH = 1.5
"""Of tails where none is given, in outside diameters."""
_SETTLING = 0.5
"""Length at either end of a field that is still its tails [m]."""
_CHORD_ERROR = 5e-4
_ON_FLOOR = 1e-5
_FINAL = frozenset({"too_few_circuits", "field_too_narrow"})
"""Refusals that hold however a room is divided."""


@dataclass(frozen=True)
class Division:
    """Circuits of a divided room as routes in their own floors, and the division that they came from."""

    routes: tuple[Route, ...]
    room: DividedRoom
    tail_pitch: float


def circuits_needed(inputs: RoutesInputs, room: RoomOutline) -> float:
    """Pipe of the room, by its served area, over what the length limit leaves for each circuit."""
    length = served_area(room.polygon, inputs.pipe_spacing, inputs.wall_clearance) / inputs.pipe_spacing
    return length / (length_limit(inputs) - 2.0 * inputs.tail_length)


def check_division(inputs: RoutesInputs, room: RoomOutline) -> None:
    """Raises ``InputError`` for rooms and numbers of circuits that are too much for one request."""
    count = max(inputs.circuits or 1, math.ceil(circuits_needed(inputs, room) - 1e-9))
    remedy = "divide the room and ask for each part with its own outline"
    squares = room.area / inputs.pipe_spacing**2
    if not parting_joints(inputs, room) and squares <= MOST_SQUARES * (1.0 + SAME_AREA):
        remedy += ", or for one pipe however long with circuits 1"
    if count > MOST_DIVIDED_CIRCUITS:
        raise InputError(
            Fault(
                "/circuits" if inputs.circuits is not None else "/outline",
                "too_many_circuits",
                f"takes {count} circuits; at most {MOST_DIVIDED_CIRCUITS} are laid in one request: {remedy}",
                MOST_DIVIDED_CIRCUITS,
            )
        )
    if squares > MOST_DIVIDED_SQUARES * (1.0 + SAME_AREA):
        area = MOST_DIVIDED_SQUARES * inputs.pipe_spacing**2
        raise InputError(
            Fault(
                "/outline",
                "too_much_to_divide",
                f"holds {room.area:.1f} m2; at most {area:.1f} m2 are divided in circuits at this spacing in one "
                f"request: {remedy}",
                area,
            )
        )


def divided_route(
    inputs: RoutesInputs, room: RoomOutline, first: EntryPlace, *, in_pieces: bool
) -> Division | Refusal:
    """The circuits of a room that share an entry, or why there are none; ``in_pieces``: they may lie in pieces that are
    reached through each other."""
    pitch = _pitch(inputs, first)
    asked = _request(inputs, room, first, pitch)
    refusals = []
    for found in _ways(room, asked, in_pieces):
        unsound = found.refusal or _through_doorway(inputs, first, len(found.circuits), pitch)
        unsound = unsound or next(_unsound(inputs, room, found, pitch), None)
        if unsound is None:
            routes = tuple(_route(inputs, circuit, first) for circuit in found.circuits)
            return Division(routes, found, pitch)
        refusals.append(unsound)
    return refusals[0]


def _ways(room: RoomOutline, asked: DivisionRequest, in_pieces: bool) -> Iterator[DividedRoom]:
    """The room divided by cuts along its walls, then in pieces that are reached through each other."""
    found = divided(room, asked)
    yield found
    if in_pieces and not asked.walls and (found.refusal is None or found.refusal.code not in _FINAL):
        pieces = alone_in_pieces(room, asked)
        if pieces is not None:
            yield pieces


def division_refused(refusal: Refusal, inputs: RoutesInputs, first: EntryPlace) -> InputError:
    """The refusal of the division as an error that names the field to change."""
    pointer, text = _REASONS.get(refusal.code, _OTHER_REASON)
    numbers = {
        "value": "-" if refusal.value is None else f"{refusal.value:.3g}",
        "limit": "-" if refusal.limit is None else f"{refusal.limit:.3g}",
    }
    where = "" if refusal.place is None else f" near [{refusal.place[0]:.3f}, {refusal.place[1]:.3f}]"
    detail = text.format(**numbers) + where
    return InputError(Fault(pointer or first.pointer, f"no_division_{refusal.code}", detail, refusal.limit))


_REASONS = {
    "entry_too_narrow": (
        "",
        "leaves {value} m of straight wall for the pipes of all circuits, which take {limit} m side by side: move "
        "the entry along the wall, take a smaller pitch of the tails, or let circuits come in at a second entry",
    ),
    "doorway_too_narrow": (
        "/doorway",
        "is {value} m wide, and the pipes of all circuits take {limit} m side by side: take a smaller pitch of the "
        "tails, or let circuits come in at a second entry",
    ),
    "too_few_circuits": (
        "/circuits",
        "must be at least {limit}: the movement joints divide the room into that many fields, and no circuit may cross "
        "a joint",
    ),
    "too_many_circuits": (
        "/outline",
        "takes {value} circuits with their tails, but at most {limit} are laid in one request: divide the "
        "room and ask for each part with its own outline, or permit longer circuits",
    ),
    "circuit_too_long": (
        "/circuits",
        "leave a circuit of {value} m with its tails where {limit} m are permitted: ask for more circuits",
    ),
    "field_too_narrow": (
        "/movement_joints",
        "leave a field {value} m wide where pipe there and back takes {limit} m: move the joint, or leave that "
        "strip of floor out of the outline",
    ),
    "joint_at_entry": (
        "",
        "lies {value} m from a movement joint, and the pipes of all circuits take {limit} m on either side to come "
        "in and turn: move the entry along the wall, or to the middle of a field",
    ),
    "no_way_for_tails": (
        "",
        "leaves the tails of some circuits no way to their floor: move the entry to the middle of a long wall, or "
        "divide the room and ask for each part with its own entry",
    ),
}
_OTHER_REASON = (
    "/outline",
    "could not be divided into circuits that can be laid: move the entry, take another spacing or number of "
    "circuits, or divide the room and ask for each part",
)


def _pitch(inputs: RoutesInputs, first: EntryPlace) -> float:
    if inputs.tail_pitch is not None:
        return inputs.tail_pitch
    return min(first.tail_pitch, max(_TAIL_PITCH, _LEAST_PITCH * laid_diameter(inputs.pipe)))


def _through_doorway(inputs: RoutesInputs, first: EntryPlace, count: int, pitch: float) -> Refusal | None:
    """Pipes of all circuits side by side between the jambs."""
    if inputs.doorway is None:
        return None
    width, needed = math.dist(*inputs.doorway), (2 * count - 1) * pitch + laid_diameter(inputs.pipe)
    return Refusal("doorway_too_narrow", first.place, width, needed) if needed > width else None


def _request(inputs: RoutesInputs, room: RoomOutline, first: EntryPlace, pitch: float) -> DivisionRequest:
    return DivisionRequest(
        pipe_spacing=inputs.pipe_spacing,
        wall_clearance=inputs.wall_clearance,
        bend_radius=inputs.pipe.bend_radius,
        tail_pitch=pitch,
        entry=first.place,
        maximum_circuit_length=length_limit(inputs),
        pattern=inputs.pattern,
        outer_tail_lengths=inputs.tail_length,
        count=inputs.circuits,
        joints=tuple(_segments(inputs, room)),
        quick=inputs.quick,
        outermost_pipe=inputs.outermost_pipe,
        walls=wall_clearances(inputs),
        most_rounds=_ROUNDS,
        most_circuits=MOST_DIVIDED_CIRCUITS,
        entry_shift=1.0 if inputs.doorway is None else 0.0,
    )


def _segments(inputs: RoutesInputs, room: RoomOutline) -> Iterator[Segment]:
    """The straight pieces of all joints that part the room."""
    for number in parting_joints(inputs, room):
        joint = drawn_out(np.array(inputs.movement_joints[number]), room.placed)
        yield from pairwise((x, y) for x, y in shapely.get_coordinates(joint).tolist())


def _route(inputs: RoutesInputs, circuit: DividedCircuit, first: EntryPlace) -> Route:
    """A circuit in the room that its own floor is to it."""
    laid = circuit.laid
    if laid.path is None or laid.check is None:
        raise AssertionError("a divided room holds circuits that are laid")
    entry = EntryPlace(laid.entry.place, first.tail_pitch, 0.0, first.pointer)
    room = RoomOutline.of(circuit.outline)
    field = CircuitField(str(circuit.id + 1), room, entry, inputs.pipe_spacing, ())
    spacings = laid_spacings(laid.path, room, field.spacings, inputs.wall_clearance)
    return Route(field, laid.path, laid.check, spacings, laid)


def _unsound(inputs: RoutesInputs, room: RoomOutline, found: DividedRoom, pitch: float) -> Iterator[Refusal]:
    """What the judge of each field does not see: pipe of one circuit against pipe of the others, and tails
    against the edge of the floor."""
    floor = room.placed
    wide = shapely.buffer(floor, _ON_FLOOR)
    lines = [LineString(circuit.path.polyline(_CHORD_ERROR)) for circuit in found.circuits]
    for line in lines:
        crossing = first_crossing(shapely.get_coordinates(line))
        if crossing is not None:
            yield Refusal("crosses_itself", crossing.place)
        if not shapely.covers(wide, line):
            yield Refusal("outside_floor", _first_place(difference(line, wide)))
    joints = shapely.MultiLineString(list(_segments(inputs, room)))
    for circuit, line in zip(found.circuits, lines, strict=True):
        met = intersection(_field(line, circuit), joints)
        if not met.is_empty:
            yield Refusal("crosses_movement_joint", _first_place(met))
    for one, other in combinations(range(len(lines)), 2):
        tails = least_apart(inputs.pipe_spacing, pitch)
        fields = [_field(lines[index], found.circuits[index]) for index in (one, other)]
        for pair, least in (
            ((lines[one], lines[other]), tails),
            ((fields[0], fields[1]), LEAST_PIPE_DISTANCE * inputs.pipe_spacing - 1e-3),
        ):
            away = float(shapely.distance(*pair))
            if away < least:
                yield Refusal("pipe_distance", _first_place(shapely.shortest_line(*pair)), away, least)


def _first_place(shape: shapely.Geometry) -> Point:
    x, y = shapely.get_coordinates(shape)[0].tolist()
    return x, y


def _field(line: LineString, circuit: DividedCircuit) -> LineString:
    ends = circuit.tail_length / 2.0 + _SETTLING
    return substring(line, ends, line.length - ends)
