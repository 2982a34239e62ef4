"""Where a plan lies: turned and moved as drawings are, in a national grid, too."""

from __future__ import annotations

import math
import random
from collections.abc import Callable

from tepidarium_engine.checking import Point

__all__ = ["Place", "any_place"]

Place = Callable[[Point], Point]

_TURNS = (0.0, 0.0, 0.0, 90.0, 180.0, 270.0, 45.0, 30.0, 0.0006, 33.333333)
_SHIFTS = ((0.0, 0.0), (0.0, 0.0), (-3.7, 12.25), (432_123.457, 5_412_345.679), (-1.9999e7, 1.9999e7))


def any_place(lot: random.Random) -> Place:
    """A turn and a shift, often none."""
    turn = lot.choice((*_TURNS, lot.uniform(0.0, 360.0)))
    c, s = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}.get(
        turn, (math.cos(math.radians(turn)), math.sin(math.radians(turn)))
    )
    dx, dy = lot.choice(_SHIFTS)
    mirrored = lot.choice((1.0, 1.0, -1.0))

    def place(point: Point) -> Point:
        x, y = mirrored * point[0], point[1]
        return (c * x - s * y + dx, s * x + c * y + dy)

    return place
