"""Directions given in degrees."""

from __future__ import annotations

from cmath import rect

from .marks import Paper

__all__ = ["turned"]

HALF_TURN = 3.141592653589793


def turned(place: Paper, degrees: float) -> Paper:
    """A place on paper, turned clockwise round (0, 0)."""
    moved = complex(*place) * rect(1.0, degrees * HALF_TURN / 180.0)
    return (moved.real, moved.imag)
