"""A plan laid, and laid again with what the laid lengths tell, until the circuits are equally long.

Shares of the floor are moved by what rings tell of the lengths; pipe is laid only then, and again only where it
came out too long or too short.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace

from shapely import LineString

from ...plan.laying.laying import Refusal
from ..model.division_records import DividedCircuit
from .arrangement import Site, Stall
from .circuit_pipes import CircuitMaker
from .division_job import DivisionJob
from .division_plans import GOOD_SPREAD, DivisionPlan, balanced, spread_of
from .piece_pipe import PieceModel

__all__ = ["Outcome", "Rounds"]

_ROUNDS = 2
_MOST_LEARNT = 0.03
"""How far pipe may come out longer or shorter than rings let expect and be believed to do so again."""
_AIM = 0.02
"""Spread from which no circuit is laid anew, and of ring lengths no share is moved."""
_LEAST_SERVED = 0.93
"""Coverage within 0.75 spacings of each piece from which another plan is looked for."""
_AIM_IN_STEPS = 0.03
"""The same of serpentines, whose lengths go in steps of a run."""


@dataclass(frozen=True)
class Outcome:
    """Circuits as laid, in order along the wall; ``lengths`` [m] with outer tails, by leaf."""

    plan: DivisionPlan
    circuits: tuple[DividedCircuit, ...]
    lengths: tuple[float, ...]
    spread: float
    refusal: Refusal | None = None

    def badness(self, limit: float) -> tuple[bool, bool, float]:
        """Whether a circuit is longer than the limit [m], whether one leaves floor bare, and the spread."""
        checks = [circuit.laid.check for circuit in self.circuits]
        served = min(0.0 if check is None else check.measures.coverage_three_quarters for check in checks)
        return (max(self.lengths) > limit, served < _LEAST_SERVED, self.spread)


class Rounds:
    """Makes the circuits of one plan after the other."""

    def __init__(self, job: DivisionJob, site: Site) -> None:
        self._site, self._maker = site, CircuitMaker(job)
        self._aim = _aim(job)

    def hopeful(self, plans: Iterable[DivisionPlan]) -> Iterator[DivisionPlan]:
        """Plans with shares moved until rings of their pieces can be equally long; those first for which they
        are, each made only when it is asked for."""
        uneven: list[tuple[float, int, DivisionPlan]] = []
        for number, plan in enumerate(plans):
            even, spread = _Work(self._site, self._maker).balanced(plan)
            if spread <= max(self._aim, GOOD_SPREAD):
                yield even
            else:
                uneven.append((round(spread, 4), number, even))
        yield from (plan for _, _, plan in sorted(uneven, key=lambda one: one[:2]))

    def laid(self, plan: DivisionPlan) -> Iterator[Outcome]:
        """The plan laid, and laid again with what the laid lengths tell, until lengths are equal; a quick one once."""
        work = _Work(self._site, self._maker)
        for _ in range(1 if self._maker.job.request.quick else _ROUNDS):
            outcome = work.laid_out(plan)
            yield outcome
            if outcome.refusal is not None or outcome.spread <= self._aim:
                return
            outcome = work.evened(outcome)
            yield outcome
            if outcome.spread <= GOOD_SPREAD:
                return
            before, (plan, _) = plan, work.balanced(plan)
            if plan.shares == before.shares:
                return


@dataclass(frozen=True)
class _Work:
    """What is carried from round to round: by leaf, what was laid of what rings let expect."""

    site: Site
    maker: CircuitMaker
    known: dict[int, float] = field(default_factory=dict)

    @property
    def model(self) -> PieceModel:
        return self.maker.model

    def balanced(self, plan: DivisionPlan) -> tuple[DivisionPlan, float]:
        """The plan with shares moved until pieces can take the same length, and the spread left."""
        return balanced(self.maker.job, self.site, plan, self.expected, _aim(self.maker.job))

    def expected(self, stall: Stall, wanted: float) -> float:
        """Pipe in a piece that is to have a wanted length [m]."""
        factor = self.known.get(stall.leaf, 1.0)
        return factor * self.model.length(stall, self.model.near_length(stall, wanted / factor))

    def laid_out(self, plan: DivisionPlan) -> Outcome:
        """All circuits, each laid for the mean of the lengths expected in its field."""
        lengths = [0.0] * len(plan.shares)
        for stall in plan.arrangement.stalls:
            lengths[stall.leaf] = self.model.evenly(stall) + self._tails(stall)
        means, lanes = plan.means(lengths), _lanes(plan)
        circuits: dict[int, DividedCircuit] = {}
        for stall in sorted(plan.arrangement.stalls, key=lambda one: -self.maker.refused[one.index]):
            circuit = self._circuit(stall, lanes(stall), means[stall.leaf])
            if isinstance(circuit, Refusal):
                return Outcome(plan, (), (), math.inf, circuit)
            circuits[stall.index] = circuit
            lengths[stall.leaf] = self._whole(stall, circuit)
        in_order = tuple(circuits[index] for index in sorted(circuits))
        return Outcome(plan, in_order, tuple(lengths), spread_of(plan, lengths))

    def evened(self, outcome: Outcome) -> Outcome:
        """The outcome with the circuits laid anew that are furthest from the mean, one after the other, until
        all are alike."""
        plan, circuits, lengths = outcome.plan, list(outcome.circuits), list(outcome.lengths)
        lanes, waiting = _lanes(plan), list(plan.arrangement.stalls)
        while waiting and spread_of(plan, lengths) > _aim(self.maker.job):
            means = plan.means(lengths)
            stall = max(waiting, key=lambda one: (abs(lengths[one.leaf] / means[one.leaf] - 1.0), -one.index))
            waiting.remove(stall)
            mean, own = means[stall.leaf], circuits[stall.index]
            found = self._circuit(stall, lanes(stall), mean)
            if isinstance(found, Refusal) or not _covers(found, own):
                continue
            length = self._whole(stall, found)
            if abs(length - mean) < abs(lengths[stall.leaf] - mean):
                circuits[stall.index], lengths[stall.leaf] = found, length
        spread = spread_of(plan, lengths)
        return replace(outcome, circuits=tuple(circuits), lengths=tuple(lengths), spread=spread)

    def _circuit(self, stall: Stall, others: list[LineString], length: float) -> DividedCircuit | Refusal:
        """A circuit laid for a whole length [m]; what comes out is learnt."""
        wanted = (length - self._tails(stall)) / self.known.get(stall.leaf, 1.0)
        way = self.model.near_length(stall, wanted)
        circuit = self.maker.circuit(self.site, stall, others, way)
        if not isinstance(circuit, Refusal):
            ratio = (circuit.length - stall.tail_length) / self.model.length(stall, way)
            self.known[stall.leaf] = min(max(ratio, 1.0 - _MOST_LEARNT), 1.0 + _MOST_LEARNT)
        return circuit

    def _tails(self, stall: Stall) -> float:
        return stall.tail_length + 2.0 * self.maker.job.request.outer_tail(stall.index)

    def _whole(self, stall: Stall, circuit: DividedCircuit) -> float:
        return circuit.length + 2.0 * self.maker.job.request.outer_tail(stall.index)


def _aim(job: DivisionJob) -> float:
    return _AIM if job.request.pattern == "counterflow" else _AIM_IN_STEPS


def _covers(new: DividedCircuit, old: DividedCircuit) -> bool:
    """Whether a pipe laid anew reaches as much floor, but for one part in a hundred."""
    if new.laid.check is None or old.laid.check is None:
        return False
    share = new.laid.check.measures.coverage_three_quarters
    return share >= min(0.985, old.laid.check.measures.coverage_three_quarters - 0.01)


def _lanes(plan: DivisionPlan) -> Callable[[Stall], list[LineString]]:
    """The lanes of all other circuits."""
    taken = [(stall.index, lane.line) for stall in plan.arrangement.stalls for lane in stall.tail.lanes]
    return lambda own: [line for index, line in taken if index != own.index and line.length > 1e-6]
