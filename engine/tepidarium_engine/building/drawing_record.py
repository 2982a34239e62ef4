"""The drawing of a house as part of the result."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import TypeVar

from ..plan.asking.route_records import path_piece
from ..storey.model.layout_records import StoreyCircuit
from ..storey.model.tail_records import ManifoldPlace
from .drawn_house import DrawnHouse
from .drawn_storey import DrawnStorey
from .house import House
from .layout_outcome import (
    DesignLayout,
    DrawnCircuit,
    DrawnDoorway,
    DrawnManifold,
    DrawnSleeve,
    StoreySiting,
    UnplacedCircuit,
)
from .siting import SitedHouse
from .sleeves import Crossing

__all__ = ["design_layout"]

_Item = TypeVar("_Item")


def design_layout(
    sited: SitedHouse, drawn: DrawnHouse, sitings: tuple[StoreySiting, ...], crossings: Sequence[Crossing]
) -> DesignLayout | None:
    """All storeys that are drawn, with sleeves at ``crossings`` of tails and joints; ``None`` without any."""
    if not drawn.storeys:
        return None
    house = sited.house
    circuits = _in_order(
        (storey.site.numbers[circuit.manifold], _circuit(house, storey, circuit))
        for storey in drawn.storeys
        for circuit in storey.circuits
    )
    placed = _in_order(
        (
            number,
            _manifold(sited, storey, number, place),
        )
        for storey in drawn.storeys
        for number, place in zip(storey.site.numbers, storey.site.manifolds, strict=True)
    )
    doorways = _in_order(
        (number, DrawnDoorway(*doorway.stretches, house.inputs.doorways[number].rooms))
        for storey in drawn.storeys
        for number, doorway in zip(storey.site.doorways, storey.site.plan.doorways, strict=True)
    )
    return DesignLayout(
        manifold_place=placed[0].place,
        drawn_length=math.fsum(circuit.length for circuit in circuits),
        drawn_circuits=circuits,
        doorway_stretches=doorways,
        sleeves=tuple(
            DrawnSleeve(crossing.circuit, crossing.place, crossing.ahead, crossing.joint.room.room.id)
            for crossing in crossings
            if crossing.tail and crossing.joint.state != "due"
        ),
        unplaced=tuple(
            UnplacedCircuit(one.id, storey.site.rooms[one.room].room.id, one.code, one.place, one.words)
            for storey in drawn.storeys
            for one in storey.unplaced
        ),
        placed_manifolds=placed,
        sitings=sitings,
    )


def _manifold(sited: SitedHouse, storey: DrawnStorey, number: int, place: ManifoldPlace) -> DrawnManifold:
    manifold = sited.house.manifolds[number]
    return DrawnManifold(
        id=manifold.id,
        room=storey.site.rooms[place.room].room.id,
        place=place.place,
        position=manifold.position or place.place,
        position_found=number in sited.found,
        tail_pitch=storey.tail_pitch,
    )


def _in_order(numbered: Iterable[tuple[int, _Item]]) -> tuple[_Item, ...]:
    """By their numbers in the request, whichever storey they are on."""
    return tuple(item for _, item in sorted(numbered, key=lambda pair: pair[0]))


def _circuit(house: House, storey: DrawnStorey, circuit: StoreyCircuit) -> DrawnCircuit:
    return DrawnCircuit(
        id=circuit.id,
        port=circuit.port,
        room=storey.site.rooms[circuit.room].room.id,
        length=circuit.path.length,
        field_length=circuit.field_length,
        pieces=tuple(map(path_piece, circuit.path.pieces)),
        manifold=house.manifolds[storey.site.numbers[circuit.manifold]].id,
    )
