"""The way of one pair of pipes across a room: along walls, square to them, with bends that it can take."""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass
from typing import Literal, NamedTuple, TypeAlias

import numpy as np
import shapely
from shapely import Polygon

from ..checking import Point
from ..plan.regions import Region, parts_of
from .free_space import hugged_side
from .lane_graph import LaneGraph, Run, lane_graph
from .walkways import stub_end

__all__ = ["Pose", "Side", "WayCosts", "lane_way"]

_SHARPEST_TURN = math.radians(150.0)
_SQUARE = 1e-7
"""Headings that differ from an axis by less are along it."""
_AXES: tuple[Point, ...] = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))


Side: TypeAlias = Literal["right", "left", "any"]


class Pose(NamedTuple):
    """A place on the outline [m] and the unit vector into the room."""

    place: Point
    ahead: Point


@dataclass(frozen=True, slots=True)
class WayCosts:
    """What a way costs, in metres: each metre off the wall times ``off_wall``, and at most
    ``slanted`` more on the slant; ``bend`` for a quarter turn. These are trade habits put in numbers: tails lie along walls,
    square to them, with few bends, so that the field stays whole (common practice, no source)."""

    off_wall: float
    slanted: float = 0.5
    bend: float = 0.4

    def of(self, run: Run) -> float:
        away = run.length - run.hugging
        return run.hugging + away * self.off_wall * (1.0 + self.slanted * run.slant)


class _State(NamedTuple):
    """At a node, by a run from another one; ``roomy``: the run leaves room for a quarter turn."""

    node: int
    heading: Point
    roomy: bool


class _Label(NamedTuple):
    cost: float
    straight: float
    before: _State | None


def lane_way(
    floor: Region,
    start: Pose,
    end: Pose,
    side: Side,
    radius: float,
    costs: WayCosts,
) -> list[Point] | None:
    """Corners of the cheapest way from ``start`` to ``end``; ``None``: there is none with bends of ``radius``.

    ``side`` says which edge of the floor the way should keep to. Both ends are square to the outline.
    """
    ends = [_first_nodes(floor, pose, radius) for pose in (start, end)]
    part = _shared_part(floor, ends[0][:1] + ends[1][:1]) if ends[0] and ends[1] else None
    if part is None:
        return None
    wanted = [*ends[0], *ends[1]]
    hugged = part.boundary if side == "any" else hugged_side(part, ends[0][0], ends[1][0], side == "right")
    graph = lane_graph(part, wanted, hugged)
    return _Search(graph, start, end, len(ends[0]), len(wanted), radius, costs).corners()


def _first_nodes(floor: Region, pose: Pose, radius: float) -> list[Point]:
    """Where a way can turn first: as soon as it has reached the floor, and when it has room for a bend."""
    first = stub_end(floor, *pose)
    if first is None:
        return []
    away = math.dist(pose.place, first)
    runs = [away, radius] if away < radius else [away]
    return [(pose.place[0] + run * pose.ahead[0], pose.place[1] + run * pose.ahead[1]) for run in runs]


def _shared_part(floor: Region, places: list[Point]) -> Polygon | None:
    points = shapely.points(np.array(places))
    for part in parts_of(floor):
        if (shapely.distance(part, points) < 1e-5).all():
            return part
    return None


class _Search:
    """Dijkstra's search over runs, with the room that bends take on both legs."""

    def __init__(
        self,
        graph: LaneGraph,
        start: Pose,
        end: Pose,
        starts: int,
        wanted: int,
        radius: float,
        costs: WayCosts,
    ) -> None:
        self.graph, self.start, self.end = graph, start, end
        self.starts, self.wanted = starts, wanted
        self.radius, self.costs = radius, costs
        self.places: list[Point] = [(x, y) for x, y in graph.nodes.tolist()]
        self.labels: dict[_State, _Label] = {}
        self.heap: list[tuple[float, _State]] = []

    def corners(self) -> list[Point] | None:
        heading = _on_axis(self.start.ahead)
        for node in range(self.starts):
            length = math.dist(self.start.place, self.places[node])
            self._offer(node, heading, _Label(length, length, None))
        while self.heap:
            cost, state = heapq.heappop(self.heap)
            label = self.labels[state]
            if cost > label.cost:
                continue
            if state.node < 0:
                return self._traced(state)
            self._leave(state, label)
        return None

    def _leave(self, state: _State, label: _Label) -> None:
        place = self.places[state.node]
        ahead = _on_axis((-self.end.ahead[0], -self.end.ahead[1]))
        if self._is_end(state.node):
            self._finish(state, label, ahead, math.dist(place, self.end.place), 0.0)
        for run in self.graph.runs[state.node]:
            if run.length < 1e-9:
                continue
            heading = _AXES[run.heading] if run.heading >= 0 else _heading(place, self.places[run.end])
            if heading == ahead and self._is_end(run.end):
                # Straight on to the end: one run, all of it free for the bend before.
                rest = math.dist(place, self.end.place)
                self._finish(state, label, ahead, rest, self.costs.of(run) - run.length)
            half = run.length / 2.0
            bend = self._bend(state, label, heading, half)
            if bend is not None:
                # Straight on from the start: no bend takes from the run's near half.
                free = run.length if label.before is None else half
                straight = free + label.straight if heading == state.heading else half
                self._offer(run.end, heading, _Label(label.cost + bend + self.costs.of(run), straight, state))

    def _is_end(self, node: int) -> bool:
        return self.starts <= node < self.wanted

    def _finish(self, state: _State, label: _Label, ahead: Point, length: float, extra: float) -> None:
        bend = self._bend(state, label, ahead, length)
        if bend is not None:
            self._offer(-1, ahead, _Label(label.cost + bend + length + extra, length, state))

    def _bend(self, state: _State, label: _Label, heading: Point, straight: float) -> float | None:
        """What the turn costs [m]; ``None``: one of its legs is too short for it."""
        (x, y), (u, v) = state.heading, heading
        turn = abs(math.atan2(x * v - y * u, x * u + y * v))
        if turn < _SQUARE:
            return 0.0
        if turn > _SHARPEST_TURN:
            return None
        tangent = self.radius * math.tan(turn / 2.0) - 1e-7
        if tangent > straight or tangent > label.straight:
            return None
        return self.costs.bend * turn / (math.pi / 2.0)

    def _offer(self, node: int, heading: Point, label: _Label) -> None:
        state = _State(node, heading, label.straight >= self.radius - 1e-9)
        label = label._replace(cost=round(label.cost, 6))
        known = self.labels.get(state)
        if known is None or label.cost < known.cost:
            self.labels[state] = label
            heapq.heappush(self.heap, (label.cost, state))

    def _traced(self, state: _State) -> list[Point]:
        corners = [self.end.place]
        before = self.labels[state].before
        while before is not None:
            corners.append(self.places[before.node])
            before = self.labels[before].before
        return [self.start.place, *reversed(corners)]


def _heading(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return (round((end[0] - start[0]) / length, 9), round((end[1] - start[1]) / length, 9))


def _on_axis(direction: Point) -> Point:
    """The axis that a direction is along, else the direction itself."""
    for axis in _AXES:
        if math.dist(axis, direction) < 1e-6:
            return axis
    return (round(direction[0], 9), round(direction[1], 9))
