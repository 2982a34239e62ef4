"""The spread of drawn designs about the likely values: which class a house is of, and ranges from it."""

from __future__ import annotations

import math

from .assumptions import KnownHouse
from .estimate_records import EstimateRange
from .measured_spread import DRAWN, FACTORS, FLOOR_AREAS

__all__ = [
    "DRAWN",
    "FLOOR_AREAS",
    "LARGE",
    "SUPPLY_FROM",
    "Factors",
    "factors",
    "house_class",
    "spread_range",
]

LARGE = 3
"""Houses of so many rooms are a class apart: in smaller ones a single room decides."""
SUPPLY_FROM = 20.0
"""Supply temperatures spread over the room [degC]."""

Factors = tuple[float, float, float]
"""Drawn over rough value: low, likely, high."""


def house_class(house: KnownHouse) -> str:
    """``rooms``, ``count`` or ``area``: what is known of the rooms; then how many there are."""
    return f"{house.known} {'few' if len(house.rooms) < LARGE else 'many'}"


def factors(kind: str, quantity: str) -> Factors:
    return FACTORS[kind].get(quantity, (1.0, 1.0, 1.0))


def spread_range(
    values: Factors, spread: Factors, unit: str, basis: str, *, whole: bool = False, least: float = 0.0
) -> EstimateRange:
    """The rough ``values`` [unit] at low, likely and high demand, each times its factor; whole
    numbers go outwards."""
    low, likely, high = (value * factor for value, factor in zip(values, spread, strict=True))
    likely = min(max(likely, low), high)
    if whole:
        low, likely, high = math.floor(low + 1e-9), round(likely), math.ceil(high - 1e-9)
    low, likely, high = (float(max(value, least)) for value in (low, likely, high))
    return EstimateRange(low, likely, high, unit, basis)
