"""Rings of a counterflow layout: level sets of a room, one pipe spacing inside each other.

Each level is shrunk from the level before as it was left after tidying, so that the distance between levels
and the least width of a level hold by construction. Voids do not get rings of their own: a void is passed
over until a ring would come too close, and is a notch of the rings from there on, as pipe is laid round an
island in practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import shapely
from shapely import MultiPolygon, Polygon

from ..checking import Point
from .pipe_zone import PipeZone
from .regions import (
    Region,
    closed_gaps,
    common,
    dilated,
    eased_steps,
    eroded,
    is_plain,
    joined,
    minus,
    opened,
    opened_apart,
    parts_of,
    trimmed_ring,
)

__all__ = ["Level", "LevelSets", "LostPlace", "level_sets"]

_HALF_LEAST_WIDTH = 0.4
"""Half of the least distance between two sides of one ring, in spacings."""
_SLIVER = 0.2
"""Half of the width from which a place between rings is worth a widened finger, in spacings."""
_SLIVER_LENGTH = 1.5
_HAIR = 0.1
"""Half of the width of what two offsets of one edge may leave between them, in spacings."""
_PINCH_TRIM = 0.27
_LEAST_APART = 0.7
_GIVE_WAY = 0.75
"""The bevelled circle of this reach keeps 0.724 spacings."""
_LEAST_AREA = 0.35
"""Of a part, in spacings squared: the ring of a smaller one is hardly longer than a bend."""
_TRIM = 0.008
"""Corners that stand out by less are cut, in spacings: 1.2 mm at 150 mm."""
_LARGEST_TRIM = 0.003
_SERVED = 1.2
"""Floor further from every ring is worth a word, in spacings: between two rings that is 2.4."""
_BARE = 0.1
"""Of such floor, in spacings squared."""
_TOUCH = 5e-6
"""Voids that stick out of a ring by less only touch it [m]."""
_STEP = 0.3
"""Steps of a ring that are less deep are crossed on the slant, in spacings."""
_ROUNDING = 1e-4
"""Taken off radii where a width that fits exactly must pass, as a share."""


@dataclass(frozen=True, slots=True)
class LostPlace:
    """Floor that gets no ring though a pipe could stand there.

    ``place`` [m] lies inside it. ``narrow``: too narrow for pipe and its way back; ``small``: wide enough, but
    a ring would hardly be longer than a bend; ``enclosed``: walled in by voids. ``area`` [m2] is that of the
    places where the centre line may lie.
    """

    reason: Literal["narrow", "small", "enclosed", "unreached"]
    level: int
    place: Point
    area: float


@dataclass(frozen=True, slots=True)
class Level:
    """The parts of one level: outlines are the rings, counter-clockwise; no part has an inner ring."""

    index: int
    parts: tuple[Polygon, ...]
    absorbed: tuple[int, ...]
    """Voids (index into ``LevelSets.voids``) that are notches of this level and of all further ones."""


@dataclass(frozen=True, slots=True)
class LevelSets:
    """All levels from the walls inwards.

    ``domain``: where the centre line may lie, voids not taken out, one polygon for each separate place;
    ``voids``: voids grown by the clearance, those joined between which no pipe can pass; ``lost``: what gets
    no ring, never dropped without being listed.
    """

    pipe_spacing: float
    domain: tuple[Polygon, ...]
    voids: tuple[Polygon, ...]
    levels: tuple[Level, ...]
    lost: tuple[LostPlace, ...]


def level_sets(zone: PipeZone, pipe_spacing: float) -> LevelSets:
    """Level sets of the zone of a room given in its own frame; ``pipe_spacing`` [m] is positive.

    A room too narrow for any ring has no levels; what is lost is listed. No place is judged covered or bare
    here: that is measured on the finished pipe.
    """
    cores = tuple(eroded(void, _TOUCH) for void in zone.voids)
    enclosed = [_lost("enclosed", 0, part) for part in zone.enclosed]
    work = _Work(pipe_spacing, zone.voids, cores, set(), enclosed)
    levels: list[Level] = []
    region, before = zone.shell, None
    while region is not None:
        parts = _tidy_level(region, before, len(levels), work)
        if not parts:
            break
        levels.append(Level(len(levels), tuple(parts), tuple(sorted(work.absorbed))))
        before = joined(parts)
        region = eroded(before, pipe_spacing)
    return LevelSets(pipe_spacing, tuple(parts_of(zone.shell)), zone.voids, tuple(levels), tuple(work.lost))


@dataclass(slots=True)
class _Work:
    """What is carried from level to level."""

    pipe_spacing: float
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
    tolerance = min(_LARGEST_TRIM, _TRIM * work.pipe_spacing)
    least_width = 2.0 * _HALF_LEAST_WIDTH * work.pipe_spacing * (1.0 - _ROUNDING)
    while True:
        plain = is_plain(region, least_width, tolerance)
        tidy = region if plain else _tidy(region, before, work)
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
    least = _LEAST_AREA * work.pipe_spacing**2
    if region is None or region is tidy or region.area - (0.0 if tidy is None else tidy.area) < least:
        return
    rings = [near for near in (None if before is None else before.boundary, tidy) if near is not None]
    served = shapely.union_all([shapely.buffer(near, _SERVED * work.pipe_spacing) for near in rings])
    for part in parts_of(minus(region, tidy)):
        bare = shapely.difference(part, served)
        if part.area >= least and bare.area >= _BARE * work.pipe_spacing**2:
            work.lost.append(_lost("narrow", level, part))


def _tidy(region: Region, before: Region, work: _Work) -> Region:
    """The region without what is too narrow, slivers widened, pinches trimmed, no inner rings."""
    spacing = work.pipe_spacing
    half = _HALF_LEAST_WIDTH * spacing
    wide = opened(region, half * (1.0 - _ROUNDING))
    fingers = None if wide is region else _fingers(region, wide, before, work)
    if fingers is not None:
        wide = opened(joined((wide, fingers)), half * (1.0 - _ROUNDING))
    pinches = _substantial(closed_gaps(wide, half * (1.0 - _ROUNDING)), spacing)
    if pinches is not None:
        wide = minus(wide, dilated(pinches, _PINCH_TRIM * spacing))
        wide = opened(wide, half * (1.0 - _ROUNDING))
    return _apart(_without_throats(_slit(wide, work), work), work)


def _apart(region: Region, work: _Work) -> Region:
    """The region with parts that lie too near to each other kept apart: the smaller one gives way.

    Two corners that point at each other are no gap, and no neck, to a mitred offset, hence this second look.
    """
    spacing = work.pipe_spacing
    half = _HALF_LEAST_WIDTH * spacing * (1.0 - _ROUNDING)
    pieces = opened_apart(region, half * (1.0 - _ROUNDING))
    if len(pieces) < 2:
        return joined(pieces)
    pieces.sort(key=lambda part: (-round(part.area, 6), part.bounds))
    kept: list[Polygon] = []
    while pieces:
        piece = pieces.pop(0)
        near = [other for other in kept if shapely.distance(piece, other) < _LEAST_APART * spacing]
        if near:
            taken = joined(shapely.buffer(other, _GIVE_WAY * spacing, quad_segs=3) for other in near)
            pieces = opened_apart(minus(piece, taken), half) + pieces
        else:
            kept.append(piece)
    return joined(kept)


def _fingers(region: Polygon | MultiPolygon, wide: Region, before: Region, work: _Work) -> Region:
    """Long places 0.4 to 0.8 spacings wide, widened as far as the level before and the voids allow.

    On the outermost level nothing can be widened: the walls stand there.
    """
    left = region.area - (0.0 if wide is None else wide.area)
    if before is None or left < _SLIVER * work.pipe_spacing**2:
        return None
    thin = minus(opened(region, _SLIVER * work.pipe_spacing), wide)
    thin = opened(thin, _HAIR * work.pipe_spacing)
    least = _SLIVER_LENGTH * work.pipe_spacing
    long = [part for part in parts_of(thin) if _length(part) > least]
    if not long:
        return None
    limit = eroded(before, 2.0 * _HALF_LEAST_WIDTH * work.pipe_spacing)
    grown = common(dilated(joined(long), _SLIVER * work.pipe_spacing), limit)
    return minus(grown, work.taken())


def _length(part: Polygon) -> float:
    """Longer side of the tightest box round the part [m]."""
    (ax, ay), (bx, by), (cx, cy) = shapely.get_coordinates(shapely.oriented_envelope(part))[:3].tolist()
    return float(max((bx - ax) ** 2 + (by - ay) ** 2, (cx - bx) ** 2 + (cy - by) ** 2) ** 0.5)


def _substantial(region: Region, pipe_spacing: float) -> Region:
    """Without the crumbs that mitred corners leave."""
    return joined(part for part in parts_of(region) if part.area > 0.002 * pipe_spacing**2)


def _slit(region: Region, work: _Work) -> Region:
    """The region with every part that closes round something cut open where the way out is shortest."""
    half = _HALF_LEAST_WIDTH * work.pipe_spacing
    while True:
        closed = [part for part in parts_of(region) if part.interiors]
        if not closed:
            return region
        ring = closed[0].interiors[0]
        hollow = Polygon(ring)
        if hollow.area < 0.002 * work.pipe_spacing**2 and not _meets(hollow, work.taken()):
            region = joined((region, hollow))
            continue
        way = shapely.shortest_line(ring, closed[0].exterior)
        slot = shapely.buffer(way, half, cap_style="square", join_style="mitre")
        region = opened(minus(region, slot), half * (1.0 - _ROUNDING))


def _without_throats(region: Region, work: _Work) -> Region:
    """The region with the mouth of every notch opened up that is narrow there alone, where two corners of a
    ring point at each other: grown by half the least distance, such a notch is a hole."""
    spacing = work.pipe_spacing
    pieces, done, cuts = parts_of(region), [], 0
    while pieces:
        piece = pieces.pop()
        grown = shapely.buffer(piece, _LEAST_APART / 2.0 * spacing, quad_segs=4)
        if len(grown.interiors) <= len(piece.interiors):
            done.append(piece)
            continue
        hollow = max(grown.interiors, key=lambda ring: (round(Polygon(ring).area, 9), ring.bounds))
        cuts += 1
        mouth = shapely.centroid(shapely.shortest_line(hollow, grown.exterior))
        cut = shapely.buffer(mouth, _HALF_LEAST_WIDTH * spacing, quad_segs=3)
        half = _HALF_LEAST_WIDTH * spacing * (1.0 - _ROUNDING)
        pieces.extend(opened_apart(minus(piece, cut), half))
    return joined(done) if cuts else region


def _meets(area: Polygon, region: Region) -> bool:
    return region is not None and bool(shapely.intersects(area, region))


def _kept_parts(region: Region, level: int, work: _Work, plain: bool) -> list[Polygon]:
    """Parts large enough for a ring, tidied, in order of place; the others are listed as lost."""
    least = _LEAST_AREA * work.pipe_spacing**2
    tolerance = min(_LARGEST_TRIM, _TRIM * work.pipe_spacing)
    kept = []
    for part in parts_of(region):
        if part.area < least:
            work.lost.append(_lost("small", level, part))
        elif plain:
            kept.append(part)
        else:
            kept.append(trimmed_ring(eased_steps(part, _STEP * work.pipe_spacing), tolerance))
    return sorted(kept, key=lambda part: part.bounds)


def _lost(
    reason: Literal["narrow", "small", "enclosed", "unreached"], level: int, part: Polygon
) -> LostPlace:
    inside = shapely.point_on_surface(part)
    return LostPlace(reason, level, (float(inside.x), float(inside.y)), float(part.area))
