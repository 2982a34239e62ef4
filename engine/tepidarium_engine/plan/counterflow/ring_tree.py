"""How rings lie in each other, and the free floor between a ring and those inside it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely import Polygon

from ..outlines.loops import Loop, loop_of
from ..outlines.regions import Region, joined, minus
from .rings import LevelSets

__all__ = ["Ring", "RingTree", "parents_of", "ring_tree"]


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
    def lengths(self) -> tuple[float, ...]:
        """Of each ring with all rings inside it [m]."""
        lengths = [ring.length for ring in self.rings]
        for ring in reversed(self.rings):
            if ring.parent is not None:
                lengths[ring.parent] += lengths[ring.index]
        return tuple(lengths)

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
    parents = parents_of(sets)
    children: list[list[int]] = [[] for _ in areas]
    for child, parent in enumerate(parents):
        if parent is not None:
            children[parent].append(child)
    rings = []
    for index, (level, part) in enumerate(areas):
        loop = loop_of(part)
        ring = Ring(loop.points, loop.positions, index, level, parents[index], tuple(children[index]))
        rings.append(ring)
    return RingTree(sets, tuple(rings))


def parents_of(sets: LevelSets) -> list[int | None]:
    """For each part, counted through all levels, the number of the one it lies in; ``None`` on the outermost."""
    parents: list[int | None] = []
    before: tuple[Polygon, ...] = ()
    for level in sets.levels:
        first = len(parents) - len(before)
        holders = [_holder(part, before) for part in level.parts]
        parents.extend([None if holder is None else first + holder for holder in holders])
        before = level.parts
    return parents


def _holder(part: Polygon, before: tuple[Polygon, ...]) -> int | None:
    if len(before) == 1:
        return 0
    inside = shapely.point_on_surface(part)
    return next((at for at, outer in enumerate(before) if shapely.contains(outer, inside)), None)
