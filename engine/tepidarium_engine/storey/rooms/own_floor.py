"""A room's floor for its own circuits, what tails of others leave of it, and how its own tails come in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import islice
from typing import TypeAlias

import shapely

from ...errors import required
from ...plan.judging.route_faults import CLEARANCE_TOLERANCE, ENTRY_TOLERANCE
from ...plan.laying.laying import Laid, LayingTask
from ...plan.mapping.peripheral_mapping import CloserStrip
from ...plan.outlines.overlays import difference, union
from ...plan.outlines.polygons import RoomOutline
from ...plan.pipes.pipe_path import Line, PipePath
from ..lanes.inlets import Inlet, InletTask, inlets
from ..lanes.tail_pipes import has_length, pair_pipes
from ..lanes.tail_routes import LaneMemory
from ..lanes.walkways import walkable
from ..model.division_records import DividedRoom, DivisionRequest
from ..model.layout_records import LaidRoom, RoomTask, StoreyTask, Unplaced
from ..model.tail_records import CircuitPlace, RoutedTails, TailRules

__all__ = ["FieldMemory", "OwnFloor", "no_floor", "own_floors"]

_TRIED = 3
"""Ways into its field that a room is tried to be laid with."""
_CHORD_ERROR = 1e-3
_BIT = 0.002
"""Of straight pipe at a port, before the first bend may begin [m]."""


FieldMemory: TypeAlias = dict[
    tuple[object, ...], Laid | tuple[tuple[DivisionRequest, DividedRoom], ...] | DividedRoom
]
"""Fields laid in earlier rounds, by all that they depend on: what one room changes is laid anew, the rest is not."""


@dataclass(frozen=True)
class OwnFloor:
    """A room's floor for its own circuits, and where their pipes come in."""

    task: StoreyTask
    routed: RoutedTails
    index: int
    outline: RoomOutline
    places: tuple[CircuitPlace, ...]
    inlet: Inlet
    memory: FieldMemory
    lanes: LaneMemory = field(default_factory=LaneMemory)

    def remembered(self, request: LayingTask | DivisionRequest) -> tuple[object, ...]:
        """Floor and request; the task's own numbers stand in the request."""
        return (self.outline.polygon.wkb, self.outline.origin, request)

    @property
    def room(self) -> RoomTask:
        return self.task.rooms[self.index]

    @property
    def strip(self) -> CloserStrip | None:
        """What of the room's closer strip tails of others leave."""
        strip = self.room.strip
        return strip and strip.within(self.outline.placed)

    @cached_property
    def tails(self) -> list[tuple[PipePath, PipePath]]:
        """Flow and return from the manifold to the field, of each place."""
        return [self._tail(number) for number in range(len(self.places))]

    def _at_port(self, number: int) -> tuple[PipePath, PipePath]:
        """The first straight bit of a field that begins at the port, from which it goes on squarely."""
        (x, y), (dx, dy) = self.places[number].pair.place, self.places[number].pair.ahead
        right, left = (sign * self.task.tail_pitch / 2.0 for sign in (1.0, -1.0))
        first, last = (
            Line((x + side * dy, y - side * dx), (x + side * dy + _BIT * dx, y - side * dx + _BIT * dy))
            for side in (right, left)
        )
        return PipePath((first,)), PipePath((last,))

    def _tail(self, number: int) -> tuple[PipePath, PipePath]:
        circuit = self.places[number].circuit
        route = next((route for route in self.routed.routes if route.circuit == circuit), None)
        pipes = () if route is None else ((route.flow, route.back.reversed()),)
        # A field that begins where its pair comes into the room has no way there.
        if self.inlet.corners and has_length(self.inlet.corners[number]):
            rules = TailRules(self.task.tail_pitch, self.task.wall_clearance, self.task.bend_radius)
            inner = required(pair_pipes(self.inlet.corners[number], rules), "the pipes of an inlet")
            pipes = (*pipes, (inner[0], inner[1].reversed()))
        if not pipes:
            pipes = (self._at_port(number),)
        flow, back = (
            tuple(piece for pipe in side for piece in pipe.pieces) for side in zip(*pipes, strict=True)
        )
        return PipePath(flow), PipePath(back)

    def for_curves(self, circuit: str) -> shapely.Geometry:
        """Where pipe between a tail and the field may lie: off walls and jambs, off the tails of others."""
        task = self.task
        walls = task.wall_clearance - CLEARANCE_TOLERANCE
        free = shapely.buffer(walkable(task.plan, self.index), -walls, join_style="mitre")
        others = [
            shapely.LineString(pipe.polyline(_CHORD_ERROR))
            for route in self.routed.routes
            if route.circuit != circuit and self.index in route.rooms
            for pipe in (route.flow, route.back)
        ]
        beside = shapely.buffer(union(others), task.tail_pitch - ENTRY_TOLERANCE)
        found = difference(union([free, self._before_ports()]), beside)
        shapely.prepare(found)
        return found

    def _before_ports(self) -> shapely.Geometry:
        """Where pipes of the room begin at a wall."""
        reach = self.task.wall_clearance
        ways = [
            shapely.LineString([(x, y), (x + reach * dx, y + reach * dy)])
            for (x, y), (dx, dy) in ((place.pair.place, place.pair.ahead) for place in self.places)
        ]
        return shapely.buffer(union(ways), 2.0 * self.task.tail_pitch, cap_style="flat")

    def tail_length(self, number: int) -> float:
        """Of both pipes [m]."""
        flow, back = self.tails[number]
        return flow.length + back.length

    def port(self, number: int) -> int:
        """Number of the port of a place, from 1."""
        return self.routed.ports.index(self.places[number].circuit) + 1


def own_floors(task: StoreyTask, tails: RoutedTails, index: int, memory: FieldMemory) -> Iterator[OwnFloor]:
    """The floor of a room's own circuits by the best ways into it; none where there is none."""
    places = tuple(place for place in tails.places if place.room == index)
    if not places:
        return
    for inlet in islice(inlets(_inlet_task(task, tails, index, places)), _TRIED):
        yield OwnFloor(task, tails, index, RoomOutline.of(inlet.floor), places, inlet, memory)


def no_floor(tails: RoutedTails, index: int) -> LaidRoom:
    """What is reported of a room in whose floor, as the tails of others leave it, no pair of pipes finds a way."""
    places = [place for place in tails.places if place.room == index]
    reason = (
        "Tails to other rooms leave no floor that its own pipe can reach. Move the doorway or the manifold."
    )
    return LaidRoom(
        (), tuple(Unplaced(place.circuit, index, "no_floor", place.pair.place, reason) for place in places)
    )


def _inlet_task(
    task: StoreyTask, tails: RoutedTails, index: int, places: Sequence[CircuitPlace]
) -> InletTask:
    """The room with what tails of other rooms' circuits take of it."""
    lanes = [lane for lane in tails.lanes if lane.room == index]
    known = {route.circuit for route in tails.routes}
    # Of lanes from another manifold only the floor is told.
    foreign = [
        shapely.buffer(lane.floor, -task.tail_pitch / 2.0, join_style="mitre")
        for lane in lanes
        if not known.issuperset(lane.circuits)
    ]
    own = {place.circuit for place in places}
    pipes = [
        shapely.LineString(pipe.polyline(_CHORD_ERROR))
        for route in tails.routes
        if route.circuit not in own and index in route.rooms
        for pipe in (route.flow, route.back)
    ]
    return InletTask(
        task.plan.rooms[index],
        union([lane.floor for lane in lanes]) if lanes else None,
        union([*pipes, *foreign]),
        tuple(place.pair for place in places),
        task.rooms[index].pipe_spacing,
        TailRules(task.tail_pitch, task.wall_clearance, task.bend_radius),
    )
