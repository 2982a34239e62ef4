"""Whether the fluid stands the frost, and how much glycol would."""

from __future__ import annotations

from functools import lru_cache

from .coefficients import GLYCOLS, GlycolSet
from .fluid import FluidModel, glycol_freezing_point
from .inputs import Fluid
from .result import FrostProtection

__all__ = ["HIGHEST_CONCENTRATION", "frost_protection", "required_concentration"]

HIGHEST_CONCENTRATION = 0.6
"""Upper end of the published property sets [1]."""

_BISECTIONS = 60


@lru_cache(maxsize=256)
def required_concentration(data: GlycolSet, temperature: float) -> float | None:
    """Least concentration whose freezing point is at or below ``temperature`` [degC].

    Never less than the start of the published set; ``None`` when even 0.6 freezes earlier.
    """
    low, high = data.minimum_concentration, HIGHEST_CONCENTRATION
    if glycol_freezing_point(data, high) > temperature:
        return None
    if glycol_freezing_point(data, low) <= temperature:
        return low
    for _ in range(_BISECTIONS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if glycol_freezing_point(data, middle) > temperature else (low, middle)
    return high


def frost_protection(
    fluid: Fluid, model: FluidModel, frost_temperature: float, system_volume: float
) -> FrostProtection:
    """Check of ``fluid`` against ``frost_temperature`` [degC] in a system of ``system_volume`` [m3]."""
    data = GLYCOLS.get((fluid.kind, fluid.basis))
    by_volume = data is not None and fluid.basis == "volume"
    return FrostProtection(
        freezing_point=model.freezing_point,
        frost_margin=frost_temperature - model.freezing_point,
        required_concentration=None if data is None else required_concentration(data, frost_temperature),
        glycol_volume=fluid.concentration * system_volume if by_volume else None,
    )
