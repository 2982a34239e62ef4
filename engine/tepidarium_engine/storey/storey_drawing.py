"""A storey with given numbers of circuits: the lanes of all of them, and the blocks of floor that they lay."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import shapely
from shapely import LineString, Polygon

from ..checking import Point
from ..plan.outlines.regions import parts_of
from .cells.block_records import BlockTask
from .circuit_numbers import circuit_ids
from .lanes.cell_lanes import CellLanes
from .lanes.free_floor import FieldFloor
from .lanes.own_floors import OwnFloors, own_floors
from .lanes.plan_lanes import LaneTask, PlanLanes
from .layout_records import RoomTask, StoreyTask
from .records import PairPlace
from .tail_records import CircuitPlace, Lane, RoutedTails, TailDemand
from .walkways import Walkways

__all__ = ["StoreyDrawing"]

_LEAST_LANE = 1e-6
"""Smaller pieces of floor beside lanes are none [m2]."""


@dataclass(frozen=True)
class StoreyDrawing:
    """``counts``: circuits by room; rooms ``in_part`` are cut for all of them although not all have a way; through
    ``halls`` lanes to other rooms lead straight, elsewhere they keep to the edge of rooms with circuits."""

    task: StoreyTask
    walkways: Walkways
    counts: tuple[int, ...]
    in_part: frozenset[int] = frozenset()
    halls: frozenset[int] = frozenset()

    @cached_property
    def names(self) -> tuple[tuple[str, ...], ...]:
        """Of the circuits, by room."""
        return tuple(
            circuit_ids(room, count) if count else ()
            for room, count in zip(self.task.rooms, self.counts, strict=True)
        )

    @cached_property
    def room_of(self) -> dict[str, int]:
        return {name: index for index, names in enumerate(self.names) for name in names}

    @cached_property
    def floors(self) -> OwnFloors:
        task = self.task
        demands: list[list[TailDemand]] = [[] for _ in task.manifolds]
        for index, names in enumerate(self.names):
            demands[task.rooms[index].manifold] += [TailDemand(name, index) for name in names]
        return own_floors(
            LaneTask(
                self.walkways,
                task.manifolds,
                demands,
                [room.pipe_spacing for room in task.rooms],
                frozenset(index for index, count in enumerate(self.counts) if count) - self.halls,
                {},
            )
        )

    @property
    def lanes(self) -> PlanLanes:
        return self.floors.lanes

    def own(self, index: int) -> tuple[str, ...]:
        """Circuits of a room that have a way to it, from the right as they come in."""
        return self.lanes.own(index)

    @property
    def fields(self) -> Mapping[int, FieldFloor]:
        """By room whose circuits have floor."""
        return self.floors.fields

    def corners(self, index: int, circuit: str) -> tuple[list[Point], list[Point]]:
        """Of the right and the left pipe of a circuit, from its port to its room's field."""
        right, left = self.lanes.corners(index, circuit)
        field = self.fields[index]
        return [*right, *field.onward(right[-1])], [*left, *field.onward(left[-1])]

    def tail_length(self, index: int, circuit: str) -> float:
        """There and back [m]."""
        return sum(math.dist(*leg) for pipe in self.corners(index, circuit) for leg in pairwise(pipe))

    def block(self, index: int) -> BlockTask:
        """What a room's circuits are to lay."""
        task, room, field = self.task, self.task.rooms[index], self.fields[index]
        stubs = self.lanes.stubs(index)
        own = self.own(index)
        return BlockTask(
            floor=field.floor,
            entry=field.entry,
            ahead=field.ahead,
            pitch=math.dist(stubs[own[0]].right, stubs[own[0]].left),
            outside=tuple(self.tail_length(index, circuit) for circuit in own),
            longest=room.maximum_circuit_length,
            spacing=room.pipe_spacing,
            clearance=task.wall_clearance,
            bend_radius=task.bend_radius,
            least=task.tail_pitch,
            pattern=room.pattern,
            quick=task.quick,
            joints=room.joints,
            missing=self.counts[index] - len(own) if index in self.in_part else 0,
        )

    @cached_property
    def ports(self) -> dict[str, int]:
        """Of all circuits that have a way, on their manifolds."""
        return {
            circuit: port
            for tree in self.lanes.routing.trees
            for port, circuit in enumerate(tree.ports.circuits, start=1)
        }

    def routed_tails(self) -> RoutedTails:
        """Where pairs come into their rooms, and the floor that they take of others."""
        places = []
        for circuit in self.ports:
            index = self.room_of[circuit]
            stub = self.lanes.stubs(index)[circuit]
            middle = ((stub.right[0] + stub.left[0]) / 2.0, (stub.right[1] + stub.left[1]) / 2.0)
            places.append(CircuitPlace(circuit, index, PairPlace(middle, stub.ahead)))
        taken = [
            lane
            for index, over in sorted(self.lanes.lanes.items())
            for lane in _floors(index, self.task.rooms[index], over, self.walkways.plan.rooms[index])
        ]
        return RoutedTails(tuple(self.ports), tuple(places), (), tuple(taken), self.lanes.unrouted)


def _floors(index: int, room: RoomTask, over: CellLanes, floor: Polygon) -> Iterable[Lane]:
    """All within half a spacing of the pipes of lanes, in pieces."""
    region = over.floor(room.pipe_spacing / 2.0)
    for part in parts_of(region):
        for piece in shapely.get_parts(shapely.intersection(part, floor)):
            if isinstance(piece, Polygon) and piece.area > _LEAST_LANE:
                yield Lane(index, _inside(over, piece), piece)


def _inside(over: CellLanes, floor: Polygon) -> tuple[str, ...]:
    return tuple(
        lane.circuit
        for lane in over.lanes
        if any(LineString(pipe).distance(floor) < _LEAST_LANE for pipe in (lane.right, lane.left))
    )
