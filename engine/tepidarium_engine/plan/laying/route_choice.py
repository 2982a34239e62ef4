"""Which draft is laid: drafts are ranked by what their corners tell, the best one is bent, and the validator judges.

The next one is bent only where the validator refuses the pipe, or finds it worse than the next one is expected to be.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field
from functools import cached_property
from itertools import chain, takewhile
from typing import NamedTuple

import shapely

from ..bends.bending import Bent, bent
from ..judging.route_check import Judge, RouteCheck
from ..model.field import Draft, Field
from ..outlines.denser_area import DenserArea
from ..pipes.pipe_path import MOST_PIECES
from .draft_ranking import DraftRanking
from .route_quality import Quality, quality_of

__all__ = ["Candidate", "Chooser"]

_MOST_BENT = 4
"""Drafts of one room that are bent while one of them can be laid."""
_MOST_TRIED = 7
"""Of a group of drafts none of which can be laid."""
_MOST_CORNERS = 2_000
"""Of the drafts that were bent, before no other one is: with 20 to 200 a draft of most rooms all may be."""
_WELL_SERVED = 0.992
"""Coverage within 0.75 spacings that a draft is expected to have, from which no others are looked at beside it."""
_WORTH_BENDING = 0.02
"""How much better than the best pipe there is a draft must be expected to be, in badness."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A draft, its pipe, the validator's word, and how bad it is beside others."""

    draft: Draft
    bends: Bent
    check: RouteCheck
    badness: float


class _Hope(NamedTuple):
    """A draft by what it is expected to be like as a pipe. One that crosses itself stays so, however it is bent."""

    crosses: bool
    badness: float
    number: int
    quality: Quality
    draft: Draft

    def betters(self, other: _Hope, alike: float) -> bool:
        """Whether the pipe is expected to leave less floor bare, and to be as long but for a share."""
        own, its = self.quality, other.quality
        covers = own.coverage_three_quarters > its.coverage_three_quarters
        return not self.crosses and covers and abs(own.length_ratio / its.length_ratio - 1.0) < alike


@dataclass(frozen=True)
class Chooser:
    """Chooses among drafts of one field. ``quick`` takes the first kind of which one can be laid. ``known``: corners of
    drafts that were bent; the same draft comes of several kinds, but is bent once. ``failed``: those that the validator
    refuses, with how many bends do not fit; those that cross themselves are not bent."""

    field: Field
    denser: tuple[DenserArea, ...] = ()
    quick: bool = False
    known: set[bytes] = dataclass_field(default_factory=set)
    failed: list[tuple[int, Draft, Bent | None]] = dataclass_field(default_factory=list)

    def best(self, kinds: Iterable[Iterator[Draft]]) -> Candidate | None:
        """The best of the drafts as a pipe; one that the validator refuses only where it refuses all."""
        groups = kinds if self.quick else [(draft for kind in kinds for draft in kind)]
        return self._first_of(map(self._ranked, groups))

    def best_covering(
        self, given: Iterator[Draft], others: Iterator[Iterator[Draft]], alike: float
    ) -> Candidate | None:
        """One of the drafts that are given, or of the others: where none given can be laid, or they are expected to
        leave floor bare and another one, whose length differs by less than a share that is ``alike``, to leave less.
        """
        first = self._ranked(given)
        groups: Iterable[list[_Hope]] = chain([first], map(self._ranked, others))
        if not self.quick and first and first[0].quality.coverage_three_quarters < _WELL_SERVED:
            more = self._ranked(draft for kind in others for draft in kind)
            groups = ([*(hope for hope in more[:1] if hope.betters(first[0], alike)), *first], more)
        return replace(self, quick=True)._first_of(groups)

    def _first_of(self, groups: Iterable[list[_Hope]]) -> Candidate | None:
        """The best of the first group of which one can be laid."""
        for ranked in takewhile(lambda _: self._corners_bent <= _MOST_CORNERS, groups):
            best = self._best_of(ranked)
            if best is not None:
                return best
        if not self.failed:
            return None
        _, draft, found = min(self.failed, key=lambda one: one[0])
        bends = found or bent(draft, self.field)
        return Candidate(draft, bends, self._judge.check(bends.path), math.inf)

    def _ranked(self, drafts: Iterable[Draft]) -> list[_Hope]:
        """The most hopeful drafts first."""
        ranking = DraftRanking(self.field, self.denser)
        found = []
        for number, draft in enumerate(drafts):
            quality = ranking.expected(draft)
            crosses = not shapely.is_simple(shapely.linestrings(draft.corners))
            found.append(_Hope(crosses, quality.badness(draft.engine != "comb"), number, quality, draft))
        return sorted(found, key=lambda hope: hope[:3])

    def _best_of(self, ranked: list[_Hope]) -> Candidate | None:
        """The best of those that can be laid."""
        best: Candidate | None = None
        corners = self._corners_bent
        for tried, hope in enumerate(ranked[:_MOST_TRIED]):
            worth = best is None or (not self.quick and hope.badness < best.badness - _WORTH_BENDING)
            if not worth or (best is not None and tried >= _MOST_BENT) or corners > _MOST_CORNERS:
                break
            draft = hope.draft
            if (corners_of := draft.corners.tobytes()) in self.known:
                continue
            self.known.add(corners_of)
            if hope.crosses:
                self.failed.append((0, draft, None))
                continue
            corners += len(draft.corners)
            bends = bent(draft, self.field)
            if len(bends.path.pieces) > MOST_PIECES:
                continue
            check = None if bends.unresolved else self._judge.valid(bends.path)
            if check is None:
                self.failed.append((len(bends.unresolved), draft, bends))
                continue
            badness = quality_of(draft, check).badness(draft.engine != "comb")
            if best is None or badness < best.badness:
                best = Candidate(draft, bends, check, badness)
        return best

    @property
    def _corners_bent(self) -> int:
        """Of drafts in vain."""
        return sum(len(draft.corners) for _, draft, bends in self.failed if bends is not None)

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
