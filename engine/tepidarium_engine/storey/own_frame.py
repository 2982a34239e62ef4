"""A part of a storey in a frame of its own, with names that keep the order of its rooms and nothing else of theirs.

Parts that are equal, wherever they lie and whatever their rooms are called, so give the same task and are laid once.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeVar

import numpy as np
import shapely

from ..checking import Point
from ..elementwise import Array
from ..own_place import moved_text
from ..plan.outlines.polygons import RoomOutline
from .model.layout_records import FewerCircuits, RoomTask, StoreyCircuit, StoreyTask, Unplaced
from .model.records import Doorway, Segment
from .model.tail_records import ManifoldPlace, StoreyPlan, UnroutedTail

__all__ = ["OwnFrame", "own_frame"]

_Geometry = TypeVar("_Geometry", bound=shapely.Geometry)

_PER_METRE = 1e9
"""Steps to which coordinates are rounded that were moved [1/m]: what adding has blurred of them is gone."""
_PARTS, _ROOMS = 64, 512
"""Of which it is remembered how they are moved, from round to round."""


@dataclass(frozen=True)
class OwnFrame:
    """``task`` is that of the part, (0, 0) of its frame lies at ``origin`` [m] of the storey's; ``names`` of its rooms
    on the storey, each with what the numbers of its circuits are put after, in the order of their names."""

    task: StoreyTask
    origin: Point
    names: tuple[tuple[str, str], ...]

    def name(self, circuit: str) -> str:
        """What a circuit of the part is called on the storey."""
        room, _, number = circuit.partition("-")
        name, prefix = self.names[int(room)]
        return prefix + number if number else name

    def place(self, place: Point) -> Point:
        """A place of the part on the storey [m]."""
        return place[0] + self.origin[0], place[1] + self.origin[1]

    def own_place(self, place: Point) -> Point:
        """A place of the storey in the part [m]."""
        return place if self.origin == (0.0, 0.0) else _Moved(self.origin).place(place)

    def circuit(self, circuit: StoreyCircuit) -> StoreyCircuit:
        name = self.name(circuit.id)
        if self.origin == (0.0, 0.0):
            return replace(circuit, id=name)
        return replace(
            circuit,
            id=name,
            path=circuit.path.moved(self.origin),
            floor=shapely.transform(circuit.floor, lambda points: points + self.origin),
            crossings=tuple(replace(one, place=self.place(one.place)) for one in circuit.crossings),
        )

    def unplaced(self, one: Unplaced) -> Unplaced:
        return replace(
            one,
            id=self.name(one.id),
            place=one.place and self.place(one.place),
            message=moved_text(one.message, self.origin),
            beside=one.beside and self.name(one.beside),
        )

    def fewer(self, one: FewerCircuits) -> FewerCircuits:
        return replace(one, place=self.place(one.place), message=moved_text(one.message, self.origin))

    def unrouted(self, one: UnroutedTail) -> UnroutedTail:
        remedy = moved_text(one.remedy, self.origin)
        return replace(one, circuit=self.name(one.circuit), place=self.place(one.place), remedy=remedy)


def own_frame(task: StoreyTask, *, as_it_lies: bool) -> OwnFrame:
    """The frame of a part that is asked for in that of its storey; ``as_it_lies``: it is the same."""
    order = sorted(range(len(task.rooms)), key=lambda index: task.rooms[index].id)
    ranks = {index: rank for rank, index in enumerate(order)}
    rooms = tuple(
        replace(room, id=f"{ranks[index]:05d}", numbered=None) for index, room in enumerate(task.rooms)
    )
    names = tuple((room.id, room.prefix) for room in (task.rooms[index] for index in order))
    named = replace(task, rooms=rooms)
    if as_it_lies:
        return OwnFrame(named, (0.0, 0.0), names)
    boxes = [room.bounds for room in task.plan.rooms]
    moved = _Moved(_Moved((0.0, 0.0)).place((min(box[0] for box in boxes), min(box[1] for box in boxes))))
    return OwnFrame(moved.task(named), moved.origin, names)


@dataclass(frozen=True)
class _Moved:
    """What lies on a storey as it is in a frame with its ``origin`` [m] there."""

    origin: Point

    def task(self, task: StoreyTask) -> StoreyTask:
        return replace(
            task,
            plan=_plan(self, task.plan),
            rooms=tuple(map(self._room, task.rooms)),
            manifold=self._manifold(task.manifold),
            further_manifolds=tuple(map(self._manifold, task.further_manifolds)),
        )

    def _room(self, room: RoomTask) -> RoomTask:
        strip = room.strip
        if strip is not None:
            walls = tuple(map(self.geometry, strip.walls))
            strip = replace(strip, walls=walls, area=self.geometry(strip.area))
        joints = tuple(map(self.segment, room.joints))
        return replace(room, room=_outline(self, room.room), joints=joints, strip=strip)

    def _manifold(self, manifold: ManifoldPlace) -> ManifoldPlace:
        return replace(manifold, place=self.place(manifold.place))

    def segment(self, segment: Segment) -> Segment:
        return self.place(segment[0]), self.place(segment[1])

    def place(self, place: Point) -> Point:
        x, y = self.origin
        return (
            round((place[0] - x) * _PER_METRE) / _PER_METRE + 0.0,
            round((place[1] - y) * _PER_METRE) / _PER_METRE + 0.0,
        )

    def geometry(self, geometry: _Geometry) -> _Geometry:
        moved: _Geometry = shapely.transform(geometry, self._points)
        return moved

    def _points(self, points: Array) -> Array:
        found: Array = np.rint((points - self.origin) * _PER_METRE) / _PER_METRE + 0.0
        return found


@lru_cache(maxsize=_PARTS)
def _plan(moved: _Moved, plan: StoreyPlan) -> StoreyPlan:
    doorways = (
        Doorway(doorway.rooms, (moved.segment(doorway.stretches[0]), moved.segment(doorway.stretches[1])))
        for doorway in plan.doorways
    )
    return StoreyPlan(tuple(map(moved.geometry, plan.rooms)), tuple(doorways))


@lru_cache(maxsize=_ROOMS)
def _outline(moved: _Moved, outline: RoomOutline) -> RoomOutline:
    return RoomOutline.of(moved.geometry(outline.placed))
