"""How rings lie in each other, and the free floor between a ring and those inside it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import Polygon

from ..elementwise import Array
from .loops import Loop, loop_of
from .regions import Region, joined, minus
from .rings import LevelSets

__all__ = ["Ring", "RingTree", "ring_tree"]


@dataclass(frozen=True)
class Ring(Loop):
    """A loop of a level and its place among the others.

    ``parent`` and ``children`` are indices into ``RingTree.rings``; an outermost ring has no parent.
    """

    index: int
    level: int
    parent: int | None
    children: tuple[int, ...]


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
        loop = loop_of(part)
        children = tuple(child for child, parent in enumerate(parents) if parent == index)
        rings.append(Ring(loop.points, loop.positions, index, level, parents[index], children))
    return RingTree(sets, tuple(rings))


def _parent(part: Polygon, level: int, first_of: Array, areas: list[tuple[int, Polygon]]) -> int | None:
    if level == 0:
        return None
    inside = shapely.point_on_surface(part)
    candidates = range(int(first_of[level - 1]), int(first_of[level]))
    return next(index for index in candidates if shapely.contains(areas[index][1], inside))
