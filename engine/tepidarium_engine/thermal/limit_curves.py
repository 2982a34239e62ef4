"""Limit curves of a heated floor: where the warmest spot of its surface reaches the limit (EN 1264-2)."""

from __future__ import annotations

from typing import Generic, NamedTuple

from ..elementwise import ROUND_OFF, Real, anywhere, everywhere, exp, maximum, minimum, power, where
from . import tables
from .characteristic import WIDEST_SPACING, basic_heat_output

__all__ = [
    "SURFACE_EXCESS",
    "TABLE_SWITCH",
    "LimitCurve",
    "limit_curve",
    "limit_from_spacing",
    "limit_from_thickness",
]

TABLE_SWITCH = tables.COVER_PER_CONDUCTIVITY.entries[-1]
"""Cover over conductivity [m2.K/W] up to which Tables A.4 and A.6 hold; beyond it A.5 and A.7."""
SURFACE_EXCESS = 9.0
"""Permitted excess of the floor surface over the room [K] in occupied areas and bathrooms (EN 1264-2)."""
_MOST_AT_REFERENCE = basic_heat_output(SURFACE_EXCESS)
_SHALLOW = tables.COVER_PER_SPACING.entries[0]


class LimitCurve(NamedTuple, Generic[Real]):
    """The limit curve and its point on the characteristic curve."""

    coefficient: Real
    exponent: Real
    surface_factor: Real
    """phi: 1 at 9 K, 1.754 at 15 K."""
    maximum_heat_output: Real
    """Basic curve at the permitted surface excess [W/m2]: no floor may give more."""
    wide_spacing_factor: Real
    heat_output: Real
    """q_G [W/m2]."""
    excess_temperature: Real
    """Mean excess temperature of the water at q_G [K]."""


def limit_from_thickness(
    pipe_spacing: Real, screed_cover: Real, screed_conductivity: Real
) -> tuple[Real, Real]:
    """B_G and n_G of Tables A.4 and A.6."""
    row = tables.SPACING.place(pipe_spacing)
    column = tables.COVER_PER_CONDUCTIVITY.place(screed_cover / screed_conductivity)
    return tables.LIMIT_COEFFICIENT.at(row, column), tables.LIMIT_EXPONENT.at(row, column)


def limit_from_spacing(pipe_spacing: Real, screed_cover: Real) -> tuple[Real, Real]:
    """B_G and n_G of Tables A.5 and A.7."""
    place = tables.COVER_PER_SPACING.place(screed_cover / pipe_spacing)
    return tables.LIMIT_COEFFICIENT_THICK.at(place), tables.LIMIT_EXPONENT_THICK.at(place)


def limit_curve(
    pipe_spacing: Real,
    screed_cover: Real,
    screed_conductivity: Real,
    heat_transmittance: Real,
    surface_excess: Real,
) -> LimitCurve[Real]:
    """Limit of the floor of slope ``heat_transmittance`` [W/(m2.K)] for a permitted ``surface_excess`` [K]
    > 0.

    The interpolated tables can pass the basic curve by a little; the basic curve then holds. Beyond 0.375 m
    the limit of 0.375 m is reduced in proportion and corrected by f_G for the depth of the pipes.
    """
    spacing = minimum(pipe_spacing, WIDEST_SPACING)
    ratio = spacing / pipe_spacing
    B_G, n_G = _table_values(spacing, screed_cover, screed_conductivity)

    most = basic_heat_output(surface_excess)
    factor = most / _MOST_AT_REFERENCE
    slope = heat_transmittance / ratio
    at_table = minimum(slope * factor * power(B_G / slope, 1.0 / (1.0 - n_G)), most)

    shallow = at_table * ratio
    q_G = shallow
    wide = ratio < 1.0
    if anywhere(wide):
        depth = maximum(screed_cover / pipe_spacing - _SHALLOW, 0.0)
        deep = most - (most - shallow) * exp(-20.0 * (depth * depth))
        q_G = where(wide, where(depth > 0.0, deep, shallow), shallow)
    return LimitCurve(B_G, n_G, factor, most, q_G / shallow, q_G, q_G / heat_transmittance)


def _table_values(spacing: Real, screed_cover: Real, screed_conductivity: Real) -> tuple[Real, Real]:
    thin = screed_cover / screed_conductivity <= TABLE_SWITCH + ROUND_OFF
    if not anywhere(thin):
        return limit_from_spacing(spacing, screed_cover)
    thin_B, thin_n = limit_from_thickness(spacing, screed_cover, screed_conductivity)
    if everywhere(thin):
        return thin_B, thin_n
    thick_B, thick_n = limit_from_spacing(spacing, screed_cover)
    return where(thin, thin_B, thick_B), where(thin, thin_n, thick_n)
