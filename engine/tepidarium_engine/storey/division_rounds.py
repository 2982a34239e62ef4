"""A plan laid, and laid again with what the laid lengths tell, until the circuits are equally long."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from shapely import LineString

from ..plan.laying.laying import Refusal
from .arrangement import Site, Stall
from .circuit_pipes import circuit_of
from .division_job import DivisionJob
from .division_plans import GOOD_SPREAD, DivisionPlan, Known, balanced, spread_of
from .division_records import DividedCircuit

__all__ = ["Outcome", "laid_rounds"]

_ROUNDS = 2
_MOST_OFF = 0.04
_OTHERWISE = ((0.0, True), (1.0, True), (0.5, True), (1.0, False), (-0.5, True))
"""Ways to lay a circuit anew: share of what it is too long by that a wider spacing takes off, and whether
without spacing fit."""


@dataclass(frozen=True)
class Outcome:
    """Circuits as laid, in order along the wall; ``lengths`` [m] with outer tails, by leaf."""

    plan: DivisionPlan
    circuits: tuple[DividedCircuit, ...]
    lengths: tuple[float, ...]
    spread: float
    refusal: Refusal | None = None

    def badness(self, limit: float) -> tuple[bool, float]:
        """Whether a circuit is longer than the limit [m], and the spread."""
        return (max(self.lengths) > limit, self.spread)


def laid_rounds(job: DivisionJob, site: Site, plan: DivisionPlan) -> Iterator[Outcome]:
    """The plan laid, and laid again with what the laid lengths tell, until lengths are equal."""
    known = Known()
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
        before, plan = plan, balanced(job, site, plan, known)
        if plan.shares == before.shares:
            return


def _evened(job: DivisionJob, site: Site, outcome: Outcome) -> Outcome:
    """The outcome with the circuits laid anew that are furthest from the mean, one after the other, until all
    are alike: pipe in whole rings does not take every length."""
    plan, circuits, lengths = outcome.plan, list(outcome.circuits), list(outcome.lengths)
    lanes = _lanes(plan)
    waiting = list(plan.arrangement.stalls)
    while waiting and spread_of(plan, lengths) > GOOD_SPREAD:
        means = plan.means(lengths)
        stall = max(waiting, key=lambda one: (abs(lengths[one.leaf] / means[one.leaf] - 1.0), -one.index))
        waiting.remove(stall)
        mean, own = means[stall.leaf], circuits[stall.index]
        for closer, plain in _other_ways(job, own, lengths[stall.leaf] - mean):
            found = circuit_of(job, site, stall, lanes(stall), closer=closer, plain=plain)
            if isinstance(found, Refusal) or not _covers(found, own):
                continue
            length = found.length + 2.0 * job.request.outer_tail(stall.index)
            if abs(length - mean) < abs(lengths[stall.leaf] - mean):
                circuits[stall.index], lengths[stall.leaf] = found, length
            if abs(length - mean) < GOOD_SPREAD / 3.0 * mean:
                break
    return replace(outcome, circuits=tuple(circuits), lengths=tuple(lengths), spread=spread_of(plan, lengths))


def _other_ways(job: DivisionJob, own: DividedCircuit, off: float) -> Iterator[tuple[float, bool]]:
    """Share of the spacing and whether to lay without spacing fit, for a circuit that is ``off`` [m] too long."""
    inside = own.length - own.tail_length
    for share, plain in _OTHERWISE:
        closer = inside / (inside - share * off)
        if plain and job.request.quick and share == 0.0:
            continue
        if plain or not job.request.quick:
            yield min(max(closer, 1.0 - _MOST_OFF), 1.0 + _MOST_OFF), plain


def _covers(new: DividedCircuit, old: DividedCircuit) -> bool:
    """Whether a pipe laid anew reaches as much floor, but for one part in a hundred."""
    if new.laid.check is None or old.laid.check is None:
        return False
    share = new.laid.check.measures.coverage_three_quarters
    return share >= min(0.985, old.laid.check.measures.coverage_three_quarters - 0.01)


def _laid_out(job: DivisionJob, site: Site, plan: DivisionPlan) -> Outcome:
    circuits = []
    lengths = [0.0] * len(plan.shares)
    lanes = _lanes(plan)
    for stall in plan.arrangement.stalls:
        circuit = circuit_of(job, site, stall, lanes(stall))
        if isinstance(circuit, Refusal):
            return Outcome(plan, (), (), math.inf, circuit)
        circuits.append(circuit)
        lengths[stall.leaf] = circuit.length + 2.0 * job.request.outer_tail(stall.index)
    return Outcome(plan, tuple(circuits), tuple(lengths), spread_of(plan, lengths))


def _lanes(plan: DivisionPlan) -> Callable[[Stall], list[LineString]]:
    """The lanes of all other circuits."""
    taken = [(stall.index, lane.line) for stall in plan.arrangement.stalls for lane in stall.tail.lanes]
    return lambda own: [line for index, line in taken if index != own.index and line.length > 1e-6]
