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
    "standard_drop_on_supply",
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

_NEWTON_STEPS = 100
_ROUNDING = 1e-15


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


def standard_drop_on_supply(supply: Real, mean_excess: Real) -> Real:
    """Drop [K] of a room with ``mean_excess`` [K] on a supply with the excess ``supply`` [K] by the rule of EN 1264-3.

    Twice the difference as long as that is at most half the mean excess, else the root formula, which makes
    the drop smaller by 7 % where the two meet. Zero where the supply does not reach the mean excess.
    """
    short = 2.0 * (supply - mean_excess)
    root = 3.0 * mean_excess * (sqrt(1.0 + (2.0 / 3.0) * maximum(short, 0.0) / mean_excess) - 1.0)
    return where(short / mean_excess <= 0.5, maximum(short, 0.0), root)


def drop_on_supply(supply: float, mean_excess: float, lost_share: float = 0.0) -> float:
    """The same drop [K] by the logarithmic mean of EN 1264-2, exact.

    With ``lost_share`` [1] the water reaches the floor colder than ``supply`` by that share of the drop. Zero where the
    supply does not reach the mean excess.
    """
    reach = supply / mean_excess
    if reach <= 1.0:
        return 0.0
    # With x = drop / mean excess: lost_share x + x / (1 - exp(-x)) = reach. The left side rises and bends upwards, so
    # that Newton's method comes down to the root from any start beyond it.
    x = reach / (1.0 + lost_share)
    for _ in range(_NEWTON_STEPS):
        fading = math.exp(-x)
        over = x / -math.expm1(-x)
        step = (lost_share * x + over - reach) / (lost_share + over / x * (1.0 - over * fading))
        x -= step
        if step <= _ROUNDING * x:
            break
    return max(x, 0.0) * mean_excess


def circuit_mass_flow(
    area: Real, heat_output: Real, downward_heat_loss: Real, temperature_drop: Real
) -> Real:
    """Mass flow [kg/s] that carries the heat of ``area`` [m2] both ways [W/m2] with a drop [K].

    EN 1264-3: A q / (sigma c_W) (1 + R_o/R_u + (theta_i - theta_u)/(q R_u)), where q times the bracket is the
    heat output plus the downward heat loss.
    """
    return area * (heat_output + downward_heat_loss) / (temperature_drop * WATER_HEAT_CAPACITY)
