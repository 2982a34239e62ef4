"""Combs for a room: which way the runs go, on which lines, and on which side they are linked.

A comb is laid in a frame of its own, runs along x; for runs along y the room's axes are exchanged.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import chain

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from ..elementwise import Array
from .comb_lines import line_sets
from .comb_links import combs, tight_corners
from .comb_score import FloorRaster
from .comb_shoulders import shoulders
from .comb_teeth import Piece, Reach, pieces_between
from .lattice_lines import edges_of
from .regions import Region

__all__ = ["Comb", "Direction", "Trunk", "best_combs"]

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
    shoulders: list[list[list[Piece]]]
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
        kept += [rows for rows in found[_KEPT:] if all(rows.direction != one.direction for one in kept)][:1]
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
    teeth, gaps, wider = rows.teeth, rows.gaps, rows.shoulders
    if trunk == "high":
        teeth, gaps = (_mirrored(pieces) for pieces in (teeth, gaps))
        wider = [[[piece.mirrored() for piece in tooth] for tooth in reversed(row)] for row in wider]
    outlines = combs(teeth, gaps, wider, reach)
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
    for lines in line_sets(edges, reach, quick):
        rows = _rows(lines, turned, edges, raster, reach)
        if rows.key not in seen:
            seen.add(rows.key)
            yield replace(rows, direction=direction)


def _rows(
    lines: Array, area: Polygon | MultiPolygon, edges: Array, raster: FloorRaster, reach: Reach
) -> _Rows:
    strips = pieces_between(edges, area, lines[:-1], lines[1:], reach.link_width)
    teeth = strips[::2]
    wider = shoulders(teeth, edges, lines, reach)
    runs = [*chain.from_iterable(teeth), *chain.from_iterable(chain.from_iterable(wider))]
    score = raster.score(runs) + _STRETCHED * abs(float(np.diff(lines).mean()) / reach.spacing - 1.0)
    score += _EACH_TOOTH * sum(map(len, teeth))
    return _Rows(lines, teeth, strips[1::2], wider, raster.area, score)
