"""Supply temperature, spacing and flows of floors on one supply (EN 1264-3, dimensioning)."""

from __future__ import annotations

import math

from .cautions import FLOOR
from .checking import check
from .gathering import gathered
from .results import Working
from .thermal.dimensioning import circuit_mass_flow
from .thermal.heated_room import HeatedRoom, Need, Operation, operate, room_loss
from .thermal.spacing_choice import Candidate, candidates, choose, option
from .thermal.supply_findings import check_relations, supply_findings
from .thermal.supply_records import (
    OtherRoom,
    RoomOnSupply,
    SpacingOption,
    SupplyTemperatureInputs,
    SupplyTemperatureResult,
)
from .thermal.supply_workings import governing_workings, other_workings

__all__ = [
    "OtherRoom",
    "RoomOnSupply",
    "SpacingOption",
    "SupplyTemperatureInputs",
    "SupplyTemperatureResult",
    "calculate",
    "workings",
]


def calculate(inputs: SupplyTemperatureInputs) -> SupplyTemperatureResult:
    """Supply temperature for the governing room, by the exact logarithmic mean, and the rooms that share it.

    All figures are those of the full demand, also where a surface limit is passed: that is a finding.

    Raises ``InputError`` where a field is out of its range, no spacing is given, a surface limit does not lie
    above its room, a room is heated from below beyond its demand, two rooms share an id, or EN 1264-2 has no
    value (spacing below 0.05 m, cover below 0.010 m).
    """
    check(inputs)
    check_relations(inputs)
    compared = candidates(inputs)
    chosen = choose(compared)
    supply, drop = chosen.supply_temperature, inputs.temperature_drop
    operations = tuple(operate(room, need, supply, drop) for room, need in chosen.others)
    return _result(inputs, compared, chosen, operations)


def _result(
    inputs: SupplyTemperatureInputs,
    compared: tuple[Candidate, ...],
    chosen: Candidate,
    operations: tuple[Operation, ...],
) -> SupplyTemperatureResult:
    options = tuple(option(each, chosen, inputs) for each in compared)
    line = next(each for each in options if each.chosen)
    demand = inputs.required_heat_output
    loss = room_loss(chosen.room, demand)
    flow = circuit_mass_flow(1.0, demand, loss, inputs.temperature_drop)
    rooms = tuple(
        _room_on_supply(other, room, need, operation)
        for other, (room, need), operation in zip(inputs.other_rooms, chosen.others, operations, strict=True)
    )
    own = None if inputs.area is None else inputs.area * flow
    return SupplyTemperatureResult(
        supply_temperature=chosen.supply_temperature,
        return_temperature=line.return_temperature,
        pipe_spacing=chosen.spacing,
        reason=line.reason,
        heat_transmittance=chosen.need.heat_transmittance,
        mean_excess_temperature=chosen.need.mean_excess_temperature,
        mean_surface_temperature=line.mean_surface_temperature,
        limit_heat_output=chosen.need.limit_heat_output,
        limit_excess_temperature=chosen.need.limit_excess_temperature,
        missing_heat_output=_missing(chosen.need, demand),
        downward_heat_loss=loss,
        total_heat_output=demand + loss,
        pipe_length_per_area=line.pipe_length_per_area,
        mass_flow_per_area=flow,
        mass_flow=own,
        total_mass_flow=None if own is None else math.fsum((own, *(room.mass_flow for room in rooms))),
        options=options,
        rooms_on_supply=rooms,
        findings=gathered(supply_findings(inputs, chosen, operations), inputs),
        cautions=FLOOR,
    )


def _missing(need: Need, demand: float) -> float:
    return 0.0 if need.within_limit else demand - need.limit_heat_output


def _room_on_supply(other: OtherRoom, room: HeatedRoom, need: Need, operation: Operation) -> RoomOnSupply:
    demand = room.required_heat_output
    return RoomOnSupply(
        id=other.id,
        reached=operation.reached,
        pipe_spacing=room.floor.pipe_spacing,
        heat_transmittance=need.heat_transmittance,
        mean_excess_temperature=operation.mean_excess_temperature,
        temperature_drop=operation.temperature_drop,
        return_temperature=operation.return_temperature,
        heat_output=operation.heat_output,
        missing_heat_output=max(demand - operation.heat_output, _missing(need, demand)),
        limit_heat_output=need.limit_heat_output,
        mean_surface_temperature=operation.mean_surface_temperature,
        downward_heat_loss=operation.downward_heat_loss,
        mass_flow_per_area=operation.mass_flow_per_area,
        mass_flow=other.area * operation.mass_flow_per_area,
    )


def workings(inputs: SupplyTemperatureInputs, result: SupplyTemperatureResult) -> tuple[Working, ...]:
    """The chain from the inputs to the supply temperature and the other rooms' drops, to be redone by
    hand."""
    chosen = next(each for each in candidates(inputs) if each.spacing == result.pipe_spacing)
    chain = list(governing_workings(chosen, inputs.temperature_drop))
    for other, (room, need) in zip(inputs.other_rooms, chosen.others, strict=True):
        chain += other_workings(other.id, room, need, chosen.supply_temperature, inputs.temperature_drop)
    return tuple(chain)
