"""How long the rings of a piece are at spacings near to one at which they are known.

Rings a little closer or wider are those that are known, shrunk by a little: one offset of all at once stands for
laying them out anew. Where pieces are narrow a ring more or less comes out as it would be laid.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from ...plan.counterflow.rings import LevelSets, level_sets
from ...plan.counterflow.rough_rings import offset_rings, rough_level_sets
from ...plan.counterflow.spacing_fit import Scales
from ...plan.outlines.pipe_zone import PipeZone

__all__ = ["RingLengths"]


class RingLengths:
    """Of all rings in a zone at a pair of scales of the spacing, and with both stretched alike; less what bends cut
    short."""

    def __init__(self, zone: PipeZone, pipe_spacing: float, bend_radius: float, scales: Scales) -> None:
        self._zone, self._spacing, self._radius, self._scales = zone, pipe_spacing, bend_radius, scales
        self._levels = self._laid_out(level_sets, 1.0)
        self._lengths: dict[float, float] = {1.0: self._length(self._levels)}

    def at(self, factor: float) -> float:
        """Length [m] at the scales times a factor."""
        if factor not in self._lengths:
            self._lengths[factor] = self._stretched(factor)
        return self._lengths[factor]

    def _stretched(self, factor: float) -> float:
        if not self._levels:
            return self._length(self._laid_out(level_sets, factor))
        if self._zone.voids:
            # What is passed over by some rings and cut out of others is not told by an offset of rings.
            here, there = (self._length(self._laid_out(rough_level_sets, at)) for at in (1.0, factor))
            return self._lengths[1.0] * there / here
        return self._length(self._shrunk(factor))

    def _laid_out(self, levels: Callable[[PipeZone, float], LevelSets], factor: float) -> list[MultiPolygon]:
        x, y = (factor * scale for scale in self._scales)
        sets = levels(self._zone.scaled(1.0 / x, 1.0 / y), self._spacing)
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
        around = [self._levels[at] for at in before]
        found = offset_rings(around, (depths - before) * self._spacing, spacing)
        return [part for parts in found for part in parts]

    def _length(self, levels: Sequence[shapely.Geometry]) -> float:
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
