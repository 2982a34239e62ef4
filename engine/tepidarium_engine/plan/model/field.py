"""What one circuit is to fill, and what a way of laying it answers."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import shapely
from shapely import Polygon

from ...checking import Point
from ...elementwise import Array
from ..outlines.pipe_zone import PipeZone, WallClearance, pipe_zone

__all__ = ["Draft", "Engine", "Entry", "Field", "LossReason", "LostPlace"]

Engine = Literal["rings", "comb", "lattice"]
LossReason = Literal["narrow", "small", "enclosed", "unreached"]


@dataclass(frozen=True, slots=True)
class LostPlace:
    """Floor that gets no ring though a pipe could stand there.

    ``place`` [m] lies inside it. ``narrow``: too narrow for pipe and its way back; ``small``: wide enough, but
    a ring would hardly be longer than a bend; ``enclosed``: walled in by voids; ``unreached``: has a ring that
    could not be joined to the others. ``area`` [m2] is that of the
    places where the centre line may lie.
    """

    reason: LossReason
    level: int
    place: Point
    area: float

    @classmethod
    def of(cls, reason: LossReason, area: Polygon, level: int = 0) -> LostPlace:
        """An area [m] that is lost."""
        inside = shapely.point_on_surface(area)
        return cls(reason, level, (float(inside.x), float(inside.y)), float(area.area))


@dataclass(frozen=True, slots=True)
class Entry:
    """Where flow and return come in: ``place`` [m] on the outline, halfway between the two pipes.

    ``ends`` [m] are the pipes' places on the outline, ``tail_pitch`` apart: first the one that comes later on
    the outline counter-clockwise (to the right for one who looks into the room), then the other.
    ``inward`` is the unit vector into the room, square to the wall.
    """

    place: Point
    ends: tuple[Point, Point]
    inward: Point


@dataclass(frozen=True)
class Field:
    """One field for one circuit, in the room's own frame (``RoomFrame``); lengths in metres.

    ``wall_clearance`` and ``bend_radius`` are of the centre line. ``walls`` names stretches of wall with a
    larger clearance. ``tail_pitch`` is the distance of flow and return at the entry. ``own_zone`` is where pipe
    may lie when clearances do not tell it, as in a stretched room.
    """

    room: Polygon
    pipe_spacing: float
    wall_clearance: float
    bend_radius: float
    tail_pitch: float
    entry: Entry
    walls: tuple[WallClearance, ...] = ()
    own_zone: PipeZone | None = None

    @cached_property
    def zone(self) -> PipeZone:
        """Where the centre line may lie."""
        return self.own_zone or pipe_zone(self.room, self.pipe_spacing, self.wall_clearance, self.walls)


@dataclass(frozen=True)
class Draft:
    """A pipe before it is bent: ``corners`` [m] of an open polyline that starts on the first of the entry's
    ends, and stops on the other one.

    ``engine`` and ``variant`` tell how it was made; ``lost`` is all floor that got no pipe though a pipe could
    stand there; ``spacings`` [m] are the pipe spacings along x and y where a fit changed them.
    """

    corners: Array
    engine: Engine
    variant: str
    lost: tuple[LostPlace, ...] = ()
    spacings: tuple[float, float] | None = None

    @property
    def unreached(self) -> int:
        """Number of places that were to have pipe and got none; what is too small for it is bare floor."""
        return sum(lost.reason == "unreached" for lost in self.lost)
