"""Whether a pipe can be laid as drawn, and how good it is.

Judges a path and a room, and knows nothing of how the path was made.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import NamedTuple

import shapely
from shapely import Polygon

from ...checking import Point
from ...errors import Fault, InputError
from ..outlines.denser_area import DenserArea
from ..outlines.heated_floor import heated_parts, ideal_length
from ..outlines.pipe_zone import WallClearance
from ..outlines.polygons import RoomOutline
from ..pipes.pipe_path import PipePath
from .pipe_neighbours import Neighbours, neighbours
from .route_fault import RouteFault
from .route_faults import Task, faults_beside, faults_of_the_line
from .route_measures import BareSpot, RouteMeasures, measure
from .route_task import route_task

__all__ = ["DenserArea", "Judge", "RouteCheck", "RouteFault", "RouteMeasures", "check_route"]


@dataclass(frozen=True, slots=True)
class RouteCheck:
    """The verdict on a path: ``valid`` when there are no ``faults``."""

    valid: bool
    faults: tuple[RouteFault, ...]
    measures: RouteMeasures


def check_route(
    path: PipePath,
    room: RoomOutline | Polygon,
    *,
    pipe_spacing: float,
    wall_clearance: float,
    bend_radius: float,
    entry: Point,
    tail_pitch: float,
    walls: Sequence[WallClearance] = (),
    denser: Sequence[DenserArea] = (),
) -> RouteCheck:
    """Judge the centre line of a circuit in a room.

    ``path``, ``entry``, ``walls`` and ``denser`` are in the frame of the drawing: the caller's for a
    ``RoomOutline``, the polygon's own otherwise; places come back in it. ``pipe_spacing``, ``wall_clearance``
    (of the centre line from walls and voids), ``bend_radius`` (least, of the centre line) and ``tail_pitch``
    (between flow and return at the entry) are in metres. ``walls`` names stretches of wall with a larger
    clearance, kept square to the stretch and not round its ends; ``denser`` names parts of the floor with a
    smaller spacing, by which coverage and least distance are judged there. What is heated over, or furniture
    with pipe below, is no void of ``room``.

    Near the entry two rules give way: for ``clearance + pipe_spacing / 2 + bend_radius`` from either end
    (half the pitch of the tails, if that is wider; the clearance is that of the entry's wall) the pipe may be
    nearer to the wall, but not leave the floor; and for ``clearance + pipe_spacing + 2 bend_radius`` the two
    tails may be as near to each other as ``tail_pitch``.

    Raises ``InputError`` when a number is not one to compute with, a wall or denser area is no geometry, the
    clearance leaves no floor, or the path is longer than 20 000 spacings, has more than 5000 pieces or is
    heaped on one spot.
    """
    return Judge(
        room, pipe_spacing, wall_clearance, bend_radius, entry, tail_pitch, tuple(walls), tuple(denser)
    ).check(path)


@dataclass(frozen=True)
class Judge:
    """Judges paths in one room; see ``check_route`` for what is asked of them."""

    room: RoomOutline | Polygon
    pipe_spacing: float
    wall_clearance: float
    bend_radius: float
    entry: Point
    tail_pitch: float
    walls: tuple[WallClearance, ...] = ()
    denser: tuple[DenserArea, ...] = ()
    _floors: list[_Floor] = field(default_factory=list)

    def check(self, path: PipePath) -> RouteCheck:
        """The verdict on a path."""
        looked = self._look(path)
        return looked.verdict(tuple(looked.faults()))

    def valid(self, path: PipePath) -> RouteCheck | None:
        """The verdict on a path that can be laid; None for any other, which is not measured."""
        looked = self._look(path)
        return looked.verdict(()) if next(looked.faults(), None) is None else None

    def _look(self, path: PipePath) -> _Looked:
        task, origin = route_task(
            path,
            self.room,
            pipe_spacing=self.pipe_spacing,
            wall_clearance=self.wall_clearance,
            bend_radius=self.bend_radius,
            entry=self.entry,
            tail_pitch=self.tail_pitch,
            walls=self.walls,
            denser=self.denser,
        )
        return _Looked(path, task, origin, self._floor(task))

    def _floor(self, task: Task) -> _Floor:
        """The heated floor by its spacing, and the ideal length of pipe: the same for all paths."""
        if not self._floors:
            heated = heated_parts(task.polygon, task.spacings, self.wall_clearance, task.walls)
            ideal = ideal_length(task.polygon, task.spacings, self.wall_clearance, task.walls)
            if not (ideal > 0.0 and any(part.area > 0.0 for part, _ in heated)):
                raise InputError(Fault("/wall_clearance", "too_large", "leaves no floor for the pipe"))
            self._floors.append(_Floor(heated, ideal))
        return self._floors[0]


class _Floor(NamedTuple):
    heated: list[tuple[shapely.Geometry, float]]
    ideal_length: float


@dataclass(frozen=True)
class _Looked:
    """A path, what is asked of it in a frame near the origin, and where that lies."""

    path: PipePath
    task: Task
    origin: Point
    floor: _Floor

    @cached_property
    def beside(self) -> Neighbours:
        return neighbours(self.task.table, self.task.spacings, self.task.fan)

    def faults(self) -> Iterator[RouteFault]:
        yield from faults_of_the_line(self.task)
        yield from faults_beside(self.task, self.beside)

    def verdict(self, faults: tuple[RouteFault, ...]) -> RouteCheck:
        measures = measure(
            self.path,
            self.task.table,
            self.beside,
            floor=self.task.polygon,
            heated=self.floor.heated,
            ideal_length=self.floor.ideal_length,
            bend_radius=self.task.bend_radius,
        )
        measures = replace(
            measures,
            bare_spots=_spots_from(measures.bare_spots, self.origin),
            left_out=_spots_from(measures.left_out, self.origin),
        )
        return RouteCheck(not faults, _faults_from(faults, self.origin), measures)


def _faults_from(faults: Sequence[RouteFault], origin: Point) -> tuple[RouteFault, ...]:
    return tuple(replace(fault, place=_shifted(fault.place, origin)) for fault in faults)


def _spots_from(spots: Sequence[BareSpot], origin: Point) -> tuple[BareSpot, ...]:
    return tuple(replace(spot, place=_shifted(spot.place, origin)) for spot in spots)


def _shifted(place: Point, by: Point) -> Point:
    return (place[0] + by[0], place[1] + by[1])
