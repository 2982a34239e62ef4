"""Least insulation below a heated floor (EN 1264-4, Table 1)."""

from __future__ import annotations

from types import MappingProxyType
from typing import Literal

__all__ = [
    "COLDEST_OUTSIDE",
    "LEAST_RESISTANCE",
    "NEAR_GROUNDWATER",
    "Below",
    "resistance_over_cold_air",
    "resistance_over_temperature",
]

Below = Literal["heated_room", "intermittently_heated_room", "unheated_room", "ground", "outside"]

LEAST_RESISTANCE = MappingProxyType(
    {
        "heated_room": 0.75,
        "intermittently_heated_room": 1.25,
        "unheated_room": 1.25,
        "ground": 1.25,
    }
)
"""Resistance of the insulation [m2.K/W] by what lies below; over outside air by its design temperature."""

_BY_TEMPERATURE = ((-5.0, 2.00), (0.0, 1.50), (10.0, 1.25))
"""Below this temperature [degC], at least this resistance [m2.K/W]."""

COLDEST_OUTSIDE = -15.0
"""Design temperature [degC] at which the table ends."""

NEAR_GROUNDWATER = 5.0
"""Groundwater this near below the floor [m] or nearer asks for more insulation (EN 1264-4, known by memory; the
standard names no figure for how much)."""


def resistance_over_cold_air(temperature: float) -> float:
    """Least resistance [m2.K/W] over air of this design temperature [degC]; of 10 degC and more as of 0 to
    10 degC, of less than -15 degC as of -15 to -5 degC, where the table ends."""
    warmest = _BY_TEMPERATURE[-1][1]
    return next((least for bound, least in _BY_TEMPERATURE if temperature < bound), warmest)


def resistance_over_temperature(temperature: float) -> float:
    """Least resistance [m2.K/W] when nothing but the temperature below is known [degC]: from 10 degC a room below
    counts as heated."""
    if temperature >= _BY_TEMPERATURE[-1][0]:
        return LEAST_RESISTANCE["heated_room"]
    return resistance_over_cold_air(temperature)
