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
    """The surface by distance from the pipe's axis to midway to the next, and the top face of the screed there
    [degC]."""
    bay = case.bay
    mean, under = room + case.mix("up") * bay.surface_resistance, room + case.mix("top")
    water, below = case.water_excess, case.excess_below
    surface = _sums(water * case.water.surface_waves + below * case.below.surface_waves)
    face = _sums(water * case.water.top_waves + below * case.below.top_waves)
    points = tuple(
        ProfilePoint(bay.spacing / 2.0 * step / _STEPS, mean + value) for step, value in enumerate(surface)
    )
    return points, tuple(under + value for value in face)


@lru_cache(maxsize=8)
def _cosines(count: int) -> Array:
    """Of the first ``count`` waves (columns) at the places of the profile (rows)."""
    turn = np.array([math.cos(math.pi * step / _STEPS) for step in range(2 * _STEPS)])
    places, numbers = np.arange(_STEPS + 1), np.arange(1, count + 1)
    found: Array = turn[places[:, None] * numbers % (2 * _STEPS)]
    return found


def _sums(waves: Array) -> list[float]:
    return [float(value) for value in (waves * _cosines(len(waves))).sum(axis=1)]
