"""Levels of rings made fit for pipe: nowhere too narrow, no two stretches too near."""

from __future__ import annotations

import shapely
from shapely import MultiPolygon, Polygon

from ..outlines.regions import (
    Region,
    closed_gaps,
    common,
    dilated,
    eroded,
    is_plain,
    joined,
    minus,
    opened,
    opened_apart,
    parts_of,
)

__all__ = ["is_tidy", "tidied"]

_ROUNDING = 1e-4
"""Taken off radii where a width that fits exactly must pass, as a share."""
_NEAREST = 0.8
"""Least distance of one level from the next, in spacings."""
_PLAIN = 0.008
"""Corners that stand out by less are to be cut, in spacings: 1.2 mm at 150 mm."""
_SLIVER = 0.2
"""Half of the width that a place may lack to be worth a widened finger, in spacings."""
_SLIVER_LENGTH = 1.5
_HAIR = 0.1
"""Half of the width of what two offsets of one edge may leave between them, in spacings."""
_CRUMB = 0.002
"""Area of what mitred corners leave, in spacings squared."""
_PINCH_TRIM = 0.27
_LEAST_APART = 0.77
_GIVE_WAY = 0.81
"""The bevelled circle of this reach keeps 0.782 spacings."""


def is_tidy(region: Region, spacing: float, least_width: float) -> bool:
    """Whether a level needs nothing done to it, by a quick look that may say no though it is so."""
    return is_plain(region, least_width * (1.0 - _ROUNDING) * spacing, _PLAIN * spacing)


def tidied(region: Region, before: Region, taken: Region, spacing: float, least_width: float) -> Region:
    """A level without what is too narrow, slivers widened, pinches trimmed.

    ``before`` is the level round it, nothing for the outermost; ``taken`` are voids that it must not cover;
    ``spacing`` [m] is that of the pipe, ``least_width`` that of a ring, in spacings.
    """
    half = least_width / 2.0 * (1.0 - _ROUNDING) * spacing
    wide = opened(region, half)
    fingers = None if wide is region or region is None else _fingers(region, wide, before, spacing, half)
    if fingers is not None:
        wide = opened(joined((wide, minus(fingers, taken))), half)
    pinches = _substantial(closed_gaps(wide, half), spacing)
    if pinches is not None:
        wide = minus(wide, dilated(pinches, _PINCH_TRIM * spacing))
        wide = opened(wide, half)
    return _apart(wide, spacing, half)


def _apart(region: Region, spacing: float, half: float) -> Region:
    """The region with parts that lie too near to each other kept apart: the smaller one gives way.

    Two corners that point at each other are no gap, and no neck, to a mitred offset, hence this second look.
    """
    half *= 1.0 - _ROUNDING
    pieces = opened_apart(region, half)
    if len(pieces) < 2:
        return joined(pieces)
    pieces.sort(key=lambda part: (-round(part.area, 6), part.bounds))
    kept: list[Polygon] = []
    while pieces:
        piece = pieces.pop(0)
        near = [other for other in kept if shapely.distance(piece, other) < _LEAST_APART * spacing]
        if near:
            taken = joined(shapely.buffer(other, _GIVE_WAY * spacing, quad_segs=3) for other in near)
            left = opened_apart(minus(piece, taken), half)
            # What cannot be cut back is given up, or it would come round for ever.
            pieces = (left if _less(left, piece, spacing) else []) + pieces
        else:
            kept.append(piece)
    return joined(kept)


def _less(left: list[Polygon], piece: Polygon, spacing: float) -> bool:
    """Whether the cuts took away more than rounding."""
    return sum(float(part.area) for part in left) < float(piece.area) - 1e-4 * spacing**2


def _fingers(
    region: Polygon | MultiPolygon, wide: Region, before: Region, spacing: float, half: float
) -> Region:
    """Long places up to 0.4 spacings narrower than a ring, widened as far as the level before allows.

    On the outermost level nothing can be widened: the walls stand there.
    """
    left = region.area - (0.0 if wide is None else wide.area)
    if before is None or left < _SLIVER * spacing**2:
        return None
    thin = minus(opened(region, half - _SLIVER * spacing), wide)
    thin = opened(thin, _HAIR * spacing)
    least = _SLIVER_LENGTH * spacing
    long = [part for part in parts_of(thin) if _length(part) > least]
    if not long:
        return None
    limit = eroded(before, _NEAREST * spacing)
    return common(dilated(joined(long), _SLIVER * spacing), limit)


def _length(part: Polygon) -> float:
    """Longer side of the tightest box round the part [m]."""
    (ax, ay), (bx, by), (cx, cy) = shapely.get_coordinates(shapely.oriented_envelope(part))[:3].tolist()
    return float(max((bx - ax) ** 2 + (by - ay) ** 2, (cx - bx) ** 2 + (cy - by) ** 2) ** 0.5)


def _substantial(region: Region, pipe_spacing: float) -> Region:
    """Without the crumbs that mitred corners leave."""
    return joined(part for part in parts_of(region) if part.area > _CRUMB * pipe_spacing**2)
