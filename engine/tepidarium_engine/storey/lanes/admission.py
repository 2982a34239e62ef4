"""Which circuits have a way to their cells: openings take so many pairs, and so does the wall of a manifold."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from ...checking import Point
from ..relief import doorway_uses, relieved
from ..tail_records import ManifoldPlace, StoreyPlan, TailDemand, TailRules, UnroutedTail
from ..walkways import Access, Walkways
from .entrances import Entrances
from .gates import Gate, ports_of
from .orders import orders, row_of
from .routing import LaneTree

__all__ = ["lane_trees"]

_WIDER = "Make {place} {more:.2f} m wider, lay tails at a smaller pitch, or give part of the circuits another manifold."
_OTHER_WAY = "Open a doorway that takes a pair of pipes to this room, or place a manifold in reach of it."


def lane_trees(
    plan: StoreyPlan,
    walkways: Walkways,
    manifolds: Sequence[ManifoldPlace],
    demands: Sequence[Sequence[TailDemand]],
    own_at: Mapping[int, Point],
    entry_pitch: float | None,
    heated: frozenset[int],
    closed: frozenset[int],
) -> tuple[list[LaneTree], list[UnroutedTail]]:
    """The ways of all manifolds' pairs, and the circuits that have none: those farthest away where a place does not take
    all. ``own_at``: where on the edge of a cell its field lies; ``entry_pitch`` [m]: pairs do not stand at a manifold, but
    come in by an entry side by side; ``heated``: cells with fields of their own; no lane passes ``closed`` doorways."""
    least = walkways.rules
    used: dict[int, int] = {}
    entrances = Entrances(walkways, heated, closed)
    trees, refused = [], []
    for manifold, own in zip(manifolds, demands, strict=True):
        reached = relieved(walkways, manifold, entrances.tree(manifold, own), own)
        kept, without = _admitted(plan, manifold, reached, own, least, used, entry_pitch is not None)
        refused += without
        found = orders(plan, manifold, reached, kept, own_at)
        circuits = found[0].circuits if found else ()
        if entry_pitch is None:
            ports, _ = ports_of(plan, manifold, circuits, least)
        else:
            ports = Gate(manifold.place, manifold.place, manifold.ahead, entry_pitch, circuits)
        trees.append(LaneTree(manifold, found, ports))
    return trees, refused


def _admitted(
    plan: StoreyPlan,
    manifold: ManifoldPlace,
    reached: Mapping[int, Access],
    demands: Sequence[TailDemand],
    rules: TailRules,
    used: dict[int, int],
    entered: bool,
) -> tuple[list[TailDemand], list[UnroutedTail]]:
    """Circuits, in the order given, that have a way; those of the nearest cells first, whose tails take the least of what
    all share."""
    names = tuple(demand.circuit for demand in demands)
    wall = ports_of(plan, manifold, names, rules)[1]
    asked = doorway_uses(reached, demands)
    for doorway, count in used.items():
        asked[doorway] = asked.get(doorway, 0) + count
    kept: set[str] = set()
    refused: dict[str, UnroutedTail] = {}
    for demand in sorted(
        demands, key=lambda one: reached[one.room].length if one.room in reached else math.inf
    ):
        row = row_of(reached, demand.room) if demand.room in reached else []
        full = next((p for p in row if used.get(p.doorway, 0) >= rules.pairs_in(p.width)), None)
        if demand.room not in reached:
            refused[demand.circuit] = UnroutedTail(
                demand.circuit, "no_way", demand.room, manifold.place, 1, rules.width_for(1), 0.0, _OTHER_WAY
            )
        elif not entered and len(kept) >= rules.pairs_in(wall):
            needed = rules.width_for(len(demands))
            remedy = _WIDER.format(place="the stretch of wall of the manifold", more=needed - wall)
            refused[demand.circuit] = UnroutedTail(
                demand.circuit, "manifold", manifold.room, manifold.place, len(demands), needed, wall, remedy
            )
        elif full is not None:
            count = asked[full.doorway]
            needed = rules.width_for(count)
            remedy = _WIDER.format(place="the doorway", more=needed - full.width)
            refused[demand.circuit] = UnroutedTail(
                demand.circuit, "doorway", full.doorway, full.near, count, needed, full.width, remedy
            )
        else:
            kept.add(demand.circuit)
            for passage in row:
                used[passage.doorway] = used.get(passage.doorway, 0) + 1
    return (
        [demand for demand in demands if demand.circuit in kept],
        [refused[demand.circuit] for demand in demands if demand.circuit in refused],
    )
