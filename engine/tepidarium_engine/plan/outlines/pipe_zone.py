"""Where the centre line of a pipe may lie: the floor less a clearance from walls and voids."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely import LineString, Polygon

from .regions import Region, closed_gaps, common, dilated, eroded, joined, minus, parts_of

__all__ = ["PipeZone", "WallClearance", "pipe_zone"]

_BOX_AREA = 0.3
"""Voids that fit in a box of less are passed as that box [m2]: pipe is not bent to follow a column."""
_PASSAGE = 0.4
"""Half of the least width between two voids that a ring passes, in spacings."""
_ROUNDING = 1e-4
"""Taken off radii where a width that fits exactly must pass, as a share."""


@dataclass(frozen=True, slots=True)
class WallClearance:
    """A stretch of wall [m] from which the centre line keeps more than the room's clearance [m]."""

    stretch: LineString
    clearance: float


@dataclass(frozen=True)
class PipeZone:
    """``shell``: where the centre line may lie, voids not taken out; ``voids``: voids grown by the clearance,
    joined where no ring fits between them, in order of place; ``enclosed``: floor that they wall in."""

    shell: Region
    voids: tuple[Polygon, ...]
    enclosed: tuple[Polygon, ...]

    @cached_property
    def free(self) -> Region:
        """Where the centre line may lie."""
        return minus(self.shell, joined(self.voids))

    def scaled(self, x: float, y: float) -> PipeZone:
        """The zone with all coordinates multiplied."""

        def scale(geometry: Polygon) -> Polygon:
            return shapely.transform(geometry, lambda points: points * (x, y))

        shell = None if self.shell is None else scale(self.shell)
        return PipeZone(shell, tuple(map(scale, self.voids)), tuple(map(scale, self.enclosed)))


def pipe_zone(
    room: Polygon, pipe_spacing: float, wall_clearance: float, walls: Sequence[WallClearance] = ()
) -> PipeZone:
    """The zone of a valid room given in its own frame; lengths in metres, all positive."""
    shell = Polygon(shapely.orient_polygons(room).exterior)
    domain = eroded(shell, wall_clearance)
    for wall in walls:
        wide = shapely.buffer(wall.stretch, wall.clearance, cap_style="flat", join_style="mitre")
        domain = minus(domain, wide)
    voids, enclosed = _grown_voids(room, shell, pipe_spacing, wall_clearance)
    return PipeZone(domain, tuple(voids), tuple(enclosed))


def _grown_voids(
    room: Polygon, shell: Polygon, pipe_spacing: float, wall_clearance: float
) -> tuple[list[Polygon], list[Polygon]]:
    boxed = [_boxed(Polygon(ring), shell) for ring in shapely.orient_polygons(room).interiors]
    grown = joined(dilated(void, wall_clearance) for void in boxed)
    if grown is None:
        return [], []
    grown = joined((grown, closed_gaps(grown, _PASSAGE * pipe_spacing * (1.0 - _ROUNDING))))
    voids = [Polygon(part.exterior) for part in parts_of(grown)]
    enclosed = [
        pocket
        for part in parts_of(grown)
        for ring in part.interiors
        for pocket in parts_of(common(Polygon(ring), shell))
    ]
    return sorted(voids, key=lambda void: void.bounds), enclosed


def _boxed(void: Polygon, shell: Polygon) -> Polygon:
    box = shapely.box(*void.bounds)
    return box if box.area <= _BOX_AREA and shapely.contains_properly(shell, box) else void
