"""A division request in the room's own frame, and the way back to the caller's."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.pipe_zone import WallClearance
from ...plan.outlines.polygons import RoomOutline
from ...plan.outlines.room_frame import RoomFrame, room_frame
from ..model.division_records import DivisionRequest
from .fields import joint_fields

__all__ = ["DivisionJob", "division_job"]


@dataclass(frozen=True)
class DivisionJob:
    """A request in the room's own frame."""

    room: RoomOutline
    request: DivisionRequest
    frame: RoomFrame
    polygon: Polygon
    joints: tuple[LineString, ...]
    fields: tuple[Polygon, ...]

    def local(self, place: Point) -> Point:
        """A place of the caller's frame in the room's own."""
        return self.frame.local_place(place, self.room.origin)

    @property
    def walls(self) -> list[WallClearance]:
        """In the room's own frame."""
        return [
            replace(
                wall,
                stretch=self.frame.to_local(
                    shapely.transform(wall.stretch, lambda points: points - self.room.origin)
                ),
            )
            for wall in self.request.walls
        ]

    def outer_points(self, points: Array) -> Array:
        """Points of the room's own frame, one a row, in the caller's."""
        return self.frame.outer_points(points) + self.room.origin

    def outer(self, place: Point) -> Point:
        x, y = self.outer_points(np.array([place]))[0].tolist()
        return (x, y)

    def outer_polygon(self, polygon: Polygon) -> Polygon:
        outer: Polygon = shapely.transform(polygon, self.outer_points)
        return outer

    def outer_direction(self, direction: Point) -> Point:
        (x, y), (c, s) = direction, self.frame.axis
        return (c * x - s * y, s * x + c * y)


def division_job(room: RoomOutline, request: DivisionRequest) -> DivisionJob:
    frame = room_frame(room.polygon)
    polygon = shapely.orient_polygons(frame.to_local(room.polygon))
    joints = tuple(
        LineString([frame.local_place(end, room.origin) for end in joint]) for joint in request.joints
    )
    segments = [(_end(joint, 0), _end(joint, -1)) for joint in joints]
    return DivisionJob(room, request, frame, polygon, joints, tuple(joint_fields(polygon, segments)))


def _end(line: LineString, index: int) -> Point:
    x, y = line.coords[index][:2]
    return (x, y)
