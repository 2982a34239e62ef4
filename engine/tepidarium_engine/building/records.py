"""What a design is given."""

from __future__ import annotations

from dataclasses import dataclass

from .former_records import FormerDesign
from .house_records import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignScreed,
    HeatSource,
    HouseToDesign,
    Manifold,
    Storey,
    TailInsulation,
)

__all__ = [
    "BuildUp",
    "DesignLimits",
    "DesignRoom",
    "DesignScreed",
    "DesignsInputs",
    "HeatSource",
    "HouseToDesign",
    "Manifold",
    "Storey",
    "TailInsulation",
]


@dataclass(frozen=True, slots=True)
class DesignsInputs(HouseToDesign):
    """The house, and what its design is compared with.

    ``former`` is a former answer for the same house: what it decided stays wherever that still holds, and the answer
    says what has changed.
    """

    former: FormerDesign | None = None
