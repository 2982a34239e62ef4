"""Rings by offsets alone: to compare spacings, and to stretch rings that are known.

Nothing is bridged, trimmed or kept apart, as it is before pipe is laid, so that all levels are found at once, a dozen
times as fast. On 739 trial spacings in ten random rooms the length differs by 0.2 % in the median from that of the
rings that pipe follows, and by 1.3 % at the 90th percentile.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import Polygon

from ...elementwise import Array
from ..outlines.pipe_zone import PipeZone
from ..outlines.regions import MITRE_LIMIT, Region, joined, minus
from .rings import LEAST_AREA, LEAST_WIDTH, Level, LevelSets

__all__ = ["offset_rings", "rough_level_sets"]

_HALF_SLIVER, _LEAST_SLIVER = 0.2, 0.6
"""Half of the least width of what is widened to a ring, in spacings, and its area in spacings squared."""
_ROUNDING = 1e-4
"""Taken off a width that fits exactly, as a share."""
_TOUCH = 1e-5
"""Voids that stick out of a ring by less only touch it [m]."""


def offset_rings(around: Sequence[Region], depths: Array, pipe_spacing: float) -> list[list[Polygon]]:
    """What lies so deep [m] in each of the regions and is wide enough for a ring.

    A long sliver between rings is widened to one where pipe is laid, but not between walls, hence not in the first.
    """
    wide, narrow = (
        _opened(around, depths, half * pipe_spacing) for half in (LEAST_WIDTH / 2.0, _HALF_SLIVER)
    )
    slivers = shapely.area(narrow) - shapely.area(wide) > _LEAST_SLIVER * pipe_spacing**2
    slivers[0] = False
    least = LEAST_AREA * pipe_spacing**2
    levels = (shapely.get_parts(level) for level in np.where(slivers, narrow, wide))
    return [list(parts[shapely.area(parts) >= least]) for parts in levels]


def rough_level_sets(zone: PipeZone, pipe_spacing: float) -> LevelSets:
    """Level sets of a zone in its own frame, but for what is lost; ``pipe_spacing`` [m] is positive."""
    levels: list[list[Polygon]] = []
    base, uncovered = zone.shell, list(zone.voids)
    while base is not None:
        x, y, to_x, to_y = base.bounds
        depths = np.arange(math.ceil(min(to_x - x, to_y - y) / 2.0 / pipe_spacing) + 1) * pipe_spacing
        found = offset_rings([base] * len(depths), depths, pipe_spacing)
        # A void is passed over until a ring comes too close to it, and is a notch of the rings from there on.
        met = next((at for at, parts in enumerate(found) if _met(parts, uncovered)), len(found))
        levels += found[:met]
        if met == len(found):
            break
        taken = _met(found[met], uncovered)
        uncovered = [void for void in uncovered if void not in taken]
        base = minus(joined(found[met]), joined(taken))
    full = next((at for at, parts in enumerate(levels) if not parts), len(levels))
    return LevelSets(
        (),
        zone.voids,
        tuple(
            Level(at, tuple(sorted(parts, key=lambda part: part.bounds)))
            for at, parts in enumerate(levels[:full])
        ),
        (),
    )


def _met(parts: Sequence[Polygon], voids: Sequence[Polygon]) -> list[Polygon]:
    """Voids that stick out of the parts of a level."""
    return [void for void in voids if not any(shapely.covers(part.buffer(_TOUCH), void) for part in parts)]


def _opened(regions: Sequence[Region], depths: Array, half: float) -> Array:
    """What of regions shrunk by a depth is at least twice ``half`` [m] wide."""
    return _offset(_offset(regions, -(depths + half * (1.0 - _ROUNDING))), half)


def _offset(regions: object, distance: Array | float) -> Array:
    with np.errstate(divide="ignore", invalid="ignore"):  # the library divides while it tries a mitre
        wide: Array = shapely.buffer(regions, distance, join_style="mitre", mitre_limit=MITRE_LIMIT)
    return wide
