"""Several circuits of a room in pieces that are reached through each other."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import shapely
from shapely import LineString

from ..errors import InvariantError
from ..plan.laying.laying import Refusal
from ..plan.outlines.overlays import intersection
from ..plan.pipes.pipe_path import PipePath
from .division_job import division_job
from .division_plans import GOOD_SPREAD
from .division_records import DivisionRequest, JointCrossing
from .field_circuits import laid_single, refused
from .fields import FULL
from .layout_records import LaidPieces, LaidRoom, RoomTask, StoreyCircuit, StoreyTask, Unplaced
from .own_floor import OwnFloor, outlined, own_floors
from .piece_rooms import PieceRooms, piece_rooms
from .records import PairPlace
from .tail_order import manifold_middle
from .tail_records import RoutedTails, TailDemand, TailRules
from .tail_routes import routed_tails

__all__ = ["laid_in_pieces"]

_ESTIMATES, _ROUNDS = 3, 3
"""Of routing tails and of laying all pieces, each after cutting them anew by the lengths that came out."""
_EVEN_ENOUGH = 0.06
"""Spread of lengths from which no other way to cut the room is looked for."""
_QUICK_SPREAD = 0.08
"""The same where a quick layout was asked for."""
_WAYS = 3
"""To cut a room that are laid for the sake of equal lengths."""
_STEPS = (1.0, 0.5, 0.25)
"""How far of the way shares are moved where they cannot be moved all of it."""
_MOST_LAID = 60
"""Fields of a room that were laid, in all rounds, after which it is cut in one way only, and laid once."""
_CHORD_ERROR = 5e-4


def laid_in_pieces(own: OwnFloor, request: DivisionRequest, *, last: bool) -> LaidRoom | None:
    """The room's circuits, as equal in length as a few rounds make them; ``None`` where some cannot be laid.

    Refused with ``circuit_too_long`` where they would be on average; not all of them is laid then, only to take one
    circuit more, unless this is the ``last`` number of them.
    """
    key = (*own.remembered(replace(request, outer_tail_lengths=0.0)), own.inlet.ahead, _ports_go(own))
    known = own.memory.get(key)
    if known is None:
        laid = _even(own, request, last)
        if laid is None or isinstance(laid, LaidRoom):
            found: LaidRoom | None = laid
            own.memory.update({} if found else {key: LaidPieces()})
            return found
        known = own.memory[key] = LaidPieces(tuple(laid))
    if not isinstance(known, LaidPieces):
        raise InvariantError("laid pieces must be remembered under their request")
    return LaidRoom(tuple(_of_room(own, request, known.circuits)), ()) if known.circuits else None


def _even(own: OwnFloor, request: DivisionRequest, last: bool) -> LaidRoom | list[StoreyCircuit] | None:
    """The circuits from the entry, of the way to cut the room that makes them most equal, or the refusal."""
    job = division_job(own.outline, request)
    ways, rounds = (_WAYS, _ROUNDS) if len(own.memory) < _MOST_LAID else (1, 1)
    limit = request.maximum_circuit_length
    outside = 0.0 if last else _outside(own)
    longest = limit if last else FULL * limit - outside
    best: _Laid | None = None
    tried = 0
    for found in piece_rooms(job, PairPlace(own.inlet.entry, own.inlet.ahead)):
        balanced = _balanced(own, found)
        if not balanced:
            continue
        if _longest_mean(balanced[0]) > longest:
            if best is None:
                length = _longest_mean(balanced[0]) + outside
                return LaidRoom((), tuple(_too_long(own, length)), too_few=not last, length=length)
            continue
        tried += 1
        each = (_best_laid(own, pieces, rounds, quick=request.quick) for pieces in balanced)
        laid = next((one for one in each if one is not None), None)
        if laid is not None and (best is None or laid.badness < best.badness):
            best = laid
        enough = tried == ways or len(own.memory) >= _MOST_LAID or (best is not None and best.mean > longest)
        even = _QUICK_SPREAD if request.quick else _EVEN_ENOUGH
        if best is not None and (best.badness <= (False, even) or enough):
            break
    return None if best is None else best.circuits


class _Laid(NamedTuple):
    """Circuits as laid: whether one is too long, and the spread of their lengths."""

    badness: tuple[bool, float]
    circuits: list[StoreyCircuit]

    @property
    def mean(self) -> float:
        """Of their lengths from the entry [m]."""
        return math.fsum(circuit.path.length for circuit in self.circuits) / len(self.circuits)


@dataclass(frozen=True)
class _Routed:
    """Pieces with the tails to all of them and the lengths expected [m]."""

    pieces: PieceRooms
    task: StoreyTask
    tails: RoutedTails
    expected: list[float]


def _balanced(own: OwnFloor, pieces: PieceRooms) -> list[_Routed]:
    """Cut so that the lengths expected are equal, or as nearly so as a few rounds bring them; the most equal ones
    first."""
    found: list[_Routed] = []
    routed = _routed(own, pieces)
    for _ in range(_ESTIMATES):
        if routed is None:
            break
        found.append(routed)
        if _spread(routed) <= GOOD_SPREAD:
            break
        routed = _cut_anew(own, routed, routed.expected)
    return sorted(found, key=_spread)


def _cut_anew(own: OwnFloor, routed: _Routed, lengths: Sequence[float]) -> _Routed | None:
    """The pieces with shares moved by the lengths that came out, as far as tails find a way to all of them."""
    for step in _STEPS:
        cut = routed.pieces.with_lengths(lengths, step)
        moved = None if cut is None else _routed(own, cut)
        if moved is not None:
            return moved
    return None


def _spread(routed: _Routed) -> float:
    return routed.pieces.spread(routed.expected)


def _longest_mean(routed: _Routed) -> float:
    return max(sum(own) / len(own) for own in routed.pieces.by_field(routed.expected))


def _outside(own: OwnFloor) -> float:
    """Mean length of the tails before the entry, both ways [m]."""
    return sum(map(own.tail_length, range(len(own.places)))) / len(own.places)


def _too_long(own: OwnFloor, length: float) -> Iterator[Unplaced]:
    refusal = Refusal("circuit_too_long", None, length, own.room.maximum_circuit_length)
    for place in own.places:
        yield refused(place.circuit, own.index, refusal)


def _best_laid(own: OwnFloor, routed: _Routed, rounds: int, *, quick: bool) -> _Laid | None:
    """Laid, and laid again with what the lengths tell; ``None`` where a piece cannot be laid. ``quick``: only where one
    circuit is too long again."""
    best: _Laid | None = None
    tried: _Routed | None = routed
    for number in range(rounds):
        circuits = None if tried is None else _laid(own, tried)
        if tried is None or circuits is None:
            break
        lengths = [circuit.path.length for circuit in circuits]
        spread = tried.pieces.spread(lengths)
        laid = _Laid((_longest(own, lengths) > own.room.maximum_circuit_length + 1e-6, spread), circuits)
        if best is None or laid.badness < best.badness:
            best = laid
        enough = math.inf if quick else GOOD_SPREAD if number == 0 else _EVEN_ENOUGH
        if best.badness <= (False, enough):
            break
        tried = _cut_anew(own, tried, lengths)
    return best


def _longest(own: OwnFloor, lengths: Sequence[float]) -> float:
    """Of circuits with so much pipe [m] from the entry, in order of the pieces: with their tails before it."""
    return max(length + own.tail_length(number) for number, length in enumerate(lengths))


def _routed(own: OwnFloor, pieces: PieceRooms) -> _Routed | None:
    """The tails to all pieces, or ``None``."""
    sub = _task(own, pieces)
    if not _ports_stay(own, pieces, TailRules(sub.tail_pitch, sub.wall_clearance, sub.bend_radius)):
        return None
    tails = routed_tails(
        sub.plan,
        sub.manifold,
        [TailDemand(room.id, number) for number, room in enumerate(sub.rooms)],
        tail_pitch=sub.tail_pitch,
        wall_clearance=sub.wall_clearance,
        bend_radius=sub.bend_radius,
        all_or_none=True,
    )
    return None if tails.unrouted else _Routed(pieces, sub, tails, pieces.expected(tails))


def _laid(own: OwnFloor, routed: _Routed) -> list[StoreyCircuit] | None:
    """Circuits from the entry, by piece, or ``None``."""
    found = []
    for number in range(len(routed.task.rooms)):
        circuit = _laid_piece(own, routed.task, routed.tails, number)
        if circuit is None:
            return None
        found.append(circuit)
    return found


def _task(own: OwnFloor, pieces: PieceRooms) -> StoreyTask:
    rooms = tuple(
        RoomTask(
            id=str(number),
            room=outlined(room),
            pipe_spacing=own.room.pipe_spacing,
            maximum_circuit_length=own.room.maximum_circuit_length,
            pattern=own.room.pattern,
            count=1,
            strip=own.strip,
        )
        for number, room in enumerate(pieces.plan.rooms)
    )
    return replace(own.task, plan=pieces.plan, rooms=rooms, manifold=pieces.manifold, further_manifolds=())


def _ports_go(own: OwnFloor) -> bool:
    return not own.inlet.corners and not own.routed.routes and not own.routed.unrouted


def _ports_stay(own: OwnFloor, pieces: PieceRooms, rules: TailRules) -> bool:
    """Whether the pairs at the entry of the pieces are those that come there; ports of a manifold that serves
    only this room go where its pieces have room for them."""
    middle = manifold_middle(pieces.plan, pieces.manifold, len(own.places), rules)[0]
    return _ports_go(own) or math.dist(middle, own.inlet.entry) < 1e-4


def _laid_piece(own: OwnFloor, sub: StoreyTask, tails: RoutedTails, number: int) -> StoreyCircuit | None:
    for floor in own_floors(sub, tails, number, own.memory):
        laid = laid_single(floor)
        if not laid.unplaced:
            return laid.circuits[0]
    return None


def _of_room(
    own: OwnFloor, request: DivisionRequest, circuits: Sequence[StoreyCircuit]
) -> Iterator[StoreyCircuit]:
    """The pieces' circuits under the names of the room's, each with its way from the manifold; the way through their
    own room to the piece heats that room, as it does where a room is divided."""
    for circuit in circuits:
        number = circuit.port - 1
        place = own.places[number]
        path, inside = circuit.path, circuit.path.length
        if own.inlet.corners or any(route.circuit == place.circuit for route in own.routed.routes):
            flow, back = own.tails[number]
            path = PipePath(flow.pieces + path.pieces + back.reversed().pieces)
        yield replace(
            circuit,
            id=place.circuit,
            room=own.index,
            port=own.port(number),
            path=path,
            field_length=inside,
            crossings=tuple(_crossings(request, path, number)),
        )


def _crossings(request: DivisionRequest, path: PipePath, number: int) -> Iterator[JointCrossing]:
    """Where the pipe of a circuit passes movement joints."""
    drawn = LineString(path.polyline(_CHORD_ERROR))
    for joint in request.joints:
        for x, y in shapely.get_coordinates(intersection(drawn, LineString(joint))).tolist():
            at = drawn.project(shapely.Point(x, y))
            (x0, y0), (x1, y1) = (drawn.interpolate(at + shift).coords[0] for shift in (-1e-3, 1e-3))
            length = math.dist((x0, y0), (x1, y1))
            yield JointCrossing(number, (x, y), ((x1 - x0) / length, (y1 - y0) / length))
