"""A room with what is asked of the pipe in it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cached_property

import shapely
from shapely import Polygon
from tepidarium_engine.checking import Point
from tepidarium_engine.plan.laying.laying import LayingTask, Pattern
from tepidarium_engine.plan.outlines.polygons import RoomOutline, interior_width, room_outline

__all__ = ["Ring", "RoomCase", "moved", "room", "turned"]

Ring = tuple[Point, ...]
"""Corners [m]; the first is not repeated."""

NARROW_SPOT = 4.5
"""Floor narrower than three spacings that does not count, in squares of the spacing: tips of sharp corners."""

CORRIDOR = 4.0
"""Rooms longer than so many times their width are corridors, bends in them straightened out."""


@dataclass(frozen=True)
class RoomCase:
    """Lengths in metres, ``outside_diameter`` of the pipe; ``entry`` is on the outline or near it.

    ``refusals`` are the codes with which the room may be refused; empty where it must be laid.
    """

    name: str
    kind: str
    outline: Ring
    entry: Point
    pipe_spacing: float
    outside_diameter: float
    bend_radius: float
    wall_clearance: float = 0.075
    voids: tuple[Ring, ...] = ()
    refusals: frozenset[str] = frozenset()

    @cached_property
    def room(self) -> RoomOutline:
        return room_outline(self.outline, self.voids)

    @property
    def tail_pitch(self) -> float:
        """Flow and return come in one spacing apart."""
        return self.pipe_spacing

    def task(self, pattern: Pattern = "counterflow", quick: bool = False) -> LayingTask:
        return LayingTask(
            self.pipe_spacing,
            self.wall_clearance,
            self.bend_radius,
            self.tail_pitch,
            self.entry,
            pattern,
            quick,
        )

    @property
    def easy_bends(self) -> bool:
        """Whether a right angle to either side fits into one spacing."""
        return self.bend_radius <= self.pipe_spacing / 2.0 + 1e-9

    @cached_property
    def wide(self) -> bool:
        """Whether the centre lines of the outermost pipes are three spacings apart wherever pipe can lie.

        Tips of corners do not count, necks and gaps beside voids do.
        """
        zone = _offset(self.room.polygon, -self.wall_clearance)
        half = 1.5 * self.pipe_spacing * (1.0 - 1e-6)
        core = _offset(zone, -half)
        if core.is_empty:
            return False
        narrow = shapely.get_parts(shapely.difference(zone, _offset(core, half * (1.0 + 1e-5))))
        whole = len(shapely.get_parts(core)) == 1
        return whole and all(part.area <= NARROW_SPOT * self.pipe_spacing**2 for part in narrow)

    @cached_property
    def rings_across(self) -> int:
        """How many offset curves lie one in another, voids not looked at; 0 where they part into pockets, and in
        corridors."""
        plain = Polygon(self.room.polygon.exterior)
        if plain.area > CORRIDOR * interior_width(plain) ** 2:
            return 0
        area = _offset(plain, -self.wall_clearance)
        count = 0
        while not area.is_empty:
            parts = [part for part in shapely.get_parts(area) if part.area > self.pipe_spacing**2]
            if len(parts) > 1:
                return 0
            count += 1
            area = _offset(area, -self.pipe_spacing)
        return count

    @cached_property
    def in_target_class(self) -> bool:
        """Whether the figures of a good route are promised: usual spacing, easy bends, no narrow leg."""
        return 0.1 - 1e-9 <= self.pipe_spacing <= 0.2 + 1e-9 and self.easy_bends and self.wide


def room(
    name: str,
    kind: str,
    outline: Ring,
    entry: Point,
    pipe: tuple[float, float],
    *voids: Ring,
    clearance: float = 0.075,
    radius: float | None = None,
    refusals: frozenset[str] = frozenset(),
) -> RoomCase:
    """``pipe`` is its spacing and its outside diameter in millimetres; all else is in metres.

    The bend radius is five outside diameters, or half a spacing where that is less.
    """
    spacing, diameter = pipe
    bend = min(5.0 * diameter, spacing / 2.0) / 1000.0 if radius is None else radius
    return RoomCase(
        name, kind, outline, entry, spacing / 1000.0, diameter / 1000.0, bend, clearance, voids, refusals
    )


def turned(case: RoomCase, degrees: float) -> RoomCase:
    """The room turned about the origin, counter-clockwise."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return _mapped(case, lambda x, y: (c * x - s * y, s * x + c * y))


def moved(case: RoomCase, by: Point) -> RoomCase:
    """The room elsewhere [m]."""
    return _mapped(case, lambda x, y: (x + by[0], y + by[1]))


def _mapped(case: RoomCase, place: Callable[[float, float], Point]) -> RoomCase:
    def ring(points: Iterable[Point]) -> Ring:
        return tuple(place(*point) for point in points)

    return replace(
        case, outline=ring(case.outline), voids=tuple(map(ring, case.voids)), entry=place(*case.entry)
    )


def _offset(area: Polygon, distance: float) -> Polygon:
    return shapely.buffer(area, distance, join_style="mitre", mitre_limit=2.5)
