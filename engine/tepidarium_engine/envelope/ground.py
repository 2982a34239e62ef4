"""Heat lost to the ground (ISO 13370:2017).

Formulas are written once for a float and a numpy array; resistances in [m2.K/W], lengths in [m].
"""

from __future__ import annotations

import math

from ..elementwise import Real, log, maximum, minimum, where
from .records import EdgeInsulation, Shielding

__all__ = [
    "WIND_SHIELDING",
    "basement_wall_u_value",
    "characteristic_dimension",
    "edge_psi",
    "equivalent_thickness",
    "floor_u_value",
    "insulated_floor_u_value",
    "suspended_floor_u_value",
    "underfloor_transmittance",
    "whole_floor_limit",
]

WIND_SHIELDING: dict[Shielding, float] = {"sheltered": 0.02, "average": 0.05, "exposed": 0.10}
"""f_w, wind shielding factor by location, ISO 13370:2017, suspended floors."""

_AIR_BY_WIND = 1450.0
"""Heat carried off per area of opening and wind [J/(m3.K)], ISO 13370:2017, suspended floors."""


def characteristic_dimension(area: Real, exposed_perimeter: Real) -> Real:
    """B' [m] of a floor: its area over half its exposed perimeter (ISO 13370:2017, slab-on-ground floors)."""
    return area / (0.5 * exposed_perimeter)


def equivalent_thickness(wall_thickness: Real, ground_conductivity: Real, resistance: Real) -> Real:
    """d_f [m]: thickness of soil that resists as much as the floor from air to air, the wall's included.

    ``resistance`` holds both surface resistances. For a basement wall ``wall_thickness`` is 0. ISO 13370:2017,
    slab-on-ground floors.
    """
    return wall_thickness + ground_conductivity * resistance


def floor_u_value(dimension: Real, thickness: Real, ground_conductivity: Real, depth: float = 0.0) -> Real:
    """U-value [W/(m2.K)] of a floor on the ground, or ``depth`` [m] below it.

    ``dimension`` is B', ``thickness`` the equivalent thickness. ISO 13370:2017, slab-on-ground floors and heated
    basements.
    """
    total = thickness + 0.5 * depth
    spread = math.pi * dimension
    poor = 2.0 * ground_conductivity / (spread + total) * log(spread / total + 1.0)
    good = ground_conductivity / (0.457 * dimension + total)
    return where(total < dimension, poor, good)


def basement_wall_u_value(
    depth: Real, wall_thickness: Real, floor_thickness: Real, ground_conductivity: Real
) -> Real:
    """Mean U-value [W/(m2.K)] of a basement wall down to ``depth`` [m] (ISO 13370:2017, heated basements).

    ``wall_thickness`` and ``floor_thickness`` are the equivalent ones of wall and floor; a floor that resists more
    than the wall counts like the wall.
    """
    floor = minimum(floor_thickness, wall_thickness)
    part = 1.0 + 0.5 * floor / (floor + depth)
    return 2.0 * ground_conductivity / (math.pi * depth) * part * log(depth / wall_thickness + 1.0)


def edge_psi(insulation: EdgeInsulation, thickness: Real, ground_conductivity: Real) -> Real:
    """What edge insulation changes per length of edge [W/(m.K)], never above 0.

    The floor's U-value changes by twice this over B'. ``thickness`` is the floor's equivalent thickness.
    ISO 13370:2017, floors with edge insulation.
    """
    added = _added_thickness(insulation, ground_conductivity)
    extent = insulation.extent * (2.0 if insulation.placement == "vertical" else 1.0)
    ratio = log(extent / thickness + 1.0) - log(extent / (thickness + added) + 1.0)
    return -ground_conductivity / math.pi * ratio


def _added_thickness(insulation: EdgeInsulation, ground_conductivity: Real) -> Real:
    """d' [m]: soil that resists as much as the insulation more than the soil in its place."""
    resistance = insulation.thickness / insulation.thermal_conductivity
    return maximum(resistance * ground_conductivity - insulation.thickness, 0.0)


def whole_floor_limit(
    dimension: Real, thickness: Real, ground_conductivity: Real, insulation: EdgeInsulation
) -> Real:
    """U-value [W/(m2.K)] of the floor if the edge insulation lay below all of it: a strip cannot do better."""
    return floor_u_value(
        dimension, thickness + _added_thickness(insulation, ground_conductivity), ground_conductivity
    )


def insulated_floor_u_value(
    dimension: Real, thickness: Real, ground_conductivity: Real, insulation: EdgeInsulation | None
) -> Real:
    """U-value [W/(m2.K)] of a floor at ground level with its edge insulation, if any.

    For strips as wide as the floor the standard's formula falls below what insulation of the whole floor would do,
    down to negative values; that limit is kept.
    """
    plain = floor_u_value(dimension, thickness, ground_conductivity)
    if insulation is None:
        return plain
    at_the_edge = plain + 2.0 * edge_psi(insulation, thickness, ground_conductivity) / dimension
    return maximum(at_the_edge, whole_floor_limit(dimension, thickness, ground_conductivity, insulation))


def underfloor_transmittance(
    dimension: Real, *, height: Real, wall_u_value: Real, openings: Real, wind_speed: Real, shielding: Real
) -> Real:
    """U_x [W/(m2.K)]: from the space below a suspended floor to the air outside, by its walls and its openings.

    ``height`` [m] of the floor above the ground outside, ``openings`` [m2/m] per metre of perimeter, ``wind_speed``
    [m/s] at 10 m, ``shielding`` f_w. ISO 13370:2017, suspended floors.
    """
    return (
        2.0 * height * wall_u_value / dimension + _AIR_BY_WIND * openings * wind_speed * shielding / dimension
    )


def suspended_floor_u_value(floor: Real, soil: Real, outside: Real) -> Real:
    """U-value [W/(m2.K)] of a suspended floor with what lies below it: ``floor`` from air to air, ``soil`` U_g of the
    base and ``outside`` U_x. ISO 13370:2017, suspended floors."""
    return 1.0 / (1.0 / floor + 1.0 / (soil + outside))
