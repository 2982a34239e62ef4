"""A part of a hall as a room of its own behind an opening: so the same orders, lanes and fields serve it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.overlays import difference
from ...plan.outlines.polygons import RoomOutline
from ...plan.outlines.regions import minus, opened, parts_of
from ..lanes.walkways import Walkways, access_to_rooms
from ..model.layout_records import RoomTask, StoreyTask
from ..model.records import Doorway, Segment
from ..model.tail_records import StoreyPlan, TailRules

__all__ = ["free_name", "with_part"]

_INSETS = (0.5, 1.0, 1.5)
"""How much narrower than the floor that is free such a part is, so that its own pair passes, in widths of a pair."""
_ON_WALL = 1e-3
"""Nearer to a wall is on it [m]."""
_ALONG = 1e-3
"""Sine of the angle between directions that are one."""


def with_part(task: StoreyTask, hall: int, part: Polygon) -> Iterator[StoreyTask]:
    """The storey with a part of a hall as its last room, the largest first; what is left of the hall is its room."""
    for widths in _INSETS:
        floor = _inset(part, task.plan.rooms[hall], widths * 2.0 * task.tail_pitch)
        parted = None if floor is None else _with_room(task, hall, floor)
        if parted is not None:
            yield parted


def _inset(part: Polygon, hall: Polygon, width: float) -> Polygon | None:
    """A part without a strip of so much width [m] along its border inside the hall."""
    border = difference(part.exterior, shapely.buffer(hall.boundary, _ON_WALL))
    strip = shapely.buffer(border, width, cap_style="square", join_style="mitre")
    left = parts_of(opened(minus(part, strip), width))
    return max(left, key=lambda one: float(one.area), default=None)


def _with_room(task: StoreyTask, hall: int, part: Polygon) -> StoreyTask | None:
    """The storey with a part of a hall as its last room, reached by the opening with the shortest way."""
    rest = parts_of(opened(minus(task.plan.rooms[hall], part), task.wall_clearance))
    if not rest:
        return None
    left = shapely.orient_polygons(max(rest, key=lambda one: float(one.area)))
    part = shapely.orient_polygons(part)
    rooms = (*task.plan.rooms[:hall], left, *task.plan.rooms[hall + 1 :], part)
    doorways = tuple(_clear_of(part, hall, doorway, task.wall_clearance) for doorway in task.plan.doorways)
    opening = _opening(task, hall, replace(task.plan, rooms=rooms, doorways=doorways))
    if opening is None:
        return None
    asked = task.rooms[hall]
    own = replace(asked, room=RoomOutline.of(left))
    apart = replace(asked, id=free_name(task, asked), room=RoomOutline.of(part), count=None, numbered=None)
    return replace(
        task,
        plan=replace(task.plan, rooms=rooms, doorways=(*doorways, opening)),
        rooms=(*task.rooms[:hall], own, *task.rooms[hall + 1 :], apart),
    )


def _opening(task: StoreyTask, hall: int, plan: StoreyPlan) -> Doorway | None:
    """The way from a hall into the last room of a plan, which was part of it."""
    rules = TailRules(task.tail_pitch, task.wall_clearance, task.bend_radius)
    manifold = task.manifolds[task.rooms[hall].manifold]
    reached = access_to_rooms(Walkways(plan, rules), manifold)
    if hall not in reached:
        return None
    entered = reached[hall].passage
    ahead = manifold.ahead if entered is None else entered.ahead
    last = len(plan.rooms) - 1
    openings = _openings(plan.rooms[last], task.plan.rooms[hall], (hall, last), ahead, rules)
    plan = replace(plan, doorways=(*plan.doorways, *openings))
    access = access_to_rooms(Walkways(plan, rules), manifold).get(last)
    return None if access is None or access.passage is None else plan.doorways[access.passage.doorway]


def free_name(task: StoreyTask, hall: RoomTask) -> str:
    """One for a part of a hall, with which no room's name begins."""
    known, name = {room.id for room in task.rooms}, hall.id
    while any(one.startswith(name) for one in known):
        name += "'"
    return name


def _clear_of(part: Polygon, hall: int, doorway: Doorway, clearance: float) -> Doorway:
    """A doorway of the hall without what of it lies before a part."""
    if hall not in doorway.rooms:
        return doorway
    side = doorway.rooms.index(hall)
    line = LineString(doorway.stretches[side])
    left = difference(line, shapely.buffer(part, clearance, join_style="mitre"))
    if left.is_empty:
        return doorway
    kept = shapely.get_parts(left)
    (x0, y0), (x1, y1) = shapely.get_coordinates(max(kept, key=lambda one: float(one.length)))[
        [0, -1]
    ].tolist()
    stretches = list(doorway.stretches)
    stretches[side] = ((x0, y0), (x1, y1))
    return replace(doorway, stretches=(stretches[0], stretches[1]))


def _openings(
    part: Polygon, hall: Polygon, rooms: tuple[int, int], ahead: Point, rules: TailRules
) -> Iterator[Doorway]:
    """At both ends of every straight border inside the hall; wide where pairs come straight on to it."""
    margin = rules.first_lane - rules.wall_clearance - rules.tail_pitch / 2.0
    need = rules.width_for(1)
    corners = shapely.get_coordinates(part.exterior).tolist()
    for (ax, ay), (bx, by) in pairwise(corners):
        length = math.dist((ax, ay), (bx, by))
        middle = shapely.Point((ax + bx) / 2.0, (ay + by) / 2.0)
        if length < need + 2.0 * margin or shapely.distance(hall.boundary, middle) < _ON_WALL:
            continue
        ux, uy = (bx - ax) / length, (by - ay) / length
        facing = abs(ux * ahead[0] + uy * ahead[1]) < _ALONG
        run = min(length - 2.0 * margin, 3.0 * need) if facing else need
        for start, sign in ((margin, 1.0), (length - margin, -1.0)):
            end = start + sign * run
            stretch: Segment = (ax + start * ux, ay + start * uy), (ax + end * ux, ay + end * uy)
            yield Doorway(rooms, (stretch, stretch))
