"""How a room's own pairs of pipes come from the doorway into their field, past the tails of others.

A field is laid well where its pair comes in squarely, with straight edge on both sides. Beside tails there is
none at the doorway: the pairs then go on side by side, straight or round one corner, until there is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from ...elementwise import Array
from .inlet_search import Inlet, InletSearch, InletTask, InletWay

__all__ = ["Inlet", "InletTask", "inlets"]

_KEPT, _JUDGED = 4, 12
"""Different ways that are kept, and how many are looked at closely for them."""
_APART = 0.3
"""Nearer to each other, ways that come in with the same heading are one [m]."""


def inlets(task: InletTask) -> Iterator[Inlet]:
    """Different ways into the room's field, the best first: those that leave the most floor in one piece, those
    with room to part before others."""
    search = InletSearch(task)
    if search.free is None:
        return
    if task.lanes is None and len(search.landing_on(np.zeros((1, 2)), search.landing)):
        yield Inlet((), task.room, task.middle, task.places[0].ahead)
        return
    known: list[Inlet] = []
    for landing in (search.parting, search.landing):
        found = _different(search, search.ways(landing), known)
        known += found
        yield from found


def _different(search: InletSearch, ways: Array, known: Sequence[Inlet]) -> list[Inlet]:
    """The best of some ways that come in elsewhere, or with another heading, than each other and those known."""
    rows = [InletWay(*row) for row in ways.tolist()]
    found = list(zip(search.worths(rows), rows, strict=True))
    found.sort(key=lambda worth_way: (-worth_way[0], worth_way[1].cost, worth_way[1].end))
    kept: list[tuple[float, Inlet]] = []
    judged = 0
    for _, way in found:
        if len(kept) == _KEPT or judged == _JUDGED:
            break
        entry, ahead = search.lands(way)
        others = [*known, *(inlet for _, inlet in kept)]
        if any(other.ahead == ahead and math.dist(other.entry, entry) < _APART for other in others):
            continue
        judged += 1
        inlet = search.inlet(way)
        if inlet is not None:
            kept.append(inlet)
    return [inlet for _, inlet in sorted(kept, key=lambda pair: -pair[0])]
