"""Every metre of pipe of a storey: tails from the manifold, fields in what they leave of the rooms, joined."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import NamedTuple

import shapely

from ..errors import required
from ..plan.outlines.overlays import difference, union
from ..spreading import Spread, largest_first
from .circuit_numbers import CircuitNumbers, unrouted
from .division.fields import more_circuits
from .halls.bare_halls import FullerStorey, barest_hall, circuits_of_rooms, is_fuller
from .halls.bare_slots import with_asides
from .halls.cut_off_floor import with_side_loops
from .judging.storey_judge import crowding, fault_of, least_apart, off_floor
from .lanes.manifold_tails import all_tails
from .lanes.tail_routes import LaneMemory, TooMuchWorkError
from .lanes.walkways import storey_floor
from .model.layout_records import LaidRoom, RoomTask, StoreyCircuit, StoreyLayout, StoreyTask, Unplaced
from .model.tail_records import RoutedTails
from .narrow_places import numbers_with_a_way
from .rooms.room_circuits import FieldMemory, RoomJob, laid_room
from .wider_places import with_all_pairs

__all__ = ["StoreyMemory", "laid_storey", "rooms_without_way", "unfilled_storey"]


@dataclass
class StoreyMemory:
    """What was laid of a storey before: ``fields`` by index of the room, ``rooms`` by all that they depend on,
    ``lanes``, and whole ``layouts`` before any circuit is laid for bare floor of halls. With ``most_fields`` no round
    begins after so many, and none counts in which a room may have been left out for want of them."""

    fields: dict[int, FieldMemory] = field(default_factory=dict)
    rooms: dict[tuple[object, ...], LaidRoom] = field(default_factory=dict)
    lanes: LaneMemory = field(default_factory=LaneMemory)
    layouts: list[tuple[StoreyTask, _FirstLayout]] = field(default_factory=list)
    most_fields: float = math.inf

    def copied(self) -> StoreyMemory:
        """One that remembers the same, and from now on what is laid with it alone."""
        lanes = replace(self.lanes, laid={**self.lanes.laid}, found={**self.lanes.found})
        fields = {room: {**known} for room, known in self.fields.items()}
        return replace(self, fields=fields, rooms={**self.rooms}, lanes=lanes, layouts=[*self.layouts])

    @property
    def laid(self) -> int:
        """Fields that were laid, or refused."""
        return sum(map(len, self.fields.values()))


@dataclass(frozen=True)
class _FirstLayout:
    """A layout of a task and its circuits before loops were laid on floor that is cut off."""

    task: StoreyTask
    layout: StoreyLayout
    without_loops: list[StoreyCircuit]

    @cached_property
    def led(self) -> StoreyLayout:
        """The layout with pipe led aside."""
        return with_asides(self.task, self.layout)


_ROUNDS = 4
_ON_FLOOR = 2e-3
"""So far pipe may lie beside the floor by rounding, and by what doorways are off their walls [m]."""
_FULLER = 3
"""Circuits more that halls of a storey get for floor that stays bare."""


def laid_storey(
    task: StoreyTask, memory: StoreyMemory | None = None, *, spread: Spread = map
) -> StoreyLayout:
    """Lay all circuits of a storey.

    Numbers of circuits are raised where one comes out longer than permitted, and everything is laid anew, at
    most four times. Where tails have no way at the pitch that is asked for, those of the whole storey come closer, by
    as little as helps. Where fewer pairs of pipes have a way to a room than it is to have circuits, it gets as many as
    have one if their permitted length allows it, else these serve what they can of its floor. Up to three circuits more
    are laid where much floor of a hall stays bare. What cannot be placed is listed with its reason. A field whose floor
    and request are those of an earlier round is not laid again; pass one ``memory`` to several calls for the same
    storey. Rooms are laid independently of each other; ``spread`` may do so on several cores.
    """
    memory = StoreyMemory() if memory is None else memory
    first = _first_layout(task, memory, spread)
    layout, without_loops, led = first.layout, first.without_loops, first.led
    storey = FullerStorey(task, circuits_of_rooms(led))
    narrow = layout.narrow
    for _ in range(_FULLER):
        hall = barest_hall(task, led)
        if hall is None:
            break
        tried = storey.fuller(hall, led, without_loops, lambda one: _all_have_a_way(one, memory))
        laid = ((one, *_laid(one.task, memory, spread)) for one in tried)
        fuller = (
            (*one, with_asides(one[0].task, one[1]))
            for one in laid
            if one[0].has_ports(one[1]) and is_fuller(task, hall, one[1], layout)
        )
        better = next((one for one in fuller if is_fuller(task, hall, one[3], led)), None)
        if better is None:
            break
        storey, layout, without_loops, led = better
    return storey.as_asked(led, narrow)


def unfilled_storey(task: StoreyTask, memory: StoreyMemory, spread: Spread = map) -> StoreyLayout:
    """The layout of a storey but for what fills floor of halls: with all circuits that are placed in the end."""
    return _first_layout(task, memory, spread).layout


def _first_layout(task: StoreyTask, memory: StoreyMemory, spread: Spread) -> _FirstLayout:
    """Made once: how many circuits a manifold may have in all says nothing about it."""
    task = replace(task, most_circuits=math.inf)
    known = next((found for asked, found in memory.layouts if asked == task), None)
    if known is None:
        known = _FirstLayout(task, *_laid(task, memory, spread))
        memory.layouts.append((task, known))
    return known


def _laid(task: StoreyTask, memory: StoreyMemory, spread: Spread) -> tuple[StoreyLayout, list[StoreyCircuit]]:
    """The layout of rooms as they are given, and its circuits before loops were laid on floor that is cut off."""
    best, number = _best_round(task, memory, spread)
    numbers, by_manifold, rooms = best
    task = numbers.task
    tails = all_tails(with_all_pairs(numbers, by_manifold))
    drawn = sorted(
        (circuit for laid in rooms for circuit in laid.circuits),
        key=lambda one: (one.manifold, one.port),
    )
    sound, unplaced = _sound(task, drawn)
    circuits, loops = with_side_loops(task, sound, tails.lanes)
    tails = replace(tails, lanes=(*tails.lanes, *loops))
    room_of = numbers.rooms
    bare = {index: _bare(task, tails, index, rooms[index].circuits) for index in numbers.in_part}
    unplaced += [
        unrouted(tail, room_of[tail.circuit], bare.get(room_of[tail.circuit])) for tail in tails.unrouted
    ]
    unplaced += [one for laid in rooms for one in laid.unplaced]
    layout = StoreyLayout(
        tuple(circuits),
        tuple(unplaced),
        tails,
        task.tail_pitch,
        number,
        not best.due,
        numbers.with_fewer(),
        tuple(numbers.narrow.values()),
    )
    return layout, sound


def _best_round(task: StoreyTask, memory: StoreyMemory, spread: Spread) -> tuple[_Round, int]:
    """The numbers of circuits that leave the least to wish for, as laid, and how many rounds were tried."""
    numbers = CircuitNumbers.of(task, memory.lanes)
    best: _Round | None = None
    for number in range(1, _ROUNDS + 1):
        if memory.laid >= memory.most_fields:
            raise TooMuchWorkError
        numbers, by_manifold = numbers_with_a_way(numbers, last=number == _ROUNDS)
        rooms = _laid_rooms(numbers, by_manifold, memory, spread, last=number == _ROUNDS)
        tried = _Round(numbers, by_manifold, rooms)
        if best is None or tried.badness <= best.badness:
            best = tried
        numbers = numbers.at_pitch(numbers.task.tail_pitch)
        if number == _ROUNDS or not (numbers.restored(tried.refused) | numbers.raised(tried.due)):
            break
    return required(best, "a round of laying all rooms"), number


class _Round(NamedTuple):
    """All rooms as laid with some numbers of circuits."""

    numbers: CircuitNumbers
    by_manifold: tuple[RoutedTails, ...]
    rooms: list[LaidRoom]

    @property
    def due(self) -> dict[int, int]:
        """Circuits that are due in rooms with one that is too long."""
        due = {index: _due(self.numbers.task.rooms[index], laid) for index, laid in enumerate(self.rooms)}
        return {index: count for index, count in due.items() if count}

    @property
    def refused(self) -> list[int]:
        """Rooms of which nothing is laid, not because it would be too long."""
        return [
            index
            for index, laid in enumerate(self.rooms)
            if laid.unplaced and not laid.circuits and not laid.too_few
        ]

    @property
    def badness(self) -> tuple[float, int, float]:
        """Floor that its own circuits leave without pipe, rooms with circuits that are too long, and their length
        beyond what is permitted; the less the better."""
        bare, longer, beyond = 0.0, 0, 0.0
        for room, laid in zip(self.numbers.task.rooms, self.rooms, strict=True):
            count = len(laid.circuits) + len(laid.unplaced)
            bare += room.room.polygon.area * len(laid.unplaced) / max(1, count)
            excess = math.fsum(
                max(0.0, circuit.path.length - room.maximum_circuit_length) for circuit in laid.circuits
            )
            longer += excess > 1e-6
            beyond += excess
        return round(bare, 3), longer, round(beyond, 3)


def rooms_without_way(task: StoreyTask, memory: StoreyMemory) -> list[int]:
    """Rooms of the circuits whose tails find no way at the pitch that is asked for, one for each of them."""
    numbers = CircuitNumbers.of(task, memory.lanes)
    found = numbers.routed(last=False)
    return [numbers.rooms[tail.circuit] for tails in found for tail in tails.unrouted]


def _all_have_a_way(task: StoreyTask, memory: StoreyMemory) -> bool:
    """Whether the tails of all circuits do: told sooner than which do not."""
    found = CircuitNumbers.of(task, memory.lanes).routed(last=False, all_or_none=True)
    return not any(tails.unrouted for tails in found)


def _laid_rooms(
    numbers: CircuitNumbers,
    by_manifold: Sequence[RoutedTails],
    memory: StoreyMemory,
    spread: Spread,
    *,
    last: bool,
) -> list[LaidRoom]:
    """All rooms; ``last``: with the numbers of circuits that they keep."""
    task, in_part, fields = numbers.task, numbers.in_part, memory.fields
    left = memory.most_fields - memory.laid
    jobs = []
    for index, asked in enumerate(task.rooms):
        tails, known = by_manifold[asked.manifold], fields.get(index, {})
        jobs.append(RoomJob(task, tails, index, known, index in in_part, last, len(known) + left))
    keys = [job.key for job in jobs]
    due = [(job, key) for job, key in zip(jobs, keys, strict=True) if key not in memory.rooms]
    areas = [task.rooms[job.room].room.polygon.area for job, _ in due]
    found = largest_first(spread, laid_room, [job for job, _ in due], areas)
    made = {}
    for (job, key), (room, remembered) in zip(due, found, strict=True):
        made[key], fields[job.room] = room, remembered
    rooms = [made.get(key) or memory.rooms[key] for key in keys]
    # What could not be laid may be, or be given up sooner, when more is remembered.
    memory.rooms |= {key: room for key, room in made.items() if not room.unplaced}
    if memory.laid >= memory.most_fields and any(room.unplaced for room in rooms):
        raise TooMuchWorkError
    return rooms


def _bare(task: StoreyTask, tails: RoutedTails, index: int, circuits: Sequence[StoreyCircuit]) -> float:
    """Floor of a room in which neither its own circuits nor tails lie [m2]."""
    taken = [circuit.floor for circuit in circuits]
    taken += [lane.floor for lane in tails.lanes if lane.room == index]
    return float(difference(task.plan.rooms[index], union(taken)).area)


def _sound(task: StoreyTask, drawn: Sequence[StoreyCircuit]) -> tuple[list[StoreyCircuit], list[Unplaced]]:
    """The circuits that the judge passes, and the others with what it says."""
    bad: dict[int, Unplaced] = {}
    least = least_apart(min(room.pipe_spacing for room in task.rooms), task.tail_pitch)
    floor = shapely.buffer(storey_floor(task.plan), _ON_FLOOR, join_style="mitre")
    shapely.prepare(floor)
    for index, circuit in enumerate(drawn):
        fault = fault_of(circuit.path, task.bend_radius, least) or off_floor(circuit.path, floor)
        if fault is not None:
            bad[index] = Unplaced(
                circuit.id,
                circuit.room,
                fault[0],
                fault[1],
                "The pipe as drawn has a bend or a distance that cannot be laid.",
            )
    for near in crowding([circuit.path for circuit in drawn], least):
        if near.first not in bad and near.second not in bad:
            circuit, other = drawn[near.second], drawn[near.first]
            message = f"It comes within {near.distance * 1000.0:.0f} mm"
            bad[near.second] = Unplaced(circuit.id, circuit.room, "too_near", near.place, message, other.id)
    return [circuit for index, circuit in enumerate(drawn) if index not in bad], list(bad.values())


def _due(room: RoomTask, laid: LaidRoom) -> int:
    """Circuits that a room is to have, more than were laid, as many as their lengths call for; 0: none is too long."""
    longest = room.maximum_circuit_length
    lengths = [circuit.path.length for circuit in laid.circuits]
    if not any(length > longest + 1e-6 for length in lengths) and all(
        one.code != "circuit_too_long" for one in laid.unplaced
    ):
        return 0
    count = len(laid.circuits) + len(laid.unplaced)
    return more_circuits(count, max(laid.length, math.fsum(lengths) / count), longest)
