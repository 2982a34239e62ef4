"""Combs for a room: which way the runs go, on which lines, and on which side they are linked.

A comb is laid in a frame of its own, runs along x; for runs along y the room's axes are exchanged.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from ..elementwise import Array
from .comb_links import combs, tight_corners
from .comb_score import FloorRaster
from .comb_teeth import Piece, Reach, pieces_between
from .lattice_lines import edges_of, lattice_lines, walls_across
from .regions import Region

__all__ = ["Comb", "Direction", "Trunk", "best_combs"]

_SPACINGS = (0.92, 0.96, 1.0, 1.03, 1.06)
"""Spacings tried whatever the room's extent, in spacings asked for."""
_SMALLEST = 0.8
_LARGEST = 1.4
"""Distances between lines, in spacings; floor between two lines is heated up to 1.5."""
_GRID = 12
_NEAR_PARALLEL = 0.6
"""Walls that stand further in than the outermost one by less, in spacings, may be where the first line goes."""
_KEPT = 3
"""Sets of lines for which links are made, and one more with runs the other way."""

# What counts beside the share of bare floor: runs across the longest wall; a share of stretch of the spacing;
# each turn; each leg too short for its bends; each further loop; slanted ends of teeth that no trunk follows.
_OTHER_WAY = 0.01
_STRETCHED = 0.3
_EACH_TOOTH = 0.002
_TIGHT = 0.02
_LOOPS = 0.03
_SLANTED = 0.5

Direction = str
"""``x`` or ``y``: the axis of the room's frame that the runs follow."""
Trunk = str
"""``low`` or ``high``: the side on which the runs are linked, by the coordinate along them."""


@dataclass(frozen=True)
class Comb:
    """Outlines [m] of combs in the room's frame, one loop each; ``spacing`` [m] is that across the runs."""

    outlines: tuple[Polygon, ...]
    direction: Direction
    trunk: Trunk
    spacing: float
    score: float


@dataclass(frozen=True)
class _Rows:
    """Teeth on one set of lines, and how well they cover the floor."""

    lines: Array
    teeth: list[list[Piece]]
    gaps: list[list[Piece]]
    floor: float
    score: float
    direction: Direction = "x"

    @property
    def key(self) -> tuple[float, ...]:
        """Tells sets of lines apart."""
        return tuple(np.round(self.lines, 4).tolist())


def best_combs(area: Polygon | MultiPolygon, reach: Reach, quick: bool) -> list[Comb]:
    """Combs in ``area``, where the centre line may lie; best first by a score that needs no finished pipe."""
    along = _longest_wall(area)
    found = [
        replace(rows, score=rows.score + (0.0 if direction == along else _OTHER_WAY))
        for direction in ((along,) if quick else ("x", "y"))
        for rows in _all_rows(area, direction, reach, quick)
    ]
    found.sort(key=lambda rows: (round(rows.score, 6), rows.direction, len(rows.lines), rows.key))
    kept = found[: 1 if quick else _KEPT]
    if not quick:
        kept += [rows for rows in found if rows.direction != kept[0].direction][:1]
    made = [_comb(rows, trunk, reach) for rows in kept for trunk in ("low", "high")]
    return sorted(made, key=lambda comb: (round(comb.score, 6), comb.direction, comb.trunk))


def _longest_wall(area: Region) -> Direction:
    edges = edges_of(area)
    dx, dy = np.abs(edges[:, 2] - edges[:, 0]), np.abs(edges[:, 3] - edges[:, 1])
    return "y" if round(float(dy.max()), 6) > round(float(dx.max()), 6) else "x"


def _exchanged(region: Polygon) -> Polygon:
    """With x and y exchanged."""
    exchanged: Polygon = shapely.transform(region, lambda points: points[:, ::-1])
    return exchanged


def _comb(rows: _Rows, trunk: Trunk, reach: Reach) -> Comb:
    teeth, gaps = rows.teeth, rows.gaps
    if trunk == "high":
        teeth, gaps = (_mirrored(pieces) for pieces in (teeth, gaps))
    outlines = combs(teeth, gaps, reach)
    tight = sum(tight_corners(outline, reach.least_leg / 2.0) for outline in outlines)
    slanted = sum(abs(tooth.right_low - tooth.right_high) for row in teeth for tooth in row)
    if trunk == "high":
        outlines = [shapely.transform(outline, lambda points: points * (-1.0, 1.0)) for outline in outlines]
    if rows.direction == "y":
        outlines = [_exchanged(outline) for outline in outlines]
    score = rows.score + _TIGHT * tight + _LOOPS * max(0, len(outlines) - 1)
    score += _SLANTED * slanted * reach.spacing / rows.floor
    return Comb(tuple(outlines), rows.direction, trunk, float(np.diff(rows.lines).mean()), score)


def _mirrored(pieces: list[list[Piece]]) -> list[list[Piece]]:
    return [[piece.mirrored() for piece in reversed(row)] for row in pieces]


def _all_rows(
    area: Polygon | MultiPolygon, direction: Direction, reach: Reach, quick: bool
) -> Iterator[_Rows]:
    """Every set of lines for runs in one direction, once."""
    turned = area if direction == "x" else _exchanged(area)
    edges = edges_of(turned)
    raster = FloorRaster.of(turned, reach)
    seen: set[tuple[float, ...]] = set()
    for lines in _line_sets(edges, reach, quick):
        rows = _rows(lines, turned, edges, raster, reach)
        if rows.key not in seen:
            seen.add(rows.key)
            yield replace(rows, direction=direction)


def _rows(
    lines: Array, area: Polygon | MultiPolygon, edges: Array, raster: FloorRaster, reach: Reach
) -> _Rows:
    strips = pieces_between(edges, area, lines[:-1], lines[1:], reach.link_width)
    teeth = strips[::2]
    score = raster.score(teeth) + _STRETCHED * abs(float(np.diff(lines).mean()) / reach.spacing - 1.0)
    score += _EACH_TOOTH * sum(map(len, teeth))
    return _Rows(lines, teeth, strips[1::2], raster.area, score)


def _line_sets(edges: Array, reach: Reach, quick: bool) -> Iterator[Array]:
    """Sets of lines, always an even number: those that fit the walls, and evenly spaced ones."""
    spacing = reach.spacing
    least = min(max(_SMALLEST * spacing, reach.least_leg), spacing)
    if not quick:
        fitted = lattice_lines(edges, 1, spacing, _GRID, (least / spacing, _LARGEST))
        if fitted is not None:
            yield fitted
    low, high = _extent(edges, spacing)
    extent = high - low
    teeth = max(1, round((extent / spacing + 1.0) / 2.0))
    for count in (teeth - 1, teeth, teeth + 1):
        if count >= 1 and least - 1e-6 <= extent / (2 * count - 1) <= _LARGEST * spacing:
            yield low + extent / (2 * count - 1) * np.arange(2.0 * count)
    for share in (1.0,) if quick else _SPACINGS:
        step = share * spacing
        count = math.floor((extent / step + 1.0 + 1e-9) / 2.0)
        over = extent - (2 * count - 1) * step
        if count >= 1 and step >= least - 1e-6:
            for offset in (0.0,) if quick or over < 0.05 * spacing else (0.0, over / 2.0, over):
                yield low + offset + step * np.arange(2.0 * count)


def _extent(edges: Array, spacing: float) -> tuple[float, float]:
    """From the lowest wall to the highest one; of walls nearly there, the longest."""
    low, high = float(edges[:, [1, 3]].min()), float(edges[:, [1, 3]].max())
    walls = walls_across(edges, 1)
    order = np.lexsort((np.round(walls.places, 6), -np.round(walls.lengths, 6)))
    for index in order.tolist():
        place = float(walls.places[index])
        if walls.near[index] and place - low < _NEAR_PARALLEL * spacing:
            low = place
            break
    for index in order.tolist():
        place = float(walls.places[index])
        if not walls.near[index] and high - place < _NEAR_PARALLEL * spacing:
            high = place
            break
    return low, high
