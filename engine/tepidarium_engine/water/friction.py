"""Friction of a round pipe: Darcy friction factors for floats and arrays."""

from __future__ import annotations

import math

from ..elementwise import Real, anywhere, log, maximum, power, sqrt, where
from .result import Regime

__all__ = [
    "TRANSITION_END",
    "TRANSITION_START",
    "churchill",
    "churchill_with_slope",
    "colebrook",
    "friction_upper",
    "laminar",
    "regime",
]

TRANSITION_START = 2000.0
"""Reynolds number from which flow may be turbulent [1]."""
TRANSITION_END = 4000.0
"""Reynolds number from which flow is turbulent [1]."""

_NEWTON_STEPS = 4


def laminar(reynolds: Real) -> Real:
    """64/Re [1] (Hagen and Poiseuille)."""
    return 64.0 / reynolds


def churchill(reynolds: Real, relative_roughness: Real) -> Real:
    """One formula for laminar, transitional and turbulent flow [1].

    Reynolds number above 0.01, relative roughness 0 to 0.05. Pressure drop rises with flow throughout.
    Source: Churchill 1977, Chemical Engineering 84 (24), 91-92.
    """
    viscous = power(7.0 / reynolds, 0.9)
    rough = _sixteenth(2.457 * log(viscous + 0.27 * relative_roughness))
    turbulent = rough + _sixteenth(37530.0 / reynolds)
    both = _twelfth(8.0 / reynolds) + 1.0 / (turbulent * sqrt(turbulent))
    return 8.0 * power(both, 1.0 / 12.0)


def churchill_with_slope(reynolds: float, relative_roughness: float) -> tuple[float, float]:
    """Churchill's factor [1] and its d ln f / d ln Re [1], for solving for the flow.

    Floats only: the search for a flow calls it often.
    """
    viscous: float = (7.0 / reynolds) ** 0.9
    inner = viscous + 0.27 * relative_roughness
    x = 2.457 * math.log(inner)
    fifteenth = x**15
    smooth = (37530.0 / reynolds) ** 16
    turbulent = fifteenth * x + smooth
    turbulent_term: float = turbulent**-1.5
    laminar_term = (8.0 / reynolds) ** 12
    both = laminar_term + turbulent_term
    fall = 2.2113 * fifteenth * viscous / inner + smooth
    slope = (2.0 * turbulent_term * fall / turbulent - laminar_term) / both
    factor: float = 8.0 * both ** (1.0 / 12.0)
    return factor, slope


def _twelfth(x: Real) -> Real:
    x = x * x * x
    x = x * x
    return x * x


def _sixteenth(x: Real) -> Real:
    """x**16 by squaring: several times faster than a power of an array; so is _twelfth."""
    x = x * x
    x = x * x
    x = x * x
    return x * x


def colebrook(reynolds: Real, relative_roughness: Real) -> Real:
    """Turbulent friction factor [1], solved by Newton's method to rounding.

    Source: Colebrook 1939. The start is near, as 1 / sqrt(f) grows about as the logarithm of the Reynolds number.
    """
    rough = relative_roughness / 3.7
    scale = 2.0 / math.log(10.0)
    x = log(reynolds)
    viscous = 2.51 / reynolds
    for _ in range(_NEWTON_STEPS):
        inner = rough + viscous * x
        x = x - (x + scale * log(inner)) / (1.0 + scale * viscous / inner)
    return 1.0 / (x * x)


def friction_upper(reynolds: Real, relative_roughness: Real) -> Real:
    """The larger of Churchill and Colebrook for Reynolds numbers of 2000 to 4000, else Churchill [1].

    In the transition zone the flow may be either, and a pump has to cope with the worse.
    """
    best = churchill(reynolds, relative_roughness)
    inside = (reynolds > TRANSITION_START) & (reynolds < TRANSITION_END)
    if not anywhere(inside):
        return best
    turbulent = colebrook(maximum(reynolds, TRANSITION_START), relative_roughness)
    return where(inside, maximum(best, turbulent), best)


def regime(reynolds: float) -> Regime:
    """Name of the flow regime."""
    if reynolds < TRANSITION_START:
        return "laminar"
    return "transitional" if reynolds < TRANSITION_END else "turbulent"
