"""Turns of a comb made as wide as the pipe needs: runs a little closer than that lean apart towards their turn."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...elementwise import Array
from ..outlines.regions import Region

__all__ = ["widened_turns"]

_MOST_WIDENED = 1.3
"""Greatest width of a turn in terms of the distance of its runs: neighbouring turns come nearer by as much."""
_FITS = 1e-9
_HAIR = 1e-6
"""Wider than needed by this [m]."""
_SURELY = 1.1
"""By so much more than needed are turns drawn apart in each round."""
_ROUNDS = 8
"""Runs that lean need wider turns than upright ones: by less in each round."""
_INSIDE = 1e-5
"""Corners may lie outside the area by this rounding [m]."""
_ANTIPARALLEL = math.cos(math.radians(165.0))
_SHARES = (0.5, 0.0, 1.0)
"""Of the widening by which the first of the two runs gives way; the first that finds room is taken."""


def widened_turns(outline: Polygon, bend_radius: float, area: Region) -> Polygon:
    """The outline of a comb with its turns drawn apart, where two bends do not fit into one.

    A turn is a short leg between two parallel runs. Its corners move along the leg, so that the runs lean: by
    millimetres on their whole length, where spacing is all but two bend radii.
    """
    points: Array = shapely.get_coordinates(shapely.orient_polygons(outline).exterior)[:-1].copy()
    grown = shapely.buffer(area, _INSIDE, join_style="mitre")
    shapely.prepare(grown)
    moved = False
    for _ in range(_ROUNDS):
        short = _short_turns(points, bend_radius)
        moves = [_widen(points, index, over, grown) for index, over in short]
        if not any(moves):
            break
        moved = True
    if not moved:
        return outline
    widened = Polygon(points)
    return widened if widened.is_valid else outline


def _short_turns(points: Array, bend_radius: float) -> list[tuple[int, float]]:
    """The number of each leg that is a turn, and by how much it is too short [m]."""
    legs = np.roll(points, -1, axis=0) - points
    lengths = np.hypot(legs[:, 0], legs[:, 1])
    units = legs / lengths[:, None]
    before, after = np.roll(units, 1, axis=0), np.roll(units, -1, axis=0)
    sine = before[:, 0] * units[:, 1] - before[:, 1] * units[:, 0]
    tangent = np.abs(sine) / np.maximum(1.0 + (before * units).sum(axis=1), 1e-3)  # of half the angle
    lacking = bend_radius * (tangent + np.roll(tangent, -1)) - lengths
    over = _SURELY * (lacking + _HAIR)
    turns = ((before * after).sum(axis=1) < _ANTIPARALLEL) & (sine * np.roll(sine, -1) > 0.0)
    found = turns & (lacking > _FITS) & (over <= (_MOST_WIDENED - 1.0) * lengths)
    return [(int(index), float(over[index])) for index in np.flatnonzero(found)]


def _widen(points: Array, index: int, over: float, area: Region) -> bool:
    """Move both corners of a leg apart, in place, as far as the area has room."""
    count = len(points)
    first, second = index, (index + 1) % count
    along = points[second] - points[first]
    along /= math.hypot(*along.tolist())
    old = points[first].copy(), points[second].copy()
    for share in _SHARES:
        points[first], points[second] = old[0] - share * over * along, old[1] + (1.0 - share) * over * along
        around = [points[i % count] for i in range(first - 1, first + 3)]
        if area is not None and area.covers(LineString(around)):
            return True
    points[first], points[second] = old
    return False
