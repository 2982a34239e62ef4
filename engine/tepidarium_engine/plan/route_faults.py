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

from ..checking import Point
from ..elementwise import Array
from .pipe_neighbours import CHORD_ERROR, Chords, Neighbours
from .pipe_path import POSITION_TOLERANCE, TANGENT_TOLERANCE, Arc, PipePath

__all__ = [
    "CLEARANCE_TOLERANCE",
    "ENTRY_TOLERANCE",
    "LEAST_PIPE_DISTANCE",
    "RADIUS_TOLERANCE",
    "RouteFault",
    "Task",
    "route_faults",
]

CLEARANCE_TOLERANCE = 0.002
"""How far the pipe may come nearer to walls and voids than asked for [m]: nobody lays it more exactly."""
ENTRY_TOLERANCE = 0.005
"""Of the places of the two ends and of the distance between the tails [m]."""
RADIUS_TOLERANCE = 1e-6
"""Of bend radii [m]: they are numbers in the path and not estimates."""
LEAST_PIPE_DISTANCE = 0.6
"""Least distance between different parts of the pipe, in spacings."""


@dataclass(frozen=True, slots=True)
class RouteFault:
    """A reason why the pipe cannot be laid as drawn.

    ``place`` [m] is where it is worst; ``value`` missed ``limit``. Both are in metres, but for ``kink`` [rad].

    - ``gap``: the next piece of pipe starts elsewhere; ``kink``: it starts in another direction;
    - ``crosses_itself``: ``value`` is the distance along the pipe between the two passes;
    - ``start_off_entry``, ``end_off_entry``: distance from the entry;
    - ``tail_pitch``: distance between the two ends;
    - ``wall_clearance``: to walls and voids, negative where the pipe leaves the floor;
    - ``bend_radius``: of an arc;
    - ``pipe_distance``: between parts of the pipe more than 2.6 spacings apart along it;
    - ``tail_distance``: between the two ends near the entry.
    """

    code: str
    place: Point
    value: float
    limit: float


@dataclass(frozen=True, slots=True)
class Task:
    """A path and what is asked of it, all in one frame near the origin. Lengths in metres."""

    path: PipePath
    polygon: Polygon
    pipe_spacing: float
    wall_clearance: float
    bend_radius: float
    entry: Point
    tail_pitch: float

    @property
    def doorway(self) -> float:
        """Length at either end that may be nearer to the wall: in, half a spacing sideways, and a bend."""
        return self.wall_clearance + max(self.pipe_spacing, self.tail_pitch) / 2.0 + self.bend_radius

    @property
    def fan(self) -> float:
        """Length at either end in which the tails spread from their pitch to the spacing."""
        return self.wall_clearance + self.pipe_spacing + 2.0 * self.bend_radius


def route_faults(task: Task, chords: Chords, beside: Neighbours) -> Iterator[RouteFault]:
    """All faults, at most one or two a rule: the worst ones."""
    yield from _broken(task.path)
    yield from _crossing(chords)
    yield from _ends(task)
    yield from _off_the_floor(task, chords)
    yield from _tight_bend(task)
    yield from _too_near(beside.distance, LEAST_PIPE_DISTANCE * task.pipe_spacing, "pipe_distance", beside)
    tails = min(LEAST_PIPE_DISTANCE * task.pipe_spacing, task.tail_pitch - ENTRY_TOLERANCE)
    yield from _too_near(beside.tails_distance, tails, "tail_distance", beside)


def _broken(path: PipePath) -> Iterator[RouteFault]:
    """The largest gap and the largest kink."""
    joints = path.joints()
    if not joints:
        return
    gap = max(joints, key=lambda joint: joint.gap)
    if gap.gap > POSITION_TOLERANCE:
        yield RouteFault("gap", gap.place, gap.gap, POSITION_TOLERANCE)
    kink = max(joints, key=lambda joint: joint.kink)
    if kink.kink > TANGENT_TOLERANCE:
        yield RouteFault("kink", kink.place, kink.kink, TANGENT_TOLERANCE)


def _crossing(chords: Chords) -> Iterator[RouteFault]:
    """The first crossing along the pipe; touching is crossing too."""
    if shapely.is_simple(shapely.linestrings(chords.points)):
        return
    lines = chords.lines
    first, second = shapely.STRtree(lines).query(lines, predicate="intersects")
    apart = np.flatnonzero(second > first + 1)
    if len(apart):
        pick = apart[np.lexsort((second[apart], first[apart]))[0]]
        one, other = first[pick], second[pick]
    else:  # only neighbours touch: the pipe doubles back on itself
        steps = np.diff(chords.points, axis=0)
        one = int((steps[:-1] * steps[1:]).sum(axis=1).argmin())
        other = one + 1
    x, y = shapely.get_coordinates(shapely.intersection(lines[one], lines[other]))[0]
    yield RouteFault("crosses_itself", (float(x), float(y)), float(chords.at[other] - chords.at[one]), 0.0)


def _ends(task: Task) -> Iterator[RouteFault]:
    start, end = task.path.start, task.path.end
    limit = task.tail_pitch / 2.0 + ENTRY_TOLERANCE
    for code, place in (("start_off_entry", start), ("end_off_entry", end)):
        away = math.dist(place, task.entry)
        if away > limit:
            yield RouteFault(code, place, away, limit)
    pitch = math.dist(start, end)
    if abs(pitch - task.tail_pitch) > ENTRY_TOLERANCE:
        yield RouteFault("tail_pitch", end, pitch, task.tail_pitch)


def _off_the_floor(task: Task, chords: Chords) -> Iterator[RouteFault]:
    """Where the pipe is nearest to a wall or void, or furthest outside the floor."""
    lines = chords.lines
    edges = task.polygon.boundary
    shapely.prepare([edges, task.polygon])
    clearance = shapely.distance(lines, edges)
    deepest: dict[int, Point] = {}
    for index in np.flatnonzero(~shapely.contains_properly(task.polygon, lines)).tolist():
        depth, place = _depth_outside(lines[index], task.polygon)
        if depth > 0.0:
            clearance[index], deepest[index] = -depth, place
    limit = np.where(_in_doorway(task, chords), 0.0, task.wall_clearance)
    worst = int((clearance - limit).argmin())
    if clearance[worst] < limit[worst] - CLEARANCE_TOLERANCE:
        x, y = deepest.get(worst) or shapely.shortest_line(lines[worst], edges).coords[0]
        yield RouteFault("wall_clearance", (x, y), float(clearance[worst]), float(limit[worst]))


def _depth_outside(line: shapely.LineString, polygon: Polygon) -> tuple[float, Point]:
    """How far the line goes outside [m], and where; 0 when it does not."""
    outside = shapely.segmentize(shapely.difference(line, polygon), 0.001)
    points = shapely.get_coordinates(outside)
    if len(points) == 0:
        return 0.0, (0.0, 0.0)
    depth = shapely.distance(shapely.points(points), polygon)
    worst = int(depth.argmax())
    return float(depth[worst]), (float(points[worst, 0]), float(points[worst, 1]))


def _in_doorway(task: Task, chords: Chords) -> npt.NDArray[np.bool_]:
    """The chords at either end that are near the entry both along the pipe and across the floor."""
    slack = 1e-9
    near_ends = (chords.at[1:] <= task.doorway + slack) | (
        chords.at[:-1] >= task.path.length - task.doorway - slack
    )
    reach = task.doorway + task.tail_pitch / 2.0 + ENTRY_TOLERANCE
    near_entry = np.hypot(*(chords.points - task.entry).T) <= reach
    in_doorway: npt.NDArray[np.bool_] = near_ends & near_entry[1:] & near_entry[:-1]
    return in_doorway


def _tight_bend(task: Task) -> Iterator[RouteFault]:
    arcs = [piece for piece in task.path.pieces if isinstance(piece, Arc)]
    tightest = min(arcs, key=lambda arc: arc.radius, default=None)
    if tightest is not None and tightest.radius < task.bend_radius - RADIUS_TOLERANCE:
        yield RouteFault("bend_radius", tightest.middle, tightest.radius, task.bend_radius)


def _too_near(distance: Array, limit: float, code: str, beside: Neighbours) -> Iterator[RouteFault]:
    nearest = int(distance.argmin())
    if distance[nearest] < limit - 2.0 * CHORD_ERROR:
        x, y = beside.points[nearest].tolist()
        yield RouteFault(code, (x, y), float(distance[nearest]), limit)
