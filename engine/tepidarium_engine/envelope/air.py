"""Air that comes into a room (EN 12831-1:2017)."""

from __future__ import annotations

from .records import HeatLossRoom

__all__ = ["AIR_HEAT_CAPACITY", "LEAST_AIR_CHANGE", "outside_air_change", "ventilation_loss"]

AIR_HEAT_CAPACITY = 1224.0
"""Of air per volume [J/(m3.K)]: 0.34 Wh/(m3.K), EN 12831-1:2017."""
LEAST_AIR_CHANGE = 0.5
"""Of a single room [1/h], EN 12831-1:2017, Annex B."""


def outside_air_change(room: HeatLossRoom) -> float:
    """By leaks and windows [1/h]: as given; none beside a fan; else the least of a single room."""
    if room.air_change is not None:
        return room.air_change
    return LEAST_AIR_CHANGE if room.air_flow is None else 0.0


def ventilation_loss(room: HeatLossRoom, volume: float, outside: float) -> float:
    """Heat for the air from outside and from a fan [W]; ``volume`` [m3], ``outside`` [degC]. EN 12831-1:2017."""
    supply = outside if room.supply_air_temperature is None else room.supply_air_temperature
    from_outside = outside_air_change(room) * volume / 3600.0
    inside = room.room_temperature
    return AIR_HEAT_CAPACITY * (
        from_outside * (inside - outside) + (room.air_flow or 0.0) * (inside - supply)
    )
