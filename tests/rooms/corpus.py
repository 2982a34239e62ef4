"""Invented rooms of every kind that floors have, each with another size, spacing, pipe and entry."""

from __future__ import annotations

from .case import RoomCase
from .corpus_shaped import BAYS, OBLIQUE, PLACED, ROUND
from .corpus_special import HALLS, NARROW, REFUSED, SPACINGS, VOIDS
from .corpus_straight import CORRIDORS, LEGS, NECKS, NICHES, RECTANGLES, SMALL, STAIRS

__all__ = ["CORPUS"]

CORPUS: tuple[RoomCase, ...] = (
    *RECTANGLES,
    *LEGS,
    *STAIRS,
    *CORRIDORS,
    *SMALL,
    *NECKS,
    *NICHES,
    *BAYS,
    *ROUND,
    *OBLIQUE,
    *PLACED,
    *VOIDS,
    *HALLS,
    *SPACINGS,
    *NARROW,
    *REFUSED,
)
