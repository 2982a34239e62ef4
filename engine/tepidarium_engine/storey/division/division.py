"""A room that needs several circuits, divided in pieces of equal pipe length, each with its pipe and its tails.

Movement joints divide first, then cuts along the room's main walls. The shares of area follow the lengths that
come out (a circuit that is too long gets less floor), while the shape of the tree of cuts stays as it is.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.joining.entry import entry_at
from ...plan.judging.route_faults import ENTRY_TOLERANCE, LEAST_PIPE_DISTANCE
from ...plan.laying.laying import Refusal
from ...plan.outlines.loops import loop_of
from ...plan.outlines.overlays import intersection
from ...plan.outlines.pipe_zone import pipe_zone
from ...plan.outlines.polygons import RoomOutline, interior_width
from ..judging.storey_judge import crowding, fault_of, least_apart
from ..model.division_records import (
    MOST_CIRCUITS,
    DividedCircuit,
    DividedRoom,
    DivisionRequest,
    JointCrossing,
)
from .arrangement import Site
from .circuit_pipes import joint_crossings
from .division_job import DivisionJob, division_job
from .division_plans import GOOD_SPREAD, DivisionPlan, division_plans
from .division_rounds import Outcome, Rounds
from .fields import FULL, circuits_of_fields, more_circuits
from .inner_tails import Gate, Hallway
from .piece_domains import Spacing

__all__ = [
    "GOOD_SPREAD",
    "DividedCircuit",
    "DividedRoom",
    "DivisionRequest",
    "JointCrossing",
    "divided",
    "gates_at_entry",
    "judged",
]

_CURVED = 0.9
"""Of a wall behind the pipes at the entry: its depth in terms of the wall clearance, which is left for them to turn."""
_TO_WALL = 0.5
"""How far a curved wall is looked for behind the pipes at an entry [m]."""
_AT_END = 1e-6
"""So near to the end of the pipes at the entry a wall may turn [m]."""
_FILL = 0.93
"""Share of the greatest length that circuits are planned with."""
_ROUNDS, _QUICK_ROUNDS = 8, 3
"""Of laying all circuits, after which the best so far is taken, equal or not. In 52 storeys laid quickly 8 rounds made
no lengths more equal than 2; in 26 others 8 did once, and rooms with a closer strip take 5."""
_QUICK_SPREAD = 0.05
"""With which a quick division is done."""
_PATIENCE = 0.01
"""By how much more lengths may spread after each plan that was tried."""
_TRIES = 4
"""Numbers of circuits tried, each with one more in the field whose circuits were the longest."""
_NO_WAY = 2
"""Numbers of circuits without a way for tails after which no more are tried: of 40 rooms without a way for the first
number, 2 had one for the second, none for the third or fourth."""


def divided(room: RoomOutline, request: DivisionRequest) -> DividedRoom:
    """Divide a room in circuits of equal length, none longer than the greatest length asked for.

    The answer holds circuits that can be laid as drawn or a refusal: ``entry_too_narrow`` (the wall on both sides
    of the entry is too short for all pairs), ``field_too_narrow`` (between joints), ``joint_at_entry``,
    ``too_few_circuits`` (fewer than fields between joints), ``too_many_circuits``, ``circuit_too_long`` (with the
    length that comes out and the greatest one), ``no_way_for_tails`` (no cut was found whose pieces all have a way
    to the entry), ``circuits_too_near`` or another fault that the judge finds in the drawing, or what the laying of
    a piece refuses.
    """
    job = division_job(room, request)
    outside = 2.0 * min(request.outer_tail(index) for index in range(MOST_CIRCUITS))
    if outside >= request.maximum_circuit_length:
        return DividedRoom(
            refusal=Refusal("circuit_too_long", request.entry, outside, request.maximum_circuit_length)
        )
    narrow = _narrow_field(job)
    if narrow is not None:
        return DividedRoom(refusal=narrow)
    counts = _counts(job)
    if counts is None:
        return DividedRoom(refusal=Refusal("too_few_circuits", None, request.count, len(job.fields)))
    refusal: Refusal | None = None
    left, no_way = (
        request.most_rounds or (_QUICK_ROUNDS if request.quick and request.strip is None else _ROUNDS),
        0,
    )
    for _ in range(1 if request.count is not None else _TRIES):
        if sum(counts) > request.most_circuits:
            return DividedRoom(refusal=Refusal("too_many_circuits", None, sum(counts), request.most_circuits))
        found, fullest = _divided_in(job, counts, max(1, left))
        left -= found.rounds
        if found.refusal is None:
            return found
        # One that is too long calls for more circuits: what is in their way says more.
        refusal = found.refusal if refusal is None or refusal.code == "circuit_too_long" else refusal
        no_way += found.refusal.code == "no_way_for_tails"
        in_vain = left <= 0 and found.refusal.code != "circuit_too_long"
        if found.refusal.code == "entry_too_narrow" or no_way == _NO_WAY or in_vain:
            break
        counts[fullest] += _more(counts[fullest], found.refusal)
    return DividedRoom(refusal=refusal)


def _more(count: int, refusal: Refusal) -> int:
    """Circuits that a field takes beside those for which it was refused: as many as the length calls for."""
    if refusal.code != "circuit_too_long" or refusal.value is None or refusal.limit is None:
        return 1
    return more_circuits(count, refusal.value, refusal.limit) - count


def judged(found: DividedRoom, request: DivisionRequest) -> DividedRoom:
    """The room as divided, or refused where its pipes do not pass the judge together."""
    least = least_apart(request.pipe_spacing, request.tail_pitch)
    for circuit in found.circuits:
        fault = fault_of(circuit.path, request.bend_radius, least)
        if fault is not None:
            return DividedRoom(refusal=Refusal(fault[0], fault[1]))
    near = crowding([circuit.path for circuit in found.circuits], least)
    if near:
        return DividedRoom(refusal=Refusal("circuits_too_near", near[0].place, near[0].distance, least))
    return found


def _narrow_field(job: DivisionJob) -> Refusal | None:
    """A field between joints, or joint and wall, in which pipe there and back finds no place."""
    needed = 2.0 * job.request.wall_clearance + LEAST_PIPE_DISTANCE * job.request.pipe_spacing
    for field in job.fields if len(job.fields) > 1 else ():
        if shapely.buffer(field, -needed / 2.0).is_empty:
            inside = shapely.point_on_surface(field)
            return Refusal("field_too_narrow", job.outer((inside.x, inside.y)), interior_width(field), needed)
    return None


def _no_way(job: DivisionJob, site: Site) -> Refusal:
    """Why no tree of cuts leaves tails a way: a joint that meets the wall where the pipes come in, or the room."""
    gate = site.hallway.gate
    width = (2 * gate.count - 1) * gate.pitch / 2.0
    needed = width + job.request.bend_radius + gate.pitch
    away = min(
        (float(shapely.distance(joint, shapely.Point(gate.place))) for joint in job.joints), default=math.inf
    )
    return (
        Refusal("joint_at_entry", job.request.entry, away, needed)
        if away < needed
        else Refusal("no_way_for_tails")
    )


def _counts(job: DivisionJob) -> list[int] | None:
    request = job.request
    outer = request.outer_tail_lengths
    longest = max(outer) if isinstance(outer, tuple) and outer else request.outer_tail(0)
    return circuits_of_fields(
        job.fields,
        request.pipe_spacing,
        request.wall_clearance,
        _FILL * max(1.0, request.maximum_circuit_length - 2.0 * longest),
        request.count,
    )


def gates_at_entry(job: DivisionJob, count: int) -> Iterator[Gate | Refusal]:
    """Where all pairs may stand side by side, in the room's own frame: at the entry, and where the request permits that
    beside it, so far off a corner that pipes turn twice before it."""
    request = job.request
    width = (2 * count - 1) * request.tail_pitch
    yield _gate(job, count, width, ENTRY_TOLERANCE)
    off_wall = request.wall_clearance + request.tail_pitch / 2.0
    for aside in (off_wall, off_wall + 2.0 * request.bend_radius, 0.0):
        if request.entry_shift > 0.0:
            stretch = width + 2.0 * aside
            yield _gate(job, count, stretch, request.entry_shift * stretch)


def _gate(job: DivisionJob, count: int, stretch: float, most: float) -> Gate | Refusal:
    """All pairs in the middle of a stretch of wall [m], at most so far along the outline [m]: side by side on a
    straight line before a wall that is curved by little."""
    request, place = job.request, job.local(job.request.entry)
    outline, entry = loop_of(job.polygon), entry_at(job.polygon, place, stretch)
    first, last = entry.ends
    there = math.dist(first, last)
    at = outline.project(entry.place)
    wall = outline.stretch(at - stretch / 2.0, at + stretch / 2.0)
    depths = (wall - last) @ np.array(entry.inward)
    bends = (outline.bends - at + stretch / 2.0) % outline.length
    curved = float(np.ptp(depths)) > _CURVED * request.wall_clearance
    if curved or bool(((bends > _AT_END) & (bends < stretch - _AT_END)).any()):
        return Refusal("entry_too_narrow", request.entry, there, stretch)
    moved = abs(at - outline.project(place))
    moved = min(moved, outline.length - moved)
    if moved > most:
        return Refusal("entry_too_narrow", request.entry, max(0.0, stretch - 2.0 * moved), stretch)
    along = ((first[0] - last[0]) / there, (first[1] - last[1]) / there)
    deep, (ix, iy) = float(depths.max()) + stretch - there, entry.inward
    middle = ((first[0] + last[0]) / 2.0 + deep * ix, (first[1] + last[1]) / 2.0 + deep * iy)
    if math.dist(middle, entry.place) < _AT_END:
        return Gate(entry.place, along, entry.inward, request.tail_pitch, count)
    gate = Gate(middle, along, entry.inward, request.tail_pitch, count)
    pipes = (pipe for index in range(count) for pipe in gate.pipes(index))
    return replace(gate, behind=tuple(_way_back(pipe, gate.inward, job.polygon) for pipe in pipes))


def _way_back(place: Point, inward: Point, room: Polygon) -> float:
    """From a place to the wall behind it [m]."""
    back = LineString([place, (place[0] - _TO_WALL * inward[0], place[1] - _TO_WALL * inward[1])])
    met = intersection(back, room.exterior)
    return 0.0 if met.is_empty else float(shapely.distance(shapely.Point(place), met))


def _site(job: DivisionJob, gate: Gate) -> Site:
    request = job.request
    spacing = Spacing(request.pipe_spacing, request.wall_clearance, request.bend_radius, request.tail_pitch)
    zone = pipe_zone(job.polygon, request.pipe_spacing, request.wall_clearance, job.walls)
    hallway = Hallway(job.polygon, zone, gate, request.wall_clearance, spacing.lane_start)
    return Site(job.polygon, hallway, spacing, job.joints)


def _divided_in(job: DivisionJob, counts: Sequence[int], most_rounds: int) -> tuple[DividedRoom, int]:
    """The room divided in so many circuits a field, and the field with the longest ones."""
    fullest = max(range(len(counts)), key=lambda index: (job.fields[index].area / counts[index], -index))
    narrow: Refusal | None = None
    tried: dict[Gate, tuple[DividedRoom, int]] = {}
    for gate in gates_at_entry(job, sum(counts)):
        if isinstance(gate, Refusal):
            narrow = narrow or gate
        elif gate not in tried:
            found, longest = _divided_at(job, gate, counts, most_rounds)
            tried[gate] = found, fullest if longest is None else longest
            no_way = found.refusal is not None and found.refusal.code == "no_way_for_tails"
            if not no_way or found.rounds:
                return tried[gate]
    return next(iter(tried.values()), (DividedRoom(refusal=narrow), fullest))


def _divided_at(
    job: DivisionJob, gate: Gate, counts: Sequence[int], most_rounds: int
) -> tuple[DividedRoom, int | None]:
    """The room divided with its pipes at a gate, and the field with circuits that are too long."""
    site = _site(job, gate)
    limit = job.request.maximum_circuit_length
    plans = _ShortEnough(job, division_plans(job, site, counts))
    best, rounds, refusal = _best(job, site, plans, most_rounds)
    if best is None:
        if not plans.any and plans.shortest is not None:
            refusal = Refusal("circuit_too_long", None, plans.shortest[0], limit)
            return DividedRoom(rounds=rounds, refusal=refusal), plans.shortest[1]
        return DividedRoom(rounds=rounds, refusal=refusal or _no_way(job, site)), None
    if max(best.lengths) > limit:
        leaf = max(range(len(best.lengths)), key=lambda index: best.lengths[index])
        too_long = Refusal("circuit_too_long", None, best.lengths[leaf], limit)
        return DividedRoom(rounds=rounds, refusal=too_long), best.plan.field_of(leaf)
    return _answer(job, best, rounds), None


class _ShortEnough:
    """Plans from the first one on whose circuits can be short enough."""

    def __init__(self, job: DivisionJob, plans: Iterable[DivisionPlan]) -> None:
        self._job, self._plans = job, plans
        self.any = False
        self.shortest: tuple[float, int] | None = None
        """Of the plans before: the longest mean length expected in a field [m], and the number of the field."""

    def __iter__(self) -> Iterator[DivisionPlan]:
        request = self._job.request
        limit = request.maximum_circuit_length * (1.0 if request.count is not None else FULL)
        waiting: list[DivisionPlan] = []
        for plan in self._plans:
            longest = plan.longest_field(self._job)
            self.any = self.any or longest[0] <= limit
            if self.any:
                yield from (*waiting, plan)
                waiting = []
            else:
                waiting.append(plan)
                self.shortest = longest if self.shortest is None else min(longest, self.shortest)


def _best(
    job: DivisionJob, site: Site, plans: Iterable[DivisionPlan], most_rounds: int
) -> tuple[Outcome | None, int, Refusal | None]:
    """The most even of the plans as laid, the rounds that it took, and the first refusal."""
    limit = job.request.maximum_circuit_length
    best: Outcome | None = None
    refusal: Refusal | None = None
    rounds, makes = 0, Rounds(job, site)
    enough = _QUICK_SPREAD if job.request.quick else GOOD_SPREAD
    for number, plan in enumerate(makes.hopeful(plans)):
        for outcome in makes.laid(plan):
            rounds += 1
            fault = outcome.refusal
            if fault is None and (best is None or outcome.badness(limit) < best.badness(limit)):
                fault = judged(_answer(job, outcome, rounds), job.request).refusal
                best = best if fault else outcome
            refusal = refusal or fault
            if best is not None and (rounds >= most_rounds or max(best.plan.means(best.lengths)) > limit):
                return best, rounds, refusal
            if fault is not None:
                break
        if best is not None and best.badness(limit) <= (False, False, enough + number * _PATIENCE):
            break
    return best, rounds, refusal


def _answer(job: DivisionJob, best: Outcome, rounds: int) -> DividedRoom:
    pieces = math.fsum(circuit.piece.area for circuit in best.circuits)
    return DividedRoom(
        circuits=best.circuits,
        crossings=tuple(joint_crossings(job, best.circuits)),
        spread=best.spread,
        bands=job.polygon.area - pieces,
        rounds=rounds,
        settled=best.spread <= GOOD_SPREAD,
    )
