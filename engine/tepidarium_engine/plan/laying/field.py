"""What one circuit is to fill, and what a way of laying it answers."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from shapely import Polygon

from ...checking import Point
from ...elementwise import Array
from ..counterflow.rings import LostPlace
from ..outlines.pipe_zone import PipeZone, WallClearance, pipe_zone

__all__ = ["Draft", "Engine", "Entry", "Field"]

Engine = Literal["rings", "comb", "lattice"]


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
