"""How many circuits each room of a storey gets: by their permitted length, and as many as have a way."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from ..errors import required
from ..plan.outlines.polygons import served_area
from ..plan.outlines.regions import joined, minus, opened, parts_of
from .division.fields import circuits_of_fields, joint_fields
from .lanes.manifold_tails import tails_of_manifolds
from .lanes.tail_routes import LaneMemory
from .model.circuit_names import circuit_name
from .model.layout_records import FewerCircuits, RoomTask, StoreyTask, Unplaced
from .model.tail_records import RoutedTails, TailDemand, UnroutedTail

__all__ = ["CircuitNumbers", "circuit_ids", "unrouted"]

_FILL = 0.96
"""Share of the ideal length that a laid field comes to, to begin with."""
_LEAST_LEFT = 0.25
"""Of a permitted length, that tails leave: with longer ones the number of circuits says nothing."""
_DETOURS = 1.15
"""Length of a tail beside others over the shortest way (common practice, no source)."""


def circuit_ids(room: RoomTask, count: int) -> tuple[str, ...]:
    """Names of a room's circuits: the room's own, with a number where there are several."""
    return tuple(circuit_name(room.id, room.prefix, number, count) for number in range(1, count + 1))


@dataclass
class CircuitNumbers:
    """Numbers of circuits by room: the ``counts`` to be laid, what was ``asked`` before a room had to do with
    ``fewer`` because some had no way, and the rooms that can only be served ``in_part``. ``whole``: by
    room that tails of others cross, its number before it was given only those that the floor beside these asks for.
    ``narrow``: places that would not have let all tails pass at the pitch of tails that was asked for. ``too_few``: by
    room a number of circuits that were too long when laid."""

    task: StoreyTask
    counts: list[int]
    lanes: LaneMemory
    asked: dict[int, int] = field(default_factory=dict)
    fewer: dict[int, FewerCircuits] = field(default_factory=dict)
    in_part: set[int] = field(default_factory=set)
    whole: dict[int, int] = field(default_factory=dict)
    narrow: dict[tuple[str, int], UnroutedTail] = field(default_factory=dict)
    too_few: dict[int, int] = field(default_factory=dict)

    @classmethod
    def of(cls, task: StoreyTask, lanes: LaneMemory | None = None) -> CircuitNumbers:
        counts = [_count(task, room) if room.count is None else room.count for room in task.rooms]
        return cls(task, counts, LaneMemory() if lanes is None else lanes)

    @property
    def rooms(self) -> dict[str, int]:
        """By name of circuit."""
        return {
            circuit: index
            for index, (room, count) in enumerate(zip(self.task.rooms, self.counts, strict=True))
            for circuit in (circuit_ids(room, count) if count else ())
        }

    def at_pitch(self, tail_pitch: float) -> CircuitNumbers:
        """The same with tails at another pitch [m]."""
        return CircuitNumbers(
            replace(self.task, tail_pitch=tail_pitch),
            [*self.counts],
            self.lanes,
            {**self.asked},
            {**self.fewer},
            {*self.in_part},
            {**self.whole},
            {**self.narrow},
            {**self.too_few},
        )

    def routed(self, last: bool, *, all_or_none: bool = False) -> tuple[RoutedTails, ...]:
        """Tails by manifold. Rooms to which only some of their pairs have a way get so many circuits where these may
        be long enough to serve the floor, unless that was tried or this is the ``last`` time; else they are served
        in part. With ``all_or_none`` none may be laid where a room lacks a way that cannot do with fewer."""
        while True:
            found = tails_of_manifolds(self.task, self._demands(), self.lanes, all_or_none=all_or_none)
            narrow = {
                self.rooms[tail.circuit] for tails in found for tail in tails.unrouted if tail.is_narrow
            }
            if all_or_none and narrow:
                if not any(self._may_do_with_fewer(index, last) for index in narrow):
                    return found
                all_or_none = False
                continue
            if self._lowered(found):
                continue
            short = self._short(found)
            able = {} if last else {index: tail for index, tail in short.items() if self._does(index, found)}
            if not able:
                self.in_part = set(short)
                there = self._with_a_way(found)
                self.fewer = {index: one for index, one in self.fewer.items() if there[index] == one.laid}
                return found
            for index, tail in able.items():
                count = self._with_a_way(found)[index]
                self.asked.setdefault(index, self.counts[index])
                message = unrouted(tail, index, None).message
                self.fewer[index] = FewerCircuits(index, self.asked[index], count, tail.place, message)
                self.counts[index] = count

    def raised(self, due: Mapping[int, int]) -> bool:
        """The numbers of circuits that are due in rooms with one that is too long; whether there is anything to lay
        anew. A room that had to do with fewer is served in part instead."""
        changed = False
        for index in due.keys() - self.in_part:
            changed = True
            self.too_few[index] = max(self.counts[index], self.too_few.get(index, 0))
            if index in self.fewer:
                del self.fewer[index]
                self.counts[index] = self.asked[index]
            else:
                self.counts[index] = max(self.counts[index], due[index])
        return changed

    def restored(self, refused: Sequence[int]) -> bool:
        """The whole number of circuits where fewer were refused; whether there is anything to lay anew."""
        lowered = [index for index in refused if self.counts[index] < self.whole.get(index, 0)]
        for index in lowered:
            self.counts[index] = self.whole[index]
        return bool(lowered)

    def once_reached(self, index: int, way: float) -> int:
        """Circuits that a room asks for when its tails take a ``way`` of so much [m] there and as much back."""
        room = self.task.rooms[index]
        left = room.maximum_circuit_length - 2.0 * _DETOURS * way
        if left < _LEAST_LEFT * room.maximum_circuit_length:
            return self.counts[index]
        return max(self.counts[index], _count(self.task, replace(room, maximum_circuit_length=left)))

    def with_fewer(self) -> tuple[FewerCircuits, ...]:
        """Rooms that were laid with fewer circuits than were asked for, in order."""
        return tuple(self.fewer[index] for index in sorted(self.fewer))

    def _lowered(self, found: Sequence[RoutedTails]) -> bool:
        """Fewer circuits for rooms of whose floor the tails of others leave little, once for each; whether there are
        any."""
        changed = False
        for index in sorted({lane.room for lane in found[0].lanes} - self.whole.keys()):
            room, places = self.task.rooms[index], self._with_a_way(found)
            if self.counts[index] < 2 or room.joints or not places[index]:
                continue
            self.whole[index] = self.counts[index]
            needed = max(self._needed(index, found), self.task.rooms[index].least)
            if needed < self.counts[index]:
                self.counts[index] = needed
                changed = True
        return changed

    def _needed(self, index: int, found: Sequence[RoutedTails]) -> int:
        """Circuits for the largest part of the floor that the tails of others leave of a room."""
        room, clearance = self.task.rooms[index], self.task.wall_clearance
        taken = joined(lane.floor for lane in found[0].lanes if lane.room == index)
        left = parts_of(opened(minus(self.task.plan.rooms[index], taken), clearance))
        served = max((served_area(part, room.pipe_spacing, clearance) for part in left), default=0.0)
        longest = room.maximum_circuit_length - self._on_the_way(index, found)
        return max(1, math.ceil(_FILL * served / room.pipe_spacing / max(1.0, longest)))

    def _on_the_way(self, index: int, found: Sequence[RoutedTails]) -> float:
        """Longest tails of a room, both ways [m]."""
        own = {place.circuit for tails in found for place in tails.places if place.room == index}
        routes = (route for tails in found for route in tails.routes if route.circuit in own)
        return max((route.flow.length + route.back.length for route in routes), default=0.0)

    def _demands(self) -> list[list[TailDemand]]:
        """By manifold."""
        demands: list[list[TailDemand]] = [[] for _ in self.task.manifolds]
        for circuit, index in self.rooms.items():
            demands[self.task.rooms[index].manifold].append(TailDemand(circuit, index))
        return demands

    def _with_a_way(self, found: Sequence[RoutedTails]) -> Counter[int]:
        """Pairs of pipes that come to each room."""
        return Counter(place.room for tails in found for place in tails.places)

    def _short(self, found: Sequence[RoutedTails]) -> dict[int, UnroutedTail]:
        """Rooms to which some of their pairs have a way, but not all: the first that has none."""
        rooms, there = self.rooms, self._with_a_way(found)
        missing = {
            rooms[tail.circuit]: tail for tails in reversed(found) for tail in reversed(tails.unrouted)
        }
        return {index: tail for index, tail in sorted(missing.items()) if there[index]}

    def _may_do_with_fewer(self, index: int, last: bool) -> bool:
        """Whether one circuit less might serve a room's floor if its tails had no length."""
        room, count = self.task.rooms[index], self.counts[index] - 1
        tried = last or (index in self.asked and index not in self.fewer)
        return (
            count > self.too_few.get(index, 0)
            and not tried
            and _pipe(self.task, room) <= count * room.maximum_circuit_length
        )

    def _does(self, index: int, found: Sequence[RoutedTails]) -> bool:
        """Whether the pairs that have a way may serve a room's floor, as far as can be told before it is laid."""
        if index in self.asked and index not in self.fewer:
            return False
        room, tails = self.task.rooms[index], found[self.task.rooms[index].manifold]
        own = {place.circuit for place in tails.places if place.room == index}
        if len(own) <= self.too_few.get(index, 0):
            return False
        on_the_way = sum(
            route.flow.length + route.back.length for route in tails.routes if route.circuit in own
        )
        return _pipe(self.task, room) + on_the_way <= len(own) * room.maximum_circuit_length


def _pipe(task: StoreyTask, room: RoomTask) -> float:
    """In a room's field, about [m]."""
    served = served_area(room.room.polygon, room.pipe_spacing, task.wall_clearance)
    return _FILL * served / room.pipe_spacing


def _count(task: StoreyTask, room: RoomTask) -> int:
    """So many that none is too long in any field between joints, as far as can be told before they are laid."""
    longest = room.maximum_circuit_length / _FILL
    counts = circuits_of_fields(
        joint_fields(room.room.placed, room.joints), room.pipe_spacing, task.wall_clearance, longest, None
    )
    return sum(required(counts, "circuits for the fields between joints"))


def unrouted(tail: UnroutedTail, room: int, bare: float | None) -> Unplaced:
    """The report on a circuit without a way for its tails; ``bare``: floor of its room that stays without pipe [m2],
    where others serve the rest."""
    message = tail.reason
    if bare is not None:
        message += f" About {bare:.1f} m2 of the room's floor stay without pipe until then."
    return Unplaced(tail.circuit, room, f"tails_{tail.named}", tail.place, message)
