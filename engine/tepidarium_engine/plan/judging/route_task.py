"""What a caller asks the judge, checked and brought near the origin."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypeVar

import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...errors import FaultList
from ..outlines.denser_area import DenserArea, Spacings
from ..outlines.pipe_zone import WallClearance
from ..outlines.polygons import RoomOutline
from ..pipes.pipe_path import MOST_PIECES, PipePath
from ..pipes.pipe_table import PipeTable
from .route_faults import Task

__all__ = ["MOST_SPACINGS", "route_task"]

MOST_SPACINGS = 20_000
"""Greatest length of a path that is looked at, in spacings: 2 km at 100 mm, far more than any circuit."""
MOST_PARTS = 32
"""Walls with a clearance of their own, and denser areas, of each."""
_MOST_VERTICES = 256
_SMALLEST_SHARE = 0.1
"""Least spacing of a denser area, in spacings of the room: the search is as fine as the least one."""

_Shape = TypeVar("_Shape", Polygon, LineString)


def route_task(
    path: PipePath,
    room: RoomOutline | Polygon,
    *,
    pipe_spacing: float,
    wall_clearance: float,
    bend_radius: float,
    entry: Point,
    tail_pitch: float,
    walls: Sequence[WallClearance],
    denser: Sequence[DenserArea],
) -> tuple[Task, Point]:
    """The task in a frame near the origin, and where that lies in the frame of the drawing [m].

    Raises ``InputError`` for what cannot be worked with.
    """
    lengths = {
        "pipe_spacing": pipe_spacing,
        "wall_clearance": wall_clearance,
        "bend_radius": bend_radius,
        "tail_pitch": tail_pitch,
    }
    _check_numbers(path, entry, lengths)
    _check_parts(walls, denser, pipe_spacing)
    polygon, origin = _near_origin(room)
    away = (-origin[0], -origin[1])
    task = Task(
        table=PipeTable.of(path.pieces, away),
        polygon=polygon,
        spacings=Spacings(
            pipe_spacing, tuple(DenserArea(_moved(area.polygon, away), area.pipe_spacing) for area in denser)
        ),
        wall_clearance=wall_clearance,
        walls=tuple(WallClearance(_moved(wall.stretch, away), wall.clearance) for wall in walls),
        bend_radius=bend_radius,
        entry=(entry[0] + away[0], entry[1] + away[1]),
        tail_pitch=tail_pitch,
    )
    return task, origin


def _near_origin(room: RoomOutline | Polygon) -> tuple[Polygon, Point]:
    if isinstance(room, RoomOutline):
        return room.polygon, room.origin
    x, y, _, _ = room.bounds
    return _moved(room, (-x, -y)), (x, y)


def _moved(shape: _Shape, by: Point) -> _Shape:
    moved: _Shape = shapely.transform(shape, lambda points: points + by)
    return moved


def _check_numbers(path: PipePath, entry: Point, lengths: dict[str, float]) -> None:
    faults = FaultList()
    for name, value in lengths.items():
        sound = math.isfinite(value) and value > 0.0
        faults.require(sound, f"/{name}", "too_small", "must be finite and greater than 0 m", 0.0)
    faults.require(all(map(math.isfinite, entry)), "/entry", "type", "must be a point [x, y] in metres")
    few = len(path.pieces) <= MOST_PIECES
    faults.require(few, "/pieces", "too_many", f"must be at most {MOST_PIECES} pieces", MOST_PIECES)
    faults.raise_if_any()
    longest = MOST_SPACINGS * lengths["pipe_spacing"]
    short = path.length <= longest
    faults.require(short, "/pieces", "too_long", f"must be at most {longest:g} m of pipe", longest)
    faults.raise_if_any()


def _check_parts(walls: Sequence[WallClearance], denser: Sequence[DenserArea], pipe_spacing: float) -> None:
    faults = FaultList()
    for name, parts in (("walls", walls), ("denser", denser)):
        few = len(parts) <= MOST_PARTS
        faults.require(few, f"/{name}", "too_many", f"must be at most {MOST_PARTS}", MOST_PARTS)
    faults.raise_if_any()
    for index, wall in enumerate(walls):
        sound = math.isfinite(wall.clearance) and wall.clearance > 0.0
        where = f"/walls/{index}"
        faults.require(sound, f"{where}/clearance", "too_small", "must be finite and greater than 0 m", 0.0)
        _check_shape(wall.stretch, f"{where}/stretch", faults)
    for index, area in enumerate(denser):
        least, where = _SMALLEST_SHARE * pipe_spacing, f"/denser/{index}"
        wide = area.pipe_spacing >= least
        limit = f"must be at least {least:g} m, a tenth of the room's"
        faults.require(wide, f"{where}/pipe_spacing", "too_small", limit, least)
        close = not area.pipe_spacing > pipe_spacing
        limit = "must not be more than the spacing of the room"
        faults.require(close, f"{where}/pipe_spacing", "too_large", limit, pipe_spacing)
        _check_shape(area.polygon, f"{where}/polygon", faults)
    faults.raise_if_any()


def _check_shape(shape: LineString | Polygon, where: str, faults: FaultList) -> None:
    """Refuse what the geometry library must not be given; coordinates first, as it cannot look at NaN."""
    points = shapely.get_coordinates(shape)
    if len(points) > _MOST_VERTICES:
        limit = f"must have at most {_MOST_VERTICES} vertices"
        faults.add(where, "too_many", limit, _MOST_VERTICES)
        return
    finite = bool(abs(points).max(initial=0.0) < math.inf) and len(points) > 0
    sound = finite and shape.length > 0.0 and shape.is_valid
    faults.require(sound, where, "geometry", "must be valid, not empty, and have finite coordinates")
