"""Which pipe spacings can be laid with which pipe: one rule for what refuses a spacing and for what chooses one."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

import shapely
from shapely import Polygon

from ..judging.route_faults import LEAST_PIPE_DISTANCE
from .ways import Pattern

__all__ = [
    "LARGEST_BEND_SHARE",
    "bends_fit",
    "largest_bend",
    "least_spacing",
    "millimetres_up",
    "pair_fits",
    "pair_width",
]

LARGEST_BEND_SHARE: Mapping[Pattern, float] = MappingProxyType({"counterflow": 1.1, "serpentine": 1.1})
"""Greatest bend radius by pattern, in spacings: beyond it turns would touch their neighbours."""
_ROUNDING = 1e-9


def largest_bend(pipe_spacing: float, pattern: Pattern) -> float:
    """Greatest bend radius [m] that can be laid at a spacing [m]."""
    return LARGEST_BEND_SHARE[pattern] * pipe_spacing


def least_spacing(bend_radius: float, pattern: Pattern) -> float:
    """Closest spacing [m] at which a bend radius [m] can be laid."""
    return bend_radius / LARGEST_BEND_SHARE[pattern]


def bends_fit(bend_radius: float, pipe_spacing: float, pattern: Pattern) -> bool:
    """Whether bends of this radius [m] can be laid at the spacing [m]."""
    return bend_radius <= largest_bend(pipe_spacing, pattern) * (1.0 + _ROUNDING)


def pair_width(pipe_spacing: float, wall_clearance: float) -> float:
    """Clear width [m] that pipe there and back takes, as near to each other as pipes may come anywhere."""
    return 2.0 * wall_clearance + LEAST_PIPE_DISTANCE * pipe_spacing


def pair_fits(room: Polygon, pipe_spacing: float, wall_clearance: float) -> bool:
    """Whether pipe there and back fits in where a room is widest; lengths in metres."""
    return not shapely.buffer(room, -pair_width(pipe_spacing, wall_clearance) / 2.0).is_empty


def millimetres_up(length: float) -> int:
    """A least length [m] in whole millimetres, rounded up."""
    return math.ceil(length * 1000.0 - 1e-6)
