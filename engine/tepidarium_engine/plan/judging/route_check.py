"""Whether a pipe can be laid as drawn, and how good it is.

Judges a path and a room, and knows nothing of how the path was made.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely import Polygon

from ...checking import Point
from ...errors import Fault, InputError
from ..outlines.denser_area import DenserArea
from ..outlines.heated_floor import heated_parts, ideal_length
from ..outlines.pipe_zone import WallClearance
from ..outlines.polygons import RoomOutline
from ..pipes.pipe_path import PipePath
from .pipe_neighbours import neighbours
from .route_fault import RouteFault
from .route_faults import faults_beside, faults_of_the_line
from .route_measures import BareSpot, RouteMeasures, measure
from .route_task import route_task

__all__ = ["DenserArea", "RouteCheck", "RouteFault", "RouteMeasures", "check_route"]


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
    task, origin = route_task(
        path,
        room,
        pipe_spacing=pipe_spacing,
        wall_clearance=wall_clearance,
        bend_radius=bend_radius,
        entry=entry,
        tail_pitch=tail_pitch,
        walls=walls,
        denser=denser,
    )
    heated = heated_parts(task.polygon, task.spacings, wall_clearance, task.walls)
    ideal = ideal_length(task.polygon, task.spacings, wall_clearance, task.walls)
    if not (ideal > 0.0 and any(part.area > 0.0 for part, _ in heated)):
        raise InputError(Fault("/wall_clearance", "too_large", "leaves no floor for the pipe"))
    beside = neighbours(task.table, task.spacings, task.fan)
    faults = (*faults_of_the_line(task), *faults_beside(task, beside))
    measures = measure(
        path,
        task.table,
        beside,
        floor=task.polygon,
        heated=heated,
        ideal_length=ideal,
        bend_radius=bend_radius,
    )
    measures = replace(
        measures,
        bare_spots=_spots_from(measures.bare_spots, origin),
        left_out=_spots_from(measures.left_out, origin),
    )
    return RouteCheck(not faults, _faults_from(faults, origin), measures)


def _faults_from(faults: Sequence[RouteFault], origin: Point) -> tuple[RouteFault, ...]:
    return tuple(replace(fault, place=_shifted(fault.place, origin)) for fault in faults)


def _spots_from(spots: Sequence[BareSpot], origin: Point) -> tuple[BareSpot, ...]:
    return tuple(replace(spot, place=_shifted(spot.place, origin)) for spot in spots)


def _shifted(place: Point, by: Point) -> Point:
    return (place[0] + by[0], place[1] + by[1])
