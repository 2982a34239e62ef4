"""How much floor of a laid storey is bare, room by room, by general geometry alone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import shapely
from tepidarium_engine.storey.model.layout_records import StoreyLayout, StoreyTask

__all__ = ["BareRoom", "bare_floor"]

SERVED = 0.75
"""Floor farther than this from any pipe is bare, in spacings of its room."""
_CHORD_ERROR = 1e-3


class BareRoom(NamedTuple):
    """``floor`` is what is bare of the room, ``area`` [m2] what there is to be heated."""

    room: int
    floor: shapely.Geometry
    area: float

    @property
    def share(self) -> float:
        return float(self.floor.area) / self.area if self.area else 0.0


def bare_floor(task: StoreyTask, layout: StoreyLayout) -> Iterator[BareRoom]:
    """All rooms, in order. What lies nearer to a wall than the clearance less half a spacing needs no pipe."""
    lines = [shapely.LineString(circuit.path.polyline(_CHORD_ERROR)) for circuit in layout.circuits]
    for index, (polygon, room) in enumerate(zip(task.plan.rooms, task.rooms, strict=True)):
        edge = max(0.0, task.wall_clearance - room.pipe_spacing / 2.0)
        floor = shapely.buffer(polygon, -edge, join_style="mitre") if edge else polygon
        near = [line for line in lines if shapely.dwithin(line, polygon, room.pipe_spacing)]
        served = shapely.buffer(shapely.union_all(near), SERVED * room.pipe_spacing, quad_segs=8)
        yield BareRoom(
            index, shapely.difference(floor, shapely.buffer(served, 0.0), grid_size=1e-6), float(floor.area)
        )
