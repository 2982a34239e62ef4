"""Heat output of a floor by either method, in one form."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from . import characteristic as curve
from .characteristic import Characteristic
from .floor import FloorSection, floor_characteristic, floor_downward_loss, floor_limit
from .limit_curves import LimitCurve
from .section_output import section_output

__all__ = ["Factors", "MethodOutput", "OutputByMethod", "Temperatures", "by_section", "by_standard"]


class Temperatures(NamedTuple):
    """Room, below and limit of the surface [degC], and mean excess of the water over the room [K]."""

    room: float
    excess: float
    below: float
    limit: float


@dataclass(frozen=True, slots=True)
class Factors:
    """The factors of EN 1264-2 in full names: B, a_B, a_T, m_T, a_U, m_U, a_D, m_D, then B_G, n_G, phi,
    f_G."""

    system_coefficient: float
    covering_factor: float
    spacing_factor: float
    spacing_exponent: float
    cover_factor: float
    cover_exponent: float
    diameter_factor: float
    diameter_exponent: float
    limit_coefficient: float
    limit_exponent: float
    surface_factor: float
    wide_spacing_factor: float


@dataclass(frozen=True, slots=True)
class OutputByMethod:
    """What one method says. EN 1264-2 knows the highest surface temperature only through its limit curves."""

    heat_output: float
    heat_transmittance: float
    downward_heat_loss: float
    mean_surface_temperature: float
    highest_surface_temperature: float | None


class MethodOutput(NamedTuple):
    """A method's numbers, its limit, and its factors if it has some."""

    shown: OutputByMethod
    limit_heat_output: float
    limit_excess_temperature: float
    factors: Factors | None


def by_standard(floor: FloorSection, at: Temperatures) -> MethodOutput:
    """The characteristic curve, the limit curve and the downward loss of EN 1264-2."""
    slope = floor_characteristic(floor)
    limit = floor_limit(floor, slope.heat_transmittance, at.limit - at.room)
    output = slope.heat_transmittance * at.excess
    shown = OutputByMethod(
        heat_output=output,
        heat_transmittance=slope.heat_transmittance,
        downward_heat_loss=floor_downward_loss(floor, output, at.room, at.below),
        mean_surface_temperature=curve.mean_surface_temperature(output, at.room),
        highest_surface_temperature=None,
    )
    return MethodOutput(shown, limit.heat_output, limit.excess_temperature, _factors(slope, limit))


def by_section(floor: FloorSection, at: Temperatures) -> MethodOutput:
    """The solved section."""
    found = section_output(floor, at.room, at.excess, at.below, at.limit)
    shown = OutputByMethod(
        heat_output=found.heat_output,
        heat_transmittance=found.heat_transmittance,
        downward_heat_loss=found.downward_heat_loss,
        mean_surface_temperature=found.mean_surface_temperature,
        highest_surface_temperature=found.highest_surface_temperature,
    )
    return MethodOutput(shown, found.limit_heat_output, found.limit_excess_temperature, None)


def _factors(slope: Characteristic, limit: LimitCurve) -> Factors:
    return Factors(
        *slope[:8],
        limit_coefficient=limit.coefficient,
        limit_exponent=limit.exponent,
        surface_factor=limit.surface_factor,
        wide_spacing_factor=limit.wide_spacing_factor,
    )
