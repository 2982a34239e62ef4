"""What each room of a design needs: as given, or from its heat loss."""

from __future__ import annotations

from dataclasses import replace

from .. import heat_loss
from ..errors import FaultList, InputError
from ..heat_loss import HeatLossRoom
from .records import DesignRoom, DesignsInputs

__all__ = ["demands_of"]

_LEAST = 1.0
"""A room that needs less has no use for a heated floor [W]."""
_UNSAID = HeatLossRoom(id="").room_temperature


def demands_of(inputs: DesignsInputs, faults: FaultList) -> list[float]:
    """Heat demand of each room [W], in order; faults are noted, and 1 W stands for a demand that is missing."""
    computed = _computed(inputs, faults)
    demands = []
    for index, room in enumerate(inputs.rooms):
        demand = computed.get(room.id) if room.heat_demand is None else room.heat_demand
        pointer = f"/rooms/{index}/heat_demand"
        if demand is None:
            faults.add(pointer, "missing", "give a heat demand, or the room under the same id in heat_loss")
        elif demand < _LEAST:
            detail = f"the heat loss of this room comes to {demand:.1f} W: it needs no heated floor"
            faults.add(pointer, "too_small", detail, _LEAST)
        demands.append(max(demand or _LEAST, _LEAST))
    return demands


def _computed(inputs: DesignsInputs, faults: FaultList) -> dict[str, float]:
    if inputs.heat_loss is None:
        return {}
    by_id = {room.id: room for room in inputs.rooms}
    rooms = tuple(_as_designed(room, by_id.get(room.id)) for room in inputs.heat_loss.rooms)
    try:
        result = heat_loss.calculate(replace(inputs.heat_loss, rooms=rooms))
    except InputError as error:
        faults.faults.extend(replace(fault, pointer="/heat_loss" + fault.pointer) for fault in error.faults)
        return {room.id: _LEAST for room in inputs.rooms}
    return {room.id: room.heat_demand for room in result.rooms}


def _as_designed(room: HeatLossRoom, design: DesignRoom | None) -> HeatLossRoom:
    """What a room of the design says of itself need not be said again: its outline or area, and its temperature."""
    if design is None:
        return room
    if room.outline is None and room.area is None:
        room = replace(room, outline=design.outline, voids=design.voids, area=design.area)
    if room.room_temperature == _UNSAID:
        room = replace(room, room_temperature=design.room_temperature)
    return room
