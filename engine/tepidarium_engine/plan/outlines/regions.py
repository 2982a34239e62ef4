"""Offsets of areas as the ring patterns need them: mitred, never empty, never finer than a hair.

A region is a polygon, several of them, or ``None`` for nothing at all: no empty geometry is handed on.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from .overlays import difference, sound, union

__all__ = [
    "MITRE_LIMIT",
    "Region",
    "closed_gaps",
    "common",
    "dilated",
    "eased_steps",
    "eroded",
    "is_plain",
    "joined",
    "minus",
    "opened",
    "opened_apart",
    "parts_of",
    "rounded",
    "trimmed_ring",
]

Region: TypeAlias = Polygon | MultiPolygon | None

MITRE_LIMIT = 2.5
"""Corners up to 1 : 2.5 stay sharp (47 degrees and more): right-angled rooms stay right-angled."""

_SHARPEST = 2.29
"""Tangent of half the turn at the mitre limit: sqrt(2.5^2 - 1)."""
_GRID = 1e-10
"""Of coordinates where areas are intersected [m]."""
_LEAST_AREA = 1e-9
"""What rounding leaves behind [m2]."""
_STEP_RUN = 4.0
"""A step is crossed on this many times its depth: 14 degrees, which pipe follows without bending."""
_STEP_TURN = 0.34
"""Sine of the least turn that makes a corner one of a step (20 degrees)."""
_LEAST_TURN = 1e-7
"""Corners that stand out by less are rounding, whichever way they point [m]."""


def parts_of(region: Region) -> list[Polygon]:
    """The polygons of a region, in the order in which the geometry library holds them."""
    if isinstance(region, Polygon):
        return [region]
    return [] if region is None else list(shapely.get_parts(region))


def _region(geometry: shapely.Geometry) -> Region:
    """What has an area in the outcome of an operation."""
    return _with_area(sound(geometry))


def _with_area(geometry: shapely.Geometry) -> Region:
    """The same of a geometry that is sound."""
    if geometry.is_empty:
        return None
    if isinstance(geometry, Polygon) and geometry.area > _LEAST_AREA:
        return geometry
    pieces = [
        part
        for part in shapely.get_parts(geometry)
        if isinstance(part, Polygon) and not part.is_empty and part.area > _LEAST_AREA
    ]
    if not pieces:
        return None
    return pieces[0] if len(pieces) == 1 else MultiPolygon(pieces)


def dilated(region: Region, distance: float) -> Region:
    """Grown by ``distance`` [m] with mitred corners; shrunk when it is negative.

    Where the library's mitred offset is not a valid area, as can happen when little is left of it, the round
    offset stands in.
    """
    if region is None:
        return None
    with np.errstate(divide="ignore", invalid="ignore"):  # the library divides while it tries a mitre
        mitred = shapely.buffer(region, distance, join_style="mitre", mitre_limit=MITRE_LIMIT)
    return _with_area(mitred) if mitred.is_valid else rounded(region, distance)


def eroded(region: Region, distance: float) -> Region:
    """Shrunk by ``distance`` [m] with mitred corners.

    Where the mitred offset comes out too near to the edge, what lies within the distance of it is taken away.
    """
    shrunk = dilated(region, -distance)
    if region is None or shrunk is None:
        return None
    if shapely.distance(shrunk.boundary, region.boundary) >= distance * (1.0 - 1e-6):
        return shrunk
    return minus(shrunk, _region(shapely.buffer(region.boundary, distance, quad_segs=16)))


def rounded(region: Region, distance: float, quad_segs: int = 16) -> Region:
    """Grown by ``distance`` [m] with round corners; shrunk when it is negative.

    Without crumbs: the library may leave some of a square micrometre beside an area that is grown.
    """
    if region is None:
        return None
    with np.errstate(divide="ignore", invalid="ignore"):
        return _region(shapely.buffer(region, distance, quad_segs=quad_segs))


def minus(region: Region, taken: Region) -> Region:
    return region if region is None or taken is None else _region(difference(region, taken))


def common(region: Region, other: Region) -> Region:
    """On a grid: without one the library can take edges that nearly coincide for the wrong one of the two."""
    if region is None or other is None:
        return None
    return _region(shapely.intersection(sound(region), sound(other), grid_size=_GRID))


def joined(regions: Iterable[Region]) -> Region:
    found = [region for region in regions if region is not None]
    if len(found) < 2:
        return found[0] if found else None
    return _region(union(found))


def opened(region: Region, radius: float) -> Region:
    """What of the region is at least twice ``radius`` [m] wide; the region itself when that is all of it."""
    grown = dilated(eroded(region, radius), radius)
    return region if _alike(grown, region) else common(grown, region)


def opened_apart(region: Region, radius: float) -> list[Polygon]:
    """What of the region is at least twice ``radius`` [m] wide, cut at necks that mitred corners would bridge.

    The pieces of a cut may overlap or touch.
    """
    return [
        piece
        for part in parts_of(region)
        for core in parts_of(eroded(part, radius))
        for grown in (dilated(core, radius),)
        for piece in ([part] if _alike(grown, part) else parts_of(common(grown, part)))
    ]


def closed_gaps(region: Region, radius: float) -> Region:
    """Gaps and notches of the region that are less than twice ``radius`` [m] wide."""
    closed = eroded(dilated(region, radius), radius)
    return None if _alike(closed, region) else minus(closed, region)


def _alike(region: Region, other: Region) -> bool:
    """Whether an offset there and back changed nothing: as many corners, round the same area."""
    if region is None or other is None:
        return region is other
    same_corners = shapely.get_num_coordinates(region) == shapely.get_num_coordinates(other)
    return bool(same_corners) and abs(region.area - other.area) <= 1e-9 * other.area


def is_plain(region: Region, width: float, tolerance: float) -> bool:
    """Whether a region is nowhere less than ``width`` [m] wide, nor any gap in its outline, by a cheap test
    that may say no though it is so: all edges outlast an offset of half the width both ways, no corner is
    sharper than the mitre limit, none stands out by less than ``tolerance`` [m].
    """
    if region is None or not all(_has_plain_corners(part, width, tolerance) for part in parts_of(region)):
        return False
    return bool(shapely.minimum_clearance(region) >= width)


def _has_plain_corners(part: Polygon, width: float, tolerance: float) -> bool:
    if part.interiors:
        return False
    points = shapely.get_coordinates(part)
    edges = points[1:] - points[:-1]
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    if lengths.min() < width:
        return False
    after = np.concatenate((edges[1:], edges[:1]))
    cross = edges[:, 0] * after[:, 1] - edges[:, 1] * after[:, 0]
    chord = edges + after
    if (np.abs(cross) <= tolerance * np.hypot(chord[:, 0], chord[:, 1])).any():
        return False
    span = lengths * np.concatenate((lengths[1:], lengths[:1])) + (edges * after).sum(axis=1)
    if (np.abs(cross) > _SHARPEST * span).any():
        return False
    # Tangent of half the turn: what an offset by 1 takes from both edges that meet at a corner.
    taken = cross / span
    taken = np.abs(taken + np.concatenate((taken[-1:], taken[:-1])))
    return bool((lengths > 0.5 * width * taken).all())


def trimmed_ring(part: Polygon, tolerance: float) -> Polygon:
    """The outline with corners cut that stand out by at most ``tolerance`` [m]; nothing is ever added.

    Cutting from the inside alone keeps every distance to the outside, which common simplification does not.
    """
    points = shapely.get_coordinates(shapely.orient_polygons(part).exterior)[:-1].tolist()
    first = points.index(min(points))
    chain = [*points[first:], *points[: first + 1]]
    kept, at = [chain[0]], 0
    while at < len(chain) - 1:
        reach = at + 1
        while reach + 1 < len(chain) and _stands_out_little(chain, at, reach + 1, tolerance):
            reach += 1
        kept.append(chain[reach])
        at = reach
    if len(kept) < 4:
        return part
    trimmed = Polygon(kept)
    return trimmed if trimmed.is_valid and trimmed.area > _LEAST_AREA else part


def _stands_out_little(chain: list[list[float]], start: int, end: int, tolerance: float) -> bool:
    """Whether all corners between lie beside the chord, outside by at most the tolerance."""
    (x0, y0), (x1, y1) = chain[start], chain[end]
    dx, dy = x1 - x0, y1 - y0
    square = dx * dx + dy * dy
    if square < 1e-18:
        return False
    length = square**0.5
    for x, y in chain[start + 1 : end]:
        inside = (dx * (y - y0) - dy * (x - x0)) / length
        along = (dx * (x - x0) + dy * (y - y0)) / square
        if not (-tolerance <= inside <= _LEAST_TURN and 0.0 <= along <= 1.0):
            return False
    return True


def eased_steps(part: Polygon, deepest: float) -> Polygon:
    """The outline with steps and shallow niches up to ``deepest`` [m] crossed on the slant, from the inside.

    A short edge between a corner inwards and a corner outwards is a step; the outward corner is cut back along
    the edge that follows. Nothing is ever added. What cannot be cut without harm elsewhere stays as it is.
    """
    ring = shapely.orient_polygons(part).exterior
    points = shapely.get_coordinates(ring)[:-1]
    edges = np.roll(points, -1, axis=0) - points
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    if lengths.min() >= deepest:
        return part
    before, length_before = np.roll(edges, 1, axis=0), np.roll(lengths, 1)
    turns = (before[:, 0] * edges[:, 1] - before[:, 1] * edges[:, 0]) / (length_before * lengths)
    inwards, outwards = turns < -_STEP_TURN, turns > _STEP_TURN
    # Depth of the step that ends (or starts) at each outward corner; 0 for none.
    after_step = outwards & np.roll(inwards, 1) & (length_before < deepest)
    before_step = outwards & np.roll(inwards, -1) & (lengths < deepest)
    if not (after_step | before_step).any():
        return part
    back = np.where(before_step, lengths, 0.0) * _STEP_RUN
    ahead = np.where(after_step, length_before, 0.0) * _STEP_RUN
    kept: list[list[float]] = []
    for at, point in enumerate(points):
        run = max(back[at], ahead[at])
        if run == 0.0:
            kept.append(point.tolist())
            continue
        if back[at] and ahead[at]:
            continue
        towards, other = (edges[at], (at + 1) % len(points)) if ahead[at] else (-before[at], at - 1)
        room = lengths[at] if ahead[at] else length_before[at]
        if room > run + (back[other] if ahead[at] else ahead[other]):
            kept.append((point + towards * (run / room)).tolist())
    if len(kept) < 3:
        return part
    eased = Polygon(kept)
    whole = bool(eased.is_valid) and difference(eased, part).area < _LEAST_AREA
    return eased if whole and eased.area > _LEAST_AREA else part
