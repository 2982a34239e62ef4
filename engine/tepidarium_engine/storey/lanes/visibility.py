"""Shortest ways over free floor, by the graph of points that see each other.

A shortest way among polygons bends at corners only (de Berg et al., Computational Geometry, 3rd ed., 15.1).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import scipy
import shapely

from ...elementwise import Array
from ...plan.outlines.regions import Region, parts_of

__all__ = ["SIGHT_TOLERANCE", "WalkGraph", "corners_of", "sees"]

SIGHT_TOLERANCE = 1e-6
"""How far a line of sight may stray out of the floor [m]: it runs along walls."""


def corners_of(floor: Region, reflex_only: bool = True) -> Array:
    """Corners [m], one a row, at which a shortest way over the floor can bend; or all corners."""
    found = []
    for part in map(shapely.orient_polygons, parts_of(floor)):
        for ring in (part.exterior, *part.interiors):
            points = shapely.get_coordinates(ring)[:-1]
            after = np.roll(points, -1, axis=0) - points
            before = np.roll(after, 1, axis=0)
            turn = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
            found.append(points[turn < 0.0] if reflex_only else points)
    return np.concatenate(found) if found else np.empty((0, 2))


def sees(floor: shapely.Geometry, starts: Array, ends: Array) -> Array:
    """Whether the straight lines between points, row by row, stay on the floor (already widened, prepared)."""
    lines = shapely.linestrings(np.stack((starts, ends), axis=1))
    seen: Array = shapely.covers(floor, lines)
    return seen


@dataclass(frozen=True, eq=False)
class WalkGraph:
    """Shortest ways over ``floor`` from ``terminals`` [m], one a row, to any point."""

    floor: Region
    terminals: Array

    @cached_property
    def widened(self) -> shapely.Geometry:
        wide = shapely.buffer(self.floor, SIGHT_TOLERANCE, join_style="mitre", quad_segs=1)
        shapely.prepare(wide)
        return wide

    @cached_property
    def nodes(self) -> Array:
        """Corners, then terminals."""
        return np.concatenate((corners_of(self.floor), self.terminals))

    @cached_property
    def to_nodes(self) -> Array:
        """Shortest ways [m] from each terminal (a row) to each node."""
        count = len(self.nodes)
        rows, columns = np.triu_indices(count, 1)
        seen = sees(self.widened, self.nodes[rows], self.nodes[columns])
        lengths = np.full((count, count), np.inf)
        apart = np.hypot(*(self.nodes[rows] - self.nodes[columns]).T)
        # A way of no length would read as no way.
        lengths[rows[seen], columns[seen]] = np.maximum(apart[seen], 1e-12)
        sources = np.arange(count - len(self.terminals), count)
        found: Array = scipy.sparse.csgraph.shortest_path(
            lengths, method="D", directed=False, indices=sources
        )
        return found

    def lengths(self, points: Array) -> Array:
        """Shortest ways [m] from each point (a row) to each terminal; infinite where there is none."""
        if self.floor is None or not len(points) or not len(self.terminals):
            return np.full((len(points), len(self.terminals)), np.inf)
        count = len(self.nodes)
        rows = np.repeat(np.arange(len(points)), count)
        columns = np.tile(np.arange(count), len(points))
        seen = sees(self.widened, points[rows], self.nodes[columns])
        apart = np.hypot(*(points[rows] - self.nodes[columns]).T)
        first = np.where(seen, apart, np.inf).reshape(len(points), count)
        found: Array = (first[:, None, :] + self.to_nodes[None, :, :]).min(axis=2)
        return found
