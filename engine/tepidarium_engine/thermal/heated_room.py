"""A room with its floor and its demand: what the floor needs, and how it works on a given supply."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from ..elementwise import ROUND_OFF
from ..quick_records import quickly_made
from . import characteristic as curve
from . import dimensioning
from .floor import Floor, floor_characteristic, floor_downward_loss, floor_limit

__all__ = ["HeatedRoom", "Need", "Operation", "operate", "room_loss", "room_need"]


@quickly_made
@dataclass(frozen=True, slots=True)
class HeatedRoom:
    """A floor [see ``Floor``], its demand [W/m2] and its temperatures [degC]."""

    floor: Floor
    required_heat_output: float
    room_temperature: float
    temperature_below: float
    surface_temperature_limit: float


class Need(NamedTuple):
    """What the floor needs for its demand, and the limit of its surface."""

    heat_transmittance: float
    mean_excess_temperature: float
    limit_heat_output: float
    limit_excess_temperature: float
    within_limit: bool


class Operation(NamedTuple):
    """A floor on a given supply."""

    reached: bool
    temperature_drop: float
    return_temperature: float
    mean_excess_temperature: float
    heat_output: float
    downward_heat_loss: float
    mean_surface_temperature: float
    mass_flow_per_area: float


def room_need(room: HeatedRoom) -> Need:
    """Mean excess temperature for the demand, and the surface limit beside it. EN 1264-2."""
    slope = floor_characteristic(room.floor).heat_transmittance
    limit = floor_limit(room.floor, slope, room.surface_temperature_limit - room.room_temperature)
    demand = room.required_heat_output
    within = demand <= limit.heat_output * (1.0 + ROUND_OFF)
    return Need(slope, demand / slope, limit.heat_output, limit.excess_temperature, within)


def room_loss(room: HeatedRoom, heat_output: float) -> float:
    """Downward heat loss [W/m2] of the room's floor at ``heat_output`` [W/m2]. EN 1264-3."""
    return floor_downward_loss(room.floor, heat_output, room.room_temperature, room.temperature_below)


def operate(room: HeatedRoom, need: Need, supply_temperature: float, usual_drop: float) -> Operation:
    """The room on a common supply [degC], throttled until it gives its demand. EN 1264-3, with the logarithmic mean of
    EN 1264-2.

    A room that would need less than the least workable drop is not reached: it is given ``usual_drop`` [K]
    (or half its supply excess, if that is less) and what it yields then by the logarithmic mean.
    """
    excess = supply_temperature - room.room_temperature
    drop = dimensioning.drop_on_supply(excess, need.mean_excess_temperature)
    mean, output = need.mean_excess_temperature, room.required_heat_output
    reached = drop >= dimensioning.LEAST_DROP
    if not reached:
        drop = min(usual_drop, 0.5 * max(excess, 0.0))
        mean = 0.0
        if drop > 0.0:
            mean = curve.mean_excess_temperature(excess, excess - drop, 0.0)
        output = need.heat_transmittance * mean
    # Where no water flows, what goes downwards is the room's own loss and comes from no pipe.
    loss = room_loss(room, output) if drop > 0.0 else 0.0
    total = max(output + loss, 0.0)
    return Operation(
        reached,
        drop,
        supply_temperature - drop,
        mean,
        output,
        loss,
        curve.mean_surface_temperature(output, room.room_temperature),
        dimensioning.circuit_mass_flow(1.0, total, 0.0, drop) if drop > 0.0 else 0.0,
    )
