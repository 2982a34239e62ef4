"""Floor parted by movement joints."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...elementwise import Array
from .overlays import union

__all__ = ["JOINT_REACH", "drawn_out", "faces_between"]

JOINT_REACH = 0.01
"""By how much movement joints are drawn out at both ends, so that they meet the walls, and by how much they may miss a
corner [m]."""


def drawn_out(points: Array, floor: Polygon, reach: float = JOINT_REACH) -> LineString:
    """A joint that goes on a little beyond both its ends, so that it meets the walls; an end at a corner of the floor
    stays there, as beyond it the joint would leave the wall, and one beside the corner would part nothing."""
    corners = shapely.get_coordinates(floor)
    ends = []
    for end, inner in ((points[0], points[1]), (points[-1], points[-2])):
        away = np.hypot(*(corners - end).T)
        if away.min() < reach:
            ends.append(corners[away.argmin()])
            continue
        way = end - inner
        length = float(np.hypot(*way))
        ends.append(end + way * (reach / length if length > 0.0 else 0.0))
    return LineString(np.vstack((ends[0], points[1:-1], ends[1])))


def faces_between(floor: Polygon, lines: Iterable[LineString], least: float) -> list[Polygon]:
    """What lines leave of a floor in one piece each, of at least so much area [m2]."""
    net = union([floor.boundary, *lines])
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(net)))
    return [
        face
        for face in faces
        if face.area >= least and shapely.contains(floor, shapely.point_on_surface(face))
    ]
