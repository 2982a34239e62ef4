"""Temperatures along the floor between two pipes."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from ..elementwise import Array
from .bay import Case
from .records import ProfilePoint

__all__ = ["surface_profiles"]

_STEPS = 20


def surface_profiles(case: Case, room: float) -> tuple[tuple[ProfilePoint, ...], tuple[float, ...]]:
    """The surface by distance from the pipe's axis to midway to the next, and below the covering [degC]."""
    bay, up = case.bay, case.mix("up")
    mean = room + up * bay.surface_resistance
    # The covering is a thin resistance: each wave falls across it as the mean does.
    across = 1.0 + bay.covering_resistance / bay.surface_resistance
    surface = _sums(_waves(case))
    points = tuple(
        ProfilePoint(bay.spacing / 2.0 * step / _STEPS, mean + value) for step, value in enumerate(surface)
    )
    under = room + up * (bay.surface_resistance + bay.covering_resistance)
    return points, tuple(under + across * value for value in surface)


def _waves(case: Case) -> Array:
    return case.water_excess * case.water.surface_waves + case.excess_below * case.below.surface_waves


@lru_cache(maxsize=1)
def _cosines() -> Array:
    return np.array([math.cos(math.pi * step / _STEPS) for step in range(2 * _STEPS)])


def _sums(waves: Array) -> list[float]:
    number = np.arange(1, len(waves) + 1)
    return [float((waves * _cosines()[(number * step) % (2 * _STEPS)]).sum()) for step in range(_STEPS + 1)]
