"""Heat transfer from the water to the wall of the pipe."""

from __future__ import annotations

import math

from ..water.fluid import WaterModel

__all__ = ["LAMINAR_END", "TURBULENT_START", "film_coefficient"]

LAMINAR_END = 2300.0
"""Reynolds number up to which flow in the pipe is laminar (Gnielinski 1995)."""
TURBULENT_START = 4000.0
"""Reynolds number from which it is fully turbulent (Gnielinski 1995)."""

_LAMINAR_NUSSELT = 4.0
"""Between 3.66 for an isothermal wall and 4.36 for an even heat flux, fully developed (Shah and London 1978)."""


def film_coefficient(velocity: float, bore: float, temperature: float) -> float:
    """Heat transfer coefficient [W/(m2.K)] of water at a mean ``velocity`` [m/s] above 0 in a ``bore`` [m].

    Laminar with a Nusselt number of 4; turbulent by Gnielinski 1976, smooth pipe with the friction factor of
    Filonenko; linear in the Reynolds number between (Gnielinski 1995). Water of 0 to 95 degC.
    """
    water = WaterModel()
    degrees = min(max(temperature, 0.0), 95.0)
    conductivity = float(water.thermal_conductivity(degrees))
    viscosity = float(water.dynamic_viscosity(degrees))
    reynolds = float(water.density(degrees)) * velocity * bore / viscosity
    prandtl = viscosity * float(water.heat_capacity(degrees)) / conductivity
    share = min(max((reynolds - LAMINAR_END) / (TURBULENT_START - LAMINAR_END), 0.0), 1.0)
    turbulent = _gnielinski(max(reynolds, TURBULENT_START), prandtl) if share > 0.0 else 0.0
    return ((1.0 - share) * _LAMINAR_NUSSELT + share * turbulent) * conductivity / bore


def _gnielinski(reynolds: float, prandtl: float) -> float:
    eighth = (1.82 * math.log10(reynolds) - 1.64) ** -2 / 8.0
    root = 12.7 * math.sqrt(eighth) * (prandtl ** (2.0 / 3.0) - 1.0)
    return float(eighth * (reynolds - 1000.0) * prandtl / (1.0 + root))
