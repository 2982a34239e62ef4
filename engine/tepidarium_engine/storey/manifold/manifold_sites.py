"""Places along walls at which a manifold can stand, and how far the rooms are from each."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import scipy
import shapely
from shapely import LineString

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.overlays import difference, intersection, union
from ..lanes.walkways import Passage, Walkways, into_room
from ..model.records import Segment
from ..model.tail_records import ManifoldPlace, StoreyPlan, TailRules

__all__ = ["AllowedWall", "Distances", "WallRun", "places_along", "wall_runs"]

_ON_WALL = 1e-3
"""An allowed stretch that lies nearer to a wall lies on it [m]."""


@dataclass(frozen=True, slots=True)
class AllowedWall:
    """Where a manifold may stand: a stretch of a room's outline, or all its walls when ``stretch`` is ``None``."""

    room: int
    stretch: Segment | None = None


@dataclass(frozen=True, slots=True)
class WallRun:
    """Straight wall without a doorway, from ``start`` to ``end`` [m], on which a manifold may stand."""

    room: int
    start: Point
    end: Point
    ahead: Point

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    def at(self, along: float) -> ManifoldPlace:
        share = along / self.length
        (x0, y0), (x1, y1) = self.start, self.end
        return ManifoldPlace((x0 + share * (x1 - x0), y0 + share * (y1 - y0)), self.ahead, self.room)


def wall_runs(plan: StoreyPlan, allowed: Sequence[AllowedWall]) -> list[WallRun]:
    """Walls, less doorways, along which manifolds are allowed, in the order asked for."""
    found = []
    for wall in allowed:
        room = plan.rooms[wall.room]
        ring = shapely.get_coordinates(shapely.orient_polygons(room).exterior)
        doors = [
            LineString(stretch)
            for doorway in plan.doorways
            for owner, stretch in zip(doorway.rooms, doorway.stretches, strict=True)
            if owner == wall.room
        ]
        openings = shapely.buffer(union(doors), _ON_WALL, cap_style="flat") if doors else None
        for start, end in itertools.pairwise(ring):
            line = LineString([start, end])
            if wall.stretch is not None:
                near = shapely.buffer(LineString(wall.stretch), _ON_WALL, cap_style="flat")
                line = intersection(line, near)
            if openings is not None:
                line = difference(line, openings)
            for part in shapely.get_parts(line):
                if isinstance(part, LineString) and part.length > _ON_WALL:
                    a, b = (tuple(point) for point in part.coords)
                    found.append(WallRun(wall.room, a, b, into_room(room, (a, b))))
    return found


def places_along(run: WallRun, width: float, step: float) -> list[float]:
    """Positions [m] for the middle of a manifold ``width`` wide: evenly spaced, ``step`` or less apart."""
    if run.length < width:
        return []
    free = run.length - width
    count = math.ceil(free / step - 1e-9)
    return [width / 2.0 + free * index / max(1, count) for index in range(count + 1)]


@dataclass(frozen=True)
class Distances:
    """Shortest ways of pairs of pipes over the storey's floor."""

    walkways: Walkways

    @classmethod
    def of(cls, plan: StoreyPlan, rules: TailRules) -> Distances:
        return cls(Walkways(plan, rules))

    @cached_property
    def passages(self) -> list[Passage]:
        return [passage for passages in self.walkways.passages for passage in passages]

    @cached_property
    def beyond(self) -> Array:
        """Ways [m] from the near side of each passage (a row) to where each room is entered."""
        count = len(self.passages)
        steps = np.full((count, count), np.inf)
        index = {id(passage): number for number, passage in enumerate(self.passages)}
        for room, onward in enumerate(self.walkways.passages):
            into = [row for row, passage in enumerate(self.passages) if passage.enters == room]
            if not into or len(onward) < 2:
                continue
            far, ahead = (
                np.array([getattr(self.passages[row], name) for row in into]) for name in ("far", "ahead")
            )
            columns = [index[id(other)] for other in onward]
            through = np.array([math.dist(other.near, other.far) for other in onward])
            ways = self.walkways.ways(room, far, ahead) + through[None, :]
            steps[np.ix_(into, columns)] = np.maximum(ways, 1e-12)
        doorways = np.array([passage.doorway for passage in self.passages])
        steps[doorways[:, None] == doorways[None, :]] = np.inf
        between = scipy.sparse.csgraph.shortest_path(steps, method="D") if count else steps
        across = np.array([math.dist(passage.near, passage.far) for passage in self.passages])
        rooms = np.full((count, len(self.walkways.plan.rooms)), np.inf)
        for column, passage in enumerate(self.passages):
            rooms[:, passage.enters] = np.minimum(rooms[:, passage.enters], between[:, column])
        found: Array = rooms + across[:, None]
        return found

    def to_rooms(self, places: Sequence[ManifoldPlace]) -> Array:
        """Shortest ways [m] from each place (a row) to where each room is entered; 0 to its own room, infinite
        where there is none."""
        found = np.full((len(places), len(self.walkways.plan.rooms)), np.inf)
        first = np.cumsum([0, *(len(passages) for passages in self.walkways.passages)])
        for room in sorted({place.room for place in places}):
            rows = [row for row, place in enumerate(places) if place.room == room]
            own = slice(int(first[room]), int(first[room + 1]))
            if own.start < own.stop:
                ways = self.walkways.ways(
                    room,
                    np.array([places[row].place for row in rows]),
                    np.array([places[row].ahead for row in rows]),
                )
                found[rows] = (ways[:, :, None] + self.beyond[own][None, :, :]).min(axis=1)
            found[rows, room] = 0.0
        return found
