"""By which opening each cell is entered, so that lanes branch like a tree: by that of the shortest ways of most pairs."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.sparse.csgraph import dijkstra

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.loops import loop_of
from ..tail_records import ManifoldPlace, TailDemand
from ..walkways import Access, Passage, Walkways

__all__ = ["Entrances"]


@dataclass(frozen=True)
class Entrances:
    """Ways over the floor as a graph of passages, remembered; no lane passes ``closed`` doorways. Over ``heated`` cells
    ways are led along the edge."""

    walkways: Walkways
    heated: frozenset[int]
    closed: frozenset[int]

    @cached_property
    def passages(self) -> list[Passage]:
        return [passage for passages in self.walkways.passages for passage in passages]

    def _ways(self, cell: int, places: Sequence[Point], aheads: Sequence[Point]) -> Array:
        """Lengths [m] over a cell from places on its edge (rows) to its passages (columns)."""
        ways = self.walkways.ways(cell, np.array(places), np.array(aheads))
        if cell not in self.heated:
            return ways
        loop = loop_of(self.walkways.plan.rooms[cell])
        starts = np.array([loop.project(place) for place in places])
        ends = np.array([loop.project(passage.near) for passage in self.walkways.passages[cell]])
        along = (ends[None, :] - starts[:, None]) % loop.length
        return np.where(np.isfinite(ways), np.minimum(along, loop.length - along), np.inf)

    @cached_property
    def _steps(self) -> Array:
        """Ways [m] from where each passage (a row) enters a cell to where each one that leaves it does so."""
        count = len(self.passages)
        steps = np.full((count, count), np.inf)
        first = np.cumsum([0, *(len(each) for each in self.walkways.passages)])
        for cell, onward in enumerate(self.walkways.passages):
            into = [row for row, passage in enumerate(self.passages) if passage.enters == cell]
            if not into or not onward:
                continue
            ways = self._ways(
                cell, [self.passages[row].far for row in into], [self.passages[row].ahead for row in into]
            )
            through = np.array([math.dist(one.near, one.far) for one in onward])
            columns = np.arange(first[cell], first[cell + 1])
            steps[np.ix_(into, columns)] = np.maximum(ways + through[None, :], 1e-9)
        doorways = np.array([passage.doorway for passage in self.passages])
        steps[doorways[:, None] == doorways[None, :]] = np.inf
        steps[:, np.isin(doorways, sorted(self.closed))] = np.inf
        return steps

    def tree(self, manifold: ManifoldPlace, demands: Sequence[TailDemand]) -> dict[int, Access]:
        """How each cell is reached that can be; by one opening only."""
        own = self.walkways.passages[manifold.room]
        if not own:
            return {manifold.room: Access(0.0, None)}
        start = self._ways(manifold.room, [manifold.place], [manifold.ahead])[0]
        start = start + np.array([math.dist(one.near, one.far) for one in own])
        start = np.where(np.isin([one.doorway for one in own], sorted(self.closed)), np.inf, start)
        votes: dict[int, dict[int, int]] = {}
        lengths, before = self._from(manifold, start, None)
        for demand in demands:
            at = self._nearest(lengths, demand.room)
            while at is not None and at >= 0:
                cell = self.passages[at].enters
                own_votes = votes.setdefault(cell, {})
                own_votes[at] = own_votes.get(at, 0) + 1
                at = before[at]
        chosen = {cell: min(each, key=lambda row: (-each[row], lengths[row])) for cell, each in votes.items()}
        lengths, before = self._from(manifold, start, chosen)
        found = {manifold.room: Access(0.0, None)}
        for cell in range(len(self.walkways.plan.rooms)):
            at = chosen.get(cell, self._nearest(lengths, cell))
            if cell != manifold.room and at is not None and math.isfinite(lengths[at]):
                found[cell] = Access(round(float(lengths[at]), 6), self.passages[at])
        return _rooted(found, manifold)

    def _from(
        self, manifold: ManifoldPlace, start: Array, chosen: Mapping[int, int] | None
    ) -> tuple[Array, list[int]]:
        """Ways to where each passage enters a cell, and the passage before it (-1: the manifold); no other passages
        than those ``chosen`` enter the cells that have one."""
        steps, count = self._steps.copy(), len(self.passages)
        enters = np.array([passage.enters for passage in self.passages])
        shut = enters == manifold.room
        for cell, row in (chosen or {}).items():
            shut |= (enters == cell) & (np.arange(count) != row)
        steps[:, shut] = np.inf
        first = int(np.cumsum([0, *(len(each) for each in self.walkways.passages)])[manifold.room])
        whole = np.full((count + 1, count + 1), np.inf)
        whole[:count, :count] = steps
        whole[count, first : first + len(start)] = np.where(shut[first : first + len(start)], np.inf, start)
        lengths, before = dijkstra(np.round(whole, 6), indices=count, return_predecessors=True)
        return lengths[:count], [int(one) if 0 <= one < count else -1 for one in before[:count].tolist()]

    def _nearest(self, lengths: Array, cell: int) -> int | None:
        into = [row for row, passage in enumerate(self.passages) if passage.enters == cell]
        best = min(into, key=lambda row: (round(float(lengths[row]), 6), row), default=None)
        return None if best is None or not math.isfinite(lengths[best]) else best


def _rooted(found: Mapping[int, Access], manifold: ManifoldPlace) -> dict[int, Access]:
    """Without cells whose way does not begin at the manifold."""
    kept = {}
    for cell, access in found.items():
        seen: set[int] = set()
        at: int | None = cell
        while at is not None and at != manifold.room and at not in seen:
            seen.add(at)
            passage = found[at].passage if at in found else None
            at = None if passage is None else passage.leaves
        if at == manifold.room:
            kept[cell] = access
    return kept
