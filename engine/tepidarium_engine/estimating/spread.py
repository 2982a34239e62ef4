"""The spread of drawn designs about the likely values, by what is known of a house, and ranges from it."""

from __future__ import annotations

import math

from .estimate_records import EstimateRange
from .measured_spread import DRAWN, FACTORS, FLOOR_AREAS

__all__ = ["DRAWN", "FACTORS", "FLOOR_AREAS", "SUPPLY_FROM", "Factors", "spread_range", "whole_range"]

SUPPLY_FROM = 20.0
"""Supply temperatures spread over the room [degC]."""

Factors = tuple[float, float, float]
"""Drawn over rough value: low, likely, high."""


def spread_range(values: Factors, spread: Factors, unit: str, basis: str) -> EstimateRange:
    """The rough ``values`` [unit] at low, likely and high demand, each times its factor."""
    low, likely, high = values[0] * spread[0], values[1] * spread[1], values[2] * spread[2]
    return EstimateRange(low, min(max(likely, low), high), high, unit, basis)


def whole_range(one: EstimateRange, least: int) -> EstimateRange:
    """Whole numbers, ``least`` at least: low and high go outwards."""
    low, likely, high = math.floor(one.low + 1e-9), round(one.likely), math.ceil(one.high - 1e-9)
    return EstimateRange(
        float(max(low, least)), float(max(likely, least)), float(max(high, least)), one.unit, one.basis
    )
