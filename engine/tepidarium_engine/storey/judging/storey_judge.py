"""Whether the pipes of several circuits can lie beside each other; knows nothing of how they were made."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import shapely

from ...checking import Point
from ...elementwise import Array
from ...plan.judging.crossing import first_crossing
from ...plan.judging.route_faults import ENTRY_TOLERANCE, LEAST_PIPE_DISTANCE
from ...plan.outlines.overlays import difference
from ...plan.pipes.pipe_path import POSITION_TOLERANCE, TANGENT_TOLERANCE, Arc, PipePath

__all__ = ["Crowding", "crowding", "fault_of", "least_apart", "off_floor"]

_CHORD_ERROR = 5e-4
_RADIUS_TOLERANCE = 1e-6


class Crowding(NamedTuple):
    """Pipes number ``first`` and ``second`` come within ``distance`` [m] of each other at ``place``."""

    first: int
    second: int
    distance: float
    place: Point


def least_apart(pipe_spacing: float, tail_pitch: float) -> float:
    """How near any two pipes may come [m]: as in a field, or as tails lie side by side."""
    return min(LEAST_PIPE_DISTANCE * pipe_spacing, tail_pitch - ENTRY_TOLERANCE)


def crowding(paths: Sequence[PipePath], least: float) -> list[Crowding]:
    """All pairs of pipes that are nearer to each other than ``least`` [m], in order."""
    lines = [shapely.LineString(path.polyline(_CHORD_ERROR)) for path in paths]
    if len(lines) < 2:
        return []
    first, second = shapely.STRtree(lines).query(
        lines, predicate="dwithin", distance=least - 2.0 * _CHORD_ERROR
    )
    found = []
    for one, other in sorted(zip(first.tolist(), second.tolist(), strict=True)):
        if one < other:
            (x, y), _ = shapely.get_coordinates(shapely.shortest_line(lines[one], lines[other])).tolist()
            found.append(Crowding(one, other, float(shapely.distance(lines[one], lines[other])), (x, y)))
    return found


def fault_of(path: PipePath, bend_radius: float, least: float) -> tuple[str, Point] | None:
    """What makes a whole circuit impossible by itself, and where: a gap, a kink, a bend tighter than
    ``bend_radius`` [m], a crossing with itself, or a stretch nearer than ``least`` [m] to one that lies further along
    than the tightest turn about."""
    for joint in path.joints():
        if joint.gap > POSITION_TOLERANCE:
            return "gap", joint.place
        if joint.kink > TANGENT_TOLERANCE:
            return "kink", joint.place
    for piece in path.pieces:
        if isinstance(piece, Arc) and piece.radius < bend_radius - _RADIUS_TOLERANCE:
            return "bend_radius", piece.middle
    points = path.polyline(_CHORD_ERROR)
    crossing = first_crossing(points)
    if crossing is not None:
        return "crosses_itself", crossing.place
    place = _near_itself(points, math.pi * bend_radius, least - 2.0 * _CHORD_ERROR)
    return None if place is None else ("near_itself", place)


def off_floor(path: PipePath, floor: shapely.Geometry) -> tuple[str, Point] | None:
    """Where a circuit leaves the ``floor``, all rooms with their doorways: for a void, or through a wall."""
    line = shapely.LineString(path.polyline(_CHORD_ERROR))
    if shapely.covers(floor, line):
        return None
    outside = shapely.get_parts(difference(line, floor))
    middle = shapely.line_interpolate_point(outside[0], 0.5, normalized=True)
    return "outside_floor", (middle.x, middle.y)


def _near_itself(points: Array, along: float, least: float) -> Point | None:
    """Where two chords more than ``along`` [m] of pipe apart come nearest, if that is within ``least`` [m]."""
    chords = shapely.linestrings(np.stack((points[:-1], points[1:]), axis=1))
    at = np.concatenate(([0.0], np.cumsum(shapely.length(chords))))
    low, high = np.minimum(points[:-1], points[1:]) - least, np.maximum(points[:-1], points[1:]) + least
    one, other = shapely.STRtree(chords).query(shapely.box(*low.T, *high.T))
    # Most that are near are neighbours along the pipe: only the others are measured.
    far = at[other] - at[one + 1] > along
    one, other = one[far], other[far]
    apart = shapely.distance(chords[one], chords[other])
    if not (apart <= least).any():
        return None
    nearest = int(np.argmin(np.round(apart, 9)))
    between = shapely.shortest_line(chords[one[nearest]], chords[other[nearest]])
    (x, y), _ = shapely.get_coordinates(between).tolist()
    return x, y
