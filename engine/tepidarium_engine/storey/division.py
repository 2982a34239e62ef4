"""A room that needs several circuits, divided in pieces of equal pipe length, each with its pipe and its tails.

Movement joints divide first, then cuts along the room's main walls. The shares of area follow the lengths that
come out (a circuit that is too long gets less floor), while the shape of the tree of cuts stays as it is.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import shapely
from shapely import LineString, Polygon

from ..plan.entry import entry_at
from ..plan.laying import Refusal
from ..plan.pipe_zone import pipe_zone
from ..plan.polygons import RoomOutline
from .arrangement import Arrangement, Site, Stall, arranged
from .circuit_pipes import circuit_of, joint_crossings
from .cuts import CutTree, cut_trees, pieces_of
from .division_job import DivisionJob, division_job
from .division_records import MOST_CIRCUITS, DividedCircuit, DividedRoom, DivisionRequest, JointCrossing
from .fields import circuits_of_fields
from .inner_tails import Gate, Hallway
from .piece_domains import Spacing

__all__ = ["GOOD_SPREAD", "DividedCircuit", "DividedRoom", "DivisionRequest", "JointCrossing", "divided"]

GOOD_SPREAD = 0.03
"""Lengths of the circuits of a field that differ by no more of their mean are equal."""
_FILL = 0.93
"""Share of the greatest length that circuits are planned with."""
_FEEDBACK = 0.9
_ESTIMATES = 6
_TREES_LAID = 3
_ROUNDS = 3
_MOST_OFF = 0.04
_OTHERWISE = ((0.0, True), (1.0, True), (0.5, True), (1.0, False), (-0.5, True))
"""Ways to lay a circuit anew: share of what it is too long by that a wider spacing takes off, and whether
without spacing fit."""
_MORE = 3
"""More circuits tried where some are too long."""


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

    @property
    def reading(self) -> tuple[tuple[float, ...], ...]:
        """What tells plans apart that differ in the pieces."""
        boxes = (stall.piece.bounds for stall in self.arrangement.stalls)
        return tuple(tuple(round(number, 2) for number in box) for box in boxes)


@dataclass(frozen=True)
class _Outcome:
    """Circuits as laid, in order along the wall; ``lengths`` [m] with outer tails, by leaf."""

    plan: _Plan
    circuits: tuple[DividedCircuit, ...]
    lengths: tuple[float, ...]
    spread: float
    refusal: Refusal | None = None


class _Known:
    """What laid pipe was of its estimate, by leaf: pipe in whole rings makes lengths jump, so that what was
    laid for the most similar estimate tells most."""

    def __init__(self) -> None:
        self._laid: dict[int, list[tuple[float, float]]] = {}

    def learn(self, leaf: int, estimate: float, length: float) -> None:
        """Lengths in metres."""
        self._laid.setdefault(leaf, []).append((estimate, length / estimate))

    def factor(self, leaf: int, estimate: float) -> float:
        laid = self._laid.get(leaf)
        return 1.0 if not laid else min(laid, key=lambda one: abs(one[0] - estimate))[1]


def divided(room: RoomOutline, request: DivisionRequest) -> DividedRoom:
    """Divide a room in circuits of equal length, none longer than the greatest length asked for.

    The answer holds circuits that can be laid as drawn or a refusal: ``entry_too_narrow`` (the wall at the
    entry is too short for all pairs), ``too_few_circuits`` (fewer than fields between joints),
    ``too_many_circuits``, ``circuit_too_long`` (with the length that comes out and the greatest one),
    ``no_way_for_tails`` (no cut was found whose pieces all have a way to the entry), or what the laying of
    a piece refuses.
    """
    job = division_job(room, request)
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


def _counts(job: DivisionJob, more: int) -> list[int] | None:
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


def _site(job: DivisionJob, count: int) -> Site | Refusal:
    request = job.request
    width = (2 * count - 1) * request.tail_pitch
    place = job.local(request.entry)
    entry = entry_at(job.polygon, place, width)
    first, last = entry.ends
    there = math.dist(first, last)
    middle = ((first[0] + last[0]) / 2.0, (first[1] + last[1]) / 2.0)
    if abs(there - width) > 1e-6 or math.dist(middle, entry.place) > 1e-6:
        return Refusal("entry_too_narrow", request.entry, there, width)
    along = ((first[0] - last[0]) / there, (first[1] - last[1]) / there)
    gate = Gate(entry.place, along, entry.inward, request.tail_pitch, count)
    spacing = Spacing(request.pipe_spacing, request.wall_clearance, request.bend_radius, request.tail_pitch)
    zone = pipe_zone(job.polygon, request.pipe_spacing, request.wall_clearance, job.walls)
    return Site(
        job.polygon, Hallway(job.polygon, zone, gate, request.wall_clearance, spacing.lane_start), spacing
    )


def _divided_in(job: DivisionJob, counts: Sequence[int]) -> DividedRoom:
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
        crossings=tuple(joint_crossings(job, best.circuits)),
        spread=best.spread,
        bands=job.polygon.area - pieces,
        rounds=rounds,
        settled=best.spread <= GOOD_SPREAD,
    )


def _plans(job: DivisionJob, site: Site, counts: Sequence[int]) -> list[_Plan]:
    """The cheapest trees that can be arranged, with shares for which estimates come out equal."""
    spacing = job.request.pipe_spacing
    gate, radius = site.hallway.gate, job.request.bend_radius
    avoid = shapely.Point(gate.place).buffer((gate.count + 0.5) * gate.pitch + radius + 0.02)
    choices = [
        cut_trees(field, count, spacing, avoid) for field, count in zip(job.fields, counts, strict=True)
    ]
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
    unlike: dict[tuple[tuple[float, ...], ...], _Plan] = {}
    for _, _, plan in found:
        unlike.setdefault(plan.reading, plan)
    return [_balanced(job, site, plan, _Known()) for plan in list(unlike.values())[:_TREES_LAID]]


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


def _plan(
    job: DivisionJob, site: Site, trees: tuple[CutTree, ...], shares: tuple[float, ...]
) -> _Plan | None:
    pieces: list[Polygon] = []
    for tree, field in zip(trees, job.fields, strict=True):
        start = len(pieces)
        cut = pieces_of(tree, field, shares[start : start + tree.count])
        if cut is None:
            return None
        pieces += cut
    arrangement = arranged(site, pieces)
    return None if arrangement is None else _Plan(trees, shares, arrangement)


def _balanced(job: DivisionJob, site: Site, plan: _Plan, known: _Known) -> _Plan:
    """The plan with shares moved until the lengths expected are equal."""
    best, best_spread = plan, math.inf
    for _ in range(_ESTIMATES):
        lengths = _estimates(job, plan, known)
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


def _estimates(job: DivisionJob, plan: _Plan, known: _Known) -> list[float]:
    lengths = [0.0] * len(plan.shares)
    for stall in plan.arrangement.stalls:
        even = stall.estimate(job.request.pipe_spacing)
        lengths[stall.leaf] = known.factor(stall.leaf, even) * even + stall.tail_length
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


def _rounds(job: DivisionJob, site: Site, plan: _Plan) -> Iterator[_Outcome]:
    """The plan laid, and laid again with what the laid lengths tell, until lengths are equal."""
    known = _Known()
    for _ in range(_ROUNDS):
        outcome = _laid_out(job, site, plan)
        yield outcome
        if outcome.refusal is not None:
            break
        if outcome.spread > GOOD_SPREAD:
            evened = _evened(job, site, outcome)
            yield evened
            if evened.spread <= GOOD_SPREAD:
                return
        else:
            return
        for stall, circuit in zip(plan.arrangement.stalls, outcome.circuits, strict=True):
            known.learn(
                stall.leaf, stall.estimate(job.request.pipe_spacing), circuit.length - stall.tail_length
            )
        plan = _balanced(job, site, plan, known)


def _evened(job: DivisionJob, site: Site, outcome: _Outcome) -> _Outcome:
    """The outcome with circuits laid anew that are longer or shorter than the mean, at a spacing up to 4 % off
    the one asked for: pipe in whole rings does not take every length."""
    plan, circuits, lengths = outcome.plan, list(outcome.circuits), list(outcome.lengths)
    lanes = _lanes(plan)
    for start, end in zip(plan.starts, plan.starts[1:], strict=False):
        mean = sum(lengths[start:end]) / (end - start)
        for stall in plan.arrangement.stalls:
            off = lengths[stall.leaf] - mean
            if not start <= stall.leaf < end or abs(off) < GOOD_SPREAD / 4.0 * mean:
                continue
            own = circuits[stall.index].length - circuits[stall.index].tail_length
            for share, plain in _OTHERWISE:
                closer = min(max((own / (own - share * off)), 1.0 - _MOST_OFF), 1.0 + _MOST_OFF)
                found = circuit_of(job, site, stall, lanes(stall), closer, plain)
                if isinstance(found, Refusal) or not _covers(found, circuits[stall.index]):
                    continue
                length = found.length + 2.0 * job.request.outer_tail(stall.index)
                if abs(length - mean) < abs(lengths[stall.leaf] - mean):
                    circuits[stall.index], lengths[stall.leaf] = found, length
                if abs(length - mean) < GOOD_SPREAD / 4.0 * mean:
                    break
    return replace(outcome, circuits=tuple(circuits), lengths=tuple(lengths), spread=_spread(plan, lengths))


def _covers(new: DividedCircuit, old: DividedCircuit) -> bool:
    """Whether a pipe laid anew reaches as much floor, but for one part in a hundred."""
    if new.laid.check is None or old.laid.check is None:
        return False
    share = new.laid.check.measures.coverage_three_quarters
    return share >= min(0.985, old.laid.check.measures.coverage_three_quarters - 0.01)


def _laid_out(job: DivisionJob, site: Site, plan: _Plan) -> _Outcome:
    circuits = []
    lengths = [0.0] * len(plan.shares)
    lanes = _lanes(plan)
    for stall in plan.arrangement.stalls:
        circuit = circuit_of(job, site, stall, lanes(stall))
        if isinstance(circuit, Refusal):
            return _Outcome(plan, (), (), math.inf, circuit)
        circuits.append(circuit)
        lengths[stall.leaf] = circuit.length + 2.0 * job.request.outer_tail(stall.index)
    return _Outcome(plan, tuple(circuits), tuple(lengths), _spread(plan, lengths))


def _lanes(plan: _Plan) -> Callable[[Stall], list[LineString]]:
    """The lanes of all other circuits."""
    taken = [(stall.index, lane.line) for stall in plan.arrangement.stalls for lane in stall.tail.lanes]
    return lambda own: [line for index, line in taken if index != own.index and line.length > 1e-6]
