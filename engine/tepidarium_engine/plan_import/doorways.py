"""Doorways: marks of the file put on the walls that face each other there, and those that are still needed."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ..elementwise import Array
from ..places import Point
from ..storey.manifold.position_records import PlanDoorway
from .drawn_plan import DoorMark
from .outlines import OutlinedRoom

__all__ = ["FacingWalls", "doorways_needed", "facing_walls", "groups", "marked_doorway"]

_PARALLEL = 0.02
"""Sine of the angle between walls that face each other, at most."""
_FARTHEST_MARK = 1.0
"""From a mark without rooms to the walls that it stands for: half a door leaf and half a wall [m]."""
_LEAST_WIDTH = 0.3
_WIDEST = 10.0


@dataclass(frozen=True, slots=True)
class FacingWalls:
    """The stretch over which two rooms face each other: along the middle of the wall from ``start`` to ``end`` [m]."""

    rooms: tuple[str, str]
    start: Point
    end: Point

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def middle(self) -> Point:
        return (self.start[0] + self.end[0]) / 2.0, (self.start[1] + self.end[1]) / 2.0

    def nearest(self, place: Point, width: float) -> Point:
        """The place for a doorway of this width [m] that is nearest to ``place``."""
        (x, y), (ex, ey), length = self.start, self.end, self.length
        ux, uy = (ex - x) / length, (ey - y) / length
        along = (place[0] - x) * ux + (place[1] - y) * uy
        along = min(max(along, width / 2.0), length - width / 2.0)
        return x + along * ux, y + along * uy


def facing_walls(rooms: Sequence[OutlinedRoom], thickest_wall: float) -> list[FacingWalls]:
    """All stretches of at least 0.3 m over which two rooms of a storey face each other over no more than
    ``thickest_wall`` [m]."""
    floors = [room.floor for room in rooms]
    if len(floors) < 2:
        return []
    near = shapely.STRtree(floors).query(floors, predicate="dwithin", distance=thickest_wall)
    edges = [_edges(floor) for floor in floors]
    return [
        FacingWalls((rooms[one].room.id, rooms[other].room.id), start, end)
        for one, other in sorted(near.T.tolist())
        if one < other
        for start, end in _facing(edges[one], edges[other], thickest_wall)
    ]


def _edges(floor: shapely.Polygon) -> Array:
    """The straight edges, the floor on their left: rows of x, y, x, y [m]."""
    rings = [shapely.get_coordinates(ring) for ring in (floor.exterior, *floor.interiors)]
    sides = [np.hstack((ring[:-1], ring[1:])) for ring in rings]
    edges = np.vstack(sides)
    turned = shapely.orient_polygons(floor)
    if not turned.exterior.equals_exact(floor.exterior, 0.0):
        return _edges(turned)
    return edges


def _facing(first: Array, second: Array, thickest: float) -> Iterator[tuple[Point, Point]]:
    for x, y, ex, ey in first.tolist():
        length = math.hypot(ex - x, ey - y)
        if length < _LEAST_WIDTH:
            continue
        ux, uy = (ex - x) / length, (ey - y) / length
        from_start, to_end = second[:, :2] - (x, y), second[:, 2:] - (x, y)
        along = np.stack((from_start @ (ux, uy), to_end @ (ux, uy)))
        away = np.stack((from_start @ (uy, -ux), to_end @ (uy, -ux)))  # outwards
        runs = along[0] - along[1]  # the other room's wall runs the other way
        facing = (runs > _LEAST_WIDTH) & (np.abs(away[0] - away[1]) <= _PARALLEL * np.maximum(runs, 1e-9))
        facing &= (away.min(axis=0) >= -1e-3) & (away.max(axis=0) <= thickest)
        for number in np.flatnonzero(facing).tolist():
            low, high = max(0.0, float(along[1, number])), min(length, float(along[0, number]))
            if high - low >= _LEAST_WIDTH:
                half = float(away[:, number].mean()) / 2.0
                mx, my = x + half * uy, y - half * ux
                yield (mx + low * ux, my + low * uy), (mx + high * ux, my + high * uy)


def marked_doorway(
    mark: DoorMark, walls: Sequence[FacingWalls], usual_width: float
) -> tuple[FacingWalls, PlanDoorway] | None:
    """The doorway of a mark, on the nearest walls of its rooms that face each other; None: there are none."""
    fitting = [wall for wall in walls if mark.rooms is None or set(wall.rooms) == set(mark.rooms)]
    best = min(fitting, key=lambda wall: (_away(wall, mark.place), wall.rooms), default=None)
    if best is None or (mark.rooms is None and _away(best, mark.place) > _FARTHEST_MARK):
        return None
    width = min(mark.width or usual_width, best.length, _WIDEST)
    if width < _LEAST_WIDTH:
        return None
    return best, _doorway(best, mark.place, width)


def _away(wall: FacingWalls, place: Point) -> float:
    return round(math.dist(wall.nearest(place, 0.0), place), 6)


def _doorway(wall: FacingWalls, place: Point, width: float) -> PlanDoorway:
    x, y = wall.nearest(place, width)
    return PlanDoorway(wall.rooms, (round(x, 4) + 0.0, round(y, 4) + 0.0), round(width - 5e-5, 4))


def doorways_needed(
    rooms: Sequence[OutlinedRoom],
    walls: Sequence[FacingWalls],
    doorways: Sequence[PlanDoorway],
    width: float,
) -> Iterator[PlanDoorway]:
    """Doorways that are missing to reach all rooms of a storey from each other: in the longest walls that face each
    other, as few as possible."""
    joined = groups([room.room.id for room in rooms], doorways)
    for wall in sorted(walls, key=lambda wall: (-round(wall.length, 3), wall.rooms)):
        one, other = (joined[name] for name in wall.rooms)
        if one != other and wall.length >= width:
            joined = {name: (one if group == other else group) for name, group in joined.items()}
            yield _doorway(wall, wall.middle, width)


def groups(rooms: Sequence[str], doorways: Sequence[PlanDoorway]) -> dict[str, str]:
    """By room: the name of the group of rooms that it can be reached from."""
    joined = {name: name for name in rooms}
    for doorway in doorways:
        one, other = (joined[name] for name in doorway.rooms)
        joined = {name: (one if group == other else group) for name, group in joined.items()}
    return joined
