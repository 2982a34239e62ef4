"""Which draft is laid: drafts are ranked by what their corners tell, the best one is bent, and the validator judges.

The next one is bent only where the validator refuses the pipe, or finds it worse than the next one is expected to be.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ..bends.bending import Bent, bent
from ..judging.route_check import RouteCheck, check_route
from ..model.field import Draft, Field
from ..outlines.denser_area import DenserArea
from ..pipes.pipe_path import MOST_PIECES
from .draft_ranking import DraftRanking
from .route_quality import quality_of

__all__ = ["Candidate", "Chooser"]

_MOST_BENT = 4
"""Drafts of one room that are bent while one of them can be laid."""
_WORTH_BENDING = 0.02
"""How much better than the best pipe there is a draft must be expected to be, in badness."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A draft, its pipe, the validator's word, and how bad it is beside others."""

    draft: Draft
    bends: Bent
    check: RouteCheck
    badness: float


@dataclass(frozen=True, slots=True)
class Chooser:
    """Chooses among drafts of one field. ``quick`` takes the first kind of which one can be laid."""

    field: Field
    denser: tuple[DenserArea, ...] = ()
    quick: bool = False

    def best(self, kinds: Iterator[Iterator[Draft]]) -> Candidate | None:
        """The best of the drafts as a pipe; one that the validator refuses only where it refuses all."""
        best: Candidate | None = None
        groups: Iterable[list[Draft]] = map(list, kinds)
        for drafts in groups if self.quick else [[draft for group in groups for draft in group]]:
            best = self._better(drafts, best)
            if best is not None and best.check.valid:
                break
        return best

    def _better(self, drafts: list[Draft], best: Candidate | None) -> Candidate | None:
        ranking = DraftRanking(self.field, self.denser)
        ranked = [
            (ranking.expected(draft).badness(draft.engine != "comb"), number)
            for number, draft in enumerate(drafts)
        ]
        for bent_before, (expected, number) in enumerate(sorted(ranked)):
            if best is not None and best.check.valid:
                worth = expected < best.badness - _WORTH_BENDING
                if self.quick or bent_before >= _MOST_BENT or not worth:
                    break
            candidate = self._judged(drafts[number])
            if candidate is not None and (best is None or _rank(candidate) < _rank(best)):
                best = candidate
        return best

    def _judged(self, draft: Draft) -> Candidate | None:
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
        quality = quality_of(draft, check, len(bends.unresolved))
        return Candidate(draft, bends, check, quality.badness(draft.engine != "comb"))


def _rank(candidate: Candidate) -> tuple[bool, float]:
    return not candidate.check.valid, candidate.badness
