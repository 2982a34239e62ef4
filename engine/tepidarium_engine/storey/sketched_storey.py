"""The tails of a storey without the fields that they lead to: enough for the heat that they give on their way."""

from __future__ import annotations

from ..plan.pipes.pipe_path import Line, PipePath
from .circuit_numbers import CircuitNumbers, unrouted
from .lanes.manifold_tails import all_tails
from .model.layout_records import StoreyCircuit, StoreyLayout, StoreyTask, Unplaced
from .model.tail_records import CircuitPlace, RoutedTails
from .narrow_places import numbers_with_a_way
from .rooms.own_floor import no_floor, own_floors
from .storey_layout import StoreyMemory

__all__ = ["sketched_storey"]


def sketched_storey(task: StoreyTask, memory: StoreyMemory) -> StoreyLayout:
    """The layout of a storey with circuits that are tails only, turned where they come into their rooms; a room that
    tails of others cross has the floor that they leave of it. It takes a tenth of the time of a layout. ``memory`` is
    that of the storey's layouts."""
    numbers, by_manifold = numbers_with_a_way(CircuitNumbers.of(task, memory.lanes), last=False)
    tails = all_tails(by_manifold)
    rooms, circuits = numbers.rooms, list[StoreyCircuit]()
    unplaced = [unrouted(tail, rooms[tail.circuit], None) for tail in tails.unrouted]
    for index, room in enumerate(numbers.task.rooms):
        own = by_manifold[room.manifold]
        drawn, refused = _of_room(numbers.task, own, index)
        circuits += drawn
        unplaced += refused
    return StoreyLayout(tuple(circuits), tuple(unplaced), tails, numbers.task.tail_pitch, 0, True)


def _of_room(
    task: StoreyTask, tails: RoutedTails, index: int
) -> tuple[list[StoreyCircuit], tuple[Unplaced, ...]]:
    places = [place for place in tails.places if place.room == index]
    floor = task.plan.rooms[index]
    if places and any(lane.room == index for lane in tails.lanes):
        left = next(own_floors(task, tails, index, {}), None)
        if left is None:
            return [], no_floor(tails, index).unplaced
        floor = left.outline.placed
    ways = {route.circuit: route for route in tails.routes}
    circuits = []
    for place in places:
        route = ways.get(place.circuit)
        there, back = ((), ()) if route is None else (route.flow.pieces, route.back.pieces)
        path = PipePath((*there, _turn(place, task.tail_pitch), *back))
        port = tails.ports.index(place.circuit) + 1
        circuits.append(
            StoreyCircuit(place.circuit, index, task.rooms[index].manifold, port, path, 0.0, floor)
        )
    return circuits, ()


def _turn(place: CircuitPlace, pitch: float) -> Line:
    """From the flow to the return of a pair where it comes into its room."""
    (x, y), (dx, dy) = place.pair.place, place.pair.ahead
    half = pitch / 2.0
    return Line((x + half * dy, y - half * dx), (x - half * dy, y + half * dx))
