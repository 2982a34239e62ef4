"""The screed itself: thickness, temperature limit, drying."""

from __future__ import annotations

import math
from types import MappingProxyType
from typing import Literal

from ..elementwise import ROUND_OFF

__all__ = [
    "ABSOLUTE_COVER",
    "BINDER_NAMES",
    "BINDER_TEMPERATURE_LIMIT",
    "COMPRESSIBILITY_LIMITS",
    "FILM_LAP",
    "FILM_THICKNESS",
    "LOAD_COLUMNS",
    "NOMINAL_THICKNESS",
    "SCREED_DENSITY",
    "USUAL_THICKNESS",
    "Binder",
    "FlexuralClass",
    "compressibility_allowance",
    "compressibility_limit",
    "drying_days",
    "least_cover",
    "load_column",
    "nominal_thickness",
]

Binder = Literal["cement", "calcium_sulphate", "calcium_sulphate_flowing"]
FlexuralClass = Literal["F4", "F5", "F7"]

BINDER_NAMES = MappingProxyType(
    {
        "cement": "cement screed (CT)",
        "calcium_sulphate": "calcium sulphate screed (CA)",
        "calcium_sulphate_flowing": "flowing calcium sulphate screed (CAF)",
    }
)
"""Names for people; CT and CA as in EN 13813, CAF as in DIN 18560."""

LOAD_COLUMNS = ((2000.0, 0.0), (3000.0, 2000.0), (4000.0, 3000.0), (5000.0, 4000.0))
"""Highest load per area [N/m2] and highest single load [N] of each column of the thickness tables, DIN
18560-2."""

NOMINAL_THICKNESS = MappingProxyType(
    {
        ("cement", "F4"): (0.045, 0.065, 0.070, 0.075),
        ("cement", "F5"): (0.040, 0.055, 0.060, 0.065),
        ("calcium_sulphate", "F4"): (0.045, 0.065, 0.070, 0.075),
        ("calcium_sulphate", "F5"): (0.040, 0.055, 0.060, 0.065),
        ("calcium_sulphate", "F7"): (0.035, 0.050, 0.055, 0.060),
        ("calcium_sulphate_flowing", "F4"): (0.035, 0.050, 0.060, 0.065),
        ("calcium_sulphate_flowing", "F5"): (0.035, 0.045, 0.050, 0.055),
        ("calcium_sulphate_flowing", "F7"): (0.035, 0.040, 0.045, 0.050),
    }
)
"""Least nominal thickness [m] of floating screeds by load column, DIN 18560-2. With the pipe in the screed it
counts from the top of the pipe. One secondary print of the table gives 30 mm for CAF-F5 and F7 in the first
column; the higher figure stands here."""

COMPRESSIBILITY_LIMITS = (0.005, 0.005, 0.003, 0.003)
"""Compressibility of the insulation [m] for which each load column holds, DIN 18560-2."""

_COMPRESSIBILITY_EXTENDED = 0.010
_COMPRESSIBILITY_ALLOWANCE = 0.005

ABSOLUTE_COVER = 0.030
"""Least screed over the pipe [m] whatever the class, DIN 18560-2 (heated screeds)."""

_HEATED_COVER = MappingProxyType(
    {
        ("cement", "F4"): 0.045,
        ("calcium_sulphate", "F4"): 0.045,
        ("calcium_sulphate_flowing", "F4"): 0.040,
    }
)
"""Least screed over the pipe [m] of heated screeds of the lowest class, DIN 18560-2. For CAF-F4 the prints
disagree (40 or 45 mm)."""

FILM_THICKNESS = 0.00015
"""Least thickness of polyethylene film under a heated screed [m] (DIN 18560-2, EN 1264-4)."""
FILM_LAP = 0.08
"""Least lap of its sheets [m] (DIN 18560-2, EN 1264-4); for flowing screed the laps are taped tight."""

BINDER_TEMPERATURE_LIMIT = MappingProxyType(
    {"cement": 55.0, "calcium_sulphate": 55.0, "calcium_sulphate_flowing": 55.0}
)
"""Highest temperature at the pipes [degC], DIN 18560-2. French practice stops at 50 degC."""

USUAL_THICKNESS = (0.050, 0.065)
"""Usual whole thickness over pipe on insulation [m]; common practice, no source."""

SCREED_DENSITY = 2200.0
"""Upper usual density of cement and calcium sulphate screed [kg/m3]; makers give 2000 to 2200."""

_DRYING = MappingProxyType({"cement": 50, "calcium_sulphate": 40, "calcium_sulphate_flowing": 40})
"""Thickness [mm] up to which a screed dries by 1 mm a day; BS 8203 and BS 8204 series, as used by the
trade."""


def load_column(imposed_load: float, concentrated_load: float) -> int | None:
    """Column of the thickness tables that covers both loads [N/m2, N]; None beyond the last."""
    for column, (area_limit, point_limit) in enumerate(LOAD_COLUMNS):
        if imposed_load <= area_limit and concentrated_load <= point_limit:
            return column
    return None


def compressibility_allowance(column: int, compressibility: float) -> float:
    """Extra thickness [m] for soft insulation: 5 mm in the two lower load columns, DIN 18560-2."""
    if column < 2 and compressibility > COMPRESSIBILITY_LIMITS[column] + ROUND_OFF:
        return _COMPRESSIBILITY_ALLOWANCE
    return 0.0


def compressibility_limit(column: int) -> float:
    """Compressibility [m] up to which the table can be used at all, with or without the allowance."""
    return _COMPRESSIBILITY_EXTENDED if column < 2 else COMPRESSIBILITY_LIMITS[column]


def nominal_thickness(
    binder: Binder, flexural_class: FlexuralClass, column: int, compressibility: float
) -> float:
    """Least thickness above the pipe [m] for the load, soft insulation included.

    Cement screed of class F7 takes the figures of F5: more cement shrinks and curls more and saves nothing.
    """
    listed = "F5" if binder == "cement" and flexural_class == "F7" else flexural_class
    return NOMINAL_THICKNESS[binder, listed][column] + compressibility_allowance(column, compressibility)


def least_cover(binder: Binder, flexural_class: FlexuralClass, nominal: float) -> float:
    """Least screed over the pipe [m]: the load, the heated-screed rule and 30 mm, whichever asks most."""
    return max(nominal, _HEATED_COVER.get((binder, flexural_class), ABSOLUTE_COVER))


def drying_days(binder: Binder, thickness: float) -> int:
    """Days of drying after curing for a thickness [m]: 1 day/mm up to 50 mm (CT) or 40 mm (CA), 2 days/mm
    beyond.

    A planning value for 20 degC and at most 65 % relative humidity, unheated. Heating does not enter: it
    must never be counted on to speed the drying up (common practice, no source).
    """
    millimetres = thickness * 1000.0
    return math.ceil(millimetres + max(0.0, millimetres - _DRYING[binder]) - ROUND_OFF)
