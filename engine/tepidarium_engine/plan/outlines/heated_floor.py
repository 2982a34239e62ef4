"""The floor whose heating is asked for, and the length of pipe that it ideally takes."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely import Polygon

from ..tolerances import QUARTER_SEGMENTS
from .denser_area import Spacings
from .overlays import difference, intersection
from .pipe_zone import WallClearance
from .polygons import served_area

__all__ = ["heated_floor", "heated_parts", "ideal_length"]


def heated_floor(
    polygon: Polygon, pipe_spacing: float, wall_clearance: float, walls: Sequence[WallClearance] = ()
) -> shapely.Geometry:
    """The floor whose heating is asked for: all that is within half a spacing of where pipe may lie."""
    margin = max(0.0, wall_clearance - pipe_spacing / 2.0)
    floor = polygon if margin < 1e-9 else shapely.buffer(polygon, -margin, quad_segs=QUARTER_SEGMENTS)
    return _before_walls(floor, walls, pipe_spacing / 2.0)


def heated_parts(
    polygon: Polygon, spacings: Spacings, wall_clearance: float, walls: Sequence[WallClearance]
) -> list[tuple[shapely.Geometry, float]]:
    """The heated floor by the spacing asked for; what is not in a denser area comes last."""
    parts = [
        (intersection(part, heated_floor(polygon, spacing, wall_clearance, walls)), spacing)
        for part, spacing in spacings.parts(polygon)[:-1]
    ]
    rest = heated_floor(polygon, spacings.widest, wall_clearance, walls)
    return [*parts, (spacings.parts(rest)[-1][0], spacings.widest)]


def ideal_length(
    polygon: Polygon, spacings: Spacings, wall_clearance: float, walls: Sequence[WallClearance]
) -> float:
    """Served area over spacing [m]; 0 or less when there is no such area.

    The band between the clearance of the room and that of a wall is not served. A denser area takes more pipe
    for the part of it in which pipe may lie: in the strip along the wall, that lies before the outermost
    pipe, its spacing changes nothing.
    """
    widest = spacings.widest
    length = served_area(polygon, widest, wall_clearance) / widest
    if not walls and not spacings.denser:
        return length
    shift = widest / 2.0 - wall_clearance
    served = shapely.buffer(polygon, shift, join_style="mitre", mitre_limit=2.5)
    outside = difference(served, polygon)
    inside = _before_walls(intersection(served, polygon), walls, widest / 2.0)
    for wall in walls:
        kept = max(0.0, widest / 2.0 - wall.clearance)
        if shift > kept:
            outside = difference(outside, difference(_strip(wall, shift), _strip(wall, kept)))
    length -= (served.area - inside.area - outside.area) / widest
    free = shapely.buffer(polygon, -wall_clearance, join_style="mitre", mitre_limit=2.5)
    for part, spacing in spacings.parts(_before_walls(free, walls, 0.0))[:-1]:
        length += part.area * (1.0 / spacing - 1.0 / widest)
    return float(length)


def _before_walls(floor: shapely.Geometry, walls: Sequence[WallClearance], less: float) -> shapely.Geometry:
    """Without the strips before walls with a clearance of their own, each ``less`` [m] narrower than that."""
    for wall in walls:
        if wall.clearance > less:
            floor = difference(floor, _strip(wall, wall.clearance - less))
    return floor


def _strip(wall: WallClearance, width: float) -> shapely.Geometry:
    """All within ``width`` [m] of a stretch of wall, square to it."""
    return shapely.buffer(wall.stretch, width, cap_style="flat", join_style="mitre")
