"""Lanes of all circuits over all cells of a plan: the rooms of a storey, or the cells that one floor is cut in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

import shapely

from ...checking import Point
from ..tail_records import ManifoldPlace, TailDemand, UnroutedTail
from ..walkways import Walkways
from .admission import lane_trees
from .cell_lanes import CellLanes, Stub, lanes_over
from .orders import CellOrder
from .pitches import LaneRules
from .routing import Routing, routing

__all__ = ["LaneTask", "PlanLanes", "plan_lanes"]

_OTHER_OPENINGS = 6
"""Doorways that are closed in turn to see whether lanes have a way elsewhere."""
_REMEMBERED = 1024
"""Lanes over so many cells are kept: most cells stay as they are while others are drawn anew."""
_TIGHT = "Leave more floor before the doorway, or take a pipe that bends with a smaller radius."
_WIDER = "Make the room {more:.2f} m wider there, lay tails at a smaller pitch, or give part of the circuits another manifold."


@dataclass(frozen=True)
class LaneTask:
    """``demands``: circuits by manifold, those of one cell from the right as they come in; ``spacings`` [m] and
    ``heated``: by cell, and those with fields of their own; ``own_at``: where on the edge of a cell its field lies.
    ``entry_pitch`` [m]: pairs do not stand at a manifold, but come in by an entry side by side."""

    walkways: Walkways
    manifolds: Sequence[ManifoldPlace]
    demands: Sequence[Sequence[TailDemand]]
    spacings: Sequence[float]
    heated: frozenset[int]
    own_at: Mapping[int, Point]
    entry_pitch: float | None = None


@dataclass(frozen=True)
class PlanLanes:
    """``lanes`` by cell that pairs enter; circuits without a way are ``unrouted``."""

    routing: Routing
    lanes: Mapping[int, CellLanes]
    unrouted: tuple[UnroutedTail, ...]

    @cached_property
    def _rows(self) -> dict[int, dict[int, list[CellOrder]]]:
        """By tree and cell: the cells on the way to it, the first one first, and itself."""
        found: dict[int, dict[int, list[CellOrder]]] = {}
        for number, tree in enumerate(self.routing.trees):
            rows: dict[int, list[CellOrder]] = {}
            for order in tree.orders:
                rows[order.cell] = [*(rows[order.entry.leaves] if order.entry else ()), order]
            found[number] = rows
        return found

    def own(self, cell: int) -> tuple[str, ...]:
        """Circuits that end in a cell, from the right."""
        return next((order.own for _, order in self.routing.by_cell.get(cell, ()) if order.own), ())

    def stubs(self, cell: int) -> dict[str, Stub]:
        """Where the cell's own pairs come in."""
        return dict(self.routing.crossing(cell).own)

    def bundle(self, cell: int) -> Stub | None:
        """The outermost pipes of all pairs that end in a cell; ``None``: none does."""
        own, stubs = self.own(cell), self.stubs(cell)
        return Stub(stubs[own[0]].right, stubs[own[-1]].left, stubs[own[0]].ahead) if own else None

    def corners(self, cell: int, circuit: str) -> tuple[list[Point], list[Point]]:
        """Of the right and the left pipe of a circuit, from its port to the gate of the cell that it ends in."""
        tree = next(number for number, order in self.routing.by_cell[cell] if circuit in order.own)
        right: list[Point] = []
        left: list[Point] = []
        for order in self._rows[tree][cell][:-1]:
            lane = next(lane for lane in self.lanes[order.cell].lanes if lane.circuit == circuit)
            right += lane.right
            left += lane.left
        stub = self.stubs(cell)[circuit]
        return [*right, stub.right], [*left, stub.left]


def plan_lanes(task: LaneTask) -> PlanLanes:
    """Lanes of as many circuits as have a way."""
    demands, unrouted = task.demands, list[UnroutedTail]()
    while True:
        drawn = _with_other_openings(task, demands)
        unrouted += drawn.refused
        if not drawn.without:
            return PlanLanes(drawn.routing, drawn.lanes, tuple(unrouted))
        first = drawn.without[: (len(drawn.without) + 1) // 2]
        unrouted += [_no_lane(task, cell, circuit, drawn.lanes[cell]) for cell, circuit in first]
        gone = {one.circuit for one in unrouted}
        demands = [[one for one in own if one.circuit not in gone] for own in demands]


@dataclass(frozen=True)
class _Drawn:
    routing: Routing
    lanes: Mapping[int, CellLanes]
    refused: Sequence[UnroutedTail]

    @cached_property
    def without(self) -> list[tuple[int, str]]:
        """Cells, and circuits that have no way over them."""
        return [(cell, circuit) for cell, over in self.lanes.items() for circuit in over.without]

    @property
    def badness(self) -> int:
        return len(self.refused) + len({circuit for _, circuit in self.without})

    def blocked(self) -> list[int]:
        """Doorways to which lanes have no way although there are others to the cells behind them."""
        found = [
            passage.doorway
            for cell, circuit in self.without
            for _, order in self.routing.by_cell[cell]
            for passage, circuits in order.exits
            if circuit in circuits and self._ways_into[passage.enters] > 1
        ]
        return list(dict.fromkeys(found))

    @cached_property
    def _ways_into(self) -> Counter[int]:
        """Passages from cells that pairs enter, by cell."""
        passages = self.routing.walkways.passages
        return Counter(passage.enters for cell in self.lanes for passage in passages[cell])


def _with_other_openings(task: LaneTask, demands: Sequence[Sequence[TailDemand]]) -> _Drawn:
    """With doorways closed to which lanes have no way, if they have one elsewhere then."""
    closed: frozenset[int] = frozenset()
    best, tried = _drawn(task, demands, closed), set[int]()
    for _ in range(_OTHER_OPENINGS):
        blocked = next((doorway for doorway in best.blocked() if doorway not in tried), None)
        if blocked is None:
            break
        tried.add(blocked)
        other = _drawn(task, demands, closed | {blocked})
        if other.badness < best.badness:
            best, closed = other, closed | {blocked}
    return best


def _drawn(task: LaneTask, demands: Sequence[Sequence[TailDemand]], closed: frozenset[int]) -> _Drawn:
    plan = task.walkways.plan
    trees, refused = lane_trees(
        plan, task.walkways, task.manifolds, demands, task.own_at, task.entry_pitch, task.heated, closed
    )
    found = routing(plan, task.walkways, trees, task.heated, task.spacings)
    return _Drawn(found, {cell: _over(task, found, cell) for cell in found.by_cell}, refused)


def _over(task: LaneTask, found: Routing, cell: int) -> CellLanes:
    crossing, rules = found.crossing(cell), task.walkways.rules
    lanes = LaneRules(rules.wall_clearance, rules.bend_radius, rules.tail_pitch, task.spacings[cell])
    return _remembered(task.walkways.plan.rooms[cell], crossing.demands, lanes, crossing.gates)


_remembered = lru_cache(maxsize=_REMEMBERED)(lanes_over)


def _no_lane(task: LaneTask, cell: int, circuit: str, found: CellLanes) -> UnroutedTail:
    narrow, rules = found.narrow, task.walkways.rules
    if narrow is None:
        inside = shapely.point_on_surface(task.walkways.plan.rooms[cell])
        return UnroutedTail(circuit, "room", cell, (inside.x, inside.y), 1, rules.width_for(1), 0.0, _TIGHT)
    remedy = _WIDER.format(more=narrow.needed - narrow.width)
    pairs = -(-narrow.pipes // 2)
    return UnroutedTail(circuit, "room", cell, narrow.place, pairs, narrow.needed, narrow.width, remedy)
