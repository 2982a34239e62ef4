"""What lanes leave of a cell: the floor of its own field and how its pair comes into it, and floor that is cut off."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.regions import Region, eroded, minus, opened, parts_of
from .cell_lanes import CellLanes, Stub

__all__ = ["Approach", "FieldFloor", "FreeFloor"]

_LEAST_WIDTH = 0.7
"""Of a field between its outermost pipes, in spacings: pipe there and back."""
_SLACK = 0.01
"""Edge beside a pair beyond what its bends take [m]."""
_HAIR = 1e-4
_DEEPEST = 4.0
"""A pair goes straight on for at most so long to get to its field [m]."""
_NEARER = 5e-3
"""By which pipes of lanes may be nearer to each other [m]."""
_PER_METRE = 0.2
"""Floor [m2] that a way to the field may be longer for by a metre."""


class Approach(NamedTuple):
    """The way of pairs from their gate to a field: straight on for a ``depth`` [m], and to the left (``turn`` 1) or the
    right (-1) for ``aside`` [m] from the middle of the gate."""

    depth: float
    turn: int = 0
    aside: float = 0.0

    def corners(self, aside: float) -> list[Point]:
        """Of the pipe that passes the gate so far to the left of its middle [m], in the gate's frame."""
        if not self.turn:
            return [(self.depth, aside)]
        at = self.depth - self.turn * aside
        return [(at, aside), (at, self.turn * self.aside)]

    @property
    def length(self) -> float:
        return self.depth + self.aside


@dataclass(frozen=True)
class FieldFloor:
    """The floor of a field, and the way to it, which comes to its edge at the ``entry``, the middle of all pipes."""

    floor: Polygon
    entry: Point
    stub: Stub
    approach: Approach

    @property
    def ahead(self) -> Point:
        """Direction of the pipes at the entry."""
        (u, v), turn = self.stub.ahead, self.approach.turn
        return (-turn * v, turn * u) if turn else (u, v)

    def onward(self, place: Point) -> list[Point]:
        """Corners from a place at the gate on, to the field."""
        frame = _frame_of(self.stub)
        aside = float(frame.local_points(np.array([place]))[0, 1])
        return [frame.outer(*corner) for corner in self.approach.corners(aside)]


@dataclass(frozen=True)
class FreeFloor:
    """The floor of a ``cell`` beside its ``lanes``; lengths in metres, ``least``: between pipes of lanes."""

    cell: Polygon
    lanes: CellLanes
    spacing: float
    clearance: float
    bend_radius: float
    least: float

    @cached_property
    def rest(self) -> Region:
        """What lies a spacing off the pipes of lanes, drawn so that a pipe keeps the clearance from its edge."""
        reach = max(self.spacing - self.clearance, _HAIR)
        return minus(self.cell, self.lanes.floor(reach))

    @cached_property
    def parts(self) -> list[Polygon]:
        """Parts of the rest in which a field has room, the largest first."""
        found = parts_of(opened(self.rest, self._half_width))
        return sorted(found, key=lambda part: (-round(float(part.area), 4), part.bounds))

    @property
    def _half_width(self) -> float:
        return self.clearance + _LEAST_WIDTH * self.spacing / 2.0

    def field(self, stub: Stub) -> FieldFloor | None:
        """The floor of the cell's own field when its pairs come in by a gate; ``None``: they have no way to any."""
        if not self.lanes.lanes and self._lands(self.rest, _frame_of(stub), 0.0):
            return FieldFloor(self.cell, _frame_of(stub).outer(0.0, 0.0), stub, Approach(0.0))
        best: tuple[float, FieldFloor] | None = None
        for part in self.parts:
            if best is not None and part.area <= best[0]:
                break
            for approach in self._approaches(part, stub):
                found = self._field_at(part, stub, approach)
                if found is not None:
                    worth = round(float(found.floor.area) - _PER_METRE * approach.length, 6)
                    if best is None or worth > best[0]:
                        best = (worth, found)
                    break
        return None if best is None else best[1]

    def cut_off(self, field: FieldFloor | None) -> list[Polygon]:
        """The other parts."""
        return [
            part
            for part in self.parts
            if field is None or shapely.intersection(part, field.floor).area < 0.5 * part.area
        ]

    def _approaches(self, part: Polygon, stub: Stub) -> Iterator[Approach]:
        """Ways by which pairs may come to a part, the plainest first."""
        frame = _frame_of(stub)
        local = frame.local_points(shapely.get_coordinates(part))
        for depth in (0.0, *_levels(local[:, 0], 0.0)):
            if self._lands(part, frame, depth):
                yield Approach(depth)
                break
        bend = max(self.bend_radius, self.clearance) + _SLACK
        nearest = frame.half + bend
        for turn in (1, -1):
            for depth in (nearest, *(at + nearest for at in _levels(local[:, 0], 0.0))):
                for aside in (nearest, *_levels(turn * local[:, 1], nearest)):
                    if self._lands(part, frame.turned(depth, turn * aside, turn), 0.0):
                        yield Approach(depth, turn, aside)
                        break

    def _lands(self, floor: Region, frame: _Frame, depth: float) -> bool:
        """Whether there is floor ahead of the pair for a field to begin with."""
        side = frame.half + self.clearance - _HAIR
        deep = 2.0 * self.clearance + 0.8 * self.spacing
        box = frame.box(depth, depth + deep, side)
        return floor is not None and bool(
            shapely.covers(shapely.buffer(floor, _HAIR, join_style="mitre"), box)
        )

    def _field_at(self, part: Polygon, stub: Stub, approach: Approach) -> FieldFloor | None:
        frame = _frame_of(stub)
        entry = frame.outer(approach.depth, approach.turn * approach.aside)
        if approach.length <= 0.0:
            return FieldFloor(part, entry, stub, approach)
        pipes = [
            LineString(
                [frame.outer(0.0, aside), *(frame.outer(*corner) for corner in approach.corners(aside))]
            )
            for aside in (-frame.half, frame.half)
        ]
        if approach.turn and not self._passes(pipes):
            return None
        side = max(2.0 * self.bend_radius - self.clearance + _SLACK, self.clearance)
        if approach.turn:
            side = max(side, self.spacing - self.clearance)
        way = shapely.union_all([pipe.buffer(side, cap_style="flat", join_style="mitre") for pipe in pipes])
        between = Polygon([*pipes[0].coords, *pipes[1].coords[::-1]])
        behind = frame.box(-1.0, 0.0, frame.half + side)
        left = parts_of(opened(minus(part, shapely.union_all([way, between, behind])), self.clearance))
        found = next(
            (one for one in left if shapely.distance(one.exterior, shapely.Point(entry)) < 1e-3), None
        )
        return None if found is None else FieldFloor(found, entry, stub, approach)

    def _passes(self, pipes: Sequence[LineString]) -> bool:
        """Whether pipes of the way to the field keep their distances from walls and lanes."""
        room = eroded(self.cell, self.clearance - _HAIR)
        ahead = [
            shapely.difference(pipe, shapely.Point(pipe.coords[0]).buffer(self.clearance + _HAIR))
            for pipe in pipes
        ]
        if room is None or not shapely.covers(room, ahead).all():
            return False
        lines = [LineString(pipe) for lane in self.lanes.lanes for pipe in (lane.right, lane.left)]
        near = self.least - _NEARER
        return not lines or bool(
            shapely.distance(np.array(pipes)[:, None], np.array(lines)[None, :]).min() >= near
        )


def _levels(along: Array, least: float) -> list[float]:
    """Distances from the gate at which the edge of a part may begin."""
    found: list[float] = np.unique(np.round(along[(along > least + _HAIR) & (along < _DEEPEST)], 4)).tolist()
    return found


def _frame_of(stub: Stub) -> _Frame:
    (ax, ay), (bx, by), ahead = stub
    return _Frame(((ax + bx) / 2.0, (ay + by) / 2.0), ahead, math.dist(stub.right, stub.left) / 2.0)


@dataclass(frozen=True)
class _Frame:
    """Before a gate whose outermost pipes lie ``half`` [m] to either side: x ahead from its middle, y to the left."""

    middle: Point
    ahead: Point
    half: float

    @cached_property
    def axes(self) -> Array:
        (u, v) = self.ahead
        return np.array(((u, v), (-v, u)))

    def local_points(self, points: Array) -> Array:
        local: Array = (points - np.array(self.middle)) @ self.axes.T
        return local

    def outer(self, x: float, y: float) -> Point:
        px, py = (np.array((x, y)) @ self.axes + self.middle).tolist()
        return (px, py)

    def turned(self, x: float, y: float, turn: int) -> _Frame:
        """With its middle elsewhere, and turned to the left or right."""
        (u, v) = self.ahead
        return _Frame(self.outer(x, y), (-turn * v, turn * u), self.half)

    def box(self, low: float, high: float, side: float) -> Polygon:
        return Polygon(
            [self.outer(x, y) for x, y in ((low, -side), (high, -side), (high, side), (low, side))]
        )
