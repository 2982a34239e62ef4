"""What is asked of a house beside its design: how the design reacts to changes, and its year."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..glossary import named
from .objective_records import EfficiencyPoint

__all__ = ["ClimateBin", "SeasonQuestions", "SensitivityQuestions"]


@dataclass(frozen=True, slots=True)
class SensitivityQuestions:
    """The changes that are looked at one at a time, as in ``DesignSensitivityInputs``."""

    covering_resistance: float = 0.15
    demand_rise: float = 0.10
    warmer_by: float = 2.0
    outside_temperature: float = field(default=-12.0, metadata=named("outside_of_design"))
    added_screed: float = 0.02
    supply_limit: float | None = field(default=35.0, metadata=named("limit_of_supply"))


@dataclass(frozen=True, slots=True)
class ClimateBin:
    """How many hours of a year the outside air has this temperature [degC]."""

    outside_temperature: float = field(metadata=named("outside_of_bin"))
    hours: float = field(metadata=named("hours_of_bin"))


@dataclass(frozen=True, slots=True)
class SeasonQuestions:
    """The year that the house is operated through, as in ``HeatingSeasonInputs``."""

    climate: tuple[ClimateBin, ...]
    outside_temperature: float = field(default=-12.0, metadata=named("outside_of_design"))
    heating_limit: float = 15.0
    exponent: float = field(default=1.0, metadata=named("curve_exponent"))
    efficiency: tuple[EfficiencyPoint, ...] = field(default=(), metadata=named("efficiency_if_known"))
