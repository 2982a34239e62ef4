"""What of a design is drawn on each storey, and where on the sheet."""

from __future__ import annotations

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

from .sheet import STOREY_SHEETS, Point, Sheet, sheets_for

__all__ = ["StoreyPlan", "circuit_labels", "storey_plans"]


@dataclass(frozen=True)
class StoreyPlan:
    """A storey on its place of the sheet. ``rooms`` come with their numbers in the request, by which ``areas`` [m2]
    and ``label_places`` [m] are found; ``labels`` of circuits by id."""

    sheet: Sheet
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
    labels: dict[str, str]

    @property
    def corners(self) -> list[Point]:
        return _corners(self.rooms)


def storey_plans(
    inputs: DesignsInputs, result: DesignsResult, layout: DesignLayout, column_height: float
) -> list[StoreyPlan]:
    """The storeys that are drawn, in order."""
    storeys = [storey for storey in _storeys(inputs, layout) if _corners(storey[1])]
    sheets = sheets_for([_corners(rooms) for _, rooms in storeys], STOREY_SHEETS, column_height)
    areas, places = tuple(room.area for room in result.rooms), label_places(inputs)
    labels = circuit_labels(inputs, result)
    plans = []
    for (title, rooms), sheet in zip(storeys, sheets, strict=True):
        ids = {room.id for _, room in rooms}
        plans.append(
            StoreyPlan(
                sheet=sheet,
                title=title,
                rooms=rooms,
                areas=areas,
                label_places=places,
                circuits=tuple(one for one in layout.drawn_circuits if one.room in ids),
                manifolds=tuple(one for one in layout.placed_manifolds if one.room in ids),
                doorways=tuple(one for one in layout.doorway_stretches if one.rooms[0] in ids),
                joints=tuple(one for one in result.joints if one.room in ids),
                sleeves=tuple(one for one in layout.sleeves if one.room in ids),
                unplaced=tuple(one for one in layout.unplaced if one.room in ids),
                labels=labels,
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


def _storeys(
    inputs: DesignsInputs, layout: DesignLayout
) -> list[tuple[str, tuple[tuple[int, DesignRoom], ...]]]:
    """Names and rooms of the storeys on which a manifold is drawn."""
    rooms = tuple(enumerate(inputs.rooms))
    if len(inputs.storeys) < 2:
        return [(inputs.storeys[0].name if inputs.storeys else "", rooms)]
    standing = {manifold.room for manifold in layout.placed_manifolds}
    by_storey = [
        (
            storey.name or storey.id,
            tuple((number, room) for number, room in rooms if room.storey == storey.id),
        )
        for storey in inputs.storeys
    ]
    return [(name, own) for name, own in by_storey if any(room.id in standing for _, room in own)]


def _corners(rooms: tuple[tuple[int, DesignRoom], ...]) -> list[Point]:
    return [corner for _, room in rooms for corner in room.outline or ()]
