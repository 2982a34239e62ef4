"""Whether a pipe can be laid as drawn, and how good it is.

Judges a path and a room, and knows nothing of how the path was made.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import shapely
from shapely import Polygon

from ..checking import Point
from ..errors import Fault, FaultList, InputError
from .pipe_neighbours import Chords, neighbours
from .pipe_path import PipePath
from .polygons import RoomOutline, served_area
from .route_faults import RouteFault, Task, route_faults
from .route_measures import RouteMeasures, heated_floor, measure

__all__ = ["RouteCheck", "RouteFault", "RouteMeasures", "check_route"]

MOST_SPACINGS = 20_000
"""Greatest length of a path that is looked at, in spacings: 2 km at 100 mm, far more than any circuit."""
MOST_CROWDING = 1e6
"""Pipe heaped on one spot costs the square of its length to look at; laid pipe comes to a tenth of this."""


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
) -> RouteCheck:
    """Judge the centre line of a circuit in a room.

    ``path`` and ``entry`` are in the frame of the drawing: the caller's for a ``RoomOutline``, the polygon's
    own otherwise; places come back in it. ``pipe_spacing``, ``wall_clearance`` (of the centre line from walls
    and voids), ``bend_radius`` (least, of the centre line) and ``tail_pitch`` (between flow and return at the
    entry) are in metres.

    Near the entry two rules give way: for ``wall_clearance + pipe_spacing / 2 + bend_radius`` from either end
    (half the pitch of the tails, if that is wider) the pipe may be nearer to the wall, but not leave the
    floor; and for ``wall_clearance + pipe_spacing + 2 bend_radius`` the two tails may be as near to each other
    as ``tail_pitch``.

    Raises ``InputError`` when a number is not one to compute with, when the clearance leaves no floor, or
    when the path is longer than 20 000 spacings.
    """
    lengths = {
        "pipe_spacing": pipe_spacing,
        "wall_clearance": wall_clearance,
        "bend_radius": bend_radius,
        "tail_pitch": tail_pitch,
    }
    _check_numbers(path, entry, lengths)
    polygon, origin = _near_origin(room)
    away = (-origin[0], -origin[1])
    task = Task(path.moved(away), polygon, entry=_shifted(entry, away), **lengths)
    floor = heated_floor(polygon, pipe_spacing, wall_clearance)
    served = served_area(polygon, pipe_spacing, wall_clearance)
    if not (floor.area > 0.0 and served > 0.0):
        raise InputError(Fault("/wall_clearance", "too_large", "leaves no floor for the pipe"))
    chords = Chords.of(task.path, pipe_spacing, _mirrored(path.length, task.doorway, task.fan))
    if chords.crowding(pipe_spacing) > MOST_CROWDING:
        raise InputError(Fault("/pieces", "too_dense", "heaps too much pipe on one spot to be looked at"))
    beside = neighbours(task.path, chords, pipe_spacing, task.fan)
    faults = tuple(
        replace(fault, place=_shifted(fault.place, origin)) for fault in route_faults(task, chords, beside)
    )
    measures = measure(task.path, beside, floor, served / pipe_spacing, pipe_spacing)
    spots = tuple(replace(spot, place=_shifted(spot.place, origin)) for spot in measures.bare_spots)
    return RouteCheck(not faults, faults, replace(measures, bare_spots=spots))


def _mirrored(length: float, *positions: float) -> tuple[float, ...]:
    return (*positions, *(length - position for position in positions))


def _near_origin(room: RoomOutline | Polygon) -> tuple[Polygon, Point]:
    """The polygon close to the origin, and where that lies in the frame of the drawing."""
    if isinstance(room, RoomOutline):
        return room.polygon, room.origin
    x, y, _, _ = room.bounds
    return shapely.transform(room, lambda points: points - (x, y)), (x, y)


def _shifted(place: Point, by: Point) -> Point:
    return (place[0] + by[0], place[1] + by[1])


def _check_numbers(path: PipePath, entry: Point, lengths: dict[str, float]) -> None:
    faults = FaultList()
    for name, value in lengths.items():
        sound = math.isfinite(value) and value > 0.0
        faults.require(sound, f"/{name}", "too_small", "must be finite and greater than 0 m", 0.0)
    faults.require(all(map(math.isfinite, entry)), "/entry", "type", "must be a point [x, y] in metres")
    faults.raise_if_any()
    longest = MOST_SPACINGS * lengths["pipe_spacing"]
    faults.require(
        path.length <= longest, "/pieces", "too_long", f"must be at most {longest:g} m of pipe", longest
    )
    faults.raise_if_any()
