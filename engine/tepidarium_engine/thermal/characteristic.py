"""Characteristic curve of a heated floor (EN 1264-2: pipes in the screed, types A and C) and its
surroundings.

Every formula stands here once and serves a float and an array.
"""

from __future__ import annotations

import math
from typing import Generic, NamedTuple

from ..elementwise import Real, log1p, maximum, minimum, power
from ..pipe import Pipe
from . import tables

__all__ = [
    "GREATEST_COVERING",
    "GREATEST_DIAMETER",
    "LEAST_COVER",
    "LEAST_SPACING",
    "SURFACE_COEFFICIENT",
    "WIDEST_SPACING",
    "Characteristic",
    "basic_heat_output",
    "characteristic",
    "downward_heat_loss",
    "embedded_diameter",
    "mean_excess_temperature",
    "mean_surface_temperature",
    "resistance_above",
    "wall_resistance_difference",
]

SURFACE_COEFFICIENT = 10.8
"""Heat transfer from the floor surface [W/(m2.K)] within the resistances (EN 1264-2)."""
LEAST_SPACING = tables.SPACING.entries[0]
"""Closest spacing of the method [m]."""
WIDEST_SPACING = tables.SPACING.entries[-1]
"""Widest spacing of the tables [m]; beyond it the output falls in proportion."""
GREATEST_COVERING = tables.COVERING.entries[-1]
"""Highest resistance of a covering in the tables [m2.K/W]."""
LEAST_COVER = 0.010
"""Thinnest screed cover of the method [m]."""
GREATEST_DIAMETER = 0.030
"""Thickest pipe of the method, sheath included [m]."""

_BASIC_COEFFICIENT, _BASIC_EXPONENT = 8.92, 1.1
_REFERENCE_COVER, _REFERENCE_SCREED = 0.045, 1.0
_REFERENCE_SYSTEM, _REFERENCE_WALL, _REFERENCE_PIPE = 6.7, 0.002, 0.35


class Characteristic(NamedTuple, Generic[Real]):
    """Factors and slope of heat output over mean excess temperature."""

    system_coefficient: Real
    covering_factor: Real
    spacing_factor: Real
    spacing_exponent: Real
    cover_factor: Real
    cover_exponent: Real
    diameter_factor: Real
    diameter_exponent: float
    spacing_ratio: Real
    """0.375 m over the spacing beyond 0.375 m, else 1."""
    added_resistance: Real
    """Cover and covering beyond the tables [m2.K/W], in series with the rest."""
    heat_transmittance: Real
    """K_H [W/(m2.K)]."""


def embedded_diameter(pipe: Pipe) -> float:
    """Outside diameter in the screed [m], a sheath included."""
    return pipe.outside_diameter if pipe.sheath_diameter is None else pipe.sheath_diameter


def wall_resistance_difference(pipe: Pipe) -> float:
    """Resistance of wall and sheath over 2 pi, minus that of the reference pipe of the same outside diameter
    (0.35 W/(m.K), 2 mm) [m.K/W]. EN 1264-2, influence of the pipe material and of a sheath."""
    outside, diameter = pipe.outside_diameter, embedded_diameter(pipe)
    wall = math.log(outside / (outside - 2.0 * pipe.wall_thickness)) / (2.0 * pipe.thermal_conductivity)
    reference = math.log(diameter / (diameter - 2.0 * _REFERENCE_WALL)) / (2.0 * _REFERENCE_PIPE)
    if pipe.sheath_conductivity is None:
        return wall - reference
    return math.log(diameter / outside) / (2.0 * pipe.sheath_conductivity) + wall - reference


def characteristic(
    pipe_spacing: Real,
    pipe: Pipe,
    screed_cover: Real,
    screed_conductivity: Real,
    covering_resistance: Real,
) -> Characteristic[Real]:
    """Slope of the characteristic curve, EN 1264-2 for type A.

    The cover beyond the one that still spreads the heat (0.100 m, or half a spacing above 0.200 m) is added
    in series as the standard has it. A covering beyond 0.15 m2.K/W is added the same way, which the
    standard does not cover; a diameter beyond 0.030 m is taken as 0.030 m. Callers report both.
    """
    spacing = minimum(pipe_spacing, WIDEST_SPACING)
    cover = minimum(screed_cover, maximum(0.5 * spacing, 0.100))
    covering = minimum(covering_resistance, GREATEST_COVERING)
    row, column = tables.SPACING.place(spacing), tables.COVERING.place(covering)

    film = 1.0 / SURFACE_COEFFICIENT
    a_B = (film + _REFERENCE_COVER / _REFERENCE_SCREED) / (
        film + _REFERENCE_COVER / screed_conductivity + covering
    )
    a_T = tables.SPACING_FACTOR.at(column)
    a_U = tables.COVER_FACTOR.at(row, column)
    a_D = tables.DIAMETER_FACTOR.at(row, column)
    m_T = 1.0 - spacing / 0.075
    m_U = 100.0 * (0.045 - cover)
    m_D = 250.0 * (min(embedded_diameter(pipe), GREATEST_DIAMETER) - 0.020)
    product = a_B * power(a_T, m_T) * power(a_U, m_U) * power(a_D, m_D)

    B = _REFERENCE_SYSTEM / (
        1.0 + _REFERENCE_SYSTEM * (1.1 / math.pi) * product * spacing * wall_resistance_difference(pipe)
    )
    added = (screed_cover - cover) / screed_conductivity + (covering_resistance - covering)
    ratio = spacing / pipe_spacing
    slope = B * product
    return Characteristic(
        B, a_B, a_T, m_T, a_U, m_U, a_D, m_D, ratio, added, slope / (1.0 + slope * added) * ratio
    )


def mean_excess_temperature(supply: Real, return_: Real, room: Real) -> Real:
    """Logarithmic mean of the water's excess over the room [K]; needs supply > return > room. EN 1264-2."""
    drop = supply - return_
    return drop / log1p(drop / (return_ - room))


def basic_heat_output(surface_excess: Real) -> Real:
    """Heat output [W/m2] of any floor whose surface lies ``surface_excess`` [K] above the room: the basic
    characteristic curve, EN 1264-2. Needs an excess of at least 0."""
    return _BASIC_COEFFICIENT * power(surface_excess, _BASIC_EXPONENT)


def mean_surface_temperature(heat_output: Real, room: Real) -> Real:
    """Mean surface temperature [degC] by the basic characteristic curve, EN 1264-2; needs an output >= 0."""
    return room + power(heat_output / _BASIC_COEFFICIENT, 1.0 / _BASIC_EXPONENT)


def resistance_above(screed_cover: Real, screed_conductivity: Real, covering_resistance: Real) -> Real:
    """R_o, from the pipes up to the room [m2.K/W]: surface, covering and screed. EN 1264-2 and EN 1264-3."""
    return 1.0 / SURFACE_COEFFICIENT + covering_resistance + screed_cover / screed_conductivity


def downward_heat_loss(
    heat_output: Real, above: Real, below: Real, room_temperature: Real, temperature_below: Real
) -> Real:
    """q_u [W/m2]: what flows down through ``below`` [m2.K/W] while ``heat_output`` flows up through
    ``above``. Negative when it is warm enough below. EN 1264-2 and EN 1264-3."""
    return (above * heat_output + room_temperature - temperature_below) / below
