"""How much of a room's floor the pipes of several circuits reach together."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely import LineString

from ...plan.asking.route_records import RouteCoverage
from ...plan.judging.route_measures import CHORD_ERROR, MOST_SPOTS, NEAR, SERVED, BareSpot, band_of, bare_spot
from ...plan.outlines.heated_floor import heated_floor
from ...plan.outlines.overlays import difference, union
from ...plan.outlines.pipe_zone import WallClearance
from ...plan.outlines.polygons import RoomOutline
from ...plan.pipes.pipe_path import PipePath

__all__ = ["room_coverage"]

_LEAST_SPOT = 1e-6
"""Of a spot that is told [m2]."""


def room_coverage(
    room: RoomOutline,
    paths: Sequence[PipePath],
    pipe_spacing: float,
    wall_clearance: float,
    walls: Sequence[WallClearance] = (),
) -> RouteCoverage:
    """Coverage of the whole room by all ``paths`` (in the caller's frame), lengths in metres; ``walls`` with a
    clearance of their own in the room's frame. The measure is that of ``route_measures``."""
    x, y = room.origin
    lines = [LineString(path.moved((-x, -y)).polyline(CHORD_ERROR)) for path in paths]
    floor = heated_floor(room.polygon, pipe_spacing, wall_clearance, walls)
    total = float(floor.area)
    near = _clipped(lines, floor, pipe_spacing)
    beyond = [
        difference(floor, union([band_of(line, share * pipe_spacing) for line in near]))
        for share in (NEAR, SERVED)
    ]
    pipes = union(lines)
    parts = [part for part in shapely.get_parts(beyond[1]) if part.area > _LEAST_SPOT]
    parts.sort(key=lambda part: (-round(part.area, 9), part.bounds))
    spots = tuple(bare_spot(part, pipes) for part in parts[:MOST_SPOTS])
    return RouteCoverage(
        total,
        1.0 - float(beyond[0].area) / total,
        1.0 - float(beyond[1].area) / total,
        float(beyond[1].area),
        tuple(BareSpot(s.area, (s.place[0] + x, s.place[1] + y), s.width, s.pipe_distance) for s in spots),
    )


def _clipped(lines: Sequence[LineString], floor: shapely.Geometry, spacing: float) -> list[LineString]:
    """The parts of the lines that floor may be near: the rest of a long pipe costs time and serves none of it."""
    west, south, east, north = shapely.bounds(shapely.buffer(floor, spacing, quad_segs=1)).tolist()
    parts = shapely.get_parts(shapely.clip_by_rect(lines, west, south, east, north))
    return [part for part in parts if part.length > 0.0]
