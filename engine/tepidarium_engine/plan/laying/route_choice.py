"""Which draft is laid: all are bent, the validator judges, the best valid one wins."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..bends.bending import Bent, bent
from ..judging.route_check import RouteCheck, check_route
from ..judging.route_task import MOST_PIECES
from ..outlines.denser_area import DenserArea
from .field import Draft, Field

__all__ = ["Candidate", "Chooser"]

_GOOD_SERVED = 0.995
_GOOD_NEAR = {"rings": 0.97, "lattice": 0.97, "comb": 0.98}
_GOOD_DISTANCE = 0.76
_GOOD_SPREAD = 0.035
"""Coverage within 0.75 and 0.5 spacings, least distance in spacings, spread of the water temperature as a share
of its drop: what a pipe reaches that need not be laid another way."""
_FAIR_SERVED = 0.99
_FAIR_NEAR = 0.96
"""The same of a comb that is as good as most."""
_USUAL_U_TURNS = 3
"""Of a double spiral: more of them are whorls beside each other."""
_USUAL_LENGTH = (0.965, 1.025)
"""In terms of served area over spacing."""
_LEAST_SERVED = 0.99
"""Coverage within 0.75 spacings below which it weighs more than all else."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A draft, its pipe, the validator's word, and how bad it is beside others."""

    draft: Draft
    bends: Bent
    check: RouteCheck
    badness: float


@dataclass(frozen=True, slots=True)
class Chooser:
    """Chooses among drafts of one field. ``quick`` takes the first one that can be laid."""

    field: Field
    denser: tuple[DenserArea, ...] = ()
    quick: bool = False

    def best(self, kinds: Iterator[Iterator[Draft]], best: Candidate | None = None) -> Candidate | None:
        """The best of the drafts and of what there is.

        A kind is left once one of its drafts runs in good order, and all of them once one also covers the
        floor.
        """
        for kind in kinds:
            for draft in kind:
                candidate = self.judged(draft)
                if candidate is None:
                    continue
                if best is None or _better(candidate, best):
                    best = candidate
                if candidate.check.valid and (self.quick or _is_orderly(candidate)):
                    break
            if best is not None and best.check.valid and (self.quick or _is_good(best)):
                break
        return best

    def judged(self, draft: Draft) -> Candidate | None:
        """The draft bent and judged; ``None`` for more bends than the validator looks at."""
        field = self.field
        bends = bent(draft, field)
        if len(bends.path.pieces) > MOST_PIECES:
            return None
        check = check_route(
            bends.path,
            field.room,
            pipe_spacing=field.pipe_spacing,
            wall_clearance=field.wall_clearance,
            bend_radius=field.bend_radius,
            entry=field.entry.place,
            tail_pitch=field.tail_pitch,
            walls=field.walls,
            denser=self.denser,
        )
        return Candidate(draft, bends, check, _badness(draft, bends, check))


def _badness(draft: Draft, bends: Bent, check: RouteCheck) -> float:
    """The lower the better; of valid routes with all rings a good one comes to about -0.9."""
    measures = check.measures
    badness = 3.0 * (1.0 - measures.coverage_half) + 6.0 * (1.0 - measures.coverage_three_quarters)
    badness += 20.0 * max(0.0, _LEAST_SERVED - measures.coverage_three_quarters)
    badness += 0.3 * _dropped(draft) + 0.03 * len(bends.unresolved)
    if draft.engine != "comb":
        badness += 4.0 * (measures.temperature_spread or 0.0) - (measures.mixed_share or 0.0)
        badness += 0.02 * max(0, measures.bends.u_turn - _USUAL_U_TURNS)
    badness += 8.0 * max(
        0.0, _USUAL_LENGTH[0] - measures.length_ratio, measures.length_ratio - _USUAL_LENGTH[1]
    )
    if measures.least_distance is not None:
        badness += 2.0 * max(0.0, 0.8 - measures.least_distance)
    return round(badness, 6)


def _dropped(draft: Draft) -> int:
    """Number of places that were to have pipe and got none; what is too small for it is bare floor."""
    return sum(lost.reason == "unreached" for lost in draft.lost)


def _better(one: Candidate, other: Candidate) -> bool:
    return (not one.check.valid, one.badness) < (not other.check.valid, other.badness)


def _is_good(candidate: Candidate) -> bool:
    """Whether no other kind needs to be tried. Turns of combs leave out more floor, whatever is tried."""
    if candidate.draft.engine == "comb":
        return not candidate.bends.unresolved and _covers_well(candidate, _FAIR_SERVED, _FAIR_NEAR)
    return _is_orderly(candidate) and _covers_well(candidate)


def _is_orderly(candidate: Candidate) -> bool:
    """Whether no other draft of the same kind needs to be tried. Combs of one field differ in what they cover."""
    measures = candidate.check.measures
    return (
        candidate.check.valid
        and not candidate.bends.unresolved
        and (measures.least_distance or 1.0) >= _GOOD_DISTANCE
        and (
            _covers_well(candidate)
            if candidate.draft.engine == "comb"
            else (measures.temperature_spread or 0.0) <= _GOOD_SPREAD
        )
    )


def _covers_well(candidate: Candidate, served: float = _GOOD_SERVED, near: float | None = None) -> bool:
    measures = candidate.check.measures
    least = _GOOD_NEAR[candidate.draft.engine] if near is None else near
    return (
        measures.coverage_three_quarters >= served
        and measures.coverage_half >= least
        and _USUAL_LENGTH[0] <= measures.length_ratio <= _USUAL_LENGTH[1]
        and not _dropped(candidate.draft)
    )
