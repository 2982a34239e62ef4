"""What a curing plan is asked with, and what it answers."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field

from ..glossary import named
from ..results import Caution, Finding
from .coverings import Covering, MoistureLimit
from .curing_stages import CuringStage, ProgrammeDay
from .heat_up import MakerRules, RuleSet
from .screed import Binder, FlexuralClass

__all__ = ["CuringPlanInputs", "CuringPlanResult"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CuringPlanInputs:
    """A heated screed and the day of its pour.

    ``thickness`` [m] counts from the insulation to the surface, pipe included. ``start_temperature``
    [degC] None: 25 degC, or the maximum supply temperature if that is lower. ``concentrated_load`` [N]
    stays 0 where only the load per area is demanded. ``lowest_air_temperature`` [degC] is that at the
    floor until handover.
    """

    binder: Binder
    thickness: float = field(metadata=named("screed_thickness"))
    pour_date: datetime.date
    maximum_supply_temperature: float
    covering: Covering
    flexural_class: FlexuralClass = "F4"
    pipe_outside_diameter: float = field(default=0.016, metadata=named("outside_diameter"))
    imposed_load: float = 2000.0
    concentrated_load: float = 0.0
    insulation_compressibility: float = 0.005
    rule_set: RuleSet = "standard"
    maker_rules: MakerRules | None = None
    start_temperature: float | None = None
    maturity_heating: bool = False
    planned_heating_date: datetime.date | None = None
    planned_covering_date: datetime.date | None = None
    lowest_air_temperature: float | None = None
    room_areas: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class CuringPlanResult:
    """Thicknesses [m], temperatures [degC], mass [kg/m2] and dates of the plan.

    ``nominal_thickness`` is that of the table for the load; ``minimum_screed_cover`` the most that any
    rule asks over the pipe; ``minimum_thickness`` that plus the pipe.
    ``film_thickness`` and ``film_lap`` [m] are the least that the film on the insulation must have before the
    pour (EN 1264-4, DIN 18560-2). ``earliest_covering`` is for
    planning: only a moisture measurement releases the floor. ``highest_supply_temperature`` is the
    design's maximum, or the screed's limit if that is lower (then a finding says so).
    """

    earliest_heating: datetime.date
    earliest_covering: datetime.date
    stages: tuple[CuringStage, ...]
    daily_programme: tuple[ProgrammeDay, ...]
    screed_cover: float
    nominal_thickness: float
    minimum_screed_cover: float
    minimum_thickness: float
    screed_mass: float
    film_thickness: float
    film_lap: float
    highest_supply_temperature: float
    binder_temperature_limit: float
    surface_temperature_limit: float
    drying_days: int
    moisture_limit: MoistureLimit
    test_points: tuple[int, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
