"""Combs for a room: which way the runs go, on which lines, and on which side they are linked.

A comb is laid in a frame of its own, runs along x; for runs along y the room's axes are exchanged.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from ...checking import Point
from ...elementwise import Array
from ..outlines.edges import edges_of
from ..outlines.regions import Region, dilated
from .comb_lines import line_sets
from .comb_links import combs, tight_corners
from .comb_score import FloorRaster
from .comb_shoulders import shoulders
from .comb_teeth import Piece, Reach, pieces_between

__all__ = ["Comb", "Direction", "Trunk", "best_combs"]

_KEPT = 3
"""Sets of lines for which links are made, and one more with runs the other way."""

# What counts beside the share of bare floor: runs across the longest wall; each leg too short for its bends; each
# further loop; slanted ends of teeth that no trunk follows; length that is missing or too much, as a share.
_OTHER_WAY = 0.003
_TIGHT = 0.02
_LOOPS = 0.03
_SLANTED = 0.5
_LENGTH = 1.3
_USUAL_LENGTH = (0.965, 1.025)
"""In terms of floor over spacing."""

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
class _Floor:
    """Where the centre line may lie, runs along x, and the length [m] that its floor ideally takes."""

    area: Polygon | MultiPolygon
    edges: Array
    raster: FloorRaster
    ideal_length: float


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


def best_combs(
    area: Polygon | MultiPolygon, reach: Reach, quick: bool, inward: Point = (0.0, 1.0)
) -> list[Comb]:
    """Combs in ``area``, where the centre line may lie; best first by a score that needs no finished pipe.

    Of equals, as in a square, that one comes first whose trunk is on the side of the entry, or to the left of
    it; ``inward`` is the unit vector from the entry into the room.
    """
    ahead: Direction = "x" if abs(inward[0]) > abs(inward[1]) else "y"
    other: Direction = "y" if ahead == "x" else "x"
    along = _longest_wall(area) or ahead
    found = [
        replace(rows, score=rows.score + (0.0 if direction == along else _OTHER_WAY))
        for direction in ((along,) if quick else (ahead, other))
        for rows in _all_rows(area, direction, reach, quick)
    ]
    found.sort(
        key=lambda rows: (round(rows.score, 6), rows.direction != ahead, _first_line(rows, area, inward))
    )
    kept = found[: 1 if quick else _KEPT]
    if not quick:
        kept += [rows for rows in found[_KEPT:] if all(rows.direction != one.direction for one in kept)][:1]
    made = [_comb(rows, trunk, reach) for rows in kept for trunk in ("low", "high")]
    return sorted(made, key=lambda comb: (round(comb.score, 6), *_from_entry(comb, inward)))


def _first_line(rows: _Rows, area: Region, inward: Point) -> float:
    """How far the first line is from the side of the entry, or from the side to the left of it [m]."""
    left, bottom, right, top = shapely.bounds(area).tolist()
    low, high, ahead, aside = (
        (bottom, top, inward[1], inward[0]) if rows.direction == "x" else (left, right, inward[0], -inward[1])
    )
    upwards = round(ahead, 3) > 0.0 or (round(ahead, 3) == 0.0 and aside > 0.0)
    return round(float(rows.lines[0] - low if upwards else high - rows.lines[-1]), 4)


def _from_entry(comb: Comb, inward: Point) -> tuple[float, float]:
    """How far the trunk is from the side of the entry, and from the left of it: same for a room turned round."""
    side = -1.0 if comb.trunk == "low" else 1.0
    x, y = (side, 0.0) if comb.direction == "x" else (0.0, side)
    return round(x * inward[0] + y * inward[1], 3), round(x * inward[1] - y * inward[0], 3)


def _longest_wall(area: Region) -> Direction | None:
    """The axis along it; ``None`` where there are two."""
    edges = edges_of(area)
    dx, dy = (round(float(np.abs(edges[:, at + 2] - edges[:, at]).max()), 5) for at in (0, 1))
    return None if dx == dy else "y" if dy > dx else "x"


def _exchanged(region: Polygon) -> Polygon:
    """With x and y exchanged."""
    exchanged: Polygon = shapely.transform(region, lambda points: points[:, ::-1])
    return exchanged


def _comb(rows: _Rows, trunk: Trunk, reach: Reach) -> Comb:
    teeth, gaps, wider = rows.teeth, rows.gaps, rows.shoulders
    if trunk == "high":
        teeth, gaps = (_mirrored(pieces) for pieces in (teeth, gaps))
        wider = [[[piece.mirrored() for piece in tooth] for tooth in reversed(row)] for row in wider]
    bend_radius = reach.least_leg / 2.0
    outlines = combs(teeth, gaps, wider, reach)
    tight = sum(tight_corners(outline, bend_radius) for outline in outlines)
    slanted = sum(abs(tooth.right_low - tooth.right_high) for row in teeth for tooth in row)
    if trunk == "high":
        outlines = [shapely.transform(outline, lambda points: points * (-1.0, 1.0)) for outline in outlines]
    if rows.direction == "y":
        outlines = [_exchanged(outline) for outline in outlines]
    score = rows.score + _TIGHT * tight + _LOOPS * max(0, len(outlines) - 1)
    score += _SLANTED * slanted * reach.spacing / rows.floor
    return Comb(tuple(outlines), rows.direction, trunk, float(np.median(np.diff(rows.lines))), score)


def _mirrored(pieces: list[list[Piece]]) -> list[list[Piece]]:
    return [[piece.mirrored() for piece in reversed(row)] for row in pieces]


def _all_rows(
    area: Polygon | MultiPolygon, direction: Direction, reach: Reach, quick: bool
) -> Iterator[_Rows]:
    """Every set of lines for runs in one direction, once."""
    turned = area if direction == "x" else _exchanged(area)
    ideal = shapely.area(dilated(turned, reach.spacing / 2.0)) / reach.spacing
    floor = _Floor(turned, edges_of(turned), FloorRaster.of(turned, reach), ideal)
    seen: set[tuple[float, ...]] = set()
    for lines in line_sets(floor.edges, reach, quick):
        rows = _rows(lines, floor, reach)
        if rows.key not in seen:
            seen.add(rows.key)
            yield replace(rows, direction=direction)


def _rows(lines: Array, floor: _Floor, reach: Reach) -> _Rows:
    strips = pieces_between(floor.edges, floor.area, lines[:-1], lines[1:], reach.link_width)
    teeth = strips[::2]
    wider = shoulders(teeth, floor.edges, lines, reach)
    plain = list(chain.from_iterable(teeth))
    score = floor.raster.score([*plain, *chain.from_iterable(chain.from_iterable(wider))])
    score += _length_missed(plain, floor.ideal_length, reach)
    return _Rows(lines, teeth, strips[1::2], wider, floor.raster.area, score)


def _length_missed(teeth: Sequence[Piece], ideal: float, reach: Reach) -> float:
    """What the length of pipe costs, and floor in the corners of its turns.

    Each tooth takes, beside its two runs, two turns and its part of the way back; a rounded right angle is
    (2 - pi / 2) radii shorter than a sharp one.
    """
    rounding = 4.0 * (2.0 - math.pi / 2.0) * reach.least_leg / 2.0 * len(teeth)
    length = sum(run.right_low - run.left_low + run.right_high - run.left_high for run in teeth)
    share = (length + 2.0 * reach.spacing * len(teeth) - rounding) / ideal
    low, high = _USUAL_LENGTH
    return rounding / ideal + _LENGTH * max(0.0, low - share, share - high)
