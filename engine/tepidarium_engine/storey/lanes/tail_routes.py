"""Tails from a manifold to every room: pairs of pipes through rooms and doorways, side by side."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

import shapely
from shapely import LineString

from ...checking import Point
from ...plan.outlines.regions import common, dilated, joined, minus, opened, parts_of
from ..model.records import PairPlace, TailRoute
from ..model.tail_records import (
    CircuitPlace,
    Lane,
    ManifoldPlace,
    RoutedTails,
    StoreyPlan,
    TailDemand,
    TailRules,
    UnroutedTail,
)
from .relief import relieved
from .room_lanes import LaidLanes, lanes_in
from .tail_order import RoomOrder, aligned, manifold_middle, orders, row_of, slots
from .tail_pipes import pair_pipes
from .tail_refusals import admitted, no_bend, no_lane
from .walkways import Access, Walkways, access_to_rooms

__all__ = ["LaneMemory", "Manner", "TooMuchWorkError", "missing", "routed_tails"]


class TooMuchWorkError(RuntimeError):
    """A storey takes more ways of pairs, or more fields, than its memory allows."""


class Manner(NamedTuple):
    """Of laying the tails of several manifolds: at which end of each doorway that they share the first one passes, and
    in which ``order`` they follow each other."""

    at_start: dict[int, bool]
    order: tuple[int, ...]


@dataclass
class LaneMemory:
    """Lanes that were ``laid`` in a room, and tails ``found`` of all manifolds, by all that they depend on. So many
    ``ways`` were looked for; with ``most_ways`` no more are. Where no ``manner`` of laying the tails of several
    manifolds served all, the best one."""

    laid: dict[tuple[object, ...], LaidLanes] = field(default_factory=dict)
    found: dict[tuple[object, ...], tuple[RoutedTails, ...]] = field(default_factory=dict)
    ways: int = 0
    most_ways: float = math.inf
    manner: Manner | None = None

    @property
    def exhausted(self) -> bool:
        return self.ways >= self.most_ways


def routed_tails(
    plan: StoreyPlan,
    manifold: ManifoldPlace,
    demands: Sequence[TailDemand],
    *,
    tail_pitch: float,
    wall_clearance: float,
    bend_radius: float,
    memory: LaneMemory | None = None,
    all_or_none: bool = False,
    fewer_than: float = math.inf,
) -> RoutedTails:
    """Tails of all circuits that can be reached; of each other one the place where it finds no way.

    With ``all_or_none`` no tails are laid if a place is too narrow for one of them; the first of these are listed as
    unrouted. The same where not ``fewer_than`` so many have no way; those without room at the manifold do not count.

    Every circuit's name is its own. ``tail_pitch`` [m] is kept between all pipes, ``wall_clearance`` [m]
    between a pipe and walls and voids, and all bends have ``bend_radius`` [m]. One ``memory`` for several calls saves
    what they have in common.
    """
    rules = TailRules(tail_pitch, wall_clearance, bend_radius)
    walkways = Walkways(plan, rules)
    reached = relieved(walkways, manifold, access_to_rooms(walkways, manifold), demands)
    kept, unrouted = admitted(plan, manifold, reached, demands, rules)
    memory = LaneMemory() if memory is None else memory
    while not (missing(unrouted) >= fewer_than or (all_or_none and any(tail.is_narrow for tail in unrouted))):
        task = _Task(plan, manifold, reached, kept, rules)
        refused = task.lay(memory)
        if not refused:
            return task.result(unrouted)
        if not all_or_none or not any(tail.is_narrow for tail in refused):
            # With some of them gone there may be room for the others.
            refused = refused[: (len(refused) + 1) // 2]
        unrouted += refused
        gone = {tail.circuit for tail in refused}
        kept = [demand for demand in kept if demand.circuit not in gone]
    return RoutedTails((), (), (), (), tuple(unrouted))


def missing(unrouted: Iterable[UnroutedTail]) -> int:
    """Circuits without tails, but for those that have no room at their manifold: they have none in any manner."""
    return sum(tail.named != "manifold" for tail in unrouted)


@dataclass
class _Task:
    plan: StoreyPlan
    manifold: ManifoldPlace
    reached: Mapping[int, Access]
    demands: Sequence[TailDemand]
    rules: TailRules

    def __post_init__(self) -> None:
        found = orders(self.plan, self.manifold, self.reached, self.demands)
        self.orders = found
        if found:
            self.orders = aligned(found, self.entry(found[0]), self.rules)
        self.lanes: dict[int, LaidLanes] = {}
        self.pipes: dict[str, TailRoute] = {}

    def lay(self, memory: LaneMemory) -> list[UnroutedTail]:
        """Lay all tails; those for which there is no way in the first room or bend where that is so."""
        for order in self.orders:
            laid = self._laid(order, memory)
            self.lanes[order.room] = laid
            if laid.failed:
                return no_lane(self.plan, order, laid, self.entry(order), self.rules)
        places = self.places
        for demand in self.demands:
            if demand.room == self.manifold.room:
                continue
            rooms = self.rooms_to(demand.room)
            corners = [c for room in rooms[:-1] for c in self.lanes[room].corners[demand.circuit]]
            corners.append(places[demand.circuit].place)
            pipes = pair_pipes(corners, self.rules)
            if pipes is None:
                return [no_bend(demand, corners, self.rules)]
            self.pipes[demand.circuit] = TailRoute(demand.circuit, *pipes, rooms)
        return []

    def _laid(self, order: RoomOrder, memory: LaneMemory) -> LaidLanes:
        middle, ahead = self.entry(order)
        room = self.plan.rooms[order.room]
        key = (room.wkb, order, middle, ahead, self.rules)
        if key not in memory.laid:
            if memory.exhausted:
                raise TooMuchWorkError
            memory.laid[key] = lanes_in(room, order, middle, ahead, self.rules)
            memory.ways += memory.laid[key].ways
        return memory.laid[key]

    def entry(self, order: RoomOrder) -> tuple[Point, Point]:
        """Middle of the pairs on the outline where a room is entered, and their direction."""
        if order.entry is not None:
            return order.entry.far, order.entry.ahead
        return self._ports, self.manifold.ahead

    @cached_property
    def _ports(self) -> Point:
        """The middle of all ports."""
        count = len(self.orders[0].circuits)
        return manifold_middle(self.plan, self.manifold, count, self.rules)[0]

    def rooms_to(self, room: int) -> tuple[int, ...]:
        return (self.manifold.room, *(passage.enters for passage in row_of(self.reached, room)))

    @property
    def places(self) -> dict[str, PairPlace]:
        """Where circuits enter the rooms that they heat."""
        found = {}
        for order in self.orders:
            middle, ahead = self.entry(order)
            row = slots(middle, ahead, len(order.circuits), self.rules)
            for circuit, place in zip(order.circuits, row, strict=True):
                if circuit in order.own:
                    found[circuit] = PairPlace(place, ahead)
        return found

    def result(self, unrouted: Sequence[UnroutedTail]) -> RoutedTails:
        ports = self.orders[0].circuits if self.orders else ()
        rooms = {demand.circuit: demand.room for demand in self.demands}
        places = self.places
        return RoutedTails(
            ports,
            tuple(CircuitPlace(circuit, rooms[circuit], places[circuit]) for circuit in ports),
            tuple(self.pipes[circuit] for circuit in ports if circuit in self.pipes),
            tuple(lane for order in self.orders for lane in self._lanes(order)),
            tuple(unrouted),
        )

    def _lanes(self, order: RoomOrder) -> list[Lane]:
        """Floor within half a pitch of a room's tails, and what they leave at walls too narrow for pipe."""
        room, pitch = self.plan.rooms[order.room], self.rules.tail_pitch
        lines = {circuit: LineString(corners) for circuit, corners in self.lanes[order.room].corners.items()}
        strips = joined(
            shapely.buffer(line, pitch, cap_style="flat", join_style="mitre") for line in lines.values()
        )
        rest = minus(room, strips)
        usable = opened(rest, self.rules.wall_clearance)
        slivers = [
            sliver
            for sliver in parts_of(minus(rest, usable))
            if strips is not None and shapely.distance(sliver, strips) < 1e-6
        ]
        taken = common(joined((strips, *slivers)), room)
        # A hair's closing joins strips that only touch.
        closed = common(dilated(dilated(taken, 1e-5), -1e-5), room)
        found = []
        for part in parts_of(closed):
            inside = tuple(
                circuit for circuit in order.circuits if circuit in lines and part.intersects(lines[circuit])
            )
            if inside:
                found.append(Lane(order.room, inside, part))
        return found
