"""The explicit registry of calculations."""

from __future__ import annotations

from ._base import FORMS, Calculation
from .coil_plan import COIL_PLAN
from .commissioning import COMMISSIONING
from .curing_plan import CURING_PLAN
from .designs import DESIGNS
from .floor_section import FLOOR_SECTION
from .heat_loss import HEAT_LOSS
from .heat_output import HEAT_OUTPUT
from .hydraulics import HYDRAULICS
from .insulation_check import INSULATION_CHECK
from .laying_sheets import LAYING_SHEETS
from .loop_length import LOOP_LENGTH
from .manifold_position import MANIFOLD_POSITION
from .materials import MATERIALS
from .moisture_reading import MOISTURE_READING
from .routes import ROUTES
from .supply_temperature import SUPPLY_TEMPERATURE

__all__ = ["CALCULATIONS", "FORMS", "Calculation"]

CALCULATIONS: tuple[Calculation, ...] = (
    HEAT_LOSS,
    INSULATION_CHECK,
    HEAT_OUTPUT,
    FLOOR_SECTION,
    SUPPLY_TEMPERATURE,
    CURING_PLAN,
    MOISTURE_READING,
    LOOP_LENGTH,
    ROUTES,
    MANIFOLD_POSITION,
    HYDRAULICS,
    COIL_PLAN,
    MATERIALS,
    LAYING_SHEETS,
    COMMISSIONING,
    DESIGNS,
)
