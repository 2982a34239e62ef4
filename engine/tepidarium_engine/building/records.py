"""What a design is given."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..glossary import named
from .beside_records import SeasonQuestions, SensitivityQuestions
from .former_records import FormerDesign
from .house_records import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignScreed,
    HeatSource,
    HouseToDesign,
    Manifold,
    PeripheralStrip,
    Storey,
    TailInsulation,
)
from .objective_records import DesignObjective

__all__ = [
    "BuildUp",
    "DesignLimits",
    "DesignRoom",
    "DesignScreed",
    "DesignsInputs",
    "HeatSource",
    "HouseToDesign",
    "Manifold",
    "PeripheralStrip",
    "Storey",
    "TailInsulation",
]


@dataclass(frozen=True, slots=True)
class DesignsInputs(HouseToDesign):
    """The house, and what its design is compared with.

    ``former`` is a former answer for the same house: what it decided stays wherever that still holds, and the answer
    says what has changed. ``objective`` None: the coldest supply that serves the rooms, and on it the widest spacings;
    with one the best house by area is designed completely, and answered where it is better. ``sensitivity`` and
    ``season`` ask how the design that is answered reacts to changes, and what its year comes to.
    """

    objective: DesignObjective | None = field(default=None, metadata=named("design_objective"))
    former: FormerDesign | None = None
    sensitivity: SensitivityQuestions | None = field(default=None, metadata=named("sensitivity_questions"))
    season: SeasonQuestions | None = field(default=None, metadata=named("season_questions"))
