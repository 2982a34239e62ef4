"""Every metre of pipe of a storey: tails from the manifold, fields in what they leave of the rooms, joined."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from typing import TypeAlias

from ..plan.outlines.polygons import served_area
from ..spreading import Spread, largest_first
from .layout_records import LaidRoom, RoomTask, StoreyCircuit, StoreyLayout, StoreyTask, Unplaced
from .manifold_tails import all_tails, tails_of_manifolds
from .room_circuits import FieldMemory, RoomJob, laid_room
from .storey_judge import crowding, fault_of, least_apart
from .tail_records import RoutedTails, TailDemand, UnroutedTail

__all__ = ["StoreyMemory", "circuit_ids", "laid_storey"]

StoreyMemory: TypeAlias = dict[int, FieldMemory]
"""By index of the room."""

_FILL = 0.96
"""Share of the ideal length that a laid field comes to, to begin with."""
_ROUNDS = 4


def laid_storey(
    task: StoreyTask, memory: StoreyMemory | None = None, *, spread: Spread = map
) -> StoreyLayout:
    """Lay all circuits of a storey.

    Numbers of circuits are raised where one comes out longer than permitted, and everything is laid anew, at
    most four times. What cannot be placed is listed with its reason. A field whose floor and request are those
    of an earlier round is not laid again; pass one ``memory`` to several calls for the same storey. Rooms are laid
    independently of each other; ``spread`` may do so on several cores.
    """
    memory = {} if memory is None else memory
    counts = [_count(room, task) for room in task.rooms]
    for number in range(1, _ROUNDS + 1):
        demands = _demands(task, counts)
        room_of = {demand.circuit: demand.room for own in demands for demand in own}
        by_manifold = tails_of_manifolds(task, demands)
        tails = all_tails(by_manifold)
        without = {room_of[tail.circuit] for tail in tails.unrouted}
        rooms = _laid_rooms(task, by_manifold, without, memory, spread)
        longer = [_is_too_long(task.rooms[index], laid) for index, laid in enumerate(rooms)]
        if number == _ROUNDS or not any(longer):
            break
        counts = [count + more for count, more in zip(counts, longer, strict=True)]
    drawn = sorted(
        (circuit for laid in rooms for circuit in laid.circuits),
        key=lambda one: (task.rooms[one.room].manifold, one.port),
    )
    circuits, bad = _sound(task, drawn)
    unplaced = bad + [_unrouted(tail, room_of[tail.circuit]) for tail in tails.unrouted]
    unplaced += [one for laid in rooms for one in laid.unplaced]
    return StoreyLayout(tuple(circuits), tuple(unplaced), tails, number, not any(longer))


def _laid_rooms(
    task: StoreyTask,
    by_manifold: Sequence[RoutedTails],
    without: Collection[int],
    memory: StoreyMemory,
    spread: Spread,
) -> list[LaidRoom]:
    """All rooms but those ``without`` tails for all of their circuits."""
    jobs = [
        RoomJob(task, by_manifold[room.manifold], index, memory.get(index, {}))
        for index, room in enumerate(task.rooms)
        if index not in without
    ]
    areas = [task.rooms[job.room].room.polygon.area for job in jobs]
    rooms = {index: _waiting(all_tails(by_manifold), index) for index in without}
    for job, (room, remembered) in zip(jobs, largest_first(spread, laid_room, jobs, areas), strict=True):
        rooms[job.room], memory[job.room] = room, remembered
    return [rooms[index] for index in range(len(task.rooms))]


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


def _count(room: RoomTask, task: StoreyTask) -> int:
    if room.count is not None:
        return room.count
    length = (
        _FILL * served_area(room.room.polygon, room.pipe_spacing, task.wall_clearance) / room.pipe_spacing
    )
    return max(1, math.ceil(length / room.maximum_circuit_length))


def _is_too_long(room: RoomTask, laid: LaidRoom) -> bool:
    """Whether one circuit more is due."""
    refused = any(one.code == "circuit_too_long" for one in laid.unplaced)
    return refused or any(
        circuit.path.length > room.maximum_circuit_length + 1e-6 for circuit in laid.circuits
    )


def circuit_ids(room: RoomTask, count: int) -> tuple[str, ...]:
    """Names of a room's circuits: the room's own, with a number where there are several."""
    return (room.id,) if count == 1 else tuple(f"{room.id}-{number}" for number in range(1, count + 1))


def _demands(task: StoreyTask, counts: Sequence[int]) -> list[list[TailDemand]]:
    """By manifold."""
    demands: list[list[TailDemand]] = [[] for _ in task.manifolds]
    for index, (room, count) in enumerate(zip(task.rooms, counts, strict=True)):
        if count:
            demands[room.manifold] += [TailDemand(circuit, index) for circuit in circuit_ids(room, count)]
    return demands


def _unrouted(tail: UnroutedTail, room: int) -> Unplaced:
    message = (
        f"{tail.pairs} pairs of pipes need {tail.width_needed:.2f} m at the {tail.named}; there are "
        f"{tail.width_there:.2f} m. {tail.remedy}"
    )
    return Unplaced(tail.circuit, room, f"tails_{tail.named}", tail.place, message)


def _waiting(tails: RoutedTails, index: int) -> LaidRoom:
    """A room of whose circuits some have no tails: none of them can be laid until all have."""
    message = "Another circuit of the room has no way for its tails."
    places = [place for place in tails.places if place.room == index]
    return LaidRoom(
        (), tuple(Unplaced(place.circuit, index, "incomplete", place.pair.place, message) for place in places)
    )
