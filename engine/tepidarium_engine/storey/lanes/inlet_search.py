"""The search for ways by which a room's own pairs of pipes come squarely into its field."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.overlays import difference, placed, union
from ...plan.outlines.regions import Region, eroded, minus, opened, parts_of
from ..model.records import PairPlace
from ..model.tail_records import TailRules

__all__ = ["Inlet", "InletSearch", "InletTask", "InletWay"]

_SLACK = 0.01
"""Edge beside the pairs beyond what their bends take [m]."""
_HAIR = 1e-4
_SAME = 1e-6
"""Legs that differ by less are one [m]."""
_STRAIGHT_ON = 0.03
"""Straight pipe after a bend before the field begins [m]."""
_LONGEST = 4.0
"""Of a leg on the way to the field [m]."""
_BEND = 0.4
"""What a bend of all pairs counts [m]."""
_PER_METRE = 0.15
"""Floor [m2] that a way may be longer for by a metre: a band of two pipes."""


@dataclass(frozen=True)
class InletTask:
    """A room, the floor ``lanes`` that tails of others take of it, their pipes, and the room's own places from
    the right, side by side."""

    room: Polygon
    lanes: Region
    pipes: shapely.Geometry
    places: tuple[PairPlace, ...]
    pipe_spacing: float
    rules: TailRules

    @property
    def middle(self) -> Point:
        xs, ys = zip(*(place.place for place in self.places), strict=True)
        return (sum(xs) / len(xs), sum(ys) / len(ys))


@dataclass(frozen=True)
class Inlet:
    """``corners`` of the middle of each pair from its place to the field, none where it begins at the place;
    ``floor`` of the field, and the ``entry`` on its outline in the middle of all pairs, which come in ``ahead``."""

    corners: tuple[tuple[Point, ...], ...]
    floor: Polygon
    entry: Point
    ahead: Point


@dataclass(frozen=True, slots=True)
class InletWay:
    """Straight on for ``ahead`` [m], then ``aside`` [m] to the left, or to the right if negative; what is 0 is left
    out."""

    ahead: float
    aside: float = 0.0

    @property
    def end(self) -> Point:
        return (self.ahead, self.aside)

    @property
    def cost(self) -> float:
        return self.ahead + abs(self.aside) + _BEND * (self.aside != 0.0)

    def corners(self, left: float = 0.0) -> list[Point]:
        """Of the line ``left`` [m] of the middle of all pairs."""
        if not self.aside:
            return [(0.0, left), (self.ahead, left)]
        turn = self.ahead - math.copysign(left, self.aside * left)
        return [(0.0, left), (turn, left), (turn, self.aside)]


@dataclass(frozen=True)
class InletSearch:
    """In a frame whose origin is the middle of all pairs, x ahead and y to the left."""

    task: InletTask

    @cached_property
    def half(self) -> float:
        """From the middle to the outermost pipe [m]."""
        return (len(self.task.places) - 0.5) * self.task.rules.tail_pitch

    @cached_property
    def half_width(self) -> float:
        """Of the edge by which the pairs come in: a pipe has room to turn out of it and round its corner [m]."""
        rules = self.task.rules
        turning = self.half + 2.0 * rules.bend_radius - rules.wall_clearance + _SLACK
        return max(rules.width_for(len(self.task.places)) / 2.0 + _HAIR, turning)

    @cached_property
    def landing(self) -> tuple[float, float]:
        """Free floor that a field begins with: to either side of the middle, and ahead [m]."""
        rules = self.task.rules
        deep = 2.0 * rules.wall_clearance + 0.8 * self.task.pipe_spacing
        return self.half + rules.wall_clearance + rules.bend_radius + _SLACK, deep

    @cached_property
    def parting(self) -> tuple[float, float]:
        """The same where pairs part from each other along the edge."""
        further = 2.0 * (len(self.task.places) - 1) * self.task.rules.tail_pitch
        side, deep = self.landing
        return side + further, deep + further

    @cached_property
    def free(self) -> Region:
        return self._local(minus(self.task.room, self.task.lanes))

    @cached_property
    def wide(self) -> shapely.Geometry:
        wide = shapely.buffer(self.free, _HAIR, join_style="mitre")
        shapely.prepare(wide)
        return wide

    @cached_property
    def passable(self) -> shapely.Geometry:
        """Where the middle of all pairs may lie."""
        task, pitch = self.task, self.task.rules.tail_pitch
        inside = eroded(self._local(task.room), task.rules.wall_clearance + self.half - _HAIR)
        beside = shapely.buffer(self._local(task.pipes), self.half + pitch - _HAIR)
        found = difference(inside, beside) if inside is not None else Polygon()
        shapely.prepare(found)
        return found

    @cached_property
    def parts(self) -> list[Polygon]:
        return parts_of(opened(self.free, self.task.rules.wall_clearance))

    def ways(self, landing: tuple[float, float]) -> Array:
        """Straight on, or round one corner, to free floor; a row has the numbers of a ``InletWay``.

        Ways round two corners were looked for where these did not do, in 46 of 900 rooms and storeys: none served a
        circuit more.
        """
        straight = _levels(self._corners[:, 0], 0.0)
        ahead = np.stack((straight, np.zeros_like(straight)), axis=1)
        return self.clear(self.landing_on(np.concatenate((ahead, self._round_corner())), landing))

    @cached_property
    def _corners(self) -> Array:
        corners: Array = shapely.get_coordinates(self.free)
        return corners

    @cached_property
    def _least(self) -> float:
        """Leg that takes a bend of all pairs at one end [m]."""
        return self.task.rules.bend_radius + self.half + _SAME

    def _round_corner(self) -> Array:
        """Ways round one corner."""
        least = self._least + _STRAIGHT_ON
        passable = shapely.get_coordinates(self.passable)
        side = self.landing[0]
        turns = _levels(
            np.concatenate((passable[:, 0], self._corners[:, 0] + side, [self._least])), self._least
        )
        found = []
        for sign in (1.0, -1.0):
            beside = np.concatenate((self._corners[:, 1], passable[:, 1], self._corners[:, 1] + sign * side))
            turn, end = np.meshgrid(turns, _levels(np.append(sign * beside, least), least), indexing="ij")
            found.append(np.stack((turn.ravel(), sign * end.ravel()), axis=1))
        return np.concatenate(found)

    def landing_on(self, ways: Array, landing: tuple[float, float]) -> Array:
        """Those that end before free floor."""
        side, deep = landing
        x, y = ways.T
        aside = y != 0.0
        far = y + np.copysign(deep, y)
        boxes = shapely.box(
            np.where(aside, x - side, x),
            np.where(aside, np.minimum(y, far), y - side),
            np.where(aside, x + side, x + deep),
            np.where(aside, np.maximum(y, far), y + side),
        )
        found: Array = ways[shapely.covers(self.wide, boxes)]
        return found

    def clear(self, ways: Array) -> Array:
        """Those that keep off walls and the tails of others; what lies in the clearance of the wall that they come
        from is not looked at."""
        ahead, aside = ways.T
        first, none = np.minimum(self.task.rules.wall_clearance + self.half, ahead), np.zeros_like(aside)
        corners = np.stack(
            (np.stack((first, ahead, ahead), axis=1), np.stack((none, none, aside), axis=1)), axis=2
        )
        lines = shapely.linestrings(corners)
        found: Array = ways[shapely.covers(self.passable, lines) | (shapely.length(lines) <= _HAIR)]
        return found

    def worths(self, ways: Sequence[InletWay]) -> list[float]:
        """Floor [m2] of the part that each leads to, less what the way takes."""
        x, y = np.array([self._just_beyond(way) for way in ways]).reshape(-1, 2).T
        floor = np.zeros(len(ways))
        for part in self.parts:
            floor = np.where(shapely.intersects_xy(part, x, y), np.maximum(floor, part.area), floor)
        return [
            round(area - _PER_METRE * way.cost, 6) for area, way in zip(floor.tolist(), ways, strict=True)
        ]

    def _just_beyond(self, way: InletWay) -> Point:
        (x, y), step = way.end, self.task.rules.wall_clearance
        return (x, y + math.copysign(step, way.aside)) if way.aside else (x + step, y)

    def inlet(self, way: InletWay) -> tuple[float, Inlet] | None:
        """The way with its floor, and what it is worth [m2]; ``None`` where it does not end on its edge."""
        taken = self._taken(way) if way.ahead > 0.0 else None
        here = shapely.Point(way.end)
        left = parts_of(opened(minus(self.free, taken), self.task.rules.wall_clearance))
        part = next((part for part in left if shapely.distance(part.exterior, here) < 1e-3), None)
        if part is None:
            return None
        count, pitch = len(self.task.places), self.task.rules.tail_pitch
        shifts = [(index - (count - 1) / 2.0) * 2.0 * pitch for index in range(count)]
        corners = () if way.ahead <= 0.0 else tuple(self._outer(way.corners(shift)) for shift in shifts)
        floor: Polygon = placed(part, self._outer_points)
        return part.area - _PER_METRE * way.cost, Inlet(corners, floor, *self.lands(way))

    def lands(self, way: InletWay) -> tuple[Point, Point]:
        """Where a way ends and its heading there, in the caller's frame."""
        (entry,) = self._outer([way.end])
        return entry, self._heading(way)

    def _taken(self, way: InletWay) -> shapely.Geometry:
        """Floor that the pairs take, more of it where they come into the field."""
        corners, width = way.corners(), len(self.task.places) * self.task.rules.tail_pitch
        bands = ((corners, width), (corners[-2:], self.half_width))
        return union(
            [
                shapely.buffer(LineString(line), half, cap_style="flat", join_style="mitre")
                for line, half in bands
            ]
        )

    def _heading(self, way: InletWay) -> Point:
        """At the end of a way, in the caller's frame."""
        ahead, left = self._axes.tolist()
        if not way.aside:
            return (ahead[0], ahead[1])
        sign = math.copysign(1.0, way.aside)
        return (sign * left[0], sign * left[1])

    @cached_property
    def _axes(self) -> Array:
        ahead = self.task.places[0].ahead
        return np.array([ahead, (-ahead[1], ahead[0])])

    def _local(self, geometry: shapely.Geometry) -> shapely.Geometry:
        if geometry is None:
            return None
        return placed(geometry, lambda points: (points - np.array(self.task.middle)) @ self._axes.T)

    def _outer_points(self, points: Array) -> Array:
        outer: Array = points @ self._axes + np.array(self.task.middle)
        return outer

    def _outer(self, points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x, y) for x, y in self._outer_points(np.array(points)).tolist())


def _levels(values: Array, least: float) -> Array:
    """Different values from the least to the longest leg; next to nothing is nothing, so that no pipe is as short."""
    kept = np.sort(values[(values >= least - 1e-9) & (values <= _LONGEST)])
    kept[np.abs(kept) < _HAIR] = 0.0
    found: Array = kept[np.concatenate(([True], np.diff(kept) > _SAME))] if len(kept) else kept
    return found
