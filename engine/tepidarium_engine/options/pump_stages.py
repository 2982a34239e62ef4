"""Which setting of a pump does for a house."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..building.objective_records import PumpStage
from ..hydraulics import Pump

__all__ = ["stage_for"]

_SAME = 1e-9


def stage_for(stages: Sequence[PumpStage], pump: Pump) -> int | None:
    """Number of the stage with the least pressure that gives what a house needs of its pump; None where none does."""
    enough = [
        (stage.pressure, place)
        for place, stage in enumerate(stages)
        if pump.pressure <= stage.pressure * (1.0 + _SAME)
        and pump.volume_flow <= (stage.maximum_volume_flow or math.inf) * (1.0 + _SAME)
    ]
    return min(enough)[1] if enough else None
