"""A storey with what is asked of its pipes, from rooms and doorways on paper."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
from shapely import LineString, Polygon
from tepidarium_engine.checking import Point
from tepidarium_engine.plan.outlines.polygons import room_outline
from tepidarium_engine.storey.model.layout_records import RoomTask, StoreyTask
from tepidarium_engine.storey.model.records import Doorway, Segment
from tepidarium_engine.storey.model.tail_records import ManifoldPlace, StoreyPlan

__all__ = ["Door", "Room", "StoreyCase", "rect"]

Ring = tuple[Point, ...]


def rect(x0: float, y0: float, x1: float, y1: float) -> Ring:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


@dataclass(frozen=True)
class Room:
    """``spacing`` [m]; ``count`` of circuits, None: as many as the length asks for; number of its ``manifold``."""

    outline: Ring
    spacing: float = 0.15
    voids: tuple[Ring, ...] = ()
    joints: tuple[Segment, ...] = ()
    pattern: str = "counterflow"
    count: int | None = None
    manifold: int = 0


@dataclass(frozen=True)
class Door:
    """Between two rooms about a place in their wall [m]."""

    one: str
    other: str
    place: Point
    width: float = 0.8


@dataclass(frozen=True)
class StoreyCase:
    """A storey whose manifold stands on the wall of ``hub`` nearest to ``manifold``; ``further`` ones likewise."""

    name: str
    rooms: dict[str, Room]
    doors: tuple[Door, ...]
    hub: str
    manifold: Point
    bend_radius: float = 0.08
    tail_pitch: float = 0.06
    least_tail_pitch: float = 0.04
    wall_clearance: float = 0.075
    maximum_circuit_length: float = 100.0
    further: tuple[tuple[str, Point], ...] = ()

    def task(self) -> StoreyTask:
        names = list(self.rooms)
        return StoreyTask(
            plan=StoreyPlan(
                tuple(Polygon(room.outline, room.voids) for room in self.rooms.values()),
                tuple(
                    Doorway((names.index(door.one), names.index(door.other)), self._stretches(door))
                    for door in self.doors
                ),
            ),
            rooms=tuple(self._room_task(name, room) for name, room in self.rooms.items()),
            manifold=self._manifold(self.hub, self.manifold),
            further_manifolds=tuple(self._manifold(*one) for one in self.further),
            tail_pitch=self.tail_pitch,
            wall_clearance=self.wall_clearance,
            bend_radius=self.bend_radius,
            quick=True,
            least_tail_pitch=self.least_tail_pitch,
        )

    def _room_task(self, name: str, room: Room) -> RoomTask:
        return RoomTask(
            id=name,
            room=room_outline(room.outline, room.voids),
            pipe_spacing=room.spacing,
            maximum_circuit_length=self.maximum_circuit_length,
            pattern="serpentine" if room.pattern == "serpentine" else "counterflow",
            count=room.count,
            joints=room.joints,
            manifold=room.manifold,
        )

    def _stretches(self, door: Door) -> tuple[Segment, Segment]:
        one, other = (self._stretch(name, door) for name in (door.one, door.other))
        return one, other

    def _stretch(self, name: str, door: Door) -> Segment:
        (ax, ay), (bx, by) = _nearest_edge(self.rooms[name].outline, door.place)
        length = math.dist((ax, ay), (bx, by))
        ux, uy = (bx - ax) / length, (by - ay) / length
        along = (door.place[0] - ax) * ux + (door.place[1] - ay) * uy
        low, high = along - door.width / 2.0, along + door.width / 2.0
        assert low >= -1e-9 and high <= length + 1e-9, f"{self.name}: {door} does not fit {name}"
        return ((ax + low * ux, ay + low * uy), (ax + high * ux, ay + high * uy))

    def _manifold(self, hub: str, place: Point) -> ManifoldPlace:
        outline = shapely.orient_polygons(Polygon(self.rooms[hub].outline))
        corners = shapely.get_coordinates(outline.exterior).tolist()[:-1]
        (ax, ay), (bx, by) = _nearest_edge(tuple((x, y) for x, y in corners), place)
        length = math.dist((ax, ay), (bx, by))
        ux, uy = (bx - ax) / length, (by - ay) / length
        at = LineString([(ax, ay), (bx, by)]).interpolate(
            LineString([(ax, ay), (bx, by)]).project(shapely.Point(place))
        )
        return ManifoldPlace((at.x, at.y), (-uy, ux), list(self.rooms).index(hub))


def _nearest_edge(outline: Ring, place: Point) -> Segment:
    edges = list(zip(outline, (*outline[1:], outline[0]), strict=True))
    at = shapely.Point(place)
    return min(edges, key=lambda edge: round(LineString(edge).distance(at), 9))
