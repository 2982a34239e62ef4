"""A room that needs several circuits, divided in pieces of equal pipe length, each with its pipe and its tails.

Movement joints divide first, then cuts along the room's main walls. The shares of area follow the lengths that
come out (a circuit that is too long gets less floor), while the shape of the tree of cuts stays as it is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import shapely
from shapely import LineString, Polygon

from ..checking import Point
from ..plan.entry import entry_at
from ..plan.laying import Laid, LayingTask, Refusal, lay
from ..plan.pipe_path import PipePath
from ..plan.pipe_zone import pipe_zone
from ..plan.polygons import RoomOutline
from ..plan.room_frame import RoomFrame, room_frame
from .arrangement import Arrangement, Site, Stall, arranged
from .cuts import CutTree, cut_trees, pieces_of
from .division_records import MOST_CIRCUITS, DividedCircuit, DividedRoom, DivisionRequest, JointCrossing
from .fields import circuits_of_fields, joint_fields
from .inner_tails import Gate, Hallway
from .piece_domains import Spacing
from .pipe_ends import bent_lane, joined_ends
from .records import PairPlace

__all__ = ["GOOD_SPREAD", "DividedCircuit", "DividedRoom", "DivisionRequest", "JointCrossing", "divided"]

GOOD_SPREAD = 0.03
"""Lengths of the circuits of a field that differ by no more of their mean are equal."""
_FILL = 0.93
"""Share of the greatest length that circuits are planned with."""
_FEEDBACK = 0.9
_ESTIMATES = 6
_TREES_LAID = 3
_ROUNDS = 4
_MORE = 3
"""More circuits tried where some are too long."""


@dataclass(frozen=True)
class _Job:
    """A request in the room's own frame."""

    room: RoomOutline
    request: DivisionRequest
    frame: RoomFrame
    polygon: Polygon
    joints: tuple[LineString, ...]
    fields: tuple[Polygon, ...]


@dataclass(frozen=True)
class _Plan:
    """Trees of cuts, one for each field, with shares of area for all leaves."""

    trees: tuple[CutTree, ...]
    shares: tuple[float, ...]
    arrangement: Arrangement

    @property
    def starts(self) -> list[int]:
        """Number of the first leaf of each field, and of all."""
        return np.cumsum([0, *(tree.count for tree in self.trees)]).tolist()


@dataclass(frozen=True)
class _Outcome:
    """Circuits as laid, in order along the wall; ``lengths`` [m] with outer tails, by leaf."""

    plan: _Plan
    circuits: tuple[DividedCircuit, ...]
    lengths: tuple[float, ...]
    spread: float
    refusal: Refusal | None = None


def divided(room: RoomOutline, request: DivisionRequest) -> DividedRoom:
    """Divide a room in circuits of equal length, none longer than the greatest length asked for.

    The answer holds circuits that can be laid as drawn or a refusal: ``entry_too_narrow`` (the wall at the
    entry is too short for all pairs), ``too_few_circuits`` (fewer than fields between joints),
    ``too_many_circuits``, ``circuit_too_long`` (with the length that comes out and the greatest one),
    ``no_way_for_tails`` (no cut was found whose pieces all have a way to the entry), or what the laying of
    a piece refuses.
    """
    job = _job(room, request)
    refusal: Refusal | None = None
    for more in range(_MORE + 1 if request.count is None else 1):
        counts = _counts(job, more)
        if counts is None:
            return DividedRoom(refusal=Refusal("too_few_circuits", None, request.count, len(job.fields)))
        if sum(counts) > MOST_CIRCUITS:
            return DividedRoom(refusal=Refusal("too_many_circuits", None, sum(counts), MOST_CIRCUITS))
        found = _divided_in(job, counts)
        if found.refusal is None:
            return found
        refusal = refusal or found.refusal
        if found.refusal.code == "entry_too_narrow":
            break
    return DividedRoom(refusal=refusal)


def _job(room: RoomOutline, request: DivisionRequest) -> _Job:
    frame = room_frame(room.polygon)
    polygon = shapely.orient_polygons(frame.to_local(room.polygon))
    joints = tuple(LineString([_local(end, room, frame) for end in joint]) for joint in request.joints)
    segments = [(_end(joint, 0), _end(joint, -1)) for joint in joints]
    return _Job(room, request, frame, polygon, joints, tuple(joint_fields(polygon, segments)))


def _end(line: LineString, index: int) -> Point:
    x, y = line.coords[index][:2]
    return (x, y)


def _local(place: Point, room: RoomOutline, frame: RoomFrame) -> Point:
    x, y = frame.local_points(np.array([place]) - room.origin)[0].tolist()
    return (x, y)


def _counts(job: _Job, more: int) -> list[int] | None:
    request = job.request
    longest = request.maximum_circuit_length - 2.0 * request.outer_tail(0)
    if longest <= 0.0:
        return None
    return circuits_of_fields(
        job.fields,
        request.pipe_spacing,
        request.wall_clearance,
        _FILL * longest,
        request.count,
        more,
    )


def _site(job: _Job, count: int) -> Site | Refusal:
    request = job.request
    width = (2 * count - 1) * request.tail_pitch
    place = _local(request.entry, job.room, job.frame)
    entry = entry_at(job.polygon, place, width)
    first, last = entry.ends
    there = math.dist(first, last)
    middle = ((first[0] + last[0]) / 2.0, (first[1] + last[1]) / 2.0)
    if abs(there - width) > 1e-6 or math.dist(middle, entry.place) > 1e-6:
        return Refusal("entry_too_narrow", request.entry, there, width)
    along = ((first[0] - last[0]) / there, (first[1] - last[1]) / there)
    gate = Gate(entry.place, along, entry.inward, request.tail_pitch, count)
    spacing = Spacing(request.pipe_spacing, request.wall_clearance, request.bend_radius, request.tail_pitch)
    walls = [
        replace(
            wall,
            stretch=job.frame.to_local(shapely.transform(wall.stretch, lambda points: points - job.room.origin)),
        )
        for wall in request.walls
    ]
    zone = pipe_zone(job.polygon, request.pipe_spacing, request.wall_clearance, walls)
    return Site(job.polygon, Hallway(job.polygon, zone, gate, request.wall_clearance, spacing.lane_start), spacing)


def _divided_in(job: _Job, counts: Sequence[int]) -> DividedRoom:
    site = _site(job, sum(counts))
    if isinstance(site, Refusal):
        return DividedRoom(refusal=site)
    best: _Outcome | None = None
    refusal: Refusal | None = None
    rounds = 0
    for plan in _plans(job, site, counts):
        for outcome in _rounds(job, site, plan):
            rounds += 1
            if outcome.refusal is not None:
                refusal = refusal or outcome.refusal
            elif best is None or outcome.spread < best.spread:
                best = outcome
        if best is not None and best.spread <= GOOD_SPREAD:
            break
    if best is None:
        return DividedRoom(rounds=rounds, refusal=refusal or Refusal("no_way_for_tails"))
    limit = job.request.maximum_circuit_length
    if max(best.lengths) > limit:
        return DividedRoom(rounds=rounds, refusal=Refusal("circuit_too_long", None, max(best.lengths), limit))
    pieces = math.fsum(circuit.piece.area for circuit in best.circuits)
    return DividedRoom(
        circuits=best.circuits,
        crossings=tuple(_crossings(job, best.circuits)),
        spread=best.spread,
        bands=job.polygon.area - pieces,
        rounds=rounds,
        settled=best.spread <= GOOD_SPREAD,
    )


def _plans(job: _Job, site: Site, counts: Sequence[int]) -> list[_Plan]:
    """The cheapest trees that can be arranged, with shares for which estimates come out equal."""
    spacing = job.request.pipe_spacing
    choices = [cut_trees(field, count, spacing) for field, count in zip(job.fields, counts, strict=True)]
    found = []
    for trees in _combinations(choices):
        plan = _plan(job, site, trees, (1.0,) * sum(counts))
        if plan is not None:
            tails = sum(stall.tail_length for stall in plan.arrangement.stalls)
            total = sum(stall.estimate(spacing) for stall in plan.arrangement.stalls)
            cost = sum(tree.cost for tree in trees) + 4.0 * tails / total
            cost += 2.0 * sum(stall.cut_off for stall in plan.arrangement.stalls)
            found.append((round(cost, 6), len(found), plan))
    found.sort(key=lambda item: item[:2])
    return [_balanced(job, site, plan, None) for _, _, plan in found[:_TREES_LAID]]


def _combinations(choices: Sequence[Sequence[CutTree]]) -> Iterator[tuple[CutTree, ...]]:
    """One tree for each field: all for a single field, else the best with one of them varied at a time."""
    if len(choices) == 1:
        yield from product(choices[0])
        return
    if not all(choices):
        return
    first = tuple(trees[0] for trees in choices)
    yield first
    for index, trees in enumerate(choices):
        for tree in trees[1:4]:
            yield (*first[:index], tree, *first[index + 1 :])


def _plan(job: _Job, site: Site, trees: tuple[CutTree, ...], shares: tuple[float, ...]) -> _Plan | None:
    pieces: list[Polygon] = []
    for tree, field in zip(trees, job.fields, strict=True):
        start = len(pieces)
        cut = pieces_of(tree, field, shares[start : start + tree.count])
        if cut is None:
            return None
        pieces += cut
    arrangement = arranged(site, pieces)
    return None if arrangement is None else _Plan(trees, shares, arrangement)


def _balanced(job: _Job, site: Site, plan: _Plan, factors: Sequence[float] | None) -> _Plan:
    """The plan with shares moved until the estimated lengths are equal; ``factors``, by leaf, are what laid
    pipe was of its estimate."""
    best, best_spread = plan, math.inf
    for _ in range(_ESTIMATES):
        lengths = _estimates(job, plan, factors)
        spread = _spread(plan, lengths)
        if spread < best_spread:
            best, best_spread = plan, spread
        if spread < 0.003:
            break
        moved = _plan(job, site, plan.trees, _fed_back(plan, lengths))
        if moved is None:
            break
        plan = moved
    return best


def _estimates(job: _Job, plan: _Plan, factors: Sequence[float] | None) -> list[float]:
    lengths = [0.0] * len(plan.shares)
    for stall in plan.arrangement.stalls:
        factor = 1.0 if factors is None else factors[stall.leaf]
        lengths[stall.leaf] = factor * stall.estimate(job.request.pipe_spacing) + stall.tail_length
        lengths[stall.leaf] += 2.0 * job.request.outer_tail(stall.index)
    return lengths


def _fed_back(plan: _Plan, lengths: Sequence[float]) -> tuple[float, ...]:
    shares: list[float] = []
    for start, end in zip(plan.starts, plan.starts[1:], strict=False):
        mean = sum(lengths[start:end]) / (end - start)
        raw = [plan.shares[leaf] * (mean / lengths[leaf]) ** _FEEDBACK for leaf in range(start, end)]
        shares += [share * (end - start) / sum(raw) for share in raw]
    return tuple(shares)


def _spread(plan: _Plan, lengths: Sequence[float]) -> float:
    """The greatest over the fields."""
    spreads = []
    for start, end in zip(plan.starts, plan.starts[1:], strict=False):
        own = lengths[start:end]
        spreads.append((max(own) - min(own)) * len(own) / sum(own))
    return max(spreads)


def _rounds(job: _Job, site: Site, plan: _Plan) -> Iterator[_Outcome]:
    """The plan laid, and laid again with what the laid lengths tell, until lengths are equal."""
    for _ in range(_ROUNDS):
        outcome = _laid_out(job, site, plan)
        yield outcome
        if outcome.refusal is not None or outcome.spread <= GOOD_SPREAD / 2.0:
            return
        factors = [1.0] * len(plan.shares)
        for stall, circuit in zip(plan.arrangement.stalls, outcome.circuits, strict=True):
            estimate = stall.estimate(job.request.pipe_spacing)
            factors[stall.leaf] = (circuit.length - stall.tail_length) / estimate
        plan = _balanced(job, site, plan, factors)


def _laid_out(job: _Job, site: Site, plan: _Plan) -> _Outcome:
    circuits = []
    lengths = [0.0] * len(plan.shares)
    taken = [(stall.index, lane.line) for stall in plan.arrangement.stalls for lane in stall.tail.lanes]
    for stall in plan.arrangement.stalls:
        others = [line for index, line in taken if index != stall.index and line.length > 1e-6]
        circuit = _circuit(job, site, stall, others)
        if isinstance(circuit, Refusal):
            return _Outcome(plan, (), (), math.inf, circuit)
        circuits.append(circuit)
        lengths[stall.leaf] = circuit.length + 2.0 * job.request.outer_tail(stall.index)
    return _Outcome(plan, tuple(circuits), tuple(lengths), _spread(plan, lengths))


def _circuit(job: _Job, site: Site, stall: Stall, others: Sequence[LineString]) -> DividedCircuit | Refusal:
    laid = _laid(job, stall)
    if laid.path is None:
        return laid.refusal or Refusal("too_narrow")
    whole = _whole_pipe(job, stall, laid)
    if whole is None:
        return Refusal("no_way_for_tails", laid.entry.place)
    path, inside = whole
    piece = stall.piece
    if others:
        width = site.spacing.pitch / 2.0
        piece = shapely.difference(piece, shapely.union_all(shapely.buffer(others, width, cap_style="flat", join_style="mitre")))
        piece = max(shapely.get_parts(piece), key=lambda part: part.area)
    gate = site.hallway.gate
    return DividedCircuit(
        id=stall.index,
        piece=_outer_polygon(job, piece),
        laid=laid,
        path=path,
        length=path.length,
        tail_length=path.length - inside,
        place=PairPlace(_outer(job, gate.pair(stall.index)), _turned(job, gate.inward)),
    )


def _laid(job: _Job, stall: Stall) -> Laid:
    request = job.request
    polygon = _outer_polygon(job, stall.outline)
    low = (polygon.bounds[0], polygon.bounds[1])
    local = shapely.transform(polygon, lambda points: points - low)
    task = LayingTask(
        pipe_spacing=request.pipe_spacing,
        wall_clearance=request.wall_clearance,
        bend_radius=request.bend_radius,
        tail_pitch=request.tail_pitch,
        entry=_outer(job, stall.spot),
        pattern=request.pattern,
        quick=request.quick,
        outermost_pipe=request.outermost_pipe,
    )
    return lay(RoomOutline(shapely.orient_polygons(local), low), task)


def _whole_pipe(job: _Job, stall: Stall, laid: Laid) -> tuple[PipePath, float] | None:
    """The circuit's pipe from the entry and back, and how much of it is laid in the piece [m]."""
    assert laid.path is not None
    lanes = [bent_lane(_outer_points(job, lane.corners), job.request.bend_radius) for lane in stall.tail.lanes]
    if stall.tail_length < 1e-3:
        return laid.path, laid.path.length
    if lanes[0] is None or lanes[1] is None:
        return None
    # To the right of who looks into the piece lies the lane that is later along the outline.
    starts_right = math.dist(laid.path.start, laid.entry.ends[0]) < math.dist(laid.path.start, laid.entry.ends[1])
    tails = (lanes[1], lanes[0]) if starts_right else (lanes[0], lanes[1])
    return joined_ends(tails, laid.path, job.request.bend_radius, job.request.tail_pitch)


def _crossings(job: _Job, circuits: Sequence[DividedCircuit]) -> Iterator[JointCrossing]:
    for joint in job.joints:
        line = LineString(_outer_points(job, shapely.get_coordinates(joint)))
        for circuit in circuits:
            at = circuit.path.positions(1e-4, 0.05)
            drawn = LineString(circuit.path.points_at(at))
            met = shapely.get_coordinates(shapely.intersection(drawn, line)).tolist()
            for x, y in met:
                along = float(shapely.line_locate_point(drawn, shapely.Point(x, y)))
                _, ahead = circuit.path.poses_at(np.array([along]))
                yield JointCrossing(circuit.id, (x, y), (float(ahead[0, 0]), float(ahead[0, 1])))


def _outer_points(job: _Job, points: np.ndarray) -> np.ndarray:
    return job.frame.outer_points(points) + job.room.origin


def _outer(job: _Job, place: Point) -> Point:
    x, y = _outer_points(job, np.array([place]))[0].tolist()
    return (x, y)


def _outer_polygon(job: _Job, polygon: Polygon) -> Polygon:
    return shapely.transform(polygon, lambda points: _outer_points(job, points))


def _turned(job: _Job, direction: Point) -> Point:
    (x, y), (c, s) = direction, job.frame.axis
    return (c * x - s * y, s * x + c * y)
