"""Floor coverings: the moisture and the surface temperature that they stand, and where to measure."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from .screed import Binder

__all__ = [
    "COVERING_NAMES",
    "MOISTURE_SOURCE",
    "SURFACE_TEMPERATURE_LIMITS",
    "Covering",
    "MoistureLimit",
    "moisture_limit",
    "moisture_test_points",
]

Covering = Literal["ceramic", "natural_stone", "resilient", "carpet", "laminate", "timber"]

COVERING_NAMES = MappingProxyType(
    {
        "ceramic": "ceramic tiles",
        "natural_stone": "natural stone",
        "resilient": "resilient covering",
        "carpet": "carpet",
        "laminate": "laminate",
        "timber": "timber",
    }
)

_OCCUPIED = (29.0, "EN 1264-2, occupied area at a room temperature of 20 degC")

SURFACE_TEMPERATURE_LIMITS = MappingProxyType(
    {
        "ceramic": _OCCUPIED,
        "natural_stone": _OCCUPIED,
        "carpet": _OCCUPIED,
        "resilient": (27.0, "BS 8203, adhesive line of resilient coverings"),
        "laminate": (27.0, "common practice, no source: as for timber"),
        "timber": (27.0, "common practice, no source: makers of timber floors"),
    }
)
"""Highest floor surface temperature [degC] by covering, with its source."""

MOISTURE_SOURCE = (
    "carbide method: interface guides of the German heating and covering trades (DIN 18560-1 allows 0.5 "
    "CM-% on calcium sulphate in newer editions); relative humidity: BS 8203, timber BS 8201"
)

_CARBIDE = MappingProxyType({"cement": 0.018, "calcium_sulphate": 0.003, "calcium_sulphate_flowing": 0.003})
_HUMIDITY = MappingProxyType({"timber": 0.65})
_HUMIDITY_OTHER = 0.75


@dataclass(frozen=True, slots=True)
class MoistureLimit:
    """Residual moisture of a heated screed at which it may be covered: either method, as the site agrees.

    ``carbide_moisture`` [kg/kg] (0.018 is 1.8 CM-%), ``relative_humidity`` [1].
    """

    carbide_moisture: float
    relative_humidity: float


def moisture_limit(binder: Binder, covering: Covering) -> MoistureLimit:
    """The stricter of the published limits for heated screeds."""
    return MoistureLimit(_CARBIDE[binder], _HUMIDITY.get(covering, _HUMIDITY_OTHER))


def moisture_test_points(area: float) -> int:
    """Moisture test points of a room [m2]: 2, above 50 m2 3 for every started 200 m2; covering trades'
    guides."""
    return 2 if area <= 50.0 else 3 * math.ceil(area / 200.0)
