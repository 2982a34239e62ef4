"""Lanes of all pairs that cross one room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...errors import required
from ...plan.outlines.loops import Loop, loop_of
from ...plan.outlines.overlays import intersection, placed
from ...plan.outlines.regions import Region, dilated, eroded, joined, minus
from ...plan.outlines.room_frame import room_frame
from ..model.tail_records import TailRules
from .cut_off import cut_off_area
from .free_space import Crossing, beside, beside_voids, between, floor_for, lies_right
from .lane_way import Pose, Side, WayCosts, lane_way
from .tail_order import RoomOrder, slots

__all__ = ["LaidLanes", "lanes_in"]

_OFF_WALL = 1.3
"""What a metre off the walls counts where no field is cut by it."""
_THROUGH_FIELD = 4.0
"""What it counts where it cuts through the room's own field."""
_AROUND_FIELD = 15.0
"""What it counts where pairs would otherwise cut off floor of the room."""
_LEAST_CUT = 0.4
"""Floor for which another way round is looked for [m2]."""
_PER_METRE = 0.15
"""Floor [m2] that a pair may take a metre more of way for: a band of two pipes."""
_SQUARELY = 50.0
"""What a metre on the slant counts more where pairs go square to the walls: slanting ones leave each other less than
their width when they come out of a doorway side by side."""
_TOUCH = 1e-4
"""So far a way may lie in another lane by rounding [m]."""


@dataclass(frozen=True)
class LaidLanes:
    """Corners [m] of the middle of each pair by circuit, and circuits for which there was no way; so many ``ways`` were
    looked for."""

    corners: dict[str, tuple[Point, ...]]
    failed: tuple[str, ...]
    ways: int = 0


@dataclass(frozen=True)
class _Room:
    """The room turned so that its walls run along the axes, the pairs that cross it, from the right, and its own."""

    polygon: Polygon
    floor: Region
    outline: Loop
    circuits: tuple[str, ...]
    poses: tuple[tuple[Pose, Pose], ...]
    crossings: tuple[Crossing, ...]
    right: int
    heated: bool
    own: tuple[Pose, ...]
    floors: dict[tuple[int, tuple[int, ...]], Region] = field(default_factory=dict)

    def floor_beside(self, index: int, pending: Sequence[int], rules: TailRules) -> Region:
        """Floor for a pair less the width that the pending ones need: the same whatever ways cost."""
        key = index, tuple(pending)
        if key not in self.floors:
            self.floors[key] = floor_for(
                self.floor, self.outline, index, self.crossings, pending=pending, rules=rules
            )
        return self.floors[key]

    @property
    def voids(self) -> tuple[Polygon, ...]:
        return tuple(Polygon(ring) for ring in self.polygon.interiors)


def lanes_in(room: Polygon, order: RoomOrder, middle: Point, ahead: Point, rules: TailRules) -> LaidLanes:
    """Lanes of the pairs that enter a room side by side round ``middle`` and leave it by other doorways."""
    axis = room_frame(room).axis
    turned = _turned_room(room, order, middle, ahead, rules=rules, axis=axis)
    best = _best(turned, _THROUGH_FIELD if turned.heated else _OFF_WALL, rules)
    ways = best.ways
    if turned.heated and not best.failed and (cut := _cut_off(turned, best, rules)) > _LEAST_CUT:
        around = _best(turned, _AROUND_FIELD, rules)
        ways += around.ways
        if not around.failed and _cut_off(turned, around, rules) + _detour(around) < cut + _detour(best):
            best = around
    return LaidLanes(
        {
            circuit: tuple(_turned(corner, (axis[0], -axis[1])) for corner in corners)
            for circuit, corners in best.corners.items()
        },
        best.failed,
        ways,
    )


def _best(turned: _Room, off_wall: float, rules: TailRules) -> LaidLanes:
    """Lanes of all pairs, or of as many as one of the ways to lay them finds: of 2155 rooms of random storeys that
    are hard 1951 the first, 16 the second, 3 the third and 185 none of them."""
    best, ways = None, len(turned.poses) if turned.voids else 0
    voids = _void_sides(turned, rules) if turned.voids else ()
    inwards, *otherwise = _sequences(len(turned.circuits), turned.right)
    plain, squarely = WayCosts(off_wall), WayCosts(off_wall, _SQUARELY)
    for sequence, costs in ((inwards, plain), (inwards, squarely), *((other, plain) for other in otherwise)):
        most = len(turned.circuits) if best is None else len(best.failed) - 1
        found = _laid(turned, sequence, costs, voids=voids, rules=rules, most_failed=most)
        ways += len(sequence)
        if len(found.failed) <= most:
            best = found
        if best is not None and not best.failed:
            break
    return replace(required(best, "lanes laid in some manner"), ways=ways)


def _cut_off(turned: _Room, laid: LaidLanes, rules: TailRules) -> float:
    return cut_off_area(turned.polygon, laid.corners.values(), turned.own, rules) if laid.corners else 0.0


def _detour(laid: LaidLanes) -> float:
    """What the length of lanes is worth in floor [m2]."""
    ways: float = sum(LineString(corners).length for corners in laid.corners.values())
    return _PER_METRE * ways


def _turned_room(
    room: Polygon, order: RoomOrder, middle: Point, ahead: Point, *, rules: TailRules, axis: Point
) -> _Room:
    c, s = axis
    matrix = np.array([[c, -s], [s, c]])
    local = placed(room, lambda points: points @ matrix)
    outline = loop_of(local)
    entered = dict(zip(order.circuits, slots(middle, ahead, len(order.circuits), rules), strict=True))
    heading = _turned(ahead, axis)
    left_by = {
        circuit: Pose(_turned(place, axis), _turned((-passage.ahead[0], -passage.ahead[1]), axis))
        for passage, circuits in order.exits
        for circuit, place in zip(
            circuits, slots(passage.near, passage.ahead, len(circuits), rules), strict=True
        )
    }
    circuits = tuple(circuit for circuit in order.circuits if circuit in left_by)
    poses = tuple((Pose(_turned(entered[circuit], axis), heading), left_by[circuit]) for circuit in circuits)
    crossings = tuple(
        Crossing(outline.project(start.place), outline.project(end.place)) for start, end in poses
    )
    own = tuple(Pose(_turned(entered[circuit], axis), heading) for circuit in order.own)
    reach = rules.first_lane + rules.pair_radius
    floor = minus(
        eroded(local, rules.pair_clearance),
        joined(_before(pose, reach, rules) for pose in own),
    )
    return _Room(
        local,
        floor,
        outline,
        circuits,
        poses,
        crossings,
        order.right,
        order.heated,
        own,
    )


def _before(pose: Pose, reach: float, rules: TailRules) -> Region:
    """Floor before a place on the outline that its pair needs to leave the wall squarely."""
    (x, y), (u, v) = pose
    return beside([(x, y), (x + reach * u, y + reach * v)], rules)


def _sequences(count: int, right: int) -> list[list[int]]:
    """Orders in which to lay pairs, each beside the one before: from both sides inwards, one side first or the
    other."""
    rightmost, leftmost = list(range(right)), list(range(count - 1, right - 1, -1))
    return [[*rightmost, *leftmost], *([[*leftmost, *rightmost]] if rightmost and leftmost else [])]


def _void_sides(room: _Room, rules: TailRules) -> tuple[tuple[Polygon, int], ...]:
    """With each void the number of pairs that pass on its right: as the ways of most pairs, each laid alone, would
    have it; they keep to the walls where they cross a field, else they are the shortest ones."""
    costs = WayCosts(_THROUGH_FIELD if room.heated else 1.0)
    alone = [
        lane_way(room.floor, room.polygon, *poses, side=_side(room, index), rules=rules, costs=costs)
        for index, poses in enumerate(room.poses)
    ]
    found = []
    for void in room.voids:
        left = [
            way is not None and lies_right(void, way, room.outline, crossing)
            for way, crossing in zip(alone, room.crossings, strict=True)
        ]
        wrong = [sum(left[:count]) + left[count:].count(False) for count in range(len(left) + 1)]
        found.append((void, wrong.index(min(wrong))))
    return tuple(found)


def _side(room: _Room, index: int) -> Side:
    """The walls that a pair keeps to."""
    return "any" if not room.heated else "right" if index < room.right else "left"


def _laid(
    room: _Room,
    sequence: Sequence[int],
    costs: WayCosts,
    *,
    voids: Sequence[tuple[Polygon, int]],
    rules: TailRules,
    most_failed: int,
) -> LaidLanes:
    """Lanes laid one after the other, until more than ``most_failed`` have no way."""
    corners: dict[str, tuple[Point, ...]] = {}
    failed = []
    laid: dict[int, list[Point]] = {}
    bands: dict[int, Region] = {}
    for step, index in enumerate(sequence):
        pending = sequence[step + 1 :]
        floor = room.floor_beside(index, pending, rules)
        passed = beside_voids(voids, room.outline, index, room.crossings[index], pending=pending, rules=rules)
        pairs = {other: between(index, other, pending) for other in laid}
        taken = [beside(laid[one], rules, count) if count else bands[one] for one, count in pairs.items()]
        way = lane_way(
            minus(floor, joined((*taken, passed))),
            room.polygon,
            *room.poses[index],
            side=_side(room, index),
            rules=rules,
            costs=costs,
        )
        if way is None or _meets(way, [*bands.values()]):
            failed.append(room.circuits[index])
            if len(failed) > most_failed:
                break
        else:
            corners[room.circuits[index]] = tuple(way)
            laid[index], bands[index] = way, beside(way, rules)
    return LaidLanes(corners, tuple(failed))


def _meets(way: Sequence[Point], taken: Sequence[Region]) -> bool:
    """Whether a way runs through floor that is taken: the stubs at its ends are not part of the free floor."""
    line = LineString(way)
    if not shapely.intersects(line, taken).any():
        return False
    crossed = dilated(joined(taken), -_TOUCH)
    return crossed is not None and intersection(line, crossed).length > _TOUCH


def _turned(place: Point, axis: Point) -> Point:
    """Turned back by the angle whose cosine and sine ``axis`` holds."""
    (x, y), (c, s) = place, axis
    return (c * x + s * y, c * y - s * x)
