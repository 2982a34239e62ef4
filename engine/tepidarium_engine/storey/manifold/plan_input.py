"""Rooms, doorways and places on walls as they are sent: checked together, and put into the plan of a storey."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon

from ...checking import Point
from ...errors import FaultList
from ...plan.outlines.intake import settled_rooms
from ...plan.outlines.loops import Loop, loop_of
from ...plan.outlines.overlays import intersection
from ...plan.outlines.settling import MOST_SETTLED
from ...results import Finding
from ..model.records import Doorway, Segment
from ..model.tail_records import StoreyPlan
from .manifold_sites import AllowedWall, wall_runs
from .position_records import PlanDoorway, WallAllowed

__all__ = [
    "THICKEST_WALL",
    "SentRoom",
    "allowed_walls",
    "check_doorways",
    "check_overlaps",
    "doorway_between",
    "narrow_doorways",
    "place_on_wall",
    "sent_rooms",
]

THICKEST_WALL = 0.6
"""From the middle of a doorway to the outlines of its rooms, and from a place on a wall to that wall [m]."""
_OVERLAP = 1e-3
"""Common floor of two rooms that is taken for rounding [m2]."""
_ON_WALL = 1e-3
_NARROWER = 0.05
"""That a doorway may be less wide than given before it is told [m]."""


@dataclass(frozen=True)
class SentRoom:
    """A room in the caller's frame [m]; ``pointer`` is where it stands in the request."""

    id: str
    pointer: str
    floor: Polygon
    loop: Loop


def sent_rooms(
    names: Sequence[str],
    pointers: Sequence[str],
    rings: Sequence[tuple[Sequence[Point], Sequence[Sequence[Point]]]],
) -> tuple[SentRoom, ...]:
    """The rooms of a storey, settled, from outlines and voids [m] that ``room_outline`` accepts."""
    floors = [outline.placed for outline in settled_rooms(rings)]
    return tuple(map(SentRoom, names, pointers, floors, map(loop_of, floors)))


def check_overlaps(rooms: Sequence[SentRoom], faults: FaultList) -> None:
    """No two rooms may share floor, but for what settling the rooms makes of a wall without thickness."""
    floors = np.array([room.floor for room in rooms], dtype=object)
    first, second = shapely.STRtree(floors).query(floors, predicate="intersects")
    for one, other in sorted(zip(first.tolist(), second.tolist(), strict=True)):
        shared = _OVERLAP + MOST_SETTLED * min(floors[one].length, floors[other].length) / 2.0
        if one < other and intersection(floors[one], floors[other]).area > shared:
            faults.add(
                f"{rooms[other].pointer}/outline",
                "rooms_overlap",
                f"overlaps the room {rooms[one].id!r}",
            )


def doorway_between(
    doorway: PlanDoorway, pointer: str, rooms: Sequence[SentRoom], faults: FaultList
) -> Doorway | None:
    """The doorway on the walls of both its rooms; None when a fault was noted."""
    place, width = doorway.place, doorway.width
    numbers = {room.id: number for number, room in enumerate(rooms)}
    found: list[tuple[int, Segment]] = []
    for count, name in enumerate(doorway.rooms):
        if not faults.require(
            name in numbers,
            f"{pointer}/rooms/{count}",
            "unknown_room",
            f"names no room with an outline: there is no {name!r}",
        ):
            continue
        stretch = _stretch(rooms[numbers[name]].loop, place, width)
        if stretch is None:
            faults.add(
                f"{pointer}/place",
                "not_on_wall",
                f"no wall of the room {name!r} within {THICKEST_WALL:g} m has space for a doorway {width:g} m wide "
                "there",
                THICKEST_WALL,
            )
            continue
        found.append((numbers[name], stretch))
    if len(found) != 2:
        return None
    (one, stretch), (other, opposite) = found
    if not faults.require(
        one != other, f"{pointer}/rooms/1", "same_room", "a doorway joins two different rooms"
    ):
        return None
    doorway_found = Doorway((one, other), (stretch, opposite))
    if not faults.require(
        facing_width(doorway_found) > 0.0,
        f"{pointer}/place",
        "not_facing",
        "the walls of its two rooms do not face each other there",
    ):
        return None
    return doorway_found


def facing_width(doorway: Doorway) -> float:
    """Width [m] over which the two stretches of a doorway face each other across the wall; negative: they do not."""
    (ax, ay), (bx, by) = doorway.stretches[0]
    length = math.dist((ax, ay), (bx, by))
    ux, uy = (bx - ax) / length, (by - ay) / length
    ends = sorted((x - ax) * ux + (y - ay) * uy for x, y in doorway.stretches[1])
    return min(length, ends[1]) - max(0.0, ends[0])


def check_doorways(doorways: Sequence[Doorway], pointers: Sequence[str], faults: FaultList) -> None:
    """No two doorways may share a stretch of a wall."""
    lines = [
        {room: shapely.LineString(stretch) for room, stretch in zip(each.rooms, each.stretches, strict=True)}
        for each in doorways
    ]
    by_room: dict[int, list[int]] = {}
    for number, each in enumerate(doorways):
        for room in each.rooms:
            before = [
                other
                for other in by_room.get(room, [])
                if intersection(lines[other][room], lines[number][room]).length > _ON_WALL
            ]
            if before:
                faults.add(
                    f"{pointers[number]}/place",
                    "doorways_overlap",
                    f"lies over {pointers[before[0]]}: give each opening once",
                )
                break
            by_room.setdefault(room, []).append(number)


def narrow_doorways(
    doorways: Sequence[Doorway], widths: Sequence[float], pointers: Sequence[str]
) -> Iterator[Finding]:
    """Doorways that are less wide than given where they were found: of their rooms' walls less face each other."""
    for doorway, width, pointer in zip(doorways, widths, pointers, strict=True):
        free = facing_width(doorway)
        if free < width - _NARROWER:
            (ax, ay), (bx, by) = doorway.stretches[0]
            yield Finding.at(
                "doorway_narrower",
                f"{pointer}/place",
                value=free,
                limit=width,
                source="Geometry",
                point=((ax + bx) / 2.0, (ay + by) / 2.0),
                quantity="doorway_width",
            )


def place_on_wall(
    place: Point, pointer: str, rooms: Sequence[SentRoom], faults: FaultList
) -> tuple[int, Point, Point] | None:
    """The room, the place on its outline and the direction into the room that a place stands for; None when it
    lies in no room and at no wall of one."""
    point = shapely.Point(place)
    away = [round(float(shapely.distance(room.floor, point)), 6) for room in rooms]
    index = away.index(min(away))
    loop = rooms[index].loop
    at = loop.project(place)
    on_wall = loop.at(at)
    inside = bool(shapely.contains(rooms[index].floor, point))
    if not faults.require(
        inside or math.dist(on_wall, place) <= THICKEST_WALL,
        pointer,
        "outside",
        f"lies {math.dist(on_wall, place):.2f} m from the nearest outer wall of a room; a manifold stands at one",
        THICKEST_WALL,
    ):
        return None
    at = _off_corner(loop, at)
    ux, uy = loop.heading_at(at)
    return index, loop.at(at), (-uy, ux)


def _off_corner(loop: Loop, at: float) -> float:
    """A place in a corner stands at the longer of its walls."""
    away = (loop.bends - at + loop.length / 2.0) % loop.length - loop.length / 2.0
    if not len(away) or abs(away).min() > _ON_WALL:
        return at
    corner = loop.bends[abs(away).argmin()]
    back, forward = (float(loop.straight_run(np.array([corner]), side)[0]) for side in (-1, 1))
    return float(corner + math.copysign(2.0 * _ON_WALL, round(forward - back, 6) or 1.0))


def allowed_walls(
    places: Sequence[WallAllowed], pointer: str, rooms: Sequence[SentRoom], faults: FaultList
) -> tuple[AllowedWall, ...]:
    """The walls at which a manifold may stand; all walls of all rooms without ``places``."""
    if not places:
        return tuple(AllowedWall(index) for index in range(len(rooms)))
    numbers = {room.id: number for number, room in enumerate(rooms)}
    plan = StoreyPlan(tuple(room.floor for room in rooms), ())
    found = []
    for count, wall in enumerate(places):
        here = f"{pointer}/{count}"
        if not faults.require(
            wall.room in numbers,
            f"{here}/room",
            "unknown_room",
            f"names no room with an outline: there is no {wall.room!r}",
        ):
            continue
        each = AllowedWall(
            numbers[wall.room], None if wall.stretch is None else (wall.stretch[0], wall.stretch[1])
        )
        found.append(each)
        faults.require(
            each.stretch is None or (math.dist(*each.stretch) > _ON_WALL and bool(wall_runs(plan, [each]))),
            f"{here}/stretch",
            "not_on_wall",
            f"lies on no wall of the room {wall.room!r}",
        )
    return tuple(found)


def _stretch(outline: Loop, place: Point, width: float) -> Segment | None:
    """The stretch of straight wall nearest to the place on which the doorway fits; None: there is none."""
    lengths = np.diff(outline.positions)
    best: tuple[float, int, Segment] | None = None
    for edge in np.flatnonzero(lengths >= width - 1e-6).tolist():
        start = outline.points[edge]
        ux, uy = outline.units[edge].tolist()
        along = (place[0] - start[0]) * ux + (place[1] - start[1]) * uy
        middle = float(min(max(along, width / 2.0), lengths[edge] - width / 2.0))
        x, y = float(start[0]) + middle * ux, float(start[1]) + middle * uy
        away, half = math.dist((x, y), place), width / 2.0
        if away <= THICKEST_WALL and (best is None or (round(away, 6), edge) < best[:2]):
            stretch = ((x - half * ux, y - half * uy), (x + half * ux, y + half * uy))
            best = (round(away, 6), edge, stretch)
    return None if best is None else best[2]
