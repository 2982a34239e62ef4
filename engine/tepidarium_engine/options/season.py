"""A house through the year: the heating curve, how long room controls are open, flow and electricity.

At a constant flow a floor whose heat is in proportion to its excess temperature (EN 1264-2) gives in proportion to the
excess of the supply, and cools the water so: both follow from the design by one factor, the supply's excess over that
of the design, to the power of the curve's exponent. Demands go with the distance between room and outside
(EN 12831-1), without gains.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from ..building.circuits import DividedRoom
from ..building.season_records import ClimateBin, HeatingCurve, HeatingSeasonInputs, SeasonBin, SeasonRoom
from ..building.solving import FirstDivision, SolvedHouse
from ..water.result import HydraulicsResult
from .energy import coefficient_at

__all__ = [
    "RoomInBin",
    "design_rooms",
    "heating_curve",
    "is_heated",
    "rooms_in_bin",
    "season_bin",
    "season_room",
]

_KILO = 1000.0
_SAME = 1e-9


class DesignRoom(NamedTuple):
    """A room of the design with the heat that its floor gives [W] and the flow of its circuits [kg/s]."""

    room: DividedRoom
    heat: float
    flow: float


class RoomInBin(NamedTuple):
    """A room at one outside temperature: heat that it ``needs`` and ``gets`` [W], share of the time that its control is
    open, and the temperature drop [K] meanwhile."""

    needs: float
    gets: float
    duty: float
    drop: float


def heating_curve(inputs: HeatingSeasonInputs, division: FirstDivision | SolvedHouse) -> HeatingCurve:
    """For the room that governs: what it needs is what the supply is for."""
    governing, supply = division.supply.governing, division.supply.temperature
    basis, outside = governing.room.room_temperature, inputs.outside_temperature
    return HeatingCurve(
        basis_room=governing.room.id,
        basis_temperature=basis,
        design_outside_temperature=outside,
        design_supply_temperature=supply,
        exponent=inputs.exponent,
        slope=(supply - basis) / (basis - outside),
    )


def load_share(room_temperature: float, outside: float, design_outside: float) -> float:
    """Heat that a room needs over that of the design."""
    return max(0.0, (room_temperature - outside) / (room_temperature - design_outside))


def supply_on(curve: HeatingCurve, outside: float, most: float) -> float:
    """Supply [degC] at an outside temperature [degC], as far as the source gives it: at ``most`` [degC]."""
    share = load_share(curve.basis_temperature, outside, curve.design_outside_temperature)
    excess: float = share ** (1.0 / curve.exponent)
    supply = curve.basis_temperature + (curve.design_supply_temperature - curve.basis_temperature) * excess
    return min(supply, max(most, curve.design_supply_temperature))


def design_rooms(division: FirstDivision | SolvedHouse) -> tuple[DesignRoom, ...]:
    """The rooms at the design, in their order."""
    circuits = division.water.circuits
    return tuple(
        DesignRoom(
            room,
            room.heated.given(room.point.heat_output),
            math.fsum(circuits[circuit].mass_flow for circuit in room.circuit_ids),
        )
        for room in division.divided
    )


def rooms_in_bin(
    rooms: Sequence[DesignRoom], curve: HeatingCurve, outside: float, most: float
) -> tuple[RoomInBin, ...]:
    """Each room on the supply of the curve at an outside temperature [degC]; the source gives ``most`` [degC]."""
    supply = supply_on(curve, outside, most)
    return tuple(_room_in_bin(room, curve, outside, supply) for room in rooms)


def _room_in_bin(design: DesignRoom, curve: HeatingCurve, outside: float, supply: float) -> RoomInBin:
    heated, drop = design.room.heated, design.room.point.temperature_drop
    inside = heated.room.room_temperature
    needs = heated.heat_demand * load_share(inside, outside, curve.design_outside_temperature)
    excess = max((supply - inside) / (curve.design_supply_temperature - inside), 0.0)
    share: float = excess**curve.exponent
    gives = design.heat * share
    if needs < gives * (1.0 - _SAME):
        return RoomInBin(needs, needs, needs / gives, drop * share)
    gets = needs if needs <= gives * (1.0 + _SAME) else gives
    return RoomInBin(needs, gets, float(needs > 0.0), drop * share)


def is_heated(inputs: HeatingSeasonInputs, curve: HeatingCurve, outside: float) -> bool:
    return outside < min(inputs.heating_limit, curve.basis_temperature)


def season_bin(
    inputs: HeatingSeasonInputs,
    curve: HeatingCurve,
    climate: ClimateBin,
    design: Sequence[DesignRoom],
    rooms: Sequence[RoomInBin],
    *,
    water: HydraulicsResult,
) -> SeasonBin:
    """The house in a bin; no ``rooms`` where it is not heated. ``water`` is that of the design."""
    outside = climate.outside_temperature
    share = load_share(curve.basis_temperature, outside, curve.design_outside_temperature)
    if not rooms:
        return SeasonBin(
            outside, climate.hours, share, None, None, 0.0, 0.0, 0.0, 0.0, (0.0,) * len(design), None, None
        )
    supply = supply_on(curve, outside, inputs.design.source.maximum_supply_temperature)
    flows = [room.flow * each.duty for room, each in zip(design, rooms, strict=True)]
    flow = math.fsum(flows)
    drop = math.fsum(own * each.drop for own, each in zip(flows, rooms, strict=True)) / flow if flow else 0.0
    heat = math.fsum(each.gets for each in rooms) * climate.hours / _KILO
    performance = coefficient_at(inputs.efficiency, supply) if inputs.efficiency else None
    return SeasonBin(
        outside_temperature=outside,
        hours=climate.hours,
        load_share=share,
        supply_temperature=supply,
        return_temperature=supply - drop,
        heat=heat,
        flow_share=flow / water.mass_flow,
        volume_flow=water.pump.volume_flow * flow / water.mass_flow,
        pump_power=water.pump.hydraulic_power * flow / water.mass_flow,
        duties=tuple(room.duty for room in rooms),
        coefficient_of_performance=performance,
        electricity=None if performance is None else heat / performance,
    )


def season_room(
    design: DesignRoom, coldest: RoomInBin, bins: Sequence[tuple[RoomInBin, float]]
) -> SeasonRoom:
    """A room in the bins that are heated, each with its hours; ``coldest`` is the room on the day of the design."""
    hours = math.fsum(each for _, each in bins)
    return SeasonRoom(
        id=design.room.heated.room.id,
        name=design.room.heated.room.name,
        design_duty=coldest.duty,
        mean_duty=math.fsum(own.duty * each for own, each in bins) / hours if hours else 0.0,
        heat=math.fsum(own.gets * each for own, each in bins) / _KILO,
        heat_lacking=math.fsum((own.needs - own.gets) * each for own, each in bins) / _KILO,
    )
