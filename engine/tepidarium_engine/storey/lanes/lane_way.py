"""The way of one pair of pipes across a room: along walls, square to them, with bends that it can take."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple, TypeAlias

import numpy as np
import shapely
from shapely import Polygon

from ...checking import Point
from ...plan.outlines.regions import Region, parts_of
from ..model.tail_records import TailRules
from .free_space import hugged_side
from .lane_graph import LaneGraph, Run, lane_graph
from .walkways import leaves_again, stub_end

__all__ = ["Pose", "Side", "WayCosts", "lane_way"]

_SHARPEST_TURN = math.radians(150.0)
_SQUARE = 1e-7
"""Headings that differ from an axis by less are along it."""
_STRAIGHT = 1e-5
"""A way that strays by less between two of its corners is straight [m]: tracks nearer than that are one, and a short
run from one to the other would turn the edge of its lane."""
_MOST_TURNS = 8
"""So many states by which a way would cross itself are barred."""
_AXES: tuple[Point, ...] = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))


Side: TypeAlias = Literal["right", "left", "any"]


class Pose(NamedTuple):
    """A place on the outline [m] and the unit vector into the room."""

    place: Point
    ahead: Point


@dataclass(frozen=True, slots=True)
class WayCosts:
    """What a way costs, in metres: each metre off the wall times ``off_wall``, and at most ``slanted`` more
    on the slant; ``bend`` for a quarter turn.

    These are trade habits put in numbers: tails lie along walls, square to them, with few bends, so that the
    field stays whole (common practice, no source).
    """

    off_wall: float
    slanted: float = 0.5
    bend: float = 0.4

    def of(self, run: Run) -> float:
        away = run.length - run.hugging
        return run.hugging + away * self.off_wall * (1.0 + self.slanted * run.slant)


class _Label(NamedTuple):
    """How a state is reached: ``straight`` [m] of the last run is free for a bend at its end."""

    cost: float
    straight: float
    node: int
    heading: Point
    before: _Key | None


_Key: TypeAlias = tuple[int, Point, bool]
"""At a node (-1: the end), by a run of a heading, with room for a quarter turn or not."""


def lane_way(
    floor: Region,
    room: Polygon,
    start: Pose,
    end: Pose,
    *,
    side: Side,
    rules: TailRules,
    costs: WayCosts,
) -> list[Point] | None:
    """Corners of the cheapest way from ``start`` to ``end`` on the floor of a room; ``None``: there is none that bends.

    ``side`` says which edge of the floor the way should keep to. Both ends are square to the outline.
    """
    ends = [_first_nodes(floor, room, pose, rules) for pose in (start, end)]
    part = _shared_part(floor, ends[0][:1] + ends[1][:1]) if ends[0] and ends[1] else None
    if part is None:
        return None
    wanted = [*ends[0], *ends[1]]
    hugged = part.boundary if side == "any" else hugged_side(part, ends[0][0], ends[1][0], side == "right")
    graph = lane_graph(part, wanted, hugged, rules.first_lane - rules.pair_clearance)
    return _Search(graph, (start, end), len(ends[0]), rules.pair_radius, costs).corners()


def _first_nodes(floor: Region, room: Polygon, pose: Pose, rules: TailRules) -> list[Point]:
    """Where a way can turn first: as soon as it has reached the floor, and when it has room for a bend."""
    place, (u, v) = pose
    first = stub_end(floor, room, *pose)
    if first is None:
        return []
    aside = rules.tail_pitch / 2.0
    for dx, dy in ((-v * aside, u * aside), (v * aside, -u * aside)):
        if leaves_again(room, (place[0] + dx, place[1] + dy), (first[0] + dx, first[1] + dy)):
            return []
    away = math.dist(place, first)
    runs = [away, rules.pair_radius] if away < rules.pair_radius else [away]
    return [(place[0] + run * u, place[1] + run * v) for run in runs]


def _shared_part(floor: Region, places: list[Point]) -> Polygon | None:
    points = shapely.points(np.array(places))
    for part in parts_of(floor):
        if (shapely.distance(part, points) < 1e-5).all():
            return part
    return None


class _Turn(NamedTuple):
    """What a turn costs, and so much straight pipe [m] it takes off each of its legs."""

    cost: float
    tangent: float


class _Leg(NamedTuple):
    """A run of a heading to a node; ``half`` of its length [m] is free for the bend at either end."""

    node: int
    heading: Point
    half: float
    cost: float


class _Search:
    """Search for the cheapest way (A*, Hart, Nilsson and Raphael 1968) over runs, with the room that bends
    take on both legs; what is left of the way costs at least its straight length."""

    def __init__(
        self, graph: LaneGraph, ends: tuple[Pose, Pose], starts: int, radius: float, costs: WayCosts
    ):
        self.graph, self.start, self.end = graph, *ends
        self.starts, self.radius, self.costs = starts, radius, costs
        self.quarter = radius - 1e-7
        self.places: list[Point] = [(x, y) for x, y in graph.nodes.tolist()]
        self.rest = np.hypot(*(graph.nodes - np.array(self.end.place)).T).tolist()
        self.arrival = _on_axis((-self.end.ahead[0], -self.end.ahead[1]))
        self.barred: set[_Key] = set()
        self.labels: dict[_Key, _Label] = {}
        self.heap: list[tuple[float, _Key]] = []
        self.least: dict[tuple[int, Point], float] = {}
        self.turns: dict[tuple[Point, Point], _Turn] = {}
        self.straight: dict[tuple[int, int], list[_Leg]] = {}
        self.slanted: dict[int, list[_Leg]] = {}

    def corners(self) -> list[Point] | None:
        """Of the cheapest way that does not cross itself, where one is found soon, else of the cheapest: a search
        takes a full turn to change to a track beside its own."""
        first = self._cheapest()
        found = first
        for _ in range(_MOST_TURNS):
            if found is None:
                break
            crossed = _crossed([place for place, _ in found])
            if crossed is None:
                return _straightened([place for place, _ in found])
            self.barred.add(found[min(crossed, len(found) - 2)][1])
            found = self._cheapest()
        return None if first is None else _straightened([place for place, _ in first])

    def _cheapest(self) -> list[tuple[Point, _Key]] | None:
        """Places of the way that leads on, the first at the start, each with the state in which it is reached."""
        self.labels, self.heap = {}, []
        heading = _on_axis(self.start.ahead)
        for node in range(self.starts):
            length = math.dist(self.start.place, self.places[node])
            self._offer(length, length, node, heading, None)
        done = set()
        while self.heap:
            _, key = heapq.heappop(self.heap)
            if key[0] < 0:
                return self._traced(key)
            if key not in done:
                done.add(key)
                self._leave(key, self.labels[key])
        return None

    def _leave(self, key: _Key, label: _Label) -> None:
        node, wanted = label.node, self.graph.wanted
        if self.starts <= node < wanted:
            self._finish(key, label, self.rest[node], 0.0)
        for number, axis in enumerate(_AXES):
            if axis == label.heading:
                if label.before is None:
                    self._straight_on(key, label, self._straight(node, number))
                continue
            bend = self._turn(label.heading, axis)
            if bend.tangent > self.radius or bend.tangent > label.straight:
                continue
            cost = label.cost + bend.cost
            for leg in self._straight(node, number):
                if leg.half >= self.quarter:
                    self._offer(cost + leg.cost, leg.half, leg.node, axis, key)
                if axis == self.arrival and self.starts <= leg.node < wanted:
                    # Straight on to the end: one run, all of it free for the bend before.
                    self._finish(key, label, self.rest[node], leg.cost - 2.0 * leg.half)
        for leg in self._slanted(node):
            bend = self._turn(label.heading, leg.heading)
            if bend.tangent <= leg.half and bend.tangent <= label.straight:
                self._offer(label.cost + bend.cost + leg.cost, leg.half, leg.node, leg.heading, key)

    def _straight(self, node: int, number: int) -> list[_Leg]:
        """Runs along an axis."""
        legs = self.straight.get((node, number))
        if legs is None:
            runs = self.graph.straight(node, number)
            legs = [_Leg(run.end, _AXES[number], run.length / 2.0, self.costs.of(run)) for run in runs]
            self.straight[node, number] = legs
        return legs

    def _slanted(self, node: int) -> list[_Leg]:
        legs = self.slanted.get(node)
        if legs is None:
            legs = [
                _Leg(
                    run.end,
                    _heading(self.places[node], self.places[run.end]),
                    run.length / 2.0,
                    self.costs.of(run),
                )
                for run in self.graph.slanted(node)
            ]
            self.slanted[node] = legs
        return legs

    def _straight_on(self, key: _Key, label: _Label, legs: Sequence[_Leg]) -> None:
        """Runs along the axes reach every node of their track; only stubs at the start go on straight."""
        for leg in legs:
            self._offer(label.cost + leg.cost, label.straight + 2.0 * leg.half, leg.node, label.heading, key)

    def _finish(self, key: _Key, label: _Label, length: float, extra: float) -> None:
        bend = self._turn(label.heading, self.arrival)
        if bend.tangent <= length and bend.tangent <= label.straight:
            self._offer(label.cost + bend.cost + length + extra, length, -1, self.arrival, key)

    def _turn(self, heading: Point, there: Point) -> _Turn:
        """From one heading to another; where it is too sharp, no leg is long enough for it."""
        known = self.turns.get((heading, there))
        if known is None:
            turn = _angle(heading, there)
            if turn < _SQUARE:
                known = _Turn(0.0, -math.inf)
            elif turn > _SHARPEST_TURN:
                known = _Turn(0.0, math.inf)
            else:
                tangent = self.radius * math.tan(turn / 2.0) - 1e-7
                known = _Turn(self.costs.bend * turn / (math.pi / 2.0), tangent)
            self.turns[heading, there] = known
        return known

    def _offer(self, cost: float, straight: float, node: int, heading: Point, before: _Key | None) -> None:
        key = (node, heading, straight >= self.quarter)
        known = self.labels.get(key)
        if (known is None or cost < known.cost - 1e-6) and key not in self.barred:
            self.labels[key] = _Label(cost, straight, node, heading, before)
            heapq.heappush(self.heap, (round(cost + self._left(node, heading), 6), key))

    def _left(self, node: int, heading: Point) -> float:
        """What is left of the way costs at least: its straight length, and a turn towards the end and one there."""
        if node < 0:
            return 0.0
        known = self.least.get((node, heading))
        if known is None:
            (x, y), (u, v) = self.places[node], self.end.place
            there = (u - x, v - y)
            turn = _angle(heading, there) + _angle(there, self.arrival)
            known = self.rest[node] + self.costs.bend * max(0.0, turn - _SQUARE) / (math.pi / 2.0)
            self.least[node, heading] = known
        return known

    def _traced(self, key: _Key) -> list[tuple[Point, _Key]]:
        way = [(self.end.place, key)]
        before = self.labels[key].before
        while before is not None:
            way.append((self.places[before[0]], before))
            before = self.labels[before].before
        return [(self.start.place, way[-1][1]), *reversed(way)]


def _straightened(corners: Sequence[Point]) -> list[Point]:
    way = shapely.simplify(shapely.LineString(corners), _STRAIGHT)
    return [(x, y) for x, y in shapely.get_coordinates(way).tolist()]


def _crossed(corners: Sequence[Point]) -> int | None:
    """Number of the corner to which the first leg leads that crosses one before it."""
    if shapely.is_simple(shapely.LineString(corners)):
        return None
    for number in range(3, len(corners)):
        if not shapely.is_simple(shapely.LineString(corners[: number + 1])):
            return number
    return None


def _heading(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return (round((end[0] - start[0]) / length, 9), round((end[1] - start[1]) / length, 9))


def _angle(one: Point, other: Point) -> float:
    """Between two directions; none where one has no length."""
    (x, y), (u, v) = one, other
    return abs(math.atan2(x * v - y * u, x * u + y * v))


def _on_axis(direction: Point) -> Point:
    """The axis that a direction is along, else the direction itself."""
    for axis in _AXES:
        if math.dist(axis, direction) < 1e-6:
            return axis
    return (round(direction[0], 9), round(direction[1], 9))
