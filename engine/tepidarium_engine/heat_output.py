"""Heat output of a heated floor (EN 1264-2, pipes in the screed on flat insulation, type A)."""

from __future__ import annotations

from dataclasses import dataclass

from .pipe import Pipe
from .results import Caution, Finding

__all__ = ["Factors", "HeatOutputInputs", "HeatOutputResult"]


@dataclass(frozen=True, slots=True)
class HeatOutputInputs:
    """A floor and the temperatures it works between.

    ``temperature_below`` defaults to the room temperature (a heated room below), ``surface_temperature_limit`` to
    the room temperature plus 9 K (29 degC in a living room of 20 degC, 33 degC in a bathroom of 24 degC).
    """

    pipe_spacing: float
    pipe: Pipe
    screed_cover: float
    resistance_below: float
    supply_temperature: float
    return_temperature: float
    screed_conductivity: float = 1.2
    covering_resistance: float = 0.1
    room_temperature: float = 20.0
    temperature_below: float | None = None
    surface_temperature_limit: float | None = None


@dataclass(frozen=True, slots=True)
class Factors:
    """The factors of EN 1264-2 in full names: B, a_B, a_T, m_T, a_U, m_U, a_D, m_D, then B_G, n_G, phi, f_G."""

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
class HeatOutputResult:
    """What the floor gives [W/m2] at its temperatures [degC], and where its surface reaches the limit.

    ``heat_output`` is not cut off at ``limit_heat_output``: a floor beyond the limit carries a finding.
    ``total_heat_output`` is what the water gives off upwards and downwards.
    """

    heat_output: float
    heat_transmittance: float
    mean_excess_temperature: float
    mean_surface_temperature: float
    limit_heat_output: float
    limit_excess_temperature: float
    heat_output_margin: float
    maximum_heat_output: float
    downward_heat_loss: float
    total_heat_output: float
    factors: Factors
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
