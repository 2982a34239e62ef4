"""From the rooms of a design to a storey that can be drawn: rooms, doorways and manifold, checked together."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely import Polygon

from ..checking import Point
from ..errors import FaultList
from ..plan.outlines.loops import Loop, loop_of
from ..storey.records import Doorway, Segment
from ..storey.tail_records import ManifoldPlace, StoreyPlan
from .floors import RoomToHeat
from .records import DesignDoorway, DesignsInputs

__all__ = ["Storey", "storey_of"]

_THICKEST_WALL = 0.6
"""From the middle of a doorway to the outlines of its rooms, and from the manifold to its wall [m]."""
_OVERLAP = 1e-3
"""Common floor of two rooms that is taken for rounding [m2]."""


class Storey:
    """``rooms`` are those with an outline, in the order of ``plan``; places in the caller's frame [m]."""

    def __init__(self, rooms: tuple[RoomToHeat, ...], plan: StoreyPlan, manifold: ManifoldPlace) -> None:
        self.rooms, self.plan, self.manifold = rooms, plan, manifold


def storey_of(inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...]) -> Storey | None:
    """The storey of a request with doorways; ``None`` for one that asks for no drawing.

    Raises ``InputError`` for rooms that overlap, a doorway on no wall or between unknown rooms, a manifold
    without a position or in no room.
    """
    if not inputs.doorways:
        return None
    drawn = tuple(room for room in rooms if room.outline is not None)
    floors = tuple(_floor(room) for room in drawn)
    faults = FaultList()
    _check_overlaps(drawn, floors, faults)
    loops = [loop_of(floor) for floor in floors]
    doorways = [
        _doorway(doorway, f"/doorways/{number}", drawn, loops, faults)
        for number, doorway in enumerate(inputs.doorways)
    ]
    manifold = _manifold(inputs, floors, loops, faults)
    faults.raise_if_any()
    assert manifold is not None
    return Storey(drawn, StoreyPlan(floors, tuple(door for door in doorways if door is not None)), manifold)


def _floor(room: RoomToHeat) -> Polygon:
    outline = room.outline
    assert outline is not None
    return shapely.transform(outline.polygon, lambda points: points + outline.origin)


def _check_overlaps(rooms: tuple[RoomToHeat, ...], floors: tuple[Polygon, ...], faults: FaultList) -> None:
    first, second = shapely.STRtree(floors).query(floors, predicate="intersects")
    for one, other in sorted(zip(first.tolist(), second.tolist(), strict=True)):
        if one < other and shapely.intersection(floors[one], floors[other]).area > _OVERLAP:
            faults.add(
                f"{rooms[other].pointer}/outline", "rooms_overlap", f"covers floor of {rooms[one].label}, too"
            )


def _doorway(
    doorway: DesignDoorway, pointer: str, rooms: tuple[RoomToHeat, ...], loops: list[Loop], faults: FaultList
) -> Doorway | None:
    ids = [room.room.id for room in rooms]
    found: list[tuple[int, Segment]] = []
    for number, name in enumerate(doorway.rooms):
        if name not in ids:
            faults.add(f"{pointer}/rooms/{number}", "unknown_room", "names no room with an outline")
            continue
        index = ids.index(name)
        stretch = _stretch(loops[index], doorway.place, doorway.width)
        if stretch is None:
            faults.add(
                f"{pointer}/place",
                "not_on_wall",
                f"no wall of {rooms[index].label} within {_THICKEST_WALL:g} m takes a doorway "
                f"{doorway.width:g} m wide there",
                _THICKEST_WALL,
            )
            continue
        found.append((index, stretch))
    if len(found) != 2:
        return None
    (one, stretch), (other, opposite) = found
    if one == other:
        faults.add(f"{pointer}/rooms/1", "same_room", "a doorway joins two different rooms")
        return None
    return Doorway((one, other), (stretch, opposite))


def _stretch(outline: Loop, place: Point, width: float) -> Segment | None:
    """The stretch of straight wall nearest to the place on which the doorway fits; None: there is none."""
    lengths = np.diff(outline.positions)
    best: tuple[float, float, Segment] | None = None
    for edge in np.flatnonzero(lengths >= width - 1e-6).tolist():
        start = outline.points[edge]
        ux, uy = outline.units[edge].tolist()
        along = (place[0] - start[0]) * ux + (place[1] - start[1]) * uy
        middle = float(min(max(along, width / 2.0), lengths[edge] - width / 2.0))
        x, y = float(start[0]) + middle * ux, float(start[1]) + middle * uy
        away, half = math.dist((x, y), place), width / 2.0
        if away <= _THICKEST_WALL and (best is None or (round(away, 6), edge) < best[:2]):
            stretch = ((x - half * ux, y - half * uy), (x + half * ux, y + half * uy))
            best = (round(away, 6), edge, stretch)
    return None if best is None else best[2]


def _manifold(
    inputs: DesignsInputs, floors: tuple[Polygon, ...], loops: list[Loop], faults: FaultList
) -> ManifoldPlace | None:
    position = inputs.manifold.position
    if position is None:
        faults.add(
            "/manifold/position", "missing", "a floor with doorways is drawn: say where the manifold stands"
        )
        return None
    point = shapely.Point(position)
    room = min(
        range(len(floors)), key=lambda index: (round(float(shapely.distance(floors[index], point)), 6), index)
    )
    at = loops[room].project(position)
    place = loops[room].at(at)
    inside = shapely.contains(floors[room], point)
    if not inside and math.dist(place, position) > _THICKEST_WALL:
        faults.add(
            "/manifold/position",
            "outside",
            f"lies {math.dist(place, position):.2f} m from the nearest room; a manifold stands at a wall of one",
            _THICKEST_WALL,
        )
        return None
    ux, uy = loops[room].heading_at(at)
    return ManifoldPlace(place, (-uy, ux), room)
