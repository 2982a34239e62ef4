"""Lanes of a plan with the floor that they leave to each cell's own pairs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

import shapely
from shapely import Polygon

from ...checking import Point
from ...plan.outlines.loops import loop_of
from .free_floor import FieldFloor, FreeFloor
from .plan_lanes import LaneTask, PlanLanes, plan_lanes

__all__ = ["OwnFloors", "own_floors"]

_MUCH = 0.6
"""Of the largest floor that lanes leave of a cell, its own field is to have."""


@dataclass(frozen=True)
class OwnFloors:
    """``lanes``, and by heated cell what they leave of it."""

    task: LaneTask
    lanes: PlanLanes

    @cached_property
    def free(self) -> dict[int, FreeFloor]:
        """Of all cells that pairs enter."""
        task, rules = self.task, self.task.walkways.rules
        return {
            cell: FreeFloor(
                task.walkways.plan.rooms[cell],
                over,
                task.spacings[cell],
                rules.wall_clearance,
                rules.bend_radius,
                rules.tail_pitch,
            )
            for cell, over in self.lanes.lanes.items()
        }

    @cached_property
    def fields(self) -> dict[int, FieldFloor]:
        """Of cells whose own pairs have a way to floor."""
        found = {}
        for cell, free in self.free.items():
            stub = self.lanes.bundle(cell)
            field = None if stub is None else free.field(stub)
            if field is not None:
                found[cell] = field
        return found

    @cached_property
    def _elsewhere(self) -> dict[int, Point]:
        """Where on the edge of a cell there is more floor than its own pairs get to."""
        found = {}
        for cell, free in self.free.items():
            if not self.lanes.own(cell) or not free.parts or not self.lanes.lanes[cell].lanes:
                continue
            field, largest = self.fields.get(cell), free.parts[0]
            if field is None or field.floor.area < _MUCH * largest.area:
                found[cell] = _at_edge(free.cell, largest)
        return found

    @property
    def worth(self) -> float:
        """Floor of all fields [m2]; a cell without any counts much."""
        return sum(
            self.fields[cell].floor.area if cell in self.fields else -1e3
            for cell in self.lanes.lanes
            if self.lanes.own(cell)
        )


def own_floors(task: LaneTask) -> OwnFloors:
    """Lanes that leave cells their floor: led past it on the other side, where they cut off too much of it."""
    found = OwnFloors(task, plan_lanes(task))
    elsewhere: Mapping[int, Point] = found._elsewhere
    if not elsewhere:
        return found
    moved = replace(task, own_at={**task.own_at, **elsewhere})
    other = OwnFloors(moved, plan_lanes(moved))
    worse = len(other.lanes.unrouted) > len(found.lanes.unrouted) or other.worth <= found.worth
    return found if worse else other


def _at_edge(cell: Polygon, floor: Polygon) -> Point:
    """The middle of the longest stretch of a cell's edge beside a floor."""
    beside = shapely.intersection(cell.exterior, shapely.buffer(floor, 0.5))
    parts = [part for part in shapely.get_parts(beside) if part.length > 0.0]
    if not parts:
        loop = loop_of(cell)
        inside = shapely.point_on_surface(floor)
        return loop.at(loop.project((inside.x, inside.y)))
    longest = max(parts, key=lambda part: round(float(part.length), 4))
    middle = longest.interpolate(0.5, normalized=True)
    return (middle.x, middle.y)
