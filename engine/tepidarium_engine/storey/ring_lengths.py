"""How long the rings of a piece are at spacings near to one at which they are known.

Rings a little closer or wider are those that are known, shrunk by a little: one offset of all at once stands for
laying them out anew. Where pieces are narrow a ring more or less comes out as it would be laid.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from ..elementwise import Array
from ..plan.counterflow.rings import level_sets
from ..plan.counterflow.spacing_fit import Scales
from ..plan.outlines.pipe_zone import PipeZone
from ..plan.outlines.regions import MITRE_LIMIT

__all__ = ["RingLengths"]

_HALF_LEAST_WIDTH = 0.4
"""Half of the least width of a ring, in spacings."""
_LEAST_AREA = 0.35
"""Of a ring, in spacings squared."""
_HALF_SLIVER, _LEAST_SLIVER = 0.2, 0.6
"""Half of the least width of what is widened to a ring, in spacings, and its area in spacings squared."""
_ROUNDING = 1e-4
"""Taken off a width that fits exactly, as a share."""


class RingLengths:
    """Of all rings in a zone at a pair of scales of the spacing, and with both stretched alike; less what bends cut
    short."""

    def __init__(self, zone: PipeZone, pipe_spacing: float, bend_radius: float, scales: Scales) -> None:
        self._zone, self._spacing, self._radius, self._scales = zone, pipe_spacing, bend_radius, scales
        self._levels = self._laid_out(1.0)
        self._lengths: dict[float, float] = {1.0: self._length(self._levels)}

    def at(self, factor: float) -> float:
        """Length [m] at the scales times a factor."""
        if factor not in self._lengths:
            # What is passed over by some rings and cut out of others is not told by an offset, nor is a first ring.
            anew = self._zone.voids or not self._levels
            levels = self._laid_out(factor) if anew else self._shrunk(factor)
            self._lengths[factor] = self._length(levels)
        return self._lengths[factor]

    def _laid_out(self, factor: float) -> list[MultiPolygon]:
        x, y = (factor * scale for scale in self._scales)
        sets = level_sets(self._zone.scaled(1.0 / x, 1.0 / y), self._spacing)
        stretched = (
            (Polygon(shapely.get_coordinates(part) * factor) for part in level.parts) for level in sets.levels
        )
        return [MultiPolygon(list(parts)) for parts in stretched]

    def _shrunk(self, factor: float) -> list[shapely.Geometry]:
        """Rings at a spacing a little closer or wider, each within the one that is known before it."""
        spacing, known = factor * self._spacing, len(self._levels)
        depths = np.arange(math.ceil(known / factor - 1e-9)) * factor
        # Not from the ring at the same place, which may be a sliver that was widened.
        before = np.maximum(np.floor(depths + 1e-9).astype(int) - 1, 0)
        around, more = [self._levels[at] for at in before], (depths - before) * self._spacing
        wide, narrow = (_opened(around, more, half * spacing) for half in (_HALF_LEAST_WIDTH, _HALF_SLIVER))
        # A long sliver between rings is widened to one, but not between walls.
        slivers = shapely.area(narrow) - shapely.area(wide) > _LEAST_SLIVER * spacing**2
        slivers[0] = False
        parts = shapely.get_parts(np.where(slivers, narrow, wide))
        return list(parts[shapely.area(parts) >= _LEAST_AREA * spacing**2])

    def _length(self, levels: list[shapely.Geometry]) -> float:
        rings = shapely.get_rings(shapely.get_parts(levels))
        points, ring = shapely.get_coordinates(rings, return_index=True)
        within = ring[1:] == ring[:-1]
        steps = np.diff(points * self._scales, axis=0)[within]
        ring = ring[1:][within]
        first = np.searchsorted(ring, ring)
        after = np.arange(1, len(steps) + 1)
        last = np.append(ring[1:] != ring[:-1], True)[: len(steps)]
        after[last] = first[last]
        headings = np.arctan2(steps[:, 1], steps[:, 0])
        turns = np.abs(np.remainder(headings[after] - headings + math.pi, 2.0 * math.pi) - math.pi)
        turns = np.minimum(turns, 0.5 * math.pi)
        short = self._radius * float((2.0 * np.tan(turns / 2.0) - turns).sum())
        return max(float(np.hypot(*steps.T).sum()) - short, self._spacing)


def _opened(regions: list[MultiPolygon], depth: Array, half: float) -> Array:
    """What of regions shrunk by a depth is at least twice ``half`` [m] wide."""
    return _offset(_offset(regions, -(depth + half * (1.0 - _ROUNDING))), half)


def _offset(regions: object, distance: Array | float) -> Array:
    with np.errstate(divide="ignore", invalid="ignore"):  # the library divides while it tries a mitre
        wide: Array = shapely.buffer(regions, distance, join_style="mitre", mitre_limit=MITRE_LIMIT)
    return wide
