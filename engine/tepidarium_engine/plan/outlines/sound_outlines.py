"""Many outlines at once: the areas of those that are sound. The others are for ``room_outline`` to look at."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely

from ...places import Point
from ..tolerances import LEAST_DISTANCE
from .polygons import MAXIMUM_AREA, MAXIMUM_EXTENT, MAXIMUM_RING_VERTICES, MINIMUM_AREA

__all__ = ["sound_areas"]


_FEW = 8
"""So many corners are compared with each other here: faster than what the geometry library does with them."""


def sound_areas(outlines: Sequence[Sequence[Point]]) -> list[float | None]:
    """Area [m2] of each outline that ``room_outline`` would surely accept, ``None`` for any other.

    Coordinates are finite and within the limits of ``room_outline``; the polygons made here are not handed out.
    """
    found: list[float | None] = [None] * len(outlines)
    asked = []
    for place, outline in enumerate(outlines):
        corners = outline[:-1] if len(outline) > 3 and outline[0] == outline[-1] else outline
        if not 3 <= len(corners) <= MAXIMUM_RING_VERTICES:
            continue
        along, across = zip(*corners, strict=True)
        low, left = min(along), min(across)
        extent = max(max(along) - low, max(across) - left)
        shortest = min(map(math.dist, (corners[-1], *corners), corners))
        ring = [(x - low, y - left) for x, y in corners]
        area = _area(ring)
        if extent <= MAXIMUM_EXTENT and shortest >= LEAST_DISTANCE and MINIMUM_AREA <= area <= MAXIMUM_AREA:
            if len(ring) <= _FEW and _is_convex(ring):
                found[place] = area
            else:
                asked.append((place, ring, area))
    if asked:
        for (place, _, area), is_sound in zip(asked, _are_sound([ring for _, ring, _ in asked]), strict=True):
            if is_sound:
                found[place] = area
    return found


def _area(corners: Sequence[Point]) -> float:
    """Between the corners [m2], with the roundings of the geometry library."""
    first, twice = corners[0][0], 0.0
    for (_, before), (x, _), (_, after) in zip(
        corners, corners[1:], (*corners[2:], corners[0]), strict=False
    ):
        twice += (x - first) * (before - after)
    return abs(twice / 2.0)


def _is_convex(corners: Sequence[Point]) -> bool:
    """Whether all corners lie on one side of each edge, and ``LEAST_DISTANCE`` off its line at least: such a ring is
    sound."""
    count, twice = len(corners), (*corners, *corners)
    for number, (x, y) in enumerate(corners):
        along, across = twice[number + 1][0] - x, twice[number + 1][1] - y
        sides = [along * (v - y) - across * (u - x) for u, v in twice[number + 2 : number + count]]
        if max(min(sides), -max(sides)) < LEAST_DISTANCE * math.hypot(along, across):
            return False
    return True


def _are_sound(rings: Sequence[Sequence[Point]]) -> list[bool]:
    """Whether the polygons in the rings are valid and nowhere narrower than ``LEAST_DISTANCE``."""
    points = np.array([point for ring in rings for point in ring])
    polygons = shapely.polygons(
        shapely.linearrings(points, indices=np.repeat(np.arange(len(rings)), list(map(len, rings))))
    )
    sound: list[bool] = (
        shapely.is_valid(polygons) & (shapely.minimum_clearance(polygons) >= LEAST_DISTANCE)
    ).tolist()
    return sound
