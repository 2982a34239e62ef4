"""Lanes of all circuits of a storey: by which gates they pass which cells, and beside which others."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np

from ...checking import Point
from ...plan.outlines.loops import Loop, loop_of
from ..records import Segment
from ..tail_records import ManifoldPlace, StoreyPlan, TailRules
from ..visibility import WalkGraph
from ..walkways import Passage, Walkways
from .cell_lanes import LaneDemand, Stub
from .gates import Gate, gate_of
from .orders import CellOrder

__all__ = ["CellCrossing", "LaneTree", "Routing", "routing"]

_BESIDE = 0.05
"""Beside a gate, from its end on [m]."""
_ALIKE = 0.05
"""Ways to both sides of a gate that differ by less are alike [m]."""
_SQUARE = 0.2
"""Cosine of the angle between directions that are about square to each other."""
_NEAR = 0.6
"""Wall on which lanes draw together behind a gate, at least [m]."""
_HUG, _STRAIGHT = 0.25, 2.5
"""Half the width of floor that ways do not go round: along the edge of a field, and where there is none [m]."""
_DETOUR, _LONGER = 2.2, 1.5
"""Longest way along the edge of a field, over the straight one: as a factor, and beside it [m]."""
_SHARED = 4
"""Doorways for which it is tried which manifold's pairs pass at which end."""


@dataclass(frozen=True)
class CellCrossing:
    """What passes a cell: ``demands`` of lanes, ``gates`` as stretches of its edge, and where its ``own`` pairs come
    in, by circuit."""

    demands: tuple[LaneDemand, ...]
    gates: tuple[Segment, ...]
    own: Mapping[str, Stub]


@dataclass(frozen=True)
class LaneTree:
    """The cells that one manifold's pairs enter, the manifold's own first, and its ports."""

    manifold: ManifoldPlace
    orders: Sequence[CellOrder]
    ports: Gate


@dataclass(frozen=True)
class Routing:
    """Lanes of all manifolds (``trees``); ``gates`` by tree and doorway; ``heated``: cells with a field of their own."""

    plan: StoreyPlan
    walkways: Walkways
    trees: Sequence[LaneTree]
    gates: Mapping[tuple[int, int], Gate]
    heated: frozenset[int]

    @cached_property
    def by_cell(self) -> dict[int, list[tuple[int, CellOrder]]]:
        """Trees that come into each cell."""
        found: dict[int, list[tuple[int, CellOrder]]] = {}
        for number, tree in enumerate(self.trees):
            for order in tree.orders:
                found.setdefault(order.cell, []).append((number, order))
        return found

    def entry(self, tree: int, order: CellOrder) -> Gate:
        return self.trees[tree].ports if order.entry is None else self.gates[tree, order.entry.doorway]

    def crossing(self, cell: int) -> CellCrossing:
        """What passes a cell that pairs enter."""
        demands: list[LaneDemand] = []
        stretches: list[Segment] = []
        own: dict[str, Stub] = {}
        for tree, order in self.by_cell.get(cell, ()):
            entry = self.entry(tree, order)
            own |= {circuit: entry.stub(circuit, True) for circuit in order.own}
            stretches += self._stretches(tree, order)
            for passage, circuits in order.exits:
                gate = self.gates[tree, passage.doorway]
                side = self._side(cell, order, entry, gate)
                demands += [
                    LaneDemand(circuit, entry.stub(circuit, True), gate.stub(circuit, False), *side)
                    for circuit in circuits
                ]
        return CellCrossing(tuple(demands), tuple(dict.fromkeys(stretches)), own)

    def _side(self, cell: int, order: CellOrder, entry: Gate, gate: Gate) -> tuple[bool, float]:
        """On which side pairs to a gate keep, and half the width of floor that they do not go round [m]: along the edge
        where the cell's own field is to stay whole and that is not too long a way, else straight."""
        loop = loop_of(self.plan.rooms[cell])
        if cell in self.heated:
            right = order.circuits.index(gate.circuits[0]) < order.right
            along = (loop.project(gate.near) - loop.project(entry.far)) % loop.length
            along = along if right else loop.length - along
            if along <= _DETOUR * math.dist(entry.far, gate.near) + _LONGER:
                return right, _HUG
        return self._comes_forward(cell, entry, gate), _STRAIGHT

    def _stretches(self, tree: int, order: CellOrder) -> Iterator[Segment]:
        for passage in (order.entry, *(passage for passage, _ in order.exits)):
            if passage is None:
                yield reach_of(self.trees[tree].ports)
                continue
            doorway = self.plan.doorways[passage.doorway]
            stretch = doorway.stretches[doorway.rooms.index(order.cell)]
            yield (
                stretch
                if doorway.anchor is None
                else reach_of(self.gates[tree, passage.doorway], entered=passage is order.entry)
            )

    def _comes_forward(self, cell: int, entry: Gate, gate: Gate) -> bool:
        """Whether pairs come to a gate counter-clockwise along the edge: from where the way to it is shorter."""
        loop = loop_of(self.plan.rooms[cell])
        at, half = loop.project(gate.near), gate.pitch * (len(gate.circuits) - 0.5) + _BESIDE
        inward = np.array(gate.ahead) * -self.walkways.rules.first_lane
        sides = [np.array(loop.at(at + side * half)) + inward for side in (-1.0, 1.0)]
        stubs = [entry.stub(circuit, True) for circuit in gate.circuits]
        middle = np.mean([place for stub in stubs for place in stub[:2]], axis=0).tolist()
        start, _ = self.walkways.stub(cell, (middle[0], middle[1]), entry.ahead)
        lengths = WalkGraph(self.walkways.floors[cell], np.array(sides)).lengths(np.array([start]))[0]
        before, behind = lengths.tolist()
        if abs(before - behind) > _ALIKE:
            return bool(before < behind)
        return (at - loop.project((middle[0], middle[1]))) % loop.length <= loop.length / 2.0


def reach_of(gate: Gate, entered: bool = True) -> Segment:
    """The stretch of an edge that the pairs of a gate take."""
    half = gate.pitch * (len(gate.circuits) - 0.5) + 1e-3
    (x, y), (u, v) = gate.far if entered else gate.near, gate.ahead
    return ((x + half * v, y - half * u), (x - half * v, y + half * u))


def routing(
    plan: StoreyPlan,
    walkways: Walkways,
    trees: Sequence[LaneTree],
    heated: frozenset[int],
    spacings: Sequence[float],
) -> Routing:
    """The gates of all trees. Where several manifolds' pairs pass a doorway, they do so beside each other in the order in
    which they cross the least. The tails' pitch is kept in doorways that one pair passes; where others go on, and in
    openings, it is that of the cell that is entered (``spacings`` [m]), as far as there is room."""
    users: dict[int, list[int]] = {}
    for number, tree in enumerate(trees):
        for order in tree.orders:
            for passage, _ in order.exits:
                users.setdefault(passage.doorway, []).append(number)
    shared = [doorway for doorway, each in users.items() if len(each) > 1]
    best: tuple[int, Routing] | None = None
    for turns in product((False, True), repeat=min(len(shared), _SHARED)):
        turned = dict(zip(shared, turns, strict=False))
        gates = _gates(plan, trees, users, turned, walkways.rules, spacings)
        found = Routing(plan, walkways, trees, gates, heated)
        crossings = _crossings(found) if shared else 0
        if best is None or crossings < best[0]:
            best = (crossings, found)
        if not crossings:
            break
    assert best is not None
    return best[1]


def _gates(
    plan: StoreyPlan,
    trees: Sequence[LaneTree],
    users: Mapping[int, Sequence[int]],
    turned: Mapping[int, bool],
    rules: TailRules,
    spacings: Sequence[float],
) -> dict[tuple[int, int], Gate]:
    """By tree and doorway."""
    found: dict[tuple[int, int], Gate] = {}
    pitch = rules.tail_pitch
    counts = {
        (number, passage.doorway): len(circuits)
        for number, tree in enumerate(trees)
        for order in tree.orders
        for passage, circuits in order.exits
    }
    for number, tree in enumerate(trees):
        for order in tree.orders:
            entry = tree.ports if order.entry is None else found[number, order.entry.doorway]
            for passage, circuits in order.exits:
                sharing = list(users[passage.doorway])
                if turned.get(passage.doorway):
                    sharing.reverse()
                pairs = [counts[each, passage.doorway] for each in sharing]
                part = (sum(pairs[: sharing.index(number)]), sum(pairs))
                alone = len(circuits) == 1 and passage.anchor is None
                wide = pitch if alone or sum(pairs) > len(circuits) else max(pitch, spacings[passage.enters])
                fair = (passage.width - 2.0 * rules.wall_clearance) / max(1, 2 * sum(pairs) - 1)
                forward = plan.doorways[passage.doorway].rooms[0] == passage.leaves
                found[number, passage.doorway] = gate_of(
                    passage,
                    circuits,
                    entry,
                    rules,
                    pitch=min(wide, max(fair, pitch)),
                    held=_held(plan, order, passage, spacings[order.cell]),
                    part=part if forward else (part[1] - part[0] - len(circuits), part[1]),
                )
    return found


def _held(plan: StoreyPlan, order: CellOrder, opening: Passage, spacing: float) -> float:
    """Floor beside the wall at which an opening begins that lanes leave to others until just before it [m]."""
    anchor = plan.doorways[opening.doorway].anchor
    taken = 0.0
    for passage, circuits in order.exits if anchor is not None else ():
        square = abs(passage.ahead[0] * opening.ahead[0] + passage.ahead[1] * opening.ahead[1]) < _SQUARE
        width = 2.0 * len(circuits) * spacing
        if square and math.dist(passage.near, anchor) < _NEAR + passage.width / 2.0 + width:
            taken += width
    return taken


def _crossings(found: Routing) -> int:
    """Ways that cross others in the cells that several trees enter."""
    total = 0
    for cell, trees in found.by_cell.items():
        if len(trees) < 2:
            continue
        loop = loop_of(found.plan.rooms[cell])
        crossing = found.crossing(cell)
        spans = [_span(loop, demand.enters.right, demand.leaves.right) for demand in crossing.demands]
        total += sum(_cross(one, other) for n, one in enumerate(spans) for other in spans[:n])
    return total


def _span(loop: Loop, start: Point, end: Point) -> tuple[float, float]:
    low, high = sorted((loop.project(start), loop.project(end)))
    return low, high


def _cross(one: tuple[float, float], other: tuple[float, float]) -> bool:
    inside = [one[0] < at < one[1] for at in other]
    return inside[0] != inside[1]
