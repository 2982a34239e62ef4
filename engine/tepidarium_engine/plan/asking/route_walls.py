"""The walls of a request: those with a clearance of their own, bands beside them, and the limit of the pipe."""

from __future__ import annotations

import shapely
from shapely import LineString

from ...checking import Point
from ..mapping.peripheral_mapping import CloserStrip
from ..outlines.overlays import intersection, union
from ..outlines.pipe_zone import WallClearance, pipe_zone
from ..outlines.polygons import RoomOutline, room_outline
from ..outlines.regions import parts_of
from .route_records import PeripheralArea, RoutesInputs

__all__ = ["band_beside", "clearance_rings", "closer_strip", "moved_wall", "wall_clearances", "wall_line"]


def clearance_rings(inputs: RoutesInputs) -> tuple[tuple[Point, ...], ...]:
    """Edges of where the pipe's centre line may lie in a room [m], for drawings; in the caller's frame."""
    room = room_outline(inputs.outline, inputs.voids)
    walls = [moved_wall(wall, room.origin) for wall in wall_clearances(inputs)]
    zone = pipe_zone(room.polygon, inputs.pipe_spacing, inputs.wall_clearance, walls)
    rings = [ring for part in parts_of(zone.free) for ring in (part.exterior, *part.interiors)]
    return tuple(
        tuple((x, y) for x, y in (shapely.get_coordinates(ring)[:-1] + room.origin).tolist())
        for ring in rings
    )


def wall_clearances(inputs: RoutesInputs) -> tuple[WallClearance, ...]:
    """The walls with a clearance of their own, in the caller's frame."""
    return tuple(
        WallClearance(wall_line(inputs, wall.edge, wall.stretch), wall.wall_clearance)
        for wall in inputs.wall_stretches
    )


def wall_line(inputs: RoutesInputs, edge: int | None, stretch: tuple[Point, ...] | None) -> LineString:
    """A wall in the caller's frame: a whole edge of the outline or a stretch between two points."""
    if stretch is not None:
        return LineString(stretch)
    number = (edge or 0) % len(inputs.outline)
    return LineString((inputs.outline[number], inputs.outline[(number + 1) % len(inputs.outline)]))


def closer_strip(inputs: RoutesInputs, strip: PeripheralArea, room: RoomOutline) -> CloserStrip:
    """A peripheral strip that shares its circuit with the room, in the caller's frame."""
    floor = intersection(room.polygon, band_beside(inputs, strip.edges, room.origin, strip.width))
    return CloserStrip(
        walls=tuple(wall_line(inputs, edge, None) for edge in strip.edges),
        width=strip.width,
        pipe_spacing=strip.pipe_spacing,
        area=shapely.transform(floor, lambda points: points + room.origin),
    )


def band_beside(
    inputs: RoutesInputs, edges: tuple[int, ...], origin: Point, width: float
) -> shapely.Geometry:
    """All within ``width`` [m] of some walls, square to them, in the room's own frame."""
    lines = [
        shapely.transform(wall_line(inputs, edge, None), lambda points: points - origin)
        for edge in sorted(set(edges))
    ]
    merged = shapely.line_merge(union(lines)) if len(lines) > 1 else lines[0]
    return shapely.buffer(merged, width, cap_style="flat", join_style="mitre")


def moved_wall(wall: WallClearance, origin: Point) -> WallClearance:
    """A wall in a frame that has its origin at a point of the caller's frame [m]."""
    return WallClearance(shapely.transform(wall.stretch, lambda points: points - origin), wall.clearance)
