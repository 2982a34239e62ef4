"""What each room of a design needs: as given, or from its heat loss."""

from __future__ import annotations

from dataclasses import replace

from .. import heat_loss
from ..errors import FaultList, InputError
from .records import DesignsInputs

__all__ = ["demands_of"]

_LEAST = 1.0
"""A room that needs less has no use for a heated floor [W]."""


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
    try:
        result = heat_loss.calculate(inputs.heat_loss)
    except InputError as error:
        faults.faults.extend(replace(fault, pointer="/heat_loss" + fault.pointer) for fault in error.faults)
        return {room.id: _LEAST for room in inputs.rooms}
    return {room.id: room.heat_demand for room in result.rooms}
