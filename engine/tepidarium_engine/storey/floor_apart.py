"""Floor of a hall that tails cut off, and that no passing circuit has length for, gets a circuit of its own: to the
layout it is a room behind an opening in the hall."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import shapely
from shapely import LineString, Polygon

from ..checking import Point
from ..plan.outlines.overlays import difference, intersection, union
from ..plan.outlines.regions import joined, minus, opened, parts_of
from .circuit_numbers import circuit_ids
from .cut_off_floor import free_parts
from .layout_records import RoomTask, StoreyCircuit, StoreyLayout, StoreyTask
from .own_floor import outlined
from .records import Doorway, Segment
from .tail_records import RoutedTails, StoreyPlan, TailRules, UnroutedTail
from .walkways import Walkways, access_to_rooms

__all__ = ["PartedStorey", "bare_share", "parted_storey"]

_SERVED = 0.75
"""Floor farther than this from any pipe is bare, in spacings."""
_MOST_BARE = 0.06
"""Share of a hall that may stay bare."""
_LEAST_BARE = 0.8
"""Bare floor for which a circuit is laid [m2]."""
_FEW = 40
"""Circuits of a storey up to which this is tried: all of it is laid once more."""
_PARTS = 2
"""Circuits of their own that cut-off floor of a storey gets."""
_INSETS = (0.5, 1.0, 1.5)
"""How much narrower than the floor that is free such a part is, so that its own pair passes, in widths of a pair."""
_TOUCH = 0.02
"""Nearer floor is beside each other [m]."""
_CHORD_ERROR = 1e-3
_ON_WALL = 1e-3
"""Nearer to a wall is on it [m]."""
_ALONG = 1e-3
"""Sine of the angle between directions that are one."""


@dataclass(frozen=True)
class PartedStorey:
    """A storey with cut-off floor as rooms after its own: ``halls`` tells by room of which one it is floor."""

    task: StoreyTask
    halls: Mapping[int, int]

    def as_asked(self, layout: StoreyLayout, narrow: tuple[UnroutedTail, ...]) -> StoreyLayout:
        """The layout with all circuits in the rooms of the storey that was asked for, and its ``narrow`` places."""
        names, room = self._names(layout), self._room
        tails = layout.tails
        places = (replace(one, circuit=names[one.circuit], room=room(one.room)) for one in tails.places)
        routes = (
            replace(one, circuit=names[one.circuit], rooms=tuple(map(room, one.rooms)))
            for one in tails.routes
        )
        lanes = (
            replace(one, circuits=tuple(map(names.__getitem__, one.circuits)), room=room(one.room))
            for one in tails.lanes
        )
        unrouted = (replace(one, circuit=names[one.circuit]) for one in tails.unrouted)
        return replace(
            layout,
            circuits=tuple(replace(one, id=names[one.id], room=room(one.room)) for one in layout.circuits),
            unplaced=tuple(replace(one, id=names[one.id], room=room(one.room)) for one in layout.unplaced),
            tails=RoutedTails(
                tuple(map(names.__getitem__, tails.ports)),
                tuple(places),
                tuple(routes),
                tuple(lanes),
                tuple(unrouted),
            ),
            narrow=narrow,
        )

    def _room(self, index: int) -> int:
        return self.halls.get(index, index)

    def _names(self, layout: StoreyLayout) -> dict[str, str]:
        """Circuits by the names that they were laid under: those of a hall are numbered through."""
        rooms = {one.id: one.room for one in layout.circuits}
        rooms |= {one.id: one.room for one in layout.unplaced}
        names = {name: name for name in rooms}
        for hall in sorted(set(self.halls.values())):
            own = sorted(
                (name for name, room in rooms.items() if self._room(room) == hall),
                key=lambda name: (rooms[name] != hall, rooms[name], len(name), name),
            )
            names |= dict(zip(own, circuit_ids(self.task.rooms[hall], len(own)), strict=True))
        return names


def bare_share(task: StoreyTask, circuits: Sequence[StoreyCircuit], index: int) -> float:
    """Share of a room's floor that is bare."""
    room = task.plan.rooms[index]
    return float(_bare(task, circuits, index).area) / float(room.area)


def _bare(task: StoreyTask, circuits: Sequence[StoreyCircuit], index: int) -> shapely.Geometry:
    room, spacing = task.plan.rooms[index], task.rooms[index].pipe_spacing
    lines = [LineString(circuit.path.polyline(_CHORD_ERROR)) for circuit in circuits]
    near = [line for line in lines if shapely.dwithin(line, room, spacing)]
    return difference(room, union(shapely.buffer(near, _SERVED * spacing, quad_segs=4)))


def parted_storey(
    task: StoreyTask,
    layout: StoreyLayout,
    without_loops: Sequence[StoreyCircuit],
    all_have_a_way: Callable[[StoreyTask], bool],
) -> PartedStorey | None:
    """The storey with floor of its barest hall that no circuit reaches as rooms; ``None``: no hall is that bare.
    ``without_loops``: the circuits of the layout before loops were laid on such floor."""
    if len(layout.circuits) > _FEW:
        return None
    halls = {
        lane.room
        for lane in layout.tails.lanes
        if task.rooms[lane.room].count != 0 and not task.rooms[lane.room].joints
    }
    shares = {index: bare_share(task, layout.circuits, index) for index in sorted(halls)}
    hall = max(shares, key=lambda index: shares[index], default=None)
    if hall is None or shares[hall] <= _MOST_BARE:
        return None
    storey = replace(task, tail_pitch=layout.tail_pitch, least_tail_pitch=math.inf)
    for part in _parts(task, layout, without_loops, hall):
        storey = next(filter(all_have_a_way, _with_part(storey, hall, part)), storey)
    return PartedStorey(storey, dict.fromkeys(range(len(task.rooms), len(storey.rooms)), hall))


def _with_part(task: StoreyTask, hall: int, part: Polygon) -> Iterator[StoreyTask]:
    """The storey with a part of a hall as a room, the largest first."""
    for widths in _INSETS:
        floor = _inset(part, task.plan.rooms[hall], widths * 2.0 * task.tail_pitch)
        parted = None if floor is None else _with_room(task, hall, floor)
        if parted is not None:
            yield parted


def _inset(part: Polygon, hall: Polygon, width: float) -> Polygon | None:
    """A part without a strip of so much width [m] along its border inside the hall."""
    if not width:
        return part
    border = difference(part.exterior, shapely.buffer(hall.boundary, _ON_WALL))
    strip = shapely.buffer(border, width, cap_style="square", join_style="mitre")
    left = parts_of(opened(minus(part, strip), width))
    return max(left, key=lambda one: float(one.area), default=None)


def _parts(
    task: StoreyTask, layout: StoreyLayout, without_loops: Sequence[StoreyCircuit], hall: int
) -> Iterator[Polygon]:
    """Floor for circuits of its own, the barest first, until little of the hall is bare."""
    bare = _bare(task, layout.circuits, hall)
    left = float(bare.area) - _MOST_BARE * float(task.plan.rooms[hall].area)
    reached = _reached(task, layout, hall)
    found = [
        (float(intersection(part, bare).area), part)
        for part in free_parts(task, without_loops, hall)
        if any(shapely.dwithin(part, one, _TOUCH) for one in reached)
    ]
    found.sort(key=lambda each: (-round(each[0], 4), each[1].bounds))
    for area, part in found[:_PARTS]:
        if area < _LEAST_BARE or left <= 0.0:
            return
        left -= area
        yield part


def _reached(task: StoreyTask, layout: StoreyLayout, hall: int) -> list[Polygon]:
    """Floor of a hall that its own pairs come to without crossing tails of other manifolds."""
    number = task.rooms[hall].manifold
    served = {one.id: task.rooms[one.room].manifold for one in layout.circuits}
    across = joined(
        lane.floor
        for lane in layout.tails.lanes
        if lane.room == hall and any(served.get(circuit, number) != number for circuit in lane.circuits)
    )
    own = [shapely.Point(place.pair.place) for place in layout.tails.places if place.room == hall]
    return [
        part
        for part in parts_of(minus(task.plan.rooms[hall], across))
        if any(shapely.dwithin(part, place, _TOUCH) for place in own)
    ]


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
    own = replace(asked, room=outlined(left))
    apart = replace(asked, id=_name(task, asked), room=outlined(part), count=None)
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


def _name(task: StoreyTask, hall: RoomTask) -> str:
    """One that no room has."""
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
    kept = shapely.get_parts(difference(line, shapely.buffer(part, clearance, join_style="mitre")))
    if not len(kept):
        return doorway
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
