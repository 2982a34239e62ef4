"""The explicit registry of calculations."""

from __future__ import annotations

from dataclasses import replace
from importlib.util import find_spec

from ._base import CALENDAR, CSV, DXF, FORMS, PDF, SVG, WORKBOOK, Calculation
from .coil_plan import COIL_PLAN
from .commissioning import COMMISSIONING
from .curing_plan import CURING_PLAN
from .design_options import DESIGN_OPTIONS
from .designs import DESIGNS
from .estimates import ESTIMATES
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

__all__ = ["CALCULATIONS", "CALENDAR", "CSV", "FORMS", "SVG", "Calculation"]

_LIBRARIES = {DXF: "ezdxf", PDF: "typst", WORKBOOK: "xlsxwriter"}
"""Media type -> the library of the extra ``documents`` that makes it."""
_MISSING = {kind for kind, library in _LIBRARIES.items() if find_spec(library) is None}


def _offered(calculation: Calculation) -> Calculation:
    """Without the documents that this installation cannot make."""
    kept = {kind: make for kind, make in calculation.renderings.items() if kind not in _MISSING}
    return replace(calculation, renderings=kept, files={} if _MISSING else calculation.files)


_ALL: tuple[Calculation, ...] = (
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
    DESIGN_OPTIONS,
    ESTIMATES,
)
CALCULATIONS = tuple(map(_offered, _ALL))
