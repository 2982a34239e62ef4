"""Limits of the heating water, and what keeps it from drinking water."""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

from ..water.inputs import Fluid
from .commissioning_outcome import BackflowProtection, WaterLimits
from .commissioning_records import WaterSide

__all__ = ["backflow_protection", "hardness_limit", "water_limits"]

_SPECIFIC_LIMITS = (20e-6, 40e-6)
"""Volume over output at which the limits change [m3/W]: 20 and 40 l/kW."""


class _HardnessRow(NamedTuple):
    """Up to an output [W]: limits of alkaline earths [mol/m3] by specific volume, None: no limit."""

    up_to: float
    limits: tuple[float | None, float | None, float | None]


_SOURCE = "VDI 2035 Part 1:2021, value from memory"
_HARDNESS: dict[Literal["usual", "small_content"], tuple[_HardnessRow, ...]] = {
    "usual": (_HardnessRow(50_000.0, (None, 1.5, 0.05)),),
    "small_content": (_HardnessRow(50_000.0, (3.0, 1.5, 0.05)),),
}
_LARGER = (
    _HardnessRow(200_000.0, (2.0, 1.0, 0.05)),
    _HardnessRow(600_000.0, (1.5, 0.05, 0.05)),
    _HardnessRow(math.inf, (0.05, 0.05, 0.05)),
)


def hardness_limit(
    kind: Literal["usual", "small_content"], output: float, specific_volume: float
) -> float | None:
    """Highest sum of alkaline earths [mol/m3] for an output [W] and volume over it [m3/W]; None: no limit."""
    row = next(row for row in (*_HARDNESS[kind], *_LARGER) if output <= row.up_to)
    column = sum(specific_volume > limit for limit in _SPECIFIC_LIMITS)
    return row.limits[column]


def water_limits(side: WaterSide, system_volume: float) -> WaterLimits:
    specific = None if side.source_output is None else system_volume / side.source_output
    limit = (
        None
        if specific is None or side.source_output is None
        else hardness_limit(side.kind, side.source_output, specific)
    )
    return WaterLimits(
        specific_volume=specific,
        limited=limit is not None,
        hardness_limit=limit,
        hardness=side.hardness,
        lowest_ph=8.2,
        highest_ph=9.0 if side.aluminium else 10.0,
        low_salt_conductivity=0.01,
        highest_conductivity=0.15,
        source=_SOURCE,
    )


def backflow_protection(fluid: Fluid) -> BackflowProtection:
    """A hose put on for filling counts as a lasting connection."""
    if fluid.kind == "water":
        return BackflowProtection(3, "CA", "heating water without additives", "EN 1717, fluid categories")
    return BackflowProtection(
        4, "BA", "heating water with antifreeze or inhibitors", "EN 1717, fluid categories"
    )
