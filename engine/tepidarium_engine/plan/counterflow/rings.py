"""Rings of a counterflow layout: level sets of a room, one pipe spacing inside each other.

Each level is shrunk from the level before as it was left after tidying, so that the distance between levels
and the least width of a level hold by construction. Voids do not get rings of their own: a void is passed
over until a ring would come too close, and is a notch of the rings from there on, as pipe is laid round an
island in practice.
"""

from __future__ import annotations

from dataclasses import dataclass

import shapely
from shapely import MultiPolygon, Polygon

from ..model.field import LostPlace
from ..outlines.overlays import difference, union
from ..outlines.pipe_zone import PipeZone
from ..outlines.regions import Region, eroded, joined, minus, parts_of
from .level_smoothing import bridged, smoothed
from .level_tidying import is_tidy, tidied

__all__ = ["LEAST_AREA", "LEAST_WIDTH", "Level", "LevelSets", "level_sets"]

LEAST_WIDTH = 0.8
"""Of a ring between its two sides, in spacings."""
LEAST_AREA = 0.35
"""Of a part, in spacings squared: the ring of a smaller one is hardly longer than a bend."""
_SERVED = 1.2
"""Floor further from every ring is worth a word, in spacings: between two rings that is 2.4."""
_BARE = 0.1
"""Of such floor, in spacings squared."""
_TOUCH = 5e-6
"""Voids that stick out of a ring by less only touch it [m]."""


@dataclass(frozen=True, slots=True)
class Level:
    """The parts of one level: outlines are the rings, counter-clockwise; no part has an inner ring,
    as a void is taken out of a level only where it sticks out of it."""

    index: int
    parts: tuple[Polygon, ...]


@dataclass(frozen=True, slots=True)
class LevelSets:
    """All levels from the walls inwards.

    ``domain``: where the centre line may lie, voids not taken out, one polygon for each separate place;
    ``voids``: voids grown by the clearance, those joined between which no pipe can pass; ``lost``: what gets
    no ring, never dropped without being listed.
    """

    domain: tuple[Polygon, ...]
    voids: tuple[Polygon, ...]
    levels: tuple[Level, ...]
    lost: tuple[LostPlace, ...]


def level_sets(zone: PipeZone, pipe_spacing: float, least_width: float = LEAST_WIDTH) -> LevelSets:
    """Level sets of the zone of a room given in its own frame; ``pipe_spacing`` [m] is positive, ``least_width`` of a
    ring is in spacings.

    A room too narrow for any ring has no levels; what is lost is listed. No place is judged covered or bare
    here: that is measured on the finished pipe.
    """
    cores = tuple(eroded(void, _TOUCH) for void in zone.voids)
    enclosed = [LostPlace.of("enclosed", part) for part in zone.enclosed]
    work = _Work(pipe_spacing, least_width, zone.voids, cores, set(), enclosed)
    levels: list[Level] = []
    region, before = zone.shell, None
    while region is not None:
        parts = _tidy_level(region, before, len(levels), work)
        if not parts:
            break
        levels.append(Level(len(levels), tuple(parts)))
        before = joined(parts)
        region = eroded(before, pipe_spacing)
    return LevelSets(tuple(parts_of(zone.shell)), zone.voids, tuple(levels), tuple(work.lost))


@dataclass(slots=True)
class _Work:
    """What is carried from level to level."""

    pipe_spacing: float
    least_width: float
    voids: tuple[Polygon, ...]
    cores: tuple[Region, ...]
    """Of the voids: what a ring must hold so that the void is inside it."""
    absorbed: set[int]
    lost: list[LostPlace]

    def taken(self) -> Region:
        return joined(self.voids[index] for index in sorted(self.absorbed))

    def uncovered(self, region: Polygon | MultiPolygon) -> list[int]:
        """Voids not yet absorbed that stick out of the region."""
        return [
            index
            for index, core in enumerate(self.cores)
            if index not in self.absorbed and not shapely.contains(region, core)
        ]


def _tidy_level(region: Region, before: Region, level: int, work: _Work) -> list[Polygon]:
    """Parts of a level. Tidying may uncover a void that was inside before: then once more without it."""
    while True:
        plain = is_tidy(region, work.pipe_spacing, work.least_width)
        tidy = region
        if not plain:
            taken = work.taken()
            smoother = bridged(region, before, taken, work.pipe_spacing)
            tidy = tidied(smoother, before, taken, work.pipe_spacing, work.least_width)
        uncovered = [] if tidy is None else work.uncovered(tidy)
        if not uncovered:
            break
        work.absorbed.update(uncovered)
        left = minus(region, work.taken())
        if left is None:
            return []
        region = left
    _list_narrow(region, tidy, before, level, work)
    return _kept_parts(tidy, level, work, plain)


def _list_narrow(region: Region, tidy: Region, before: Region, level: int, work: _Work) -> None:
    """Lists what of a level is too narrow for a ring, and too far from the rings round it to be theirs."""
    least = LEAST_AREA * work.pipe_spacing**2
    if region is None or region is tidy or region.area - (0.0 if tidy is None else tidy.area) < least:
        return
    rings = [near for near in (None if before is None else before.boundary, tidy) if near is not None]
    served = union([shapely.buffer(near, _SERVED * work.pipe_spacing) for near in rings])
    for part in parts_of(minus(region, tidy)):
        bare = difference(part, served)
        if part.area >= least and bare.area >= _BARE * work.pipe_spacing**2:
            work.lost.append(LostPlace.of("narrow", part, level))


def _kept_parts(region: Region, level: int, work: _Work, plain: bool) -> list[Polygon]:
    """Parts large enough for a ring, tidied, in order of place; the others are listed as lost."""
    least = LEAST_AREA * work.pipe_spacing**2
    kept = []
    for part in parts_of(region):
        if part.area < least:
            work.lost.append(LostPlace.of("small", part, level))
        else:
            kept.append(part if plain else smoothed(part, work.pipe_spacing))
    return sorted(kept, key=lambda part: part.bounds)
