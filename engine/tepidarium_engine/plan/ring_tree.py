"""How rings lie in each other, and the free floor between a ring and those inside it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import Polygon

from ..checking import Point
from ..elementwise import Array
from .regions import Region, joined, minus
from .rings import LevelSets

__all__ = ["Ring", "RingTree", "ring_tree"]


@dataclass(frozen=True)
class Ring:
    """One closed curve of pipe centre line.

    ``points`` [m], one a row, counter-clockwise, the first not repeated at the end; ``positions`` [m] is the
    length along the ring at each point and, last, the whole length. ``parent`` and ``children`` are indices
    into ``RingTree.rings``; an outermost ring has no parent.
    """

    index: int
    level: int
    area: Polygon
    points: Array
    positions: Array
    parent: int | None
    children: tuple[int, ...]

    @property
    def length(self) -> float:
        """Of the closed ring [m]."""
        return float(self.positions[-1])

    def at(self, position: float) -> Point:
        """The point at a length along the ring [m], counted round as often as need be."""
        position %= self.length
        index = min(int(np.searchsorted(self.positions, position, side="right")) - 1, len(self.points) - 1)
        start, end = self.points[index], self.points[(index + 1) % len(self.points)]
        share = (position - self.positions[index]) / (self.positions[index + 1] - self.positions[index])
        x, y = start + share * (end - start)
        return float(x), float(y)

    def project(self, point: Point) -> float:
        """Length along the ring [m], from 0 up to its length, of the ring's point nearest to ``point``."""
        steps = np.roll(self.points, -1, axis=0) - self.points
        lengths = np.diff(self.positions)
        offsets = np.asarray(point) - self.points
        along = np.clip((offsets * steps).sum(axis=1) / lengths**2, 0.0, 1.0)
        apart = offsets - along[:, None] * steps
        nearest = int(np.argmin((apart * apart).sum(axis=1)))
        return float(self.positions[nearest] + along[nearest] * lengths[nearest]) % self.length


@dataclass(frozen=True)
class RingTree:
    """Rings from the outermost inwards: a parent stands before its children."""

    level_sets: LevelSets
    rings: tuple[Ring, ...]

    @cached_property
    def outermost(self) -> tuple[int, ...]:
        return tuple(ring.index for ring in self.rings if ring.parent is None)

    @cached_property
    def _voids(self) -> Region:
        return joined(self.level_sets.voids)

    def zone(self, ring: int | None) -> Region:
        """Where pipe may pass from a ring to those inside it: the ring's inside less its children's and less
        all grown voids. ``None`` asks for what lies round the outermost rings."""
        inner = self.outermost if ring is None else self.rings[ring].children
        whole = joined(self.level_sets.domain) if ring is None else self.rings[ring].area
        return minus(minus(whole, joined(self.rings[index].area for index in inner)), self._voids)


def ring_tree(sets: LevelSets) -> RingTree:
    """The rings of level sets; the parent of a ring is the part of the level before that contains it."""
    areas = [(level.index, part) for level in sets.levels for part in level.parts]
    first_of = np.cumsum([0, *(len(level.parts) for level in sets.levels)])
    parents = [_parent(part, level, first_of, areas) for level, part in areas]
    rings = []
    for index, (level, part) in enumerate(areas):
        points: Array = shapely.get_coordinates(shapely.orient_polygons(part).exterior)[:-1]
        steps = np.roll(points, -1, axis=0) - points
        positions = np.concatenate(([0.0], np.cumsum(np.hypot(steps[:, 0], steps[:, 1]))))
        children = tuple(child for child, parent in enumerate(parents) if parent == index)
        rings.append(Ring(index, level, part, points, positions, parents[index], children))
    return RingTree(sets, tuple(rings))


def _parent(part: Polygon, level: int, first_of: Array, areas: list[tuple[int, Polygon]]) -> int | None:
    if level == 0:
        return None
    inside = shapely.point_on_surface(part)
    candidates = range(int(first_of[level - 1]), int(first_of[level]))
    return next(index for index in candidates if shapely.contains(areas[index][1], inside))
