"""Teeth of a comb: pairs of pipe runs that fit between the walls, and the gaps between them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely

from ...elementwise import Array
from ..outlines.regions import Region

__all__ = ["Piece", "Reach", "Span", "free_spans", "pieces_between", "quadrilaterals"]

_ROUNDING = 1e-6
"""Edges that reach into a strip by less do not block it [m]."""
_AT_LINE = 1e-5
"""Height of the strip that stands for a line [m]."""
_SLANT = 1.75
"""How much further a run may reach than its neighbour, in heights of the strip: walls from 30 degrees on."""

_BULGES_APART = 0.64
_PASSING = 2.0 - _BULGES_APART
"""Distance of bulges, and width of those that pass each other side by side, in spacings."""

Span = tuple[float, float]


class Reach(NamedTuple):
    """What a comb is measured by [m]: ``spacing`` of the pipe, least length between two bends, and how far
    floor goes on beyond the outermost places of the pipe, as far as pipe there heats it."""

    spacing: float
    least_leg: float
    margin: float

    @property
    def link_width(self) -> float:
        return max(self.spacing, self.least_leg)

    @property
    def stagger(self) -> float:
        """By how much every second turn lies back, so that bulges of a stiff pipe pass each other [m]: turns lie two
        spacings apart."""
        if self.least_leg <= _PASSING * self.spacing:
            return 0.0
        apart = self.least_leg + _BULGES_APART * self.spacing
        return math.sqrt(apart**2 - (2.0 * self.spacing) ** 2)


class Piece(NamedTuple):
    """Part of the strip between two lines, ``low`` < ``high`` [m], that is free over its whole height from
    ``left`` to ``right`` [m]. Its ends follow slanted walls: ``left_low`` to ``left_high`` and so on."""

    low: float
    high: float
    left: float
    right: float
    left_low: float
    left_high: float
    right_low: float
    right_high: float

    def mirrored(self) -> Piece:
        """With all x turned round."""
        return Piece(
            self.low,
            self.high,
            -self.right,
            -self.left,
            -self.right_low,
            -self.right_high,
            -self.left_low,
            -self.left_high,
        )

    def straight(self) -> Piece:
        return Piece(self.low, self.high, self.left, self.right, self.left, self.left, self.right, self.right)


def free_spans(edges: Array, low: Array, high: Array) -> list[list[Span]]:
    """For each strip from ``low`` to ``high`` [m], the spans of x over which its whole height is free.

    ``edges`` are rows (x0, y0, x1, y1) of all outlines of the area.
    """
    x0, y0, x1, y1 = edges.T
    level = y0 == y1
    slope = (x1 - x0) / np.where(level, 1.0, y1 - y0)
    below, above = np.minimum(y0, y1), np.maximum(y0, y1)
    rows, columns = np.nonzero((below < high[:, None] - _ROUNDING) & (above > low[:, None] + _ROUNDING))
    begin = np.maximum(low[rows], below[columns])
    end = np.minimum(high[rows], above[columns])
    from_x = np.where(level[columns], x0[columns], x0[columns] + slope[columns] * (begin - y0[columns]))
    to_x = np.where(level[columns], x1[columns], x0[columns] + slope[columns] * (end - y0[columns]))
    middle = ((low + high) / 2.0)[rows]
    crossing = (y0[columns] <= middle) != (y1[columns] <= middle)
    first, last = np.minimum(from_x, to_x), np.maximum(from_x, to_x)
    order = np.lexsort((last, first, rows))
    spans: list[list[Span]] = [[] for _ in low]
    row, reach, inside = -1, -np.inf, False
    for here, start, stop, crosses in zip(
        rows[order].tolist(),
        first[order].tolist(),
        last[order].tolist(),
        crossing[order].tolist(),
        strict=True,
    ):
        if here != row:
            row, reach, inside = here, -np.inf, False
        if inside and start > reach + _ROUNDING:
            spans[row].append((reach, start))
        reach = max(reach, stop)
        inside ^= crosses
    return spans


def pieces_between(edges: Array, area: Region, low: Array, high: Array, least: float) -> list[list[Piece]]:
    """For each strip the pieces at least ``least`` [m] long, in order of x; all lie inside ``area``."""
    spans = free_spans(edges, low, high)
    lower = free_spans(edges, low, low + _AT_LINE)
    upper = free_spans(edges, high - _AT_LINE, high)
    pieces: list[Piece] = []
    counts = []
    for row, found in enumerate(spans):
        kept = _apart(found, least)
        counts.append(len(kept))
        for span, reach in kept:
            pieces.append(
                _slanted((float(low[row]), float(high[row])), span, (lower[row], upper[row]), reach)
            )
    sound = _inside(area, pieces)
    settled = iter(piece if fits else _eased(area, piece) for piece, fits in zip(pieces, sound, strict=True))
    return [[next(settled) for _ in range(count)] for count in counts]


def quadrilaterals(pieces: Sequence[Piece]) -> list[shapely.Polygon]:
    """Outlines of pieces, counter-clockwise."""
    corners = [
        (
            (piece.left_low, piece.low),
            (piece.right_low, piece.low),
            (piece.right_high, piece.high),
            (piece.left_high, piece.high),
            (piece.left_low, piece.low),
        )
        for piece in pieces
    ]
    return list(shapely.polygons(np.array(corners))) if corners else []


def _apart(spans: list[Span], least: float) -> list[tuple[Span, Span]]:
    """Spans at least that long, each with how far it may reach, so that they stay as far from each other."""
    long = [span for span in spans if span[1] - span[0] >= least]
    if not long:
        return []
    middles = [(one[1] + other[0]) / 2.0 for one, other in pairwise(long)]
    kept = []
    for span, before, after in zip(long, [-np.inf, *middles], [*middles, np.inf], strict=True):
        reach = (before + least / 2.0, after - least / 2.0)
        inner = (max(span[0], reach[0]), min(span[1], reach[1]))
        if inner[1] - inner[0] >= least:
            kept.append((inner, reach))
    return kept


def _slanted(
    height: tuple[float, float], span: Span, lines: tuple[list[Span], list[Span]], reach: Span
) -> Piece:
    """The piece as far as both lines are free and ``reach`` allows: it keeps apart from its neighbours."""
    left, right = span
    slant = _SLANT * (height[1] - height[0])
    ends = []
    for spans in lines:
        around = next((s for s in spans if s[0] <= left + 1e-4 and s[1] >= right - 1e-4), span)
        ends.append(
            (
                min(left, max(around[0], left - slant, reach[0])),
                max(right, min(around[1], right + slant, reach[1])),
            )
        )
    (left_low, right_low), (left_high, right_high) = ends
    # A wall slants one way: the end that reaches less far is where the whole height begins to be free.
    if left_low < left and left_high < left:
        left_low = left_high = left
    if right_low > right and right_high > right:
        right_low = right_high = right
    return Piece(*height, left, right, left_low, left_high, right_low, right_high)


def _inside(area: Region, pieces: Sequence[Piece]) -> list[bool]:
    grown = shapely.buffer(area, 2.0 * _ROUNDING, join_style="mitre")
    shapely.prepare(grown)
    fits: list[bool] = shapely.covers(grown, np.array(quadrilaterals(pieces), dtype=object)).tolist()
    return fits


def _eased(area: Region, piece: Piece) -> Piece:
    """The piece with one or both ends upright, as the area asks."""
    left = piece._replace(left_low=piece.left, left_high=piece.left)
    right = piece._replace(right_low=piece.right, right_high=piece.right)
    fits = _inside(area, (right, left))
    return right if fits[0] else left if fits[1] else piece.straight()
