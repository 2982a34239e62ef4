"""What should be looked at in each room of a heat loss."""

from __future__ import annotations

from collections.abc import Iterator

from ..elementwise import ROUND_OFF
from ..results import Finding
from .air import LEAST_AIR_CHANGE, outside_air_change
from .balance import Balance
from .records import HeatLossRoom

__all__ = ["room_findings"]

_STANDARD = "EN 12831-1:2017"
_HIGH_ROOM = 4.0
_NEIGHBOURS = ("room", "heated_neighbour", "unheated")
_FLOOR_LIMIT = 100.0
"""What a floor of 29 degC gives to a room of 20 degC [W/m2]."""


def _depth(balance: Balance, index: int) -> Iterator[Finding]:
    room = balance.inputs.rooms[index]
    height = balance.inputs.storey_height if room.storey_height is None else room.storey_height
    if room.depth_below_ground > height:
        yield Finding.at(
            "deep_storey",
            f"/rooms/{index}/depth_below_ground",
            value=room.depth_below_ground,
            limit=height,
            source="ISO 13370:2017, heated basements",
            quantity="depth_below_ground",
        )


def room_findings(balance: Balance, index: int, demand: float) -> Iterator[Finding]:
    """Of the room at ``index``, whose heat demand is ``demand`` [W]."""
    room, faces, where = balance.inputs.rooms[index], balance.rooms[index], f"/rooms/{index}"
    yield from _air(room, faces.volume, where)
    yield from _depth(balance, index)
    height = faces.volume / faces.area
    if height > _HIGH_ROOM:
        yield Finding.at(
            "high_room",
            where,
            value=height,
            limit=_HIGH_ROOM,
            source=f"{_STANDARD}, rooms of large height",
            quantity="room_height",
        )
    gained = -sum(
        item.heat_loss
        for item in balance.element_losses[index]
        if item.heat_loss < 0.0 and item.beyond in _NEIGHBOURS and not item.through_heated_floor
    )
    if gained > ROUND_OFF:
        yield Finding.at(
            "gain_from_neighbours",
            where,
            value=gained,
            source=_STANDARD,
            quantity="heat_loss",
        )
    yield from _demand(room, demand, faces.area, where)


def _demand(room: HeatLossRoom, demand: float, area: float, where: str) -> Iterator[Finding]:
    if demand <= 0.0:
        yield Finding.at(
            "no_heat_needed",
            where,
            value=demand,
            limit=0.0,
            source=_STANDARD,
            quantity="heat_demand",
        )
    elif demand > _FLOOR_LIMIT * area and room.heated_floor:
        yield Finding.at(
            "more_than_a_floor_gives",
            where,
            value=demand / area,
            limit=_FLOOR_LIMIT,
            source="EN 1264-2, basic characteristic curve",
            quantity="required_heat_output",
        )


def _air(room: HeatLossRoom, volume: float, where: str) -> Iterator[Finding]:
    supply = room.supply_air_temperature
    if supply is not None and supply > room.room_temperature and room.air_flow:
        yield Finding.at(
            "heated_by_air",
            f"{where}/supply_air_temperature",
            value=supply,
            limit=room.room_temperature,
            source=_STANDARD,
            quantity="supply_air_temperature",
        )
    change = outside_air_change(room) + (room.air_flow or 0.0) * 3600.0 / volume
    if change < LEAST_AIR_CHANGE - ROUND_OFF:
        yield Finding.at(
            "air_change_low",
            f"{where}/air_change" if room.air_flow is None else f"{where}/air_flow",
            value=change,
            limit=LEAST_AIR_CHANGE,
            source=f"{_STANDARD}, Annex B",
            quantity="air_change",
        )
