"""Heat output of a floor by either method, in one form."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from ..quick_records import quickly_made
from ..results import Working
from . import characteristic as curve
from .characteristic import Characteristic
from .floor import FloorSection, floor_characteristic, floor_downward_loss, floor_limit
from .limit_curves import LimitCurve
from .section_output import section_output

__all__ = [
    "Factors",
    "MethodOutput",
    "OutputByMethod",
    "Temperatures",
    "by_section",
    "by_standard",
    "section_workings",
]


class Temperatures(NamedTuple):
    """Room, below and limit of the surface [degC], and mean excess of the water over the room [K]."""

    room: float
    excess: float
    below: float
    limit: float


@quickly_made
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


@quickly_made
@dataclass(frozen=True, slots=True)
class OutputByMethod:
    """What one method says, with the heat [W/m2] and the excess of the water [K] at which the warmest spots reach the
    surface limit. EN 1264-2 knows the highest surface temperature only through its limit curves."""

    heat_output: float
    heat_transmittance: float
    downward_heat_loss: float
    mean_surface_temperature: float
    highest_surface_temperature: float | None
    limit_heat_output: float
    limit_excess_temperature: float


class MethodOutput(NamedTuple):
    """A method's numbers, and its factors if it has some."""

    shown: OutputByMethod
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
        limit_heat_output=limit.heat_output,
        limit_excess_temperature=limit.excess_temperature,
    )
    return MethodOutput(shown, _factors(slope, limit))


def by_section(floor: FloorSection, at: Temperatures) -> MethodOutput:
    """The solved section."""
    found = section_output(floor, at.room, at.excess, at.below, at.limit)
    shown = OutputByMethod(
        heat_output=found.heat_output,
        heat_transmittance=found.heat_transmittance,
        downward_heat_loss=found.downward_heat_loss,
        mean_surface_temperature=found.mean_surface_temperature,
        highest_surface_temperature=found.highest_surface_temperature,
        limit_heat_output=found.limit_heat_output,
        limit_excess_temperature=found.limit_excess_temperature,
    )
    return MethodOutput(shown, None)


def _factors(slope: Characteristic[float], limit: LimitCurve[float]) -> Factors:
    return Factors(
        *slope[:8],
        limit_coefficient=limit.coefficient,
        limit_exponent=limit.exponent,
        surface_factor=limit.surface_factor,
        wide_spacing_factor=limit.wide_spacing_factor,
    )


def section_workings(floor: FloorSection, at: Temperatures, shown: OutputByMethod) -> list[Working]:
    """How what the section says follows from its solved field and the temperatures."""
    found = section_output(floor, at.room, at.excess, at.below, at.limit)
    per_kelvin = "W/(m2.K)"
    rows = (
        ("R_p", "film and wall of the pipe", found.pipe_resistance, "m.K/W", _PIPE),
        ("K_S", "heat up per kelvin of the water", found.heat_transmittance, per_kelvin, _FIELD),
        ("K_S,u", "heat up per kelvin below", found.transmittance_from_below, per_kelvin, _FIELD),
        ("q_S", "heat output", shown.heat_output, "W/m2", f"K_S * Delta theta_H{_BELOW}"),
        ("theta_F,m,S", "mean surface temperature", shown.mean_surface_temperature, "degC", _MEAN),
        ("P_S", "warmest spot per kelvin of the water", found.peak_share, "1", _FIELD),
        ("P_S,u", "warmest spot per kelvin below", found.peak_share_from_below, "1", _FIELD),
        ("Delta theta_G,S", "excess at the surface limit", shown.limit_excess_temperature, "K", _LIMIT),
        ("q_G,S", "heat at the limit", shown.limit_heat_output, "W/m2", f"K_S * Delta theta_G,S{_BELOW}"),
    )
    return [Working(*row, "steady heat conduction in the section, solved") for row in rows]


_PIPE = "1 / (pi * d_i * h_w) + sum of ln(d_out / d_in) / (2 * pi * lambda), h_w at 0.3 m/s"
_FIELD = "field of the section with 1 K there and 0 elsewhere"
_BELOW = " + K_S,u * (theta_u - theta_i)"
_MEAN = "theta_i + q_S / 10.8"
_LIMIT = "(theta_F,max - theta_i - P_S,u * (theta_u - theta_i)) / P_S"
