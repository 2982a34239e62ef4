"""Halls that lanes heat: rooms that pairs to others cross, whose floor these lie on evenly enough to need no circuit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from shapely import LineString, Polygon

from ..plan.outlines.polygons import served_area
from .lanes.cell_lanes import CellLanes
from .lanes.free_floor import FreeFloor
from .layout_records import StoreyTask
from .storey_drawing import StoreyDrawing
from .walkways import Walkways

__all__ = ["heated_by_lanes", "passing_pairs"]

_LEAST_PAIRS = 2
_BARE = 0.05
"""Share of a hall's floor that may stay without pipe."""
_MOST_LOOPS = 0.4
"""Share of a hall's floor that circuits of other rooms may heat by side loops."""
_FILL = 0.97
"""Pipe laid, in terms of served area over spacing."""
_SPARE = 0.97
"""Of the permitted length, that a circuit with a side loop may come to as far as is expected."""


def heated_by_lanes(task: StoreyTask, walkways: Walkways, counts: Sequence[int]) -> frozenset[int]:
    """Rooms of those with circuits that need none, as far as can be told before anything is laid."""
    drawing = StoreyDrawing(task, walkways, tuple(counts))
    passing = passing_pairs(drawing)
    halls = [
        index
        for index, room in enumerate(task.rooms)
        if counts[index] and not room.joints and passing[index] >= _LEAST_PAIRS
    ]
    if not halls:
        return frozenset()
    without = [0 if index in halls else count for index, count in enumerate(counts)]
    drawing = StoreyDrawing(task, walkways, tuple(without))
    return frozenset(index for index in halls if _is_heated(drawing, index))


def passing_pairs(drawing: StoreyDrawing) -> Counter[int]:
    """Pairs to other rooms that cross each room."""
    return Counter(
        order.cell
        for tree in drawing.lanes.routing.trees
        for order in tree.orders
        for _, circuits in order.exits
        for _ in circuits
    )


def _is_heated(drawing: StoreyDrawing, index: int) -> bool:
    over = drawing.lanes.lanes.get(index)
    if over is None or not over.lanes:
        return False
    bare, spare = 0.0, _spare_pipe(drawing, over)
    floor, loops = (
        drawing.task.plan.rooms[index].area,
        _loops(drawing.task, index, drawing.floors.free[index]),
    )
    if sum(part.area for part, _ in loops) > _MOST_LOOPS * floor:
        return False
    for part, need in loops:
        hosts = [
            name
            for name in _beside(over, part, drawing.task.rooms[index].pipe_spacing)
            if spare[name] >= need
        ]
        if hosts:
            spare[max(hosts, key=lambda name: spare[name])] -= need
        else:
            bare += part.area
    return bare <= _BARE * floor


def _loops(task: StoreyTask, index: int, free: FreeFloor) -> list[tuple[Polygon, float]]:
    """Floor beside the lanes, and the pipe that it takes [m]."""
    spacing = task.rooms[index].pipe_spacing
    return [(part, _FILL * served_area(part, spacing, task.wall_clearance) / spacing) for part in free.parts]


def _spare_pipe(drawing: StoreyDrawing, over: CellLanes) -> dict[str, float]:
    """By lane, what its circuit may still be longer [m]."""
    task, found = drawing.task, {}
    for lane in over.lanes:
        index = drawing.room_of[lane.circuit]
        room, field = task.rooms[index], drawing.fields.get(index)
        found[lane.circuit] = 0.0
        if field is not None:
            served = served_area(field.floor, room.pipe_spacing, task.wall_clearance)
            own = _FILL * served / room.pipe_spacing / drawing.counts[index]
            tail = drawing.tail_length(index, lane.circuit)
            found[lane.circuit] = _SPARE * room.maximum_circuit_length - tail - own
    return found


def _beside(over: CellLanes, part: Polygon, spacing: float) -> list[str]:
    return [
        lane.circuit
        for lane in over.lanes
        if min(LineString(pipe).distance(part) for pipe in (lane.right, lane.left)) < spacing
    ]
