"""Habits of the trade about lengths of pipe: how long a circuit may be, how many fixings hold it."""

from __future__ import annotations

import math
from typing import NamedTuple

from ...pipe import Pipe

__all__ = ["LengthRule", "circuit_length_rule", "fixing_count", "laid_diameter"]


class LengthRule(NamedTuple):
    """Circuit lengths up to an outside diameter [m].

    ``usual`` serves as the limit when none is given, ``upper`` is the most that any of the sources allows.
    The length only stands for the pressure drop, which decides once it is known.
    """

    up_to_diameter: float
    usual: float
    upper: float
    source: str


_LENGTH_RULES = (
    LengthRule(0.0115, 50.0, 60.0, "Common practice, value from memory"),
    LengthRule(0.0145, 80.0, 100.0, "Common practice for 12 to 14 mm pipe (80 m); NF DTU 65.14 (100 m)"),
    LengthRule(0.0165, 100.0, 120.0, "NF DTU 65.14 (100 m); JGJ 142, clause 3 (120 m)"),
    LengthRule(0.0185, 120.0, 120.0, "Common practice; JGJ 142, clause 3 (120 m)"),
    LengthRule(math.inf, 120.0, 150.0, "NF DTU 65.14 (120 m); common practice (150 m)"),
)

_LUMP_FOR_BENDS = 1.2
"""3 fixings per metre with the bends, against 2.5 on straight pipe (common practice, no source)."""
_FIXINGS_PER_BEND = 2
"""Start and end of a right-angled bend (common practice, no source)."""


def circuit_length_rule(pipe: Pipe) -> LengthRule:
    """The usual and the upper circuit length for the pipe's outside diameter."""
    return next(rule for rule in _LENGTH_RULES if pipe.outside_diameter <= rule.up_to_diameter)


def laid_diameter(pipe: Pipe) -> float:
    """Diameter of what lies on the floor [m]: the sheath if there is one, else the pipe."""
    return pipe.outside_diameter if pipe.sheath_diameter is None else pipe.sheath_diameter


def fixing_count(pipe_length: float, fixing_distance: float, right_angle_bends: int | None = None) -> int:
    """Fixings for a length of pipe [m] with one every ``fixing_distance`` [m].

    Two more for each right-angled bend (a U-turn counts as two); without a count of bends a fifth more.
    """
    straight = pipe_length / fixing_distance
    if right_angle_bends is None:
        return _rounded_up(_LUMP_FOR_BENDS * straight)
    return _rounded_up(straight) + _FIXINGS_PER_BEND * right_angle_bends


def _rounded_up(count: float) -> int:
    return math.ceil(count - 1e-6)
