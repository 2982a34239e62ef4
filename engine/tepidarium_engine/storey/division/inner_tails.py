"""Tails inside a room: pairs of pipes from the entry along the walls, side by side, to the pieces behind.

Lanes are curves at equal distances along the walls; the pipe that goes furthest lies nearest to the wall, and
each pair leaves the bundle on the side of the room, so none ever crosses another.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.loops import Loop, loop_of
from ...plan.outlines.overlays import intersection
from ...plan.outlines.pipe_zone import PipeZone
from ...plan.outlines.regions import Region, eroded, joined, minus, parts_of

__all__ = ["Gate", "Hallway", "Lane", "Tail"]

_FAR = 500.0
_ROUNDING = 1e-5
"""Outside the room by less is on its edge [m]."""


@dataclass(frozen=True, slots=True)
class Gate:
    """All pairs at the entry: ``place`` in the middle, ``along`` the wall counter-clockwise on the outline,
    ``inward`` square to it; both are unit vectors. They stand side by side on a straight line; ``behind`` it lies a
    curved wall, so far [m] from each pipe, in order."""

    place: Point
    along: Point
    inward: Point
    pitch: float
    count: int
    behind: tuple[float, ...] = ()

    def pair(self, index: int) -> Point:
        """Middle of a pair on the wall [m]."""
        return self._at((index - (self.count - 1) / 2.0) * 2.0 * self.pitch)

    def pipes(self, index: int) -> tuple[Point, Point]:
        """Both pipes of a pair on the wall: the earlier one counter-clockwise, then the later one."""
        start, end = self.beside(index, -self.pitch / 2.0), self.beside(index, self.pitch / 2.0)
        if not self.behind:
            return start, end
        return self._back(start, self.behind[2 * index]), self._back(end, self.behind[2 * index + 1])

    def _back(self, place: Point, way: float) -> Point:
        return (place[0] - way * self.inward[0], place[1] - way * self.inward[1])

    def beside(self, index: int, shift: float) -> Point:
        """A place on the line beside the middle of a pair [m]."""
        return self._at((index - (self.count - 1) / 2.0) * 2.0 * self.pitch + shift)

    def _at(self, along: float) -> Point:
        return (self.place[0] + along * self.along[0], self.place[1] + along * self.along[1])


@dataclass(frozen=True, slots=True)
class Lane:
    """One pipe's way from the wall at the entry to the edge of a piece: ``corners`` [m], one a row.

    ``aside`` is about the way by which it leaves the lane at its end to enter the piece beside it.
    """

    corners: Array
    aside: LineString | None = None

    @property
    def line(self) -> LineString:
        return LineString(self.corners)

    @property
    def run(self) -> float:
        """How far before its end the lane is left to get aside [m]; infinite where it is not."""
        return math.inf if self.aside is None else math.dist(self.corners[-1], self.aside.coords[0])


@dataclass(frozen=True, slots=True)
class Tail:
    """Both pipes of a pair, the one that starts earlier counter-clockwise on the outline first; ``meets`` is
    the middle of the pair where it meets the border of its piece."""

    lanes: tuple[Lane, Lane]
    meets: Point


@dataclass(frozen=True)
class Hallway:
    """Where lanes run: the zone of pipe in a room without joints and cuts, and the gate they start from."""

    room: Polygon
    zone: PipeZone
    gate: Gate
    wall_clearance: float
    first: float

    @cached_property
    def free(self) -> Region:
        return minus(self.zone.shell, joined(self.zone.voids))

    def lane_loop(self, number: int) -> Loop | None:
        """The closed curve of lane ``number`` (0 is nearest to the wall), or None where it is cut off."""
        if number not in self._loops:
            self._loops[number] = self._made(number)
        return self._loops[number]

    @cached_property
    def _loops(self) -> dict[int, Loop | None]:
        return {}

    def _made(self, number: int) -> Loop | None:
        shrunk = eroded(self.free, self.first - self.wall_clearance + number * self.gate.pitch + 1e-9)
        ray = _ray(self.gate.place, self.gate.inward)
        best: tuple[float, Polygon] | None = None
        for part in parts_of(shrunk):
            away = shapely.distance(shapely.Point(self.gate.place), intersection(ray, part.exterior))
            if not math.isnan(away) and (best is None or away < best[0]):
                best = (float(away), part)
        return None if best is None else loop_of(Polygon(best[1].exterior))

    @cached_property
    def _wall(self) -> Loop:
        return loop_of(Polygon(shapely.orient_polygons(self.room).exterior))

    @cached_property
    def _start(self) -> float:
        return self._wall.project(self.gate.place)

    def arrivals(self, piece: Polygon) -> tuple[float, float]:
        """Lengths along the wall from the gate to the piece, clockwise and counter-clockwise."""
        touched = intersection(self._wall.line, shapely.buffer(piece, 1e-6))
        points = shapely.get_coordinates(touched)
        if len(points) == 0:
            return math.inf, math.inf
        on = self._wall.project_all(points) - self._start
        length = self._wall.length
        return float(np.mod(-on, length).min()), float(np.mod(on, length).min())

    def tail(self, index: int, piece: Polygon, side: int) -> Tail | None:
        """The way of pair ``index`` along the wall to a piece; None where a lane does not get there."""
        last = self.gate.count - 1
        order = last - index if side > 0 else index
        # The pipe nearest to the wall is the one further out at the gate.
        numbers = (2 * order + 1, 2 * order) if side > 0 else (2 * order, 2 * order + 1)
        ways = [
            self._way(start, number, piece, side)
            for start, number in zip(self.gate.pipes(index), numbers, strict=True)
        ]
        if ways[0] is None or ways[1] is None:
            return None
        (x0, y0), (x1, y1) = ways[0][-1].tolist(), ways[1][-1].tolist()
        return Tail((Lane(ways[0]), Lane(ways[1])), ((x0 + x1) / 2.0, (y0 + y1) / 2.0))

    def _way(self, start: Point, number: int, piece: Polygon, side: int) -> Array | None:
        loop = self.lane_loop(number)
        if (start, number) not in self._feet:
            self._feet[start, number] = None if loop is None else self._foot(start, loop)
        foot = self._feet[start, number]
        if loop is None or foot is None:
            return None
        if shapely.distance(piece, shapely.Point(foot)) < 2.0 * self.gate.pitch:
            return None
        at = loop.project(foot)
        edge = intersection(loop.line, piece.boundary)
        points = shapely.get_coordinates(edge)
        if len(points) == 0:
            return None
        away = np.mod(side * (loop.project_all(points) - at), loop.length)
        end = float(away.min())
        run = loop.stretch(at, at + end) if side > 0 else loop.stretch(at - end, at)[::-1]
        corners: Array = np.concatenate(([start], run))
        return corners

    def _foot(self, start: Point, loop: Loop) -> Point | None:
        """Where a pipe that goes straight in meets its lane; None where a wall or void is in the way."""
        foot = _first_met(start, self.gate.inward, loop)
        return foot if foot and shapely.covers(self._reachable, LineString([start, foot])) else None

    @cached_property
    def _reachable(self) -> Polygon:
        return shapely.buffer(self.room, _ROUNDING)

    @cached_property
    def _feet(self) -> dict[tuple[Point, int], Point | None]:
        """Where pipes that go straight in from the gate meet their lanes."""
        return {}


def _ray(place: Point, direction: Point) -> LineString:
    return LineString([place, (place[0] + _FAR * direction[0], place[1] + _FAR * direction[1])])


def _first_met(start: Point, inward: Point, loop: Loop) -> Point | None:
    met = shapely.get_coordinates(intersection(_ray(start, inward), loop.line))
    if len(met) == 0:
        return None
    x, y = met[int(np.hypot(*(met - start).T).argmin())].tolist()
    return (x, y)
