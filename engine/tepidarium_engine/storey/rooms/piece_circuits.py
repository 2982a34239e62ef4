"""Several circuits of a room in pieces that are reached through each other."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import takewhile
from typing import NamedTuple

from ...errors import InvariantError, required
from ...plan.laying.laying import Refusal
from ...plan.outlines.polygons import RoomOutline
from ..division.division_job import DivisionJob, division_job
from ..division.division_plans import GOOD_SPREAD
from ..division.fields import FULL
from ..lanes.tail_order import manifold_middle, slots
from ..lanes.tail_routes import TooMuchWorkError, routed_tails
from ..model.division_records import DividedCircuit, DividedRoom, DivisionRequest
from ..model.layout_records import RoomTask, StoreyTask
from ..model.records import PairPlace
from ..model.tail_records import RoutedTails, TailDemand, TailRules
from .field_circuits import laid_single, single_pipe
from .own_floor import OwnFloor, own_floors
from .piece_rooms import PieceRooms, piece_rooms

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


def laid_in_pieces(
    own: OwnFloor, request: DivisionRequest, *, last: bool, most_fields: float = math.inf
) -> DividedRoom | None:
    """The room's circuits, as equal in length as a few rounds make them; ``None`` where some cannot be laid.

    Refused with ``circuit_too_long`` where they would be on average; not all of them is laid then, only to take one
    circuit more, unless this is the ``last`` number of them. After so ``most_fields`` of the room, in all rounds, no
    further way to cut it is looked for.
    """
    key = (
        *own.remembered(replace(request, outer_tail_lengths=0.0)),
        own.inlet.ahead,
        _ports_go(own, request),
    )
    known = own.memory.get(key)
    if known is None:
        known = _even(_Work(own, request, most_fields, Counter()), last) or DividedRoom()
        if known.refusal is not None:
            return known
        own.memory[key] = known
    if not isinstance(known, DividedRoom):
        raise InvariantError("rooms in pieces must be remembered under their request")
    return known if known.circuits else None


def _even(work: _Work, last: bool) -> DividedRoom | None:
    """The circuits from the entry, of the way to cut the room that makes them most equal, or the refusal."""
    own, request = work.own, work.request
    job = division_job(own.outline, request)
    ways, rounds = (1, 1) if work.done else (_WAYS, _ROUNDS)
    limit = request.maximum_circuit_length
    outside = 0.0 if last else _outside(request)
    longest = limit if last else FULL * limit - outside
    best: _Laid | None = None
    tried = 0
    cuts = piece_rooms(job, PairPlace(own.inlet.entry, own.inlet.ahead))
    for found in takewhile(lambda _: not own.lanes.exhausted, cuts):
        balanced = _balanced(own, found)
        if not balanced:
            continue
        if _longest_mean(balanced[0]) > longest:
            if best is None:
                length = _longest_mean(balanced[0]) + outside
                refusal = Refusal("circuit_too_long", None, length, limit)
                return DividedRoom(refusal=refusal, in_pieces=True, too_few=not last)
            continue
        tried += 1
        each = (_best_laid(own, pieces, rounds, work) for pieces in balanced if not work.hopeless)
        laid = next((one for one in each if one is not None), None)
        if laid is not None and (best is None or laid.badness < best.badness):
            best = laid
        if best is None and work.hopeless:
            break
        enough = tried == ways or work.done or (best is not None and best.mean > longest)
        even = _QUICK_SPREAD if request.quick else _EVEN_ENOUGH
        if best is not None and (best.badness <= (False, even) or enough):
            break
    return None if best is None else _answer(job, best)


class _Work(NamedTuple):
    """How often all pieces of the room were laid, in terms of fields that were. The search for more equal lengths ends
    before the last round of a request, that for any pieces after one more; a quick one takes half as many.
    ``refused``: how often each piece, by number, could not be laid; the next cut is begun with such a one."""

    own: OwnFloor
    request: DivisionRequest
    most_fields: float
    refused: Counter[int]

    @property
    def done(self) -> bool:
        return len(self.own.memory) >= min(_MOST_LAID, self.most_fields) or self._rounds >= self._most - 1

    @property
    def hopeless(self) -> bool:
        return self._rounds >= self._most + 1 or len(self.own.memory) >= self.most_fields

    @property
    def _rounds(self) -> float:
        laid = len(self.own.memory) / len(self.own.places)
        return 2.0 * laid if self.request.quick else laid

    @property
    def _most(self) -> float:
        return math.inf if self.request.most_rounds is None else self.request.most_rounds


class _Laid(NamedTuple):
    """Circuits as laid, by piece: whether one is too long, and the spread of their lengths."""

    badness: tuple[bool, float]
    pieces: PieceRooms
    circuits: list[DividedCircuit]

    @property
    def mean(self) -> float:
        """Of lengths from the entry [m]."""
        return math.fsum(circuit.length for circuit in self.circuits) / len(self.circuits)


def _answer(job: DivisionJob, laid: _Laid) -> DividedRoom:
    wholes = [circuit.length + 2.0 * job.request.outer_tail(circuit.id) for circuit in laid.circuits]
    circuits = tuple(sorted(laid.circuits, key=lambda circuit: circuit.id))
    spread = laid.pieces.spread(wholes)
    return DividedRoom(
        circuits=circuits,
        spread=spread,
        bands=job.polygon.area - math.fsum(circuit.piece.area for circuit in circuits),
        settled=spread <= GOOD_SPREAD,
        in_pieces=True,
    )


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
        moved = _cut_anew(own, routed, routed.expected)
        routed = None if moved is None or moved.pieces.keeps(routed.pieces) else moved
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


def _outside(request: DivisionRequest) -> float:
    """Mean length of the tails before the entry, both ways [m]."""
    count = required(request.count, "the number of pieces")
    return 2.0 * sum(map(request.outer_tail, range(count))) / count


def _best_laid(own: OwnFloor, routed: _Routed, rounds: int, work: _Work) -> _Laid | None:
    """Laid, and laid again with what the lengths tell; ``None`` where a piece cannot be laid. A quick one is laid again
    only where one circuit is too long."""
    best: _Laid | None = None
    tried: _Routed | None = routed
    for _ in range(rounds):
        circuits = None if tried is None else _laid(own, tried, work.refused)
        if tried is None or circuits is None:
            break
        lengths = [circuit.length for circuit in circuits]
        spread = tried.pieces.spread(lengths)
        too_long = _longest(tried, circuits) > own.room.maximum_circuit_length + 1e-6
        laid = _Laid((too_long, spread), tried.pieces, circuits)
        if best is None or laid.badness < best.badness:
            best = laid
        enough = math.inf if work.request.quick else _EVEN_ENOUGH
        if best.badness <= (False, enough) or (work.request.most_rounds and work.done):
            break
        tried = _cut_anew(own, tried, lengths)
    return best


def _longest(routed: _Routed, circuits: Sequence[DividedCircuit]) -> float:
    """Of the circuits with their tails before the entry [m]."""
    outer = routed.pieces.job.request.outer_tail
    return max(circuit.length + 2.0 * outer(circuit.id) for circuit in circuits)


def _routed(own: OwnFloor, pieces: PieceRooms) -> _Routed | None:
    """The tails to all pieces; ``None`` where there are none, or too many ways were looked for."""
    sub = _task(own, pieces)
    if not _ports_stay(own, pieces, TailRules(sub.tail_pitch, sub.wall_clearance, sub.bend_radius)):
        return None
    demands = [TailDemand(room.id, number) for number, room in enumerate(sub.rooms)]
    try:
        tails = routed_tails(
            sub.plan,
            sub.manifold,
            demands,
            tail_pitch=sub.tail_pitch,
            wall_clearance=sub.wall_clearance,
            bend_radius=sub.bend_radius,
            memory=own.lanes,
            all_or_none=True,
        )
    except TooMuchWorkError:
        return None
    return None if tails.unrouted else _Routed(pieces, sub, tails, pieces.expected(tails))


def _laid(own: OwnFloor, routed: _Routed, refused: Counter[int]) -> list[DividedCircuit] | None:
    """Circuits from the entry, by piece, or ``None``."""
    found: dict[int, DividedCircuit] = {}
    for number in sorted(range(len(routed.task.rooms)), key=lambda each: -refused[each]):
        circuit = _laid_piece(own, routed, number)
        if circuit is None:
            refused[number] += 1
            return None
        found[number] = circuit
    return [found[number] for number in sorted(found)]


def _task(own: OwnFloor, pieces: PieceRooms) -> StoreyTask:
    rooms = tuple(
        RoomTask(
            id=str(number),
            room=RoomOutline.of(room),
            pipe_spacing=own.room.pipe_spacing,
            maximum_circuit_length=own.room.maximum_circuit_length,
            pattern=own.room.pattern,
            count=1,
            strip=own.strip,
            outermost_pipe=own.room.outermost_pipe,
        )
        for number, room in enumerate(pieces.plan.rooms)
    )
    return replace(own.task, plan=pieces.plan, rooms=rooms, manifold=pieces.manifold, further_manifolds=())


def _ports_go(own: OwnFloor, request: DivisionRequest) -> bool:
    """Whether pairs come in at ports that may stand elsewhere along the wall."""
    from_others = own.inlet.corners or own.routed.routes or own.routed.unrouted
    return not from_others and not request.entry_stays


def _ports_stay(own: OwnFloor, pieces: PieceRooms, rules: TailRules) -> bool:
    """Whether the pairs at the entry of the pieces are those that come there; ports of a manifold that serves
    only this room go where its pieces have room for them."""
    middle = manifold_middle(pieces.plan, pieces.manifold, len(own.places), rules)[0]
    return _ports_go(own, pieces.job.request) or math.dist(middle, own.inlet.entry) < 1e-4


def _laid_piece(own: OwnFloor, routed: _Routed, number: int) -> DividedCircuit | None:
    sub = routed.task
    for floor in own_floors(sub, routed.tails, number, own.memory):
        laid = laid_single(floor)
        if single_pipe(floor).path is None:
            break
        if not laid.unplaced:
            (circuit,) = laid.circuits
            count, rules = len(sub.rooms), TailRules(sub.tail_pitch, sub.wall_clearance, sub.bend_radius)
            # Ports count from the right, circuits of a divided room from the left.
            place, ahead = sub.manifold.place, sub.manifold.ahead
            return DividedCircuit(
                id=count - circuit.port,
                piece=circuit.floor,
                outline=circuit.floor,
                laid=single_pipe(floor),
                path=circuit.path,
                length=circuit.path.length,
                tail_length=circuit.tail_length,
                place=PairPlace(slots(place, ahead, count, rules)[circuit.port - 1], ahead),
            )
    return None
