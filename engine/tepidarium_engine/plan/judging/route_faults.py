"""What makes a pipe impossible to lay as drawn. Each rule yields the places where it is worst.

The rules are our own reading of what an installer needs: one pipe that does not cross itself, begins and ends
at the entry, keeps its distance from walls, voids and itself, and is nowhere bent tighter than allowed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Polygon

from ...checking import Point
from ...elementwise import ROUND_OFF, Array
from ..outlines.denser_area import Spacings
from ..outlines.overlays import difference, intersection
from ..outlines.pipe_zone import WallClearance
from ..pipes.pipe_table import PipeTable
from ..tolerances import BLUR
from .bend_rules import broken, tight_bends
from .crossing import first_crossing
from .pipe_chords import Chords
from .pipe_neighbours import Neighbours
from .route_fault import RouteFault

__all__ = [
    "CLEARANCE_TOLERANCE",
    "ENTRY_TOLERANCE",
    "LEAST_PIPE_DISTANCE",
    "Task",
    "faults_beside",
    "faults_of_the_line",
]

CLEARANCE_TOLERANCE = 0.002
"""How far the pipe may come nearer to walls and voids than asked for [m]: nobody lays it more exactly."""
ENTRY_TOLERANCE = 0.005
"""Of the places of the two ends and of the distance between the tails [m]."""
LEAST_PIPE_DISTANCE = 0.6
"""Least distance between different parts of the pipe, in spacings."""
_DUST = 1e-6
"""Overlaps no longer than this are rounding [m]."""


@dataclass(frozen=True, slots=True)
class Task:
    """A pipe and what is asked of it, all in one frame near the origin. Lengths in metres."""

    table: PipeTable
    polygon: Polygon
    spacings: Spacings
    wall_clearance: float
    walls: tuple[WallClearance, ...]
    bend_radius: float
    entry: Point
    tail_pitch: float

    @property
    def entry_clearance(self) -> float:
        """Clearance of the wall that the entry is in."""
        place, reach = shapely.Point(self.entry), self.tail_pitch / 2.0 + ENTRY_TOLERANCE
        own = [wall.clearance for wall in self.walls if shapely.dwithin(wall.stretch, place, reach)]
        return max([self.wall_clearance, *own])

    @property
    def doorway(self) -> float:
        """Length at either end that may be nearer to the wall: in, half a spacing sideways, and a bend."""
        return self.entry_clearance + max(self.spacings.widest, self.tail_pitch) / 2.0 + self.bend_radius

    @property
    def fan(self) -> float:
        """Length at either end in which the tails spread from their pitch to the spacing."""
        return self.entry_clearance + self.spacings.widest + 2.0 * self.bend_radius


def faults_of_the_line(task: Task) -> Iterator[RouteFault]:
    """Faults of the line itself and of its place in the room, the cheapest rules first; the worst of each."""
    yield from broken(task.table)
    yield from _ends(task)
    yield from tight_bends(task.table, task.bend_radius)
    doorway = task.doorway
    breaks = (doorway, task.table.total - doorway)
    chords = Chords.of(task.table, task.spacings.widest, breaks)
    yield from _crossing(chords)
    yield from _off_the_floor(task, chords, _in_doorway(task, chords, doorway))


def faults_beside(task: Task, beside: Neighbours) -> Iterator[RouteFault]:
    """Where pipe lies too near to other pipe."""
    limit = LEAST_PIPE_DISTANCE * beside.spacing
    yield from _too_near(beside.distance, limit, "pipe_distance", beside)
    tails = np.minimum(limit, task.tail_pitch - ENTRY_TOLERANCE)
    yield from _too_near(beside.tails_distance, tails, "tail_distance", beside)


def _crossing(chords: Chords) -> Iterator[RouteFault]:
    """The first crossing along the pipe."""
    crossing = first_crossing(chords.points)
    if crossing is not None:
        along = float(chords.at[crossing.other] - chords.at[crossing.one])
        yield RouteFault("crosses_itself", crossing.place, along, 0.0)


def _ends(task: Task) -> Iterator[RouteFault]:
    start, end = (_point(place) for place in (task.table.start[0], task.table.end[-1]))
    limit = task.tail_pitch / 2.0 + ENTRY_TOLERANCE
    for code, place in (("start_off_entry", start), ("end_off_entry", end)):
        away = math.dist(place, task.entry)
        if away > limit:
            yield RouteFault(code, place, away, limit)
    pitch = math.dist(start, end)
    if abs(pitch - task.tail_pitch) > ENTRY_TOLERANCE:
        yield RouteFault("tail_pitch", end, pitch, task.tail_pitch)


def _off_the_floor(task: Task, chords: Chords, in_doorway: npt.NDArray[np.bool_]) -> Iterator[RouteFault]:
    """Where the pipe is nearest to a wall or void, or furthest outside the floor."""
    edges = task.polygon.boundary
    shapely.prepare([edges, task.polygon])
    index = np.flatnonzero(in_doorway)
    if not _well_inside(task, chords, ~in_doorway):
        index = np.arange(len(in_doorway))
    found = []
    if len(index):
        found += _nearest_wall(task, edges, chords.lines(index), in_doorway[index])
    for wall in task.walls:
        found += _nearer_than_walls(wall, chords, np.flatnonzero(~in_doorway))
    worst = min(found, key=lambda fault: fault.value - fault.limit, default=None)
    if worst is not None:
        yield worst


def _well_inside(task: Task, chords: Chords, asked: npt.NDArray[np.bool_]) -> bool:
    """Whether all these chords clearly keep their distance; if not, they are to be looked at one by one."""
    least = task.wall_clearance - CLEARANCE_TOLERANCE
    index = np.flatnonzero(asked)
    if least <= 0.0 or len(index) == 0:
        return False
    first, last = int(index[0]), int(index[-1])
    if len(index) != last - first + 1:  # the pipe comes through the doorway in its middle too
        return False
    middle = shapely.linestrings(chords.points[first : last + 2])
    place = shapely.Point(chords.points[first])
    return bool(shapely.contains(task.polygon, place)) and not shapely.dwithin(
        task.polygon.boundary, middle, least
    )


def _nearest_wall(
    task: Task, edges: shapely.Geometry, lines: npt.NDArray[np.object_], in_doorway: npt.NDArray[np.bool_]
) -> list[RouteFault]:
    clearance = shapely.distance(lines, edges)
    deepest: dict[int, Point] = {}
    for index in np.flatnonzero(~shapely.contains_properly(task.polygon, lines)).tolist():
        depth, place = _depth_outside(lines[index], task.polygon)
        if depth > 0.0:
            clearance[index], deepest[index] = -depth, place
    limit = np.where(in_doorway, 0.0, task.wall_clearance)
    worst = int((clearance - limit).argmin())
    if clearance[worst] >= limit[worst] - CLEARANCE_TOLERANCE:
        return []
    place = deepest.get(worst) or _point(shapely.shortest_line(lines[worst], edges).coords[0])
    return [RouteFault("wall_clearance", place, float(clearance[worst]), float(limit[worst]))]


def _nearer_than_walls(wall: WallClearance, chords: Chords, index: npt.NDArray[np.intp]) -> list[RouteFault]:
    """Where the pipe is in the strip before a stretch of wall that asks for more; its ends are square to it."""
    within = wall.clearance - CLEARANCE_TOLERANCE
    if within <= 0.0 or len(index) == 0:
        return []
    strip = shapely.buffer(wall.stretch, within, cap_style="flat", join_style="mitre")
    inside = intersection(chords.lines(index), strip)
    inside = inside[shapely.length(inside) > _DUST]
    if len(inside) == 0:
        return []
    away = shapely.distance(inside, wall.stretch)
    worst = int(away.argmin())
    place = _point(shapely.shortest_line(inside[worst], wall.stretch).coords[0])
    return [RouteFault("wall_clearance", place, float(away[worst]), wall.clearance)]


def _depth_outside(line: shapely.LineString, polygon: Polygon) -> tuple[float, Point]:
    """How far the line goes outside [m], and where; 0 when it does not."""
    outside = shapely.segmentize(difference(line, polygon), 0.001)
    points = shapely.get_coordinates(outside)
    if len(points) == 0:
        return 0.0, (0.0, 0.0)
    depth = shapely.distance(shapely.points(points), polygon)
    worst = int(depth.argmax())
    return float(depth[worst]), _point(points[worst])


def _in_doorway(task: Task, chords: Chords, doorway: float) -> npt.NDArray[np.bool_]:
    """The chords at either end that are near the entry both along the pipe and across the floor."""
    near_ends = (chords.at[1:] <= doorway + ROUND_OFF) | (
        chords.at[:-1] >= task.table.total - doorway - ROUND_OFF
    )
    reach = doorway + task.tail_pitch / 2.0 + ENTRY_TOLERANCE
    near_entry = np.hypot(*(chords.points - task.entry).T) <= reach
    in_doorway: npt.NDArray[np.bool_] = near_ends & near_entry[1:] & near_entry[:-1]
    return in_doorway


def _too_near(distance: Array, limit: Array, code: str, beside: Neighbours) -> Iterator[RouteFault]:
    """Distances are from places on the pipe and never less than the true ones, so that no chord excuses a fault."""
    worst = int((distance - limit).argmin())
    if distance[worst] < limit[worst] - BLUR:
        yield RouteFault(code, _point(beside.points[worst]), float(distance[worst]), float(limit[worst]))


def _point(xy: npt.ArrayLike) -> Point:
    x, y = np.asarray(xy, dtype=np.float64)[:2].tolist()
    return (x, y)
