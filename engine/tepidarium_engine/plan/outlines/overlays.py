"""Areas and lines laid over each other: the one place that knows where the geometry library gives up.

The library computes in floats and is exact for nearly all that it is given. Where it is not, it says so, and the same
is computed once more from sound areas on a grid, which cannot fail for such reasons. Should it still, its
``GEOSException`` goes up: a room that cannot be computed is refused (``at_own_place``) or left out of its storey
(``laid_room``), never a fault of the service.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol

import numpy as np
import shapely
from shapely import Polygon
from shapely.errors import GEOSException

from ...elementwise import Array

__all__ = ["OVERLAY_GRID", "difference", "intersection", "placed", "sound", "union"]

OVERLAY_GRID = 1e-9
"""Of coordinates where floats did not do [m]: a thousandth of what arithmetic blurs of a place."""

_AREAS = (3, 6)
"""Type numbers of areas of one or several parts."""


def intersection(one: shapely.Geometry, other: shapely.Geometry) -> shapely.Geometry:
    """What both have in common, of geometries or arrays of them."""
    return _overlaid(shapely.intersection, one, other)


def difference(one: shapely.Geometry, taken: shapely.Geometry) -> shapely.Geometry:
    """``one`` without what is ``taken``, of geometries or arrays of them."""
    return _overlaid(shapely.difference, one, taken)


def union(geometries: Iterable[shapely.Geometry]) -> shapely.Geometry:
    """All of them together; empty where there are none."""
    return _overlaid(shapely.union_all, np.array(list(geometries), dtype=object))


def placed(geometry: shapely.Geometry, points: Callable[[Array], Array]) -> shapely.Geometry:
    """The geometry with its coordinates changed; where rounding makes edges cross that nearly did, without what they
    cut off, so that one area stays one."""
    found = sound(shapely.transform(geometry, points))
    if found.geom_type != geometry.geom_type and isinstance(geometry, Polygon):
        return max(shapely.get_parts(found), key=lambda part: float(part.area))
    return found


def sound(geometry: shapely.Geometry) -> shapely.Geometry:
    """The geometries with areas that are valid: those that are not are made so, and lose what has no area."""
    if isinstance(geometry, shapely.Geometry) and geometry.is_valid:
        return geometry
    bad = np.isin(shapely.get_type_id(geometry), _AREAS) & ~shapely.is_valid(geometry)
    if not np.any(bad):
        return geometry
    if isinstance(geometry, np.ndarray):
        mended = geometry.copy()
        mended[bad] = shapely.make_valid(geometry[bad], method="structure", keep_collapsed=False)
        return mended
    return shapely.make_valid(geometry, method="structure", keep_collapsed=False)


class _Overlay(Protocol):
    def __call__(self, *operands: shapely.Geometry, grid_size: float | None = None) -> shapely.Geometry: ...


def _overlaid(operation: _Overlay, *operands: shapely.Geometry) -> shapely.Geometry:
    try:
        return operation(*operands)
    except GEOSException:
        return operation(*map(sound, operands), grid_size=OVERLAY_GRID)
