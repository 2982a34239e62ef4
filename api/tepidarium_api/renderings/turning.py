"""Places turned round others."""

from __future__ import annotations

from cmath import rect

__all__ = ["DEGREE", "turned"]

DEGREE = 3.141592653589793 / 180.0
"""In radians."""


def turned(place: tuple[float, float], angle: float) -> tuple[float, float]:
    """A place on paper, turned clockwise round (0, 0) by an angle [rad]."""
    moved = complex(*place) * rect(1.0, angle)
    return (moved.real, moved.imag)
