"""In which order pairs of pipes stand beside each other at the manifold and at every opening.

Cells are reached like the branches of a tree. Going round a cell's edge counter-clockwise from where it is entered, its
openings are met in the order in which pairs must stand from the right: the only order without crossings. The pair that
heats the cell itself stands between those that keep to the right and those that keep to the left, so that its floor is
not cut off.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from ...checking import Point
from ...plan.outlines.loops import Loop, loop_of
from ..tail_records import ManifoldPlace, StoreyPlan, TailDemand
from ..walkways import Access, Passage

__all__ = ["CellOrder", "orders", "row_of"]


@dataclass(frozen=True)
class CellOrder:
    """Pairs that enter a cell, from the right. ``exits`` are passages and the circuits that leave by them; the first
    ``right`` pairs keep to the right-hand edge; ``own`` circuits end here."""

    cell: int
    entry: Passage | None
    circuits: tuple[str, ...]
    own: tuple[str, ...]
    exits: tuple[tuple[Passage, tuple[str, ...]], ...]
    right: int


def row_of(reached: Mapping[int, Access], cell: int) -> list[Passage]:
    """Passages from the manifold's cell to a cell that can be reached, in order."""
    passages: list[Passage] = []
    passage = reached[cell].passage
    while passage is not None:
        passages.append(passage)
        passage = reached[passage.leaves].passage
    return passages[::-1]


def orders(
    plan: StoreyPlan,
    manifold: ManifoldPlace,
    reached: Mapping[int, Access],
    demands: Iterable[TailDemand],
    own_at: Mapping[int, Point],
) -> list[CellOrder]:
    """Of every cell that pairs enter, the manifold's first, each after the cell by which it is reached. ``own_at``: where
    on the edge of a cell its own field lies, else it lies opposite."""
    own: dict[int, list[str]] = {}
    onward: dict[int, dict[int, Passage]] = {}
    for demand in demands:
        own.setdefault(demand.room, []).append(demand.circuit)
        for passage in row_of(reached, demand.room):
            onward.setdefault(passage.leaves, {})[passage.doorway] = passage
    branching = _Branching(plan, own, onward, own_at)
    branching.visit(manifold.room, manifold.place, None)
    return branching.found


@dataclass
class _Branching:
    """``own`` circuits of cells, and passages ``onward`` by doorway from each."""

    plan: StoreyPlan
    own: Mapping[int, Sequence[str]]
    onward: Mapping[int, Mapping[int, Passage]]
    own_at: Mapping[int, Point]
    found: list[CellOrder] = field(default_factory=list)

    def visit(self, cell: int, place: Point, entry: Passage | None) -> tuple[str, ...]:
        """Circuits that enter a cell at a place, from the right."""
        outline = loop_of(self.plan.rooms[cell])
        start = outline.project(place)
        passages = sorted(
            self.onward.get(cell, {}).values(),
            key=lambda passage: (round(_forward(outline, start, passage.near), 6), passage.doorway),
        )
        at = len(self.found)
        exits = [(passage, self.visit(passage.enters, passage.far, passage)) for passage in passages]
        first = self._keep_right(cell, outline, start, exits)
        right = [circuit for _, circuits in exits[:first] for circuit in circuits]
        left = [circuit for _, circuits in exits[first:] for circuit in circuits]
        mine = tuple(self.own.get(cell, ()))
        order = CellOrder(cell, entry, (*right, *mine, *left), mine, tuple(exits), len(right))
        self.found.insert(at, order)
        return order.circuits

    def _keep_right(
        self, cell: int, outline: Loop, start: float, exits: Sequence[tuple[Passage, tuple[str, ...]]]
    ) -> int:
        """Of the exits in order round the cell, how many are reached along its right-hand edge: up to where its own
        field lies, else so that ways along the edge are shortest."""
        along = [_forward(outline, start, passage.near) for passage, _ in exits]
        if cell in self.own_at:
            field = _forward(outline, start, self.own_at[cell])
            return sum(at <= field for at in along)
        pairs = [len(circuits) for _, circuits in exits]
        lengths = [
            sum(
                count * (at if number < first else outline.length - at)
                for number, (at, count) in enumerate(zip(along, pairs, strict=True))
            )
            for first in range(len(exits) + 1)
        ]
        return min(range(len(lengths)), key=lambda first: round(lengths[first], 3))


def _forward(outline: Loop, start: float, place: Point) -> float:
    return (outline.project(place) - start) % outline.length
