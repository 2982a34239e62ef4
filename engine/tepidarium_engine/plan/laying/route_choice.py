"""Which draft is laid: drafts are ranked by what their corners tell, the best one is bent, and the validator judges.

The next one is bent only where the validator refuses the pipe, or finds it worse than the next one is expected to be.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from functools import cached_property
from itertools import takewhile

from ..bends.bending import Bent, bent
from ..judging.route_check import Judge, RouteCheck
from ..model.field import Draft, Field
from ..outlines.denser_area import DenserArea
from ..pipes.pipe_path import MOST_PIECES
from .draft_ranking import DraftRanking
from .route_quality import quality_of

__all__ = ["Candidate", "Chooser"]

_MOST_BENT = 4
"""Drafts of one room that are bent while one of them can be laid."""
_MOST_TRIED = 7
"""Of a group of drafts none of which can be laid."""
_MOST_CORNERS = 2_000
"""Of the drafts that were bent, before no other one is: with 20 to 200 a draft of most rooms all may be."""
_WORTH_BENDING = 0.02
"""How much better than the best pipe there is a draft must be expected to be, in badness."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A draft, its pipe, the validator's word, and how bad it is beside others."""

    draft: Draft
    bends: Bent
    check: RouteCheck
    badness: float

    def distance_from_valid(self) -> tuple[bool, int]:
        """Whether the validator refuses it, and how many bends do not fit."""
        return not self.check.valid, len(self.bends.unresolved)


@dataclass(frozen=True)
class Chooser:
    """Chooses among drafts of one field. ``quick`` takes the first kind of which one can be laid. ``known``: corners of
    drafts that were bent; the same draft comes of several kinds, but is bent once."""

    field: Field
    denser: tuple[DenserArea, ...] = ()
    quick: bool = False
    known: set[bytes] = dataclass_field(default_factory=set)

    def best(self, kinds: Iterator[Iterator[Draft]]) -> Candidate | None:
        """The best of the drafts as a pipe; one that the validator refuses only where it refuses all."""
        failed: list[tuple[int, Draft, Bent]] = []
        groups: Iterable[list[Draft]] = map(
            list, takewhile(lambda _: _corners_bent(failed) <= _MOST_CORNERS, kinds)
        )
        for drafts in groups if self.quick else [[draft for group in groups for draft in group]]:
            best = self._best_of(drafts, failed)
            if best is not None:
                return best
        if not failed:
            return None
        _, draft, bends = min(failed, key=lambda one: one[0])
        return Candidate(draft, bends, self._judge.check(bends.path), math.inf)

    def _best_of(self, drafts: list[Draft], failed: list[tuple[int, Draft, Bent]]) -> Candidate | None:
        """The best of those that can be laid; others are added to ``failed``, with how many bends do not
        fit."""
        ranking = DraftRanking(self.field, self.denser)
        ranked = sorted(
            (ranking.expected(draft).badness(draft.engine != "comb"), number)
            for number, draft in enumerate(drafts)
        )
        best: Candidate | None = None
        corners = _corners_bent(failed)
        for tried, (expected, number) in enumerate(ranked[:_MOST_TRIED]):
            worth = best is None or (not self.quick and expected < best.badness - _WORTH_BENDING)
            if not worth or (best is not None and tried >= _MOST_BENT) or corners > _MOST_CORNERS:
                break
            draft = drafts[number]
            if (corners_of := draft.corners.tobytes()) in self.known:
                continue
            self.known.add(corners_of)
            corners += len(draft.corners)
            bends = bent(draft, self.field)
            if len(bends.path.pieces) > MOST_PIECES:
                continue
            check = None if bends.unresolved else self._judge.valid(bends.path)
            if check is None:
                failed.append((len(bends.unresolved), draft, bends))
                continue
            badness = quality_of(draft, check).badness(draft.engine != "comb")
            if best is None or badness < best.badness:
                best = Candidate(draft, bends, check, badness)
        return best

    @cached_property
    def _judge(self) -> Judge:
        field = self.field
        return Judge(
            field.room,
            field.pipe_spacing,
            field.wall_clearance,
            field.bend_radius,
            field.entry.place,
            field.tail_pitch,
            tuple(field.walls),
            tuple(self.denser),
        )


def _corners_bent(failed: list[tuple[int, Draft, Bent]]) -> int:
    return sum(len(draft.corners) for _, draft, _ in failed)
