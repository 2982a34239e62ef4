"""Another way round where a doorway is too narrow for all pairs that were to pass it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from ..model.tail_records import ManifoldPlace, TailDemand
from .tail_order import row_of
from .walkways import Access, Passage, Walkways

__all__ = ["doorway_uses", "relieved"]


def doorway_uses(reached: Mapping[int, Access], demands: Sequence[TailDemand]) -> dict[int, int]:
    """Pairs that would pass each doorway."""
    uses: dict[int, int] = {}
    for demand in demands:
        for passage in row_of(reached, demand.room) if demand.room in reached else ():
            uses[passage.doorway] = uses.get(passage.doorway, 0) + 1
    return uses


def relieved(
    walkways: Walkways, manifold: ManifoldPlace, reached: Mapping[int, Access], demands: Sequence[TailDemand]
) -> dict[int, Access]:
    """How rooms are reached when, as long as doorways have more pairs than they take and there is another way,
    a room behind one of them is entered by another doorway: the one that leaves the fewest pairs without
    a way, and of those the shortest. Of 3,334 times it was so 7 times: seldom has a room two doorways."""
    found = dict(reached)
    excess = _excess(walkways, found, demands)
    while excess:
        better = min(_others(walkways, manifold, found, demands), key=lambda trial: trial[:2], default=None)
        if better is None or better[0] >= excess:
            break
        excess, _, room, access = better
        found[room] = access
    return found


def _excess(walkways: Walkways, reached: Mapping[int, Access], demands: Sequence[TailDemand]) -> int:
    """Pairs too many, of all doorways."""
    return sum(
        max(0, count - walkways.pairs_through[doorway])
        for doorway, count in doorway_uses(reached, demands).items()
    )


def _others(
    walkways: Walkways, manifold: ManifoldPlace, reached: Mapping[int, Access], demands: Sequence[TailDemand]
) -> Iterator[tuple[int, float, int, Access]]:
    """Rooms behind doorways that are too narrow, each entered otherwise: pairs too many then, length [m]."""
    uses = doorway_uses(reached, demands)
    full = {doorway for doorway, count in uses.items() if count > walkways.pairs_through[doorway]}
    rows = {room: row_of(reached, room) for room in reached}
    for room, row in sorted(rows.items()):
        if not full.intersection(passage.doorway for passage in row):
            continue
        for passage in _ways_in(walkways, room):
            before = rows.get(passage.leaves)
            if before is None or any(each.enters == room for each in before) or passage == row[-1]:
                continue
            length = _length(walkways, manifold, reached[passage.leaves], passage)
            if math.isfinite(length):
                access = Access(length, passage)
                yield _excess(walkways, {**reached, room: access}, demands), length, room, access


def _ways_in(walkways: Walkways, room: int) -> Iterator[Passage]:
    for passages in walkways.passages:
        yield from (passage for passage in passages if passage.enters == room)


def _length(walkways: Walkways, manifold: ManifoldPlace, before: Access, passage: Passage) -> float:
    """Of the way by a passage from a room that is reached [m]."""
    entered = before.passage
    place, ahead = (manifold.place, manifold.ahead) if entered is None else (entered.far, entered.ahead)
    ways = walkways.ways(passage.leaves, np.array([place]), np.array([ahead]))[0]
    way = float(ways[walkways.passages[passage.leaves].index(passage)])
    return round(before.length + way + math.dist(passage.near, passage.far), 6)
