"""Where a line crosses itself."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import shapely

from ...checking import Point
from ...elementwise import Array
from ..outlines.overlays import intersection

__all__ = ["Crossing", "first_crossing"]


class Crossing(NamedTuple):
    """Chords number ``one`` and ``other`` of a line meet at ``place`` [m]."""

    one: int
    other: int
    place: Point


def first_crossing(points: Array) -> Crossing | None:
    """The first crossing along the line through ``points`` [m, shape (n, 2)], or None; touching is crossing too."""
    if shapely.is_simple(shapely.linestrings(points)):
        return None
    chords = shapely.linestrings(np.stack((points[:-1], points[1:]), axis=1))
    first, second = shapely.STRtree(chords).query(chords, predicate="intersects")
    apart = np.flatnonzero(second > first + 1)
    if len(apart):
        pick = apart[np.lexsort((second[apart], first[apart]))[0]]
        one, other = int(first[pick]), int(second[pick])
    else:  # only neighbours touch: the line doubles back on itself
        steps = np.diff(points, axis=0)
        one = int((steps[:-1] * steps[1:]).sum(axis=1).argmin())
        other = one + 1
    x, y = shapely.get_coordinates(intersection(chords[one], chords[other]))[0].tolist()
    return Crossing(one, other, (x, y))
