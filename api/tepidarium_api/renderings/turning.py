"""Places turned round others."""

from __future__ import annotations

from cmath import rect

from .marks import Paper

__all__ = ["DEGREE", "turned"]

DEGREE = 3.141592653589793 / 180.0
"""In radians."""


def turned(place: Paper, angle: float) -> Paper:
    """A place on paper, turned clockwise round (0, 0) by an angle [rad]."""
    moved = complex(*place) * rect(1.0, angle)
    return (moved.real, moved.imag)
