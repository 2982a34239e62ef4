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


def sound_areas(outlines: Sequence[Sequence[Point]]) -> list[float | None]:
    """Area [m2] of each outline that ``room_outline`` would surely accept, ``None`` for any other.

    Coordinates are finite and within the limits of ``room_outline``; the polygons made here are not handed out.
    """
    found: list[float | None] = [None] * len(outlines)
    places, points, counts = [], [], []
    for place, outline in enumerate(outlines):
        corners = outline[:-1] if len(outline) > 3 and outline[0] == outline[-1] else outline
        if 3 <= len(corners) <= MAXIMUM_RING_VERTICES:
            along, across = zip(*corners, strict=True)
            low, left = min(along), min(across)
            extent = max(max(along) - low, max(across) - left)
            shortest = min(map(math.dist, (corners[-1], *corners), corners))
            if extent <= MAXIMUM_EXTENT and shortest >= LEAST_DISTANCE:
                places.append(place)
                counts.append(len(corners))
                points += [(x - low, y - left) for x, y in corners]
    if not places:
        return found
    rings = shapely.linearrings(np.array(points), indices=np.repeat(np.arange(len(counts)), counts))
    polygons = shapely.polygons(rings)
    areas = shapely.area(polygons)
    sound = shapely.is_valid(polygons) & (areas >= MINIMUM_AREA) & (areas <= MAXIMUM_AREA)
    sound &= shapely.minimum_clearance(polygons) >= LEAST_DISTANCE
    for place, area, is_sound in zip(places, areas.tolist(), sound.tolist(), strict=True):
        if is_sound:
            found[place] = area
    return found
