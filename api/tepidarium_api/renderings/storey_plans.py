"""What of a design is drawn on each storey."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tepidarium_engine.designs import (
    DesignJoint,
    DesignLayout,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    DrawnCircuit,
    DrawnDoorway,
    DrawnManifold,
    DrawnSleeve,
    UnplacedCircuit,
    label_places,
)
from tepidarium_engine.errors import Fault, InputError

from .marks import printable
from .sheet import Point

__all__ = ["StoreyPlan", "circuit_labels", "drawn_layout", "manifold_numbers", "room_title", "storey_plans"]


@dataclass(frozen=True)
class StoreyPlan:
    """A storey as drawn. ``rooms`` come with their numbers in the request, by which ``areas`` [m2] and ``label_places``
    [m] are found; ``labels`` of all circuits and ``cores`` [m] along their drawn pipe by id. ``room`` is the one that
    is drawn alone."""

    title: str
    rooms: tuple[tuple[int, DesignRoom], ...]
    areas: tuple[float, ...]
    label_places: tuple[Point | None, ...]
    circuits: tuple[DrawnCircuit, ...]
    manifolds: tuple[DrawnManifold, ...]
    doorways: tuple[DrawnDoorway, ...]
    joints: tuple[DesignJoint, ...]
    sleeves: tuple[DrawnSleeve, ...]
    unplaced: tuple[UnplacedCircuit, ...]
    labels: Mapping[str, str]
    cores: Mapping[str, float]
    room: DesignRoom | None = None

    @property
    def corners(self) -> list[Point]:
        """Of the floors that are to be seen whole."""
        return [corner for _, room in self.shown for corner in room.outline or ()]

    @property
    def shown(self) -> tuple[tuple[int, DesignRoom], ...]:
        """The rooms that are drawn, with their numbers in the request."""
        return tuple((number, room) for number, room in self.rooms if self.room in (None, room))

    @property
    def part(self) -> str:
        """What of the house it is."""
        name = "" if self.room is None else room_title(self.room)
        return ", ".join(filter(None, (self.title, name)))


def room_title(room: DesignRoom) -> str:
    """Its name, or its id where there is no name to be seen."""
    return printable(room.name) or room.id


def drawn_layout(result: DesignsResult) -> DesignLayout:
    """Raises ``InputError`` where the design was not drawn."""
    if result.layout is None:
        needed = "a drawing needs the doorways between the rooms, or of a single room the manifold's position"
        raise InputError(Fault("/doorways", "missing", needed))
    return result.layout


def storey_plans(inputs: DesignsInputs, result: DesignsResult) -> list[StoreyPlan]:
    """The storeys that are drawn, in order; of one storey or one room where the request names it.

    Raises ``InputError`` without a drawing, and for a storey or room that is not on it.
    """
    layout = drawn_layout(result)
    areas, places = tuple(room.area for room in result.rooms), label_places(inputs)
    labels = circuit_labels(inputs, result)
    cores = {
        sheet.circuit: sheet.core_mark - sheet.steps[0].mark
        for sheet in result.laying_sheets
        if sheet.core_mark is not None
    }
    plans = []
    for title, rooms in _wanted_storeys(inputs, layout):
        ids = {room.id for _, room in rooms}
        shown = ids if inputs.drawing.room is None else {inputs.drawing.room}
        plans.append(
            StoreyPlan(
                title=title,
                rooms=rooms,
                areas=areas,
                label_places=places,
                circuits=tuple(one for one in layout.drawn_circuits if one.room in ids),
                manifolds=tuple(one for one in layout.placed_manifolds if one.room in shown),
                doorways=tuple(one for one in layout.doorway_stretches if shown & set(one.rooms)),
                joints=tuple(one for one in result.joints if shown & {one.room, *one.doorway}),
                sleeves=tuple(one for one in layout.sleeves if one.room in shown),
                unplaced=tuple(one for one in layout.unplaced if one.room in ids),
                labels=labels,
                cores=cores,
                room=next((room for _, room in rooms if room.id == inputs.drawing.room), None),
            )
        )
    return plans


def manifold_numbers(inputs: DesignsInputs, result: DesignsResult) -> dict[str, int]:
    """Manifolds by id, counted from 1: those of the request, then those that the design added."""
    names = [one.id for one in inputs.all_manifolds] + [one.id for one in result.manifolds]
    return {name: number for number, name in enumerate(dict.fromkeys(names), start=1)}


def circuit_labels(inputs: DesignsInputs, result: DesignsResult) -> dict[str, str]:
    """The port of each circuit by its id, led by the number of its manifold where there are several."""
    numbers = manifold_numbers(inputs, result)
    if len(numbers) == 1:
        return {circuit.id: str(circuit.port) for circuit in result.circuits}
    return {circuit.id: f"{numbers[circuit.manifold]}.{circuit.port}" for circuit in result.circuits}


Storey = tuple[str, tuple[tuple[int, DesignRoom], ...]]
"""Its name, and its rooms with their numbers."""


def _wanted_storeys(inputs: DesignsInputs, layout: DesignLayout) -> list[Storey]:
    wanted = inputs.drawing
    found = [
        storey
        for storey_id, storey in _storeys(inputs, layout)
        if wanted.storey in (None, storey_id)
        and (wanted.room is None or any(room.id == wanted.room and room.outline for _, room in storey[1]))
    ]
    if not found:
        pointer = "/drawing/storey" if wanted.room is None else "/drawing/room"
        raise InputError(Fault(pointer, "not_drawn", "names nothing that is drawn"))
    return found


def _storeys(inputs: DesignsInputs, layout: DesignLayout) -> list[tuple[str | None, Storey]]:
    """Ids, names and rooms of the storeys on which a manifold is drawn."""
    rooms = tuple(enumerate(inputs.rooms))
    if len(inputs.storeys) < 2:
        if not inputs.storeys:
            return [(None, ("", rooms))]
        return [(inputs.storeys[0].id, (inputs.storeys[0].name, rooms))]
    standing = {manifold.room for manifold in layout.placed_manifolds}
    found: list[tuple[str | None, Storey]] = []
    for storey in inputs.storeys:
        own = tuple((number, room) for number, room in rooms if room.storey == storey.id)
        if any(room.id in standing for _, room in own):
            found.append((storey.id, (storey.name or storey.id, own)))
    return found
