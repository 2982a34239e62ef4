"""A house through the year: the heating curve, how long room controls are open, flow and electricity.

At a constant flow a floor whose heat is in proportion to its excess temperature (EN 1264-2) gives in proportion to the
excess of the supply, and cools the water so: both follow from the design by one factor, the supply's excess over that
of the design. Demands go with the distance between room and outside (EN 12831-1), without gains.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from ..building.circuits import DividedRoom
from ..building.solving import FirstDivision
from .energy import coefficient_at
from .season_records import ClimateBin, HeatingCurve, HeatingSeasonInputs, SeasonBin, SeasonRoom

__all__ = ["RoomInBin", "heating_curve", "is_heated", "room_in_bin", "season_bin", "season_room"]

_KILO = 1000.0
_SAME = 1e-9


class RoomInBin(NamedTuple):
    """A room at one outside temperature: heat that it ``needs`` and ``gets`` [W], share of the time that its control is
    open, and the temperature drop [K] meanwhile."""

    needs: float
    gets: float
    duty: float
    drop: float


def heating_curve(inputs: HeatingSeasonInputs, division: FirstDivision) -> HeatingCurve:
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


def supply_on(curve: HeatingCurve, outside: float) -> float:
    """Supply [degC] at an outside temperature [degC]."""
    share = load_share(curve.basis_temperature, outside, curve.design_outside_temperature)
    excess: float = share ** (1.0 / curve.exponent)
    return curve.basis_temperature + (curve.design_supply_temperature - curve.basis_temperature) * excess


def room_in_bin(room: DividedRoom, curve: HeatingCurve, outside: float) -> RoomInBin:
    """A room on the supply of the curve."""
    inside = room.heated.room.room_temperature
    needs = room.heated.heat_demand * load_share(inside, outside, curve.design_outside_temperature)
    excess = max((supply_on(curve, outside) - inside) / (curve.design_supply_temperature - inside), 0.0)
    gives: float = room.heated.given(room.point.heat_output) * excess**curve.exponent
    if needs < gives * (1.0 - _SAME):
        return RoomInBin(needs, needs, needs / gives, room.point.temperature_drop * excess)
    gets = needs if needs <= gives * (1.0 + _SAME) else gives
    return RoomInBin(needs, gets, float(needs > 0.0), room.point.temperature_drop * excess)


def is_heated(inputs: HeatingSeasonInputs, curve: HeatingCurve, outside: float) -> bool:
    return outside < min(inputs.heating_limit, curve.basis_temperature)


def season_bin(
    inputs: HeatingSeasonInputs, division: FirstDivision, curve: HeatingCurve, climate: ClimateBin
) -> SeasonBin:
    outside = climate.outside_temperature
    share = load_share(curve.basis_temperature, outside, curve.design_outside_temperature)
    if not is_heated(inputs, curve, outside):
        return SeasonBin(outside, climate.hours, share, None, None, 0.0, 0.0, None, None)
    supply = supply_on(curve, outside)
    rooms = [room_in_bin(room, curve, outside) for room in division.divided]
    flows = [_flow(room, division) * each.duty for room, each in zip(division.divided, rooms, strict=True)]
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
        flow_share=flow / division.water.whole.mass_flow,
        coefficient_of_performance=performance,
        electricity=None if performance is None else heat / performance,
    )


def _flow(room: DividedRoom, division: FirstDivision) -> float:
    """Design flow of a room [kg/s]."""
    return math.fsum(division.water.circuits[circuit].mass_flow for circuit in room.circuit_ids)


def season_room(
    room: DividedRoom, curve: HeatingCurve, heated: Sequence[ClimateBin], design_outside: float
) -> SeasonRoom:
    """A room over the hours that are heated."""
    bins = [room_in_bin(room, curve, each.outside_temperature) for each in heated]
    hours = math.fsum(each.hours for each in heated)
    both = list(zip(bins, (each.hours for each in heated), strict=True))
    return SeasonRoom(
        id=room.heated.room.id,
        name=room.heated.room.name,
        design_duty=room_in_bin(room, curve, design_outside).duty,
        mean_duty=math.fsum(own.duty * each for own, each in both) / hours if hours else 0.0,
        heat=math.fsum(own.gets * each for own, each in both) / _KILO,
        heat_lacking=math.fsum((own.needs - own.gets) * each for own, each in both) / _KILO,
    )
