"""Ways to divide a room: trees of cuts with shares of the area that make the lengths expected equal."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, islice, pairwise, product
from typing import TypeAlias

import shapely
from shapely import Polygon

from ...queues import Queue
from .arrangement import Arrangement, Reached, Site, Stall, arranged, reached
from .cuts import CutTree, cut_trees, pieces_of_fields, varied_trees
from .division_job import DivisionJob

__all__ = ["GOOD_SPREAD", "DivisionPlan", "Expected", "balanced", "division_plans", "spread_of"]

GOOD_SPREAD = 0.03
"""Lengths of the circuits of a field that differ by no more of their mean are equal."""
_LAID_SHARE = 0.98
"""Pipe laid, in terms of served area over spacing: bends and the middle of rings take a little less."""
_LEAST = 1.0
"""Of what is asked of a piece [m]."""
_LEAST_SHARE = 0.2
"""Of a piece, in terms of equal ones."""
_ESTIMATES = 6
_PATIENCE = 1
_TAILS, _CUT_OFF = 4.0, 2.0
"""Cost of tails by their share of the pipe, and of floor that they cut off, a square metre."""
_EQUAL = 0.012
"""Spread of lengths expected from which shares are not moved any more: pipe differs from its rings by as much."""
_TREES_BALANCED = 5
_TREES_VARIED = 3
_TREES_LAID = 3
"""Trees whose shares are moved by estimates, that stand in for the best of one field, and whose circuits are laid."""


_Reading: TypeAlias = tuple[tuple[float, ...], ...]
Expected: TypeAlias = Callable[[Stall, float], float]
"""Pipe in a piece that is to have a length [m], both without tails."""


@dataclass(frozen=True)
class DivisionPlan:
    """Trees of cuts, one for each field, with shares of area for all leaves."""

    trees: tuple[CutTree, ...]
    shares: tuple[float, ...]
    arrangement: Arrangement

    @property
    def starts(self) -> list[int]:
        """Number of the first leaf of each field, and of all."""
        return list(accumulate((tree.count for tree in self.trees), initial=0))

    def means(self, lengths: Sequence[float]) -> list[float]:
        """Mean length of the field of each leaf [m]."""
        means: list[float] = []
        for start, end in pairwise(self.starts):
            means += [sum(lengths[start:end]) / (end - start)] * (end - start)
        return means

    def field_of(self, leaf: int) -> int:
        """Number of the field that a leaf is in."""
        return next(field for field, end in enumerate(self.starts[1:]) if leaf < end)

    def longest_field(self, job: DivisionJob) -> tuple[float, int]:
        """The greatest mean of the lengths expected in a field [m], and the number of the field."""
        means = self.means(_estimates(job, self, _evenly(job)))
        leaf = max(range(len(means)), key=lambda index: means[index])
        return round(means[leaf], 6), self.field_of(leaf)


def division_plans(job: DivisionJob, site: Site, counts: Sequence[int]) -> Iterator[DivisionPlan]:
    """The cheapest trees that can be arranged, with shares for which estimates come out equal; those first for
    which they do, each made only when it is asked for."""
    uneven: list[tuple[int, int, DivisionPlan]] = []
    given = 0
    for number, plan in enumerate(islice(_cheapest(job, site, counts), _TREES_BALANCED)):
        even, spread = balanced(job, site, plan, _evenly(job))
        unevenness = max(0, round(spread / GOOD_SPREAD - 0.5))
        if unevenness:
            uneven.append((unevenness, number, even))
            continue
        yield even
        given += 1
        if given == _TREES_LAID:
            return
    uneven.sort(key=lambda item: item[:2])
    yield from (plan for _, _, plan in uneven[: _TREES_LAID - given])


@dataclass(frozen=True)
class _Way:
    """Trees of cuts with what is known of them: at first their own cost, then the tails, at last the whole plan."""

    trees: tuple[CutTree, ...]
    cost: float
    ways: Reached | None = None
    plan: DivisionPlan | None = None


def _cheapest(job: DivisionJob, site: Site, counts: Sequence[int]) -> Iterator[DivisionPlan]:
    """Plans with equal shares, cheapest first. Cuts cost less than cuts and tails, and these less than the plan, so
    that of each no more is made than may come before what is known of the others."""
    gate = site.hallway.gate
    avoid = shapely.Point(gate.place).buffer((gate.count + 0.5) * gate.pitch + job.request.bend_radius + 0.02)
    walls = shapely.buffer(job.polygon.exterior, 1e-6)
    choices = [
        cut_trees(field, count, job.request.pipe_spacing, avoid, walls)
        for field, count in zip(job.fields, counts, strict=True)
    ]
    waiting: Queue[tuple[int, _Way]] = Queue()
    for number, trees in enumerate(_combinations(choices)):
        waiting.push((sum(tree.cost for tree in trees), number), (number, _Way(trees, 0.0)))
    seen: set[_Reading] = set()
    while waiting:
        number, way = waiting.pop()
        if way.plan is not None:
            yield way.plan
            continue
        known = _better_known(job, site, way, seen)
        if known is not None:
            waiting.push((known.cost, number), (number, known))


def _better_known(job: DivisionJob, site: Site, way: _Way, seen: set[_Reading]) -> _Way | None:
    """The way with its tails, or arranged; None where that cannot be done, or pieces are those of one before."""
    shares = (1.0,) * sum(tree.count for tree in way.trees)
    cuts = sum(tree.cost for tree in way.trees)
    spacing = job.request.pipe_spacing
    if way.ways is None:
        pieces = pieces_of_fields(way.trees, job.fields, shares)
        reading = _reading(pieces or ())
        if pieces is None or reading in seen:
            return None
        seen.add(reading)
        ways = reached(site, pieces)
        if ways is None:
            return None
        tails = _TAILS * ways.tail_length * spacing / job.polygon.area
        return _Way(way.trees, round(cuts + tails, 6), ways)
    arrangement = arranged(site, way.ways)
    if arrangement is None:
        return None
    stalls = arrangement.stalls
    tails = (
        _TAILS * sum(stall.tail_length for stall in stalls) / sum(stall.estimate(spacing) for stall in stalls)
    )
    cost = cuts + tails + _CUT_OFF * sum(stall.cut_off for stall in stalls)
    return _Way(way.trees, round(cost, 6), way.ways, DivisionPlan(way.trees, shares, arrangement))


def _reading(pieces: Sequence[Polygon]) -> _Reading:
    """What tells plans apart that differ in the pieces."""
    return tuple(sorted(tuple(round(number, 2) for number in piece.bounds) for piece in pieces))


def _evenly(job: DivisionJob) -> Expected:
    """Lengths [m] by the area served."""
    return lambda stall, _: _LAID_SHARE * stall.estimate(job.request.pipe_spacing)


def _combinations(choices: Sequence[Sequence[CutTree]]) -> Iterator[tuple[CutTree, ...]]:
    """One tree for each field: all for a single field, else the best with one of them varied at a time."""
    if len(choices) == 1:
        yield from product(choices[0])
    else:
        yield from varied_trees(choices, _TREES_VARIED)


def _plan(
    job: DivisionJob, site: Site, trees: tuple[CutTree, ...], shares: tuple[float, ...]
) -> DivisionPlan | None:
    pieces = pieces_of_fields(trees, job.fields, shares)
    ways = None if pieces is None else reached(site, pieces)
    arrangement = None if ways is None else arranged(site, ways)
    return None if arrangement is None else DivisionPlan(trees, shares, arrangement)


def balanced(
    job: DivisionJob, site: Site, plan: DivisionPlan, expected: Expected, enough: float = _EQUAL
) -> tuple[DivisionPlan, float]:
    """The plan with shares moved until the lengths expected are equal, and the spread that is left; given up after
    moves that made nothing better."""
    best, best_spread, worse = plan, math.inf, 0
    for _ in range(_ESTIMATES):
        lengths = _estimates(job, plan, expected)
        spread = spread_of(plan, lengths)
        if spread < best_spread:
            best, best_spread, worse = plan, spread, 0
        else:
            worse += 1
        if spread < enough or worse == _PATIENCE:
            break
        moved = _moved(job, site, plan, _fed_back(job, plan, lengths))
        if moved is None:
            break
        plan = moved
    return best, best_spread


def _moved(job: DivisionJob, site: Site, plan: DivisionPlan, shares: Sequence[float]) -> DivisionPlan | None:
    """The plan with other shares, or with shares half or a quarter of the way there."""
    for step in (1.0, 0.5, 0.25):
        between = tuple(old + step * (new - old) for old, new in zip(plan.shares, shares, strict=True))
        moved = _plan(job, site, plan.trees, between)
        if moved is not None:
            return moved
    return None


def _estimates(job: DivisionJob, plan: DivisionPlan, expected: Expected) -> list[float]:
    """Whole lengths expected, by leaf [m], where the mean of those by area is wanted of each."""
    even, lengths = _evenly(job), [0.0] * len(plan.shares)
    tails = {
        stall.leaf: stall.tail_length + 2.0 * job.request.outer_tail(stall.index)
        for stall in plan.arrangement.stalls
    }
    for stall in plan.arrangement.stalls:
        lengths[stall.leaf] = even(stall, 0.0) + tails[stall.leaf]
    means = plan.means(lengths)
    for stall in plan.arrangement.stalls:
        own = tails[stall.leaf]
        lengths[stall.leaf] = expected(stall, max(means[stall.leaf] - own, _LEAST)) + own
    return lengths


def _fed_back(job: DivisionJob, plan: DivisionPlan, lengths: Sequence[float]) -> tuple[float, ...]:
    """Shares with which lengths will be equal, as far as floor alone tells: tails and what they take stay."""
    shares = list(plan.shares)
    for field, (start, end) in zip(job.fields, pairwise(plan.starts), strict=True):
        mean = sum(lengths[start:end]) / (end - start)
        share_of_length = job.request.pipe_spacing / _LAID_SHARE * (end - start) / field.area
        for leaf in range(start, end):
            shares[leaf] = max(_LEAST_SHARE, shares[leaf] + share_of_length * (mean - lengths[leaf]))
        total = sum(shares[start:end]) / (end - start)
        shares[start:end] = [share / total for share in shares[start:end]]
    return tuple(shares)


def spread_of(plan: DivisionPlan, lengths: Sequence[float]) -> float:
    """(Longest - shortest) / mean, the greatest over the fields."""
    means = plan.means(lengths)
    spreads = []
    for start, end in pairwise(plan.starts):
        own = lengths[start:end]
        spreads.append((max(own) - min(own)) / means[start])
    return max(spreads)
