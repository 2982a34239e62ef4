"""Outlines at the limits of what is taken: many corners, many steps, serpentines of close pipe."""

from __future__ import annotations

import math

from .case import RoomCase, room
from .shapes import box, rectangle, regular, staircase, walls

__all__ = ["HARD"]


def _zigzag(corners: int, inner: float, outer: float) -> tuple[tuple[float, float], ...]:
    """A star with as many tips as half the corners."""
    places = []
    for index in range(corners):
        angle, away = 2.0 * math.pi * index / corners, outer if index % 2 else inner
        places.append((round(away * math.cos(angle), 4), round(away * math.sin(angle), 4)))
    return tuple(places)


HARD: tuple[RoomCase, ...] = (
    room("circle of 256 corners", "hard", regular(256, 3.1), (0.0, -3.1), (150, 16)),
    room("circle of 256 corners at 100 mm", "hard", regular(256, 3.0), (0.0, -3.0), (100, 16), radius=0.08),
    room("star of 252 corners", "hard", _zigzag(252, 2.6, 3.2), (2.6, 0.0), (150, 16)),
    room("deep star of 252 corners", "hard", _zigzag(252, 1.6, 3.4), (1.6, 0.0), (150, 16)),
    room("star of 24 corners", "hard", _zigzag(24, 2.0, 3.6), (2.0, 0.0), (100, 14)),
    room("staircase of 120 steps", "hard", staircase(120, 0.05, 0.03, 1.5), (3.0, 0.0), (150, 16)),
    room("staircase of 30 steps", "hard", staircase(30, 0.2, 0.12, 1.5), (3.0, 0.0), (100, 16), radius=0.08),
    room(
        "saw of 60 teeth",
        "hard",
        (*[(0.1 * i, 4.0 + 0.1 * (i % 2)) for i in range(60, -1, -1)], (0.0, 0.0), (6.0, 0.0)),
        (3.0, 0.0),
        (150, 16),
    ),
    room("wide star of 120 corners", "hard", _zigzag(120, 2.4, 6.0), (2.4, 0.0), (150, 16)),
    room(
        "15 m2 at 100 mm with a void",
        "hard",
        walls(4.7, 2.8, -1.5, 1.4, -3.2),
        (2.2, 0.0),
        (100, 16),
        box(1.3, 2.4, 0.7, 0.6),
        radius=0.08,
    ),
    room("15 m2 at 100 mm, stiff", "hard", rectangle(5.0, 3.0), (1.0, 0.0), (100, 16), radius=0.08),
    room("15 m2 at 100 mm", "hard", rectangle(4.3, 3.5), (0.0, 1.0), (100, 20), radius=0.1),
    room("hall of 100 m2 at 100 mm", "hard", rectangle(12.0, 8.3), (6.0, 0.0), (100, 14)),
    room("hall of 100 m2 at 100 mm, stiff", "hard", rectangle(12.0, 8.3), (6.0, 0.0), (100, 16), radius=0.08),
)
