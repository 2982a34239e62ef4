"""Every metre of pipe of a storey: lanes from the manifolds to all rooms, and the blocks of floor between the lanes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import shapely
from shapely import LineString

from ..spreading import Spread
from .fields import circuits_of_fields, joint_fields
from .hall_lanes import heated_by_lanes
from .layout_records import FewerCircuits, RoomTask, StoreyCircuit, StoreyLayout, StoreyTask, Unplaced
from .put_in_loops import with_side_loops
from .refusals import unrouted
from .storey_circuits import circuits_of
from .storey_drawing import StoreyDrawing
from .storey_judge import crowding, fault_of, least_apart
from .tail_records import TailRules
from .walkways import Walkways

__all__ = ["laid_storey"]

_ROUNDS = 6
_FILL = 0.96
"""Share of the ideal length that a laid field comes to, to begin with."""
_OVER = 1e-6
_LITTLE = 0.3
"""Share of a room's floor that lanes along its edge are to leave to its own circuits."""
_BARE = 0.06
"""Share of a hall's floor that may stay without pipe."""
_SERVED = 0.75
"""Floor farther than this from any pipe is bare, in spacings of its room."""
_CHORD_ERROR = 1e-3


def laid_storey(task: StoreyTask, memory: object = None, *, spread: Spread = map) -> StoreyLayout:
    """Lay all circuits of a storey.

    Numbers of circuits are raised where one comes out longer than permitted, and everything is laid anew. Where fewer
    pairs of pipes have a way to a room than it is to have circuits, these serve its floor if their permitted length
    allows it, else what they can of it. What cannot be placed is listed with its reason. Blocks of floor are laid
    independently of each other; ``spread`` may do so on several cores.
    """
    numbers = _Numbers.of(task)
    numbers = _Numbers.of(task)
    best: _Laid | None = None
    for number in range(1, _ROUNDS + 1):
        laid = _laid(numbers.settled_drawing(), spread)
        if best is None or laid.badness <= best.badness:
            best = laid
        if number == _ROUNDS or not numbers.changed(laid):
            break
    assert best is not None
    return _answer(best, number)


@dataclass(frozen=True)
class _Laid:
    """A drawing with its circuits, their side loops put in."""

    drawing: StoreyDrawing
    circuits: tuple[StoreyCircuit, ...]
    unplaced: tuple[Unplaced, ...]

    @cached_property
    def longer(self) -> list[int]:
        """Rooms with a circuit that is longer than permitted."""
        rooms = self.drawing.task.rooms
        return sorted(
            {
                one.room
                for one in self.circuits
                if one.path.length > rooms[one.room].maximum_circuit_length + _OVER
            }
        )

    @property
    def badness(self) -> tuple[int, int]:
        return len(self.unplaced) + len(self.drawing.lanes.unrouted), len(self.longer)

    def fewer(self) -> tuple[FewerCircuits, ...]:
        """Rooms that are laid with fewer circuits than were asked for."""
        drawing, found = self.drawing, dict[int, FewerCircuits]()
        for tail in drawing.lanes.unrouted:
            index = drawing.room_of[tail.circuit]
            laid = len(drawing.own(index))
            if laid and index not in drawing.in_part:
                found[index] = FewerCircuits(index, drawing.counts[index], laid, tail.place, tail.reason)
        return tuple(found[index] for index in sorted(found))


def _laid(drawing: StoreyDrawing, spread: Spread) -> _Laid:
    circuits, unplaced = circuits_of(drawing, spread)
    return _Laid(drawing, tuple(with_side_loops(drawing, circuits)), tuple(unplaced))


def _answer(laid: _Laid, rounds: int) -> StoreyLayout:
    drawing = laid.drawing
    circuits, unsound = _sound(drawing.task, laid.circuits)
    fewer = laid.fewer()
    without = [
        unrouted(drawing, tail)
        for tail in drawing.lanes.unrouted
        if drawing.room_of[tail.circuit] not in {one.room for one in fewer}
    ]
    heated = tuple(
        index
        for index, (room, count) in enumerate(zip(drawing.task.rooms, drawing.counts, strict=True))
        if not count and room.count != 0
    )
    return StoreyLayout(
        tuple(circuits),
        (*unsound, *without, *laid.unplaced),
        drawing.routed_tails(),
        rounds,
        not laid.longer,
        fewer,
        heated,
    )


@dataclass
class _Numbers:
    """Circuits by room that are to be laid. Rooms heated ``by_lanes`` get none; through ``halls`` lanes lead straight;
    rooms ``in_part`` are cut for all of their circuits although not all have a way."""

    task: StoreyTask
    walkways: Walkways
    counts: list[int]
    by_lanes: set[int] = field(default_factory=set)
    halls: set[int] = field(default_factory=set)
    in_part: set[int] = field(default_factory=set)

    @classmethod
    def of(cls, task: StoreyTask) -> _Numbers:
        counts = [_count(task, room) if room.count is None else room.count for room in task.rooms]
        rules = TailRules(task.tail_pitch, task.wall_clearance, task.bend_radius)
        walkways = Walkways(task.plan, rules)
        return cls(task, walkways, counts, set(heated_by_lanes(task, walkways, counts)))

    def settled_drawing(self) -> StoreyDrawing:
        """With as many circuits as the floor asks for that lanes leave to each room."""
        for _ in range(_ROUNDS):
            drawing = self._drawing()
            if not self._adapted(drawing):
                break
        return drawing

    def _drawing(self) -> StoreyDrawing:
        counts = tuple(0 if index in self.by_lanes else count for index, count in enumerate(self.counts))
        return StoreyDrawing(self.task, self.walkways, counts, frozenset(self.in_part), frozenset(self.halls))

    def _adapted(self, drawing: StoreyDrawing) -> bool:
        """Whether there are rooms to be drawn otherwise: lanes leave their own circuits little floor, or none."""
        changed = False
        for index, over in drawing.lanes.lanes.items():
            if not drawing.own(index) or not over.lanes:
                continue
            field = drawing.fields.get(index)
            share = 0.0 if field is None else field.floor.area / self.task.plan.rooms[index].area
            if share < _LITTLE and index not in self.halls:
                self.halls.add(index)
            elif field is None:
                self.by_lanes.add(index)
            elif (needed := _needed(drawing, index)) < self.counts[index]:
                self.counts[index] = needed
            else:
                continue
            changed = True
        return changed

    def changed(self, laid: _Laid) -> bool:
        """One circuit more for rooms with one that is too long, or floor left out where no more have a way; whether there
        is anything to lay anew."""
        drawing = laid.drawing
        for index in laid.longer:
            if len(drawing.own(index)) < drawing.counts[index] and index not in self.in_part:
                self.in_part.add(index)
            else:
                self.counts[index] += 1
        bare = self._bare_halls(laid)
        self.by_lanes -= bare
        self.halls |= bare
        return bool(laid.longer) or bool(bare)

    def _bare_halls(self, laid: _Laid) -> set[int]:
        """Of the rooms that were to be heated by lanes, those too much of whose floor stays without pipe."""
        task, found = self.task, set[int]()
        for index in self.by_lanes - self.halls:
            spacing, floor = task.rooms[index].pipe_spacing, task.plan.rooms[index]
            lines = [LineString(circuit.path.polyline(_CHORD_ERROR)) for circuit in laid.circuits]
            near = [line for line in lines if shapely.dwithin(line, floor, spacing)]
            served = shapely.buffer(shapely.union_all(near), _SERVED * spacing)
            if shapely.difference(floor, served).area > _BARE * floor.area:
                found.add(index)
        return found


def _needed(drawing: StoreyDrawing, index: int) -> int:
    """Circuits for the floor that lanes leave of a room."""
    room, floor = drawing.task.rooms[index], drawing.fields[index].floor
    tail = max(drawing.tail_length(index, circuit) for circuit in drawing.own(index))
    longest = max(1.0, room.maximum_circuit_length - tail) / _FILL
    fields = joint_fields(floor, room.joints)
    counts = circuits_of_fields(fields, room.pipe_spacing, drawing.task.wall_clearance, longest, None)
    assert counts is not None
    return sum(counts)


def _count(task: StoreyTask, room: RoomTask) -> int:
    """So many that none is too long in any field between joints, as far as can be told before they are laid."""
    longest = room.maximum_circuit_length / _FILL
    fields = joint_fields(room.room.placed, room.joints)
    counts = circuits_of_fields(fields, room.pipe_spacing, task.wall_clearance, longest, None)
    assert counts is not None
    return sum(counts)


def _sound(task: StoreyTask, drawn: Sequence[StoreyCircuit]) -> tuple[list[StoreyCircuit], list[Unplaced]]:
    """The circuits that the judge passes, and the others with what it says."""
    bad: dict[int, Unplaced] = {}
    least = least_apart(min(room.pipe_spacing for room in task.rooms), task.tail_pitch)
    for index, circuit in enumerate(drawn):
        fault = fault_of(circuit.path, task.bend_radius, least)
        if fault is not None:
            bad[index] = Unplaced(
                circuit.id, circuit.room, fault[0], fault[1], "The drawn pipe is not sound."
            )
    for near in crowding([circuit.path for circuit in drawn], least):
        if near.first not in bad and near.second not in bad:
            circuit, other = drawn[near.second], drawn[near.first]
            message = f"It comes within {near.distance * 1000.0:.0f} mm of circuit {other.id}."
            bad[near.second] = Unplaced(circuit.id, circuit.room, "too_near", near.place, message)
    return [circuit for index, circuit in enumerate(drawn) if index not in bad], list(bad.values())
