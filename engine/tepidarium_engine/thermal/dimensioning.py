"""Dimensioning of floors on one supply (EN 1264-3): supply temperature, drops and flows.

Excess temperatures are water minus room. Every function is pure; those without a loop serve arrays too.
"""

from __future__ import annotations

import math

from ..elementwise import Real, expm1, maximum, sqrt, where

__all__ = [
    "GREATEST_DROP",
    "LEAST_DROP",
    "USUAL_SPACING",
    "WATER_HEAT_CAPACITY",
    "circuit_mass_flow",
    "drop_on_supply",
    "exact_drop_on_supply",
    "standard_supply_excess",
    "supply_excess",
]

WATER_HEAT_CAPACITY = 4190.0
"""c_W [J/(kg.K)] of the standard's flow formula."""
GREATEST_DROP = 5.0
"""Largest drop in the governing room [K] (EN 1264-3)."""
USUAL_SPACING = 0.15
"""Spacing of living rooms [m] (common practice, no source), to check a request that names none."""
LEAST_DROP = 0.5
"""Smallest drop that is taken for a workable circuit [K] (common practice, no source)."""


def supply_excess(mean_excess: Real, temperature_drop: Real) -> Real:
    """Supply excess [K] at which the logarithmic mean is ``mean_excess`` [K] with a drop of
    ``temperature_drop`` [K]: the log mean of EN 1264-2 solved for the supply, exact."""
    return -temperature_drop / expm1(-temperature_drop / mean_excess)


def standard_supply_excess(mean_excess: Real, temperature_drop: Real) -> Real:
    """The same by the rule of EN 1264-3: half the drop on top of the mean, with a quadratic term once the
    drop is more than half the mean."""
    short = mean_excess + 0.5 * temperature_drop
    return where(
        temperature_drop / mean_excess <= 0.5, short, short + temperature_drop**2 / (12.0 * mean_excess)
    )


def drop_on_supply(supply: Real, mean_excess: Real) -> Real:
    """Drop [K] of a room with ``mean_excess`` [K] on a supply with the excess ``supply`` [K]; EN 1264-3.

    Twice the difference as long as that is at most half the mean excess, else the root formula, which makes
    the drop smaller by 7 % where the two meet. Zero where the supply does not reach the mean excess.
    """
    short = 2.0 * (supply - mean_excess)
    root = 3.0 * mean_excess * (sqrt(1.0 + (2.0 / 3.0) * maximum(short, 0.0) / mean_excess) - 1.0)
    return where(short / mean_excess <= 0.5, maximum(short, 0.0), root)


def exact_drop_on_supply(supply: float, mean_excess: float) -> float:
    """The same drop by the exact logarithmic mean, solved by Newton's method from the supply side, from
    where it falls monotonically on the root. Zero where the supply does not reach the mean excess."""
    reach = supply / mean_excess
    if reach <= 1.0:
        return 0.0
    x = reach
    for _ in range(100):
        slope = 1.0 - reach * math.exp(-x)
        step = (x + reach * math.expm1(-x)) / slope if slope > 0.0 else 0.0
        x -= step
        if step <= 1e-15 * x:
            break
    return x * mean_excess


def circuit_mass_flow(
    area: Real, heat_output: Real, downward_heat_loss: Real, temperature_drop: Real
) -> Real:
    """Mass flow [kg/s] that carries the heat of ``area`` [m2] both ways [W/m2] with a drop [K].

    EN 1264-3: A q / (sigma c_W) (1 + R_o/R_u + (theta_i - theta_u)/(q R_u)), where q times the bracket is the
    heat output plus the downward heat loss.
    """
    return area * (heat_output + downward_heat_loss) / (temperature_drop * WATER_HEAT_CAPACITY)
