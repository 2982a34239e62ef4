"""Where bent pipe may lie: the floor at the true clearance, not the mitred one that rings are made of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt
import shapely

from ...elementwise import Array
from ..model.field import Field
from ..outlines.overlays import difference

__all__ = ["CLEARANCE_SLACK", "BendSpace", "bend_space"]

CLEARANCE_SLACK = 0.0008
"""How far a bend may come nearer to walls and voids than asked for [m]: less than anybody can lay, and with what
settling a room moves its walls, no more than the judge lets pass."""
_EDGE = 1e-6
"""The ends of the pipe lie on the edge of the floor, to rounding [m]."""
_ARC_SEGMENTS = 24
"""Of a quarter circle round the corner of a wall: 0.05 mm of error at a clearance of 100 mm."""


@dataclass(frozen=True)
class BendSpace:
    """``clear`` keeps the clearance, ``tolerated`` all but ``CLEARANCE_SLACK`` of it.

    For ``doorway`` [m] from either end of the pipe, and as near to the entry, only the floor is asked for.
    """

    field: Field
    clear: shapely.Geometry
    tolerated: shapely.Geometry
    floor: shapely.Geometry

    @cached_property
    def doorway(self) -> float:
        field = self.field
        return field.wall_clearance + max(field.pipe_spacing, field.tail_pitch) / 2.0 + field.bend_radius

    def holds(self, lines: npt.NDArray[np.object_]) -> npt.NDArray[np.bool_]:
        """For each line string whether it keeps the clearance."""
        held: npt.NDArray[np.bool_] = shapely.covers(self.tolerated, lines)
        return held

    def holds_at(self, points: Array, at: Array, total: float) -> bool:
        """Whether a stretch with vertices at distances ``at`` [m] along a pipe of length ``total`` [m] is held:
        by its clearance, near the ends by the floor."""
        near = np.minimum(at, total - at) < self.doorway
        if near.any():
            near &= np.hypot(*(points - self.field.entry.place).T) < self.doorway
        if not near.any():
            return bool(shapely.covers(self.tolerated, shapely.linestrings(points)))
        exempt = near[:-1] & near[1:]
        chords = shapely.linestrings(np.stack((points[:-1], points[1:]), axis=1))
        held = shapely.covers(self.tolerated, chords) | (exempt & shapely.covers(self.floor, chords))
        return bool(held.all())

    def shortfall(self, points: Array) -> Array:
        """How much clearance the points lack [m]."""
        lacking = np.zeros(len(points))
        outside = ~shapely.contains_xy(self.tolerated, points)
        lacking[outside] = shapely.distance(shapely.points(points[outside]), self.clear)
        return lacking


def bend_space(field: Field) -> BendSpace:
    """The space of a field; its geometries are prepared for many questions."""
    clear, tolerated = _clear(field, 0.0), _clear(field, CLEARANCE_SLACK)
    floor = shapely.buffer(field.room, _EDGE, join_style="mitre")
    shapely.prepare([clear, tolerated, floor])
    return BendSpace(field, clear, tolerated, floor)


def _clear(field: Field, slack: float) -> shapely.Geometry:
    distance = max(0.0, field.wall_clearance - slack)
    space = shapely.buffer(field.room, -distance, quad_segs=_ARC_SEGMENTS)
    for wall in field.walls:
        reach = max(0.0, wall.clearance - slack)
        space = difference(space, shapely.buffer(wall.stretch, reach, cap_style="flat"))
    return space
