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


class _Search:
    """Search for the cheapest way (A*, Hart, Nilsson and Raphael 1968) over runs, with the room that bends
    take on both legs; what is left of the way costs at least its straight length."""

    def __init__(
        self, graph: LaneGraph, ends: tuple[Pose, Pose], starts: int, radius: float, costs: WayCosts
    ):
        self.graph, self.start, self.end = graph, *ends
        self.starts, self.radius, self.costs = starts, radius, costs
        self.places: list[Point] = [(x, y) for x, y in graph.nodes.tolist()]
        self.rest = np.hypot(*(graph.nodes - np.array(self.end.place)).T).tolist()
        self.arrival = _on_axis((-self.end.ahead[0], -self.end.ahead[1]))
        self.barred: set[_Key] = set()
        self.labels: dict[_Key, _Label] = {}
        self.heap: list[tuple[float, _Key]] = []
        self.turns: dict[tuple[int, Point], float] = {}

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
            self._offer(_Label(length, length, node, heading, None))
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
        if self.starts <= label.node < self.graph.wanted:
            self._finish(key, label, self.rest[label.node], 0.0)
        for heading, axis in enumerate(_AXES):
            runs = self.graph.straight(label.node, heading)
            if not runs:
                continue
            if axis == label.heading:
                self._straight_on(key, label, runs)
                continue
            bend = self._bend(label, axis, self.radius)
            if bend is not None:
                for run in runs:
                    half = run.length / 2.0
                    if half >= self.radius - 1e-7:
                        cost = label.cost + bend + self.costs.of(run)
                        self._offer(_Label(cost, half, run.end, axis, key))
                    if axis == self.arrival and self.starts <= run.end < self.graph.wanted:
                        # Straight on to the end: one run, all of it free for the bend before.
                        self._finish(key, label, self.rest[label.node], self.costs.of(run) - run.length)
        for run in self.graph.slanted(label.node):
            heading_there = _heading(self.places[label.node], self.places[run.end])
            half = run.length / 2.0
            bend = self._bend(label, heading_there, half)
            if bend is not None:
                self._offer(_Label(label.cost + bend + self.costs.of(run), half, run.end, heading_there, key))

    def _straight_on(self, key: _Key, label: _Label, runs: Sequence[Run]) -> None:
        """Runs along the axes reach every node of their track; only stubs at the start go on straight."""
        if label.before is None:
            for run in runs:
                cost = label.cost + self.costs.of(run)
                self._offer(_Label(cost, label.straight + run.length, run.end, label.heading, key))

    def _finish(self, key: _Key, label: _Label, length: float, extra: float) -> None:
        bend = self._bend(label, self.arrival, length)
        if bend is not None:
            self._offer(_Label(label.cost + bend + length + extra, length, -1, self.arrival, key))

    def _bend(self, label: _Label, heading: Point, straight: float) -> float | None:
        """What the turn costs [m]; ``None``: one of its legs is too short for it."""
        turn = _angle(label.heading, heading)
        if turn < _SQUARE:
            return 0.0
        if turn > _SHARPEST_TURN:
            return None
        tangent = self.radius * math.tan(turn / 2.0) - 1e-7
        if tangent > straight or tangent > label.straight:
            return None
        return self.costs.bend * turn / (math.pi / 2.0)

    def _offer(self, label: _Label) -> None:
        key = (label.node, label.heading, label.straight >= self.radius - 1e-7)
        if key in self.barred:
            return
        known = self.labels.get(key)
        if known is None or label.cost < known.cost - 1e-6:
            self.labels[key] = label
            heapq.heappush(self.heap, (round(label.cost + self._left(label), 6), key))

    def _left(self, label: _Label) -> float:
        """What is left of the way costs at least: its straight length, and a turn towards the end and one there."""
        if label.node < 0:
            return 0.0
        known = self.turns.get((label.node, label.heading))
        if known is None:
            (x, y), (u, v) = self.places[label.node], self.end.place
            there = (u - x, v - y)
            turn = _angle(label.heading, there) + _angle(there, self.arrival)
            known = self.rest[label.node] + self.costs.bend * max(0.0, turn - _SQUARE) / (math.pi / 2.0)
            self.turns[label.node, label.heading] = known
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
