"""In which order pairs of pipes stand beside each other at the manifold and in every doorway.

Rooms are reached like the branches of a tree. Going round a room's outline counter-clockwise from where it is
entered, its doorways are met in the order in which pairs must stand from the right: the only order without
crossings. Pairs that heat the room itself stand between those that keep to the right and those that keep to
the left, so that their floor is not cut off.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from ...checking import Point
from ...plan.outlines.loops import Loop, loop_of
from ..model.records import Segment
from ..model.tail_records import ManifoldPlace, StoreyPlan, TailDemand, TailRules
from .walkways import Access, Passage

__all__ = ["RoomOrder", "aligned", "manifold_middle", "orders", "row_of", "slots"]


_FACING = 1.0 - 1e-9
"""Cosine of the angle between directions that are one."""
_ROUNDING = 1e-3
"""That two bends have more room than they take [m]."""


@dataclass(frozen=True)
class RoomOrder:
    """Pairs that enter a room, from the right. ``exits`` are passages and the circuits that leave by them;
    ``right`` tells how many of the pairs keep to the right-hand wall; ``own`` circuits end here; ``heated``: a field is
    to be laid in the room."""

    room: int
    entry: Passage | None
    circuits: tuple[str, ...]
    own: tuple[str, ...]
    exits: tuple[tuple[Passage, tuple[str, ...]], ...]
    right: int
    heated: bool


def row_of(reached: Mapping[int, Access], room: int) -> list[Passage]:
    """Passages from the manifold's room to a room that can be reached, in order."""
    passages: list[Passage] = []
    passage = reached[room].passage
    while passage is not None:
        passages.append(passage)
        passage = reached[passage.leaves].passage
    return passages[::-1]


def orders(
    plan: StoreyPlan, manifold: ManifoldPlace, reached: Mapping[int, Access], demands: Iterable[TailDemand]
) -> list[RoomOrder]:
    """Of every room that pairs enter, the manifold's first, each after the room by which it is reached."""
    own: dict[int, list[str]] = {}
    onward: dict[int, dict[int, Passage]] = {}
    for demand in demands:
        own.setdefault(demand.room, []).append(demand.circuit)
        for passage in row_of(reached, demand.room):
            onward.setdefault(passage.leaves, {})[passage.doorway] = passage
    branching = _Branching(plan, own, onward)
    branching.visit(manifold.room, manifold.place, None)
    return branching.found


@dataclass
class _Branching:
    """``own`` circuits of rooms, and passages ``onward`` by doorway from each."""

    plan: StoreyPlan
    own: Mapping[int, Sequence[str]]
    onward: Mapping[int, Mapping[int, Passage]]
    found: list[RoomOrder] = field(default_factory=list)

    def visit(self, room: int, place: Point, entry: Passage | None) -> tuple[str, ...]:
        """Circuits that enter a room at a place, from the right."""
        outline = loop_of(self.plan.rooms[room])
        start = outline.project(place)
        passages = sorted(
            self.onward.get(room, {}).values(),
            key=lambda passage: (round(_forward(outline, start, passage.near), 6), passage.doorway),
        )
        at = len(self.found)
        exits = [(passage, self.visit(passage.enters, passage.far, passage)) for passage in passages]
        others = [
            _forward(outline, start, entry) for owner, entry in self.plan.entries_of_others if owner == room
        ]
        right: list[str] = []
        left: list[str] = []
        for passage, circuits in exits:
            keeps_right = _keeps_right(_forward(outline, start, passage.near), outline.length, others)
            (right if keeps_right and not left else left).extend(circuits)
        mine = tuple(self.own.get(room, ()))
        heated = bool(mine) or bool(others)
        order = RoomOrder(room, entry, (*right, *mine, *left), mine, tuple(exits), len(right), heated)
        self.found.insert(at, order)
        return order.circuits


def _keeps_right(forward: float, length: float, others: Sequence[float]) -> bool:
    """Whether pairs that leave so far [m] along an outline keep to its right-hand part: to that by which they do not
    cut off where circuits of others come in, else to the shorter one."""
    between = sum(other < forward for other in others)
    if 0 < between < len(others) or not others:
        return forward <= length / 2.0
    return between == 0


def _forward(outline: Loop, start: float, place: Point) -> float:
    return (outline.project(place) - start) % outline.length


def aligned(found: Sequence[RoomOrder], ports: tuple[Point, Point], rules: TailRules) -> list[RoomOrder]:
    """The orders with pairs moved sideways in doorways that face the one by which their room is entered, as far as
    these are wide, so that pairs run straight across; ``ports``: middle and direction of those at the manifold.

    Pairs that have a little way to go sideways have no room for two square bends.
    """
    moved: dict[int, Passage] = {}
    orders_found = []
    for order in found:
        entry = moved.get(order.room, order.entry)
        middle, ahead = ports if entry is None else (entry.far, entry.ahead)
        row = dict(zip(order.circuits, slots(middle, ahead, len(order.circuits), rules), strict=True))
        exits = []
        for passage, circuits in order.exits:
            moved[passage.enters] = _aligned(passage, [row[circuit] for circuit in circuits], ahead, rules)
            exits.append((moved[passage.enters], circuits))
        orders_found.append(replace(order, entry=entry, exits=tuple(exits)))
    return orders_found


def _aligned(passage: Passage, places: Sequence[Point], ahead: Point, rules: TailRules) -> Passage:
    """The passage with its middle where pairs that come straight on from ``places`` meet it, if it is so wide."""
    (u, v), left = passage.ahead, (-ahead[1], ahead[0])
    if u * ahead[0] + v * ahead[1] < _FACING:
        return passage
    middle = sum(x * left[0] + y * left[1] for x, y in places) / len(places)
    aside = middle - (passage.near[0] * left[0] + passage.near[1] * left[1])
    spare, bends = (passage.width - rules.width_for(len(places))) / 2.0, 2.0 * rules.pair_radius + _ROUNDING
    shift = 0.0
    if abs(aside) <= spare:
        shift = aside
    elif spare >= bends - abs(aside) > 0.0:
        shift = math.copysign(abs(aside) - bends, aside)
    return _shifted(passage, shift)


def _shifted(passage: Passage, shift: float) -> Passage:
    """The passage with its middle so far [m] to the left, looking ahead."""
    left = (-passage.ahead[1], passage.ahead[0])
    near, far = ((x + shift * left[0], y + shift * left[1]) for x, y in (passage.near, passage.far))
    return replace(passage, near=near, far=far)


def slots(middle: Point, ahead: Point, count: int, rules: TailRules) -> list[Point]:
    """Middles [m] of pairs side by side, from the right as seen looking ahead."""
    right = (ahead[1], -ahead[0])
    shifts = [rules.pair_width * ((count - 1) / 2.0 - index) for index in range(count)]
    return [(middle[0] + shift * right[0], middle[1] + shift * right[1]) for shift in shifts]


def manifold_middle(
    plan: StoreyPlan, manifold: ManifoldPlace, count: int, rules: TailRules
) -> tuple[Point, float]:
    """Where the middle of the ports goes so that pairs stand on one stretch of wall, clear of doorways, and
    the length [m] of that stretch."""
    outline = loop_of(plan.rooms[manifold.room])
    at = outline.project(manifold.place)
    here = np.array([at])
    back, forward = (float(outline.straight_run(here, side)[0]) for side in (-1, 1))
    for stretch in _doorways_of(plan, manifold.room):
        for end in stretch:
            away = (outline.project(end) - at) % outline.length
            forward, back = min(forward, away), min(back, outline.length - away)
    half = rules.width_for(count) / 2.0
    shift = (
        min(max(0.0, half - back), forward - half) if back + forward >= 2.0 * half else (forward - back) / 2.0
    )
    return outline.at(at + shift), back + forward


def _doorways_of(plan: StoreyPlan, room: int) -> list[Segment]:
    """Stretches of a room's outline that are doorways."""
    return [
        stretch
        for doorway in plan.doorways
        for owner, stretch in zip(doorway.rooms, doorway.stretches, strict=True)
        if owner == room
    ]
