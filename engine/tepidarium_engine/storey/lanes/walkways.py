"""From room to room: where pairs of pipes pass doorways, and the shortest row of doorways to each room."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.overlays import difference, intersection, union
from ...plan.outlines.regions import Region, eroded
from ...queues import Queue
from ..model.records import Doorway, Segment
from ..model.tail_records import ManifoldPlace, StoreyPlan, TailRules
from .visibility import WalkGraph

__all__ = [
    "Access",
    "Passage",
    "Walkways",
    "access_to_rooms",
    "into_room",
    "leaves_again",
    "storey_floor",
    "stub_end",
    "walkable",
]

_HAIR = 1e-6
_ON_OUTLINE = 1e-3
"""Farther from its room's outline, a doorway is on no wall of it [m]."""
_IN_CORNER = 1.5
"""Times the clearance of pairs: a corner of two walls is nearer than this to the floor that they leave."""


@dataclass(frozen=True, slots=True)
class Passage:
    """A doorway passed in one direction: from the middle ``near``, on the outline of the room left, to ``far``
    on the outline of the room entered; ``ahead`` is square to the wall; ``width`` is clear [m]."""

    doorway: int
    leaves: int
    enters: int
    near: Point
    far: Point
    ahead: Point
    width: float


@dataclass(frozen=True, slots=True)
class Access:
    """How a room is reached: ``length`` [m] of the way to the place where it is entered by ``passage``;
    ``None``: the manifold stands in it."""

    length: float
    passage: Passage | None


def into_room(room: Polygon, stretch: Segment) -> Point:
    """Unit vector square to a stretch of the outline, into the room."""
    (x0, y0), (x1, y1) = stretch
    length = math.hypot(x1 - x0, y1 - y0)
    left = (-(y1 - y0) / length, (x1 - x0) / length)
    probe = shapely.Point((x0 + x1) / 2.0 + 1e-3 * left[0], (y0 + y1) / 2.0 + 1e-3 * left[1])
    return left if room.covers(probe) else (-left[0], -left[1])


def walkable(plan: StoreyPlan, room: int) -> shapely.Geometry:
    """A room with its doorways and the rooms behind them."""
    doorways = [doorway for doorway in plan.doorways if room in doorway.rooms]
    return _joined(plan, {room, *(other for doorway in doorways for other in doorway.rooms)}, doorways)


def storey_floor(plan: StoreyPlan) -> shapely.Geometry:
    """All rooms with their doorways."""
    return _joined(plan, range(len(plan.rooms)), plan.doorways)


def _joined(plan: StoreyPlan, rooms: Iterable[int], doorways: Sequence[Doorway]) -> shapely.Geometry:
    passages = [
        shapely.MultiPoint([*doorway.stretches[0], *doorway.stretches[1]]).convex_hull for doorway in doorways
    ]
    whole = union([*(plan.rooms[room] for room in sorted(rooms)), *passages])
    # A hair is closed where they meet.
    return shapely.buffer(shapely.buffer(whole, _HAIR, join_style="mitre"), -_HAIR, join_style="mitre")


def stub_end(floor: Region, room: Polygon, place: Point, ahead: Point) -> Point | None:
    """Where a line ahead from a place on the outline of a room first reaches the floor in it; ``None``: nowhere, or
    only beyond a wall or void."""
    if floor is None:
        return None
    low_x, low_y, high_x, high_y = floor.bounds
    reach = math.hypot(high_x - low_x, high_y - low_y) + math.dist(place, ((low_x + high_x) / 2, low_y))
    ray = LineString([place, (place[0] + reach * ahead[0], place[1] + reach * ahead[1])])
    met = shapely.get_coordinates(intersection(ray, floor))
    if not len(met):
        return None
    along = (met - np.array(place)) @ np.array(ahead)
    first = float(along.min())
    end = (place[0] + first * ahead[0], place[1] + first * ahead[1])
    return None if leaves_again(room, place, end) else end


def leaves_again(room: Polygon, place: Point, end: Point) -> bool:
    """Whether a stub is out of the room on its way; a place aside of a corner, where ports may stand, may be."""
    outside = difference(LineString([place, end]), room)
    if outside.length <= _ON_OUTLINE:
        return False
    beyond = difference(outside, shapely.buffer(room, _ON_OUTLINE, join_style="mitre"))
    return any(
        part.distance(shapely.Point(place)) > 2.0 * _ON_OUTLINE
        for part in shapely.get_parts(beyond)
        if part.length
    )


@dataclass(frozen=True)
class Walkways:
    """The storey as one pair of pipes can walk it."""

    plan: StoreyPlan
    rules: TailRules

    @cached_property
    def floors(self) -> tuple[Region, ...]:
        """Where the middle of a pair may lie in each room."""
        return tuple(eroded(room, self.rules.pair_clearance) for room in self.plan.rooms)

    @cached_property
    def passages(self) -> tuple[tuple[Passage, ...], ...]:
        """By room left: passages through which at least one pair goes, in order of doorway."""
        found: list[list[Passage]] = [[] for _ in self.plan.rooms]
        for index, doorway in enumerate(self.plan.doorways):
            for side in (0, 1):
                passage = self._passage(index, doorway, side)
                if passage is not None and self.rules.pairs_in(passage.width) > 0:
                    found[passage.leaves].append(passage)
        return tuple(tuple(passages) for passages in found)

    @cached_property
    def pairs_through(self) -> dict[int, int]:
        """Pairs that pass each doorway side by side."""
        return {
            passage.doorway: self.rules.pairs_in(passage.width)
            for passages in self.passages
            for passage in passages
        }

    def _passage(self, index: int, doorway: Doorway, side: int) -> Passage | None:
        """Through the part of the doorway's two stretches in which they face each other."""
        near, far = doorway.stretches[side], doorway.stretches[1 - side]
        leaves, enters = doorway.rooms[side], doorway.rooms[1 - side]
        if min(math.dist(*near), math.dist(*far)) < _HAIR:  # tails of another manifold take all of it
            return None
        for room, stretch in ((leaves, near), (enters, far)):
            ends = shapely.points(np.array(stretch))
            if (shapely.distance(self.plan.rooms[room].exterior, ends) > _ON_OUTLINE).any():
                return None
        ahead = into_room(self.plan.rooms[enters], far)
        along = (-ahead[1], ahead[0])
        spans = [sorted(_dot(point, along) for point in stretch) for stretch in (near, far)]
        low, high = max(spans[0][0], spans[1][0]), min(spans[0][1], spans[1][1])
        if high <= low:
            return None
        middle = (low + high) / 2.0
        places = [_across(stretch, along, middle) for stretch in (near, far)]
        return Passage(index, leaves, enters, places[0], places[1], ahead, high - low)

    @cached_property
    def graphs(self) -> tuple[WalkGraph, ...]:
        """By room; terminals are the ends of the stubs of its passages."""
        return tuple(
            WalkGraph(floor, np.array([end for end, _ in stubs]).reshape(-1, 2))
            for floor, stubs in zip(self.floors, self._stubs, strict=True)
        )

    @cached_property
    def _stubs(self) -> tuple[list[tuple[Point, float]], ...]:
        """By room and passage: where the way square to the doorway reaches the floor, and its length [m]."""
        return tuple(
            [self.stub(room, passage.near, _back(passage.ahead)) for passage in passages]
            for room, passages in enumerate(self.passages)
        )

    def stub(self, room: int, place: Point, ahead: Point) -> tuple[Point, float]:
        """Where the way ahead from the outline reaches the floor of a room, and its length [m]; from a place beside a
        corner the nearest floor, since ports there stand aside."""
        floor = self.floors[room]
        end = stub_end(floor, self.plan.rooms[room], place, ahead)
        if end is None and floor is not None:
            (_, (x, y)) = shapely.get_coordinates(shapely.shortest_line(shapely.Point(place), floor)).tolist()
            end = (x, y) if math.dist(place, (x, y)) <= _IN_CORNER * self.rules.pair_clearance else None
        return (place, math.inf) if end is None else (end, math.dist(place, end))

    def ways(self, room: int, places: Array, aheads: Array) -> Array:
        """Shortest ways [m] in a room from places on its outline (rows) to its passages (columns)."""
        first = [self.stub(room, *pose) for pose in zip(_points(places), _points(aheads), strict=True)]
        ends = np.array([end for end, _ in first]).reshape(-1, 2)
        between = self.graphs[room].lengths(ends)
        own = np.array([length for _, length in first])[:, None]
        other = np.array([length for _, length in self._stubs[room]])[None, :]
        ways: Array = between + own + other
        return ways


def access_to_rooms(walkways: Walkways, manifold: ManifoldPlace) -> dict[int, Access]:
    """How each room that can be reached is reached first; every room is entered at one place only, so that
    tails branch like a tree."""
    reached: dict[int, Access] = {}
    waiting: Queue[tuple[float, int, Passage | None]] = Queue()
    waiting.push((0.0, manifold.room, -1), (0.0, manifold.room, None))
    while waiting:
        length, room, passage = waiting.pop()
        if room in reached:
            continue
        reached[room] = Access(length, passage)
        if all(onward.enters in reached for onward in walkways.passages[room]):
            continue
        place, ahead = (manifold.place, manifold.ahead) if passage is None else (passage.far, passage.ahead)
        ways = walkways.ways(room, np.array([place]), np.array([ahead]))[0]
        for onward, way in zip(walkways.passages[room], ways.tolist(), strict=True):
            if onward.enters not in reached and math.isfinite(way):
                total = round(length + way + math.dist(onward.near, onward.far), 6)
                waiting.push((total, onward.enters, onward.doorway), (total, onward.enters, onward))
    return reached


def _points(rows: Array) -> list[Point]:
    return [(x, y) for x, y in rows.tolist()]


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def _back(direction: Point) -> Point:
    return (-direction[0], -direction[1])


def _across(stretch: Segment, along: Point, at: float) -> Point:
    """The point of a stretch at a distance along."""
    start, end = (_dot(point, along) for point in stretch)
    share = (at - start) / (end - start)
    (x0, y0), (x1, y1) = stretch
    return (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
