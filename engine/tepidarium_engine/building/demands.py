"""What each room of a design needs: as given, or from its heat loss."""

from __future__ import annotations

from dataclasses import replace

from .. import heat_loss
from ..errors import FaultList, InputError, faults_at
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
    by_id = {room.id: index for index, room in enumerate(inputs.rooms)}
    rooms: list[HeatLossRoom] = []
    places: dict[str, str] = {}
    for number, room in enumerate(inputs.heat_loss.rooms):
        index = by_id.get(room.id)
        whole, told = (room, ()) if index is None else _completed(room, inputs.rooms[index])
        rooms.append(whole)
        places |= {f"/rooms/{number}/{name}": f"/rooms/{index}/{name}" for name in told}
    try:
        with faults_at(places, "/heat_loss"):
            result = heat_loss.calculate(replace(inputs.heat_loss, rooms=tuple(rooms)))
    except InputError as error:
        faults.faults.extend(error.faults)
        return {room.id: _LEAST for room in inputs.rooms}
    return {room.id: room.heat_demand for room in result.rooms}


def _completed(room: HeatLossRoom, design: DesignRoom) -> tuple[HeatLossRoom, tuple[str, ...]]:
    """The room with what the design says of it already, and the names of those fields: its outline or area, and its
    temperature."""
    told: tuple[str, ...] = ()
    if room.outline is None and room.area is None:
        room = replace(room, outline=design.outline, voids=design.voids, area=design.area)
        told = ("outline", "voids", "area")
    if room.room_temperature == _UNSAID:
        room = replace(room, room_temperature=design.room_temperature)
        told = (*told, "room_temperature")
    return room, told
