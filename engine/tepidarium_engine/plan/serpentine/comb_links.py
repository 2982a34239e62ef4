"""Links that make teeth a comb: a spanning tree whose outline is one loop, with its way back along the trunk.

Everything here has the trunk on the side of small x; a comb with the other trunk is laid mirrored.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon

from ...elementwise import Array
from ..outlines.overlays import union
from .comb_teeth import Piece, Reach, quadrilaterals

__all__ = ["combs", "tight_corners"]

_ROUNDING = 1e-6
_BESIDE_LINE = 1e-4
"""What ends of pieces on both sides of a line may differ by, as they are taken beside it [m]."""
_TRIM = 0.3
"""How far a tooth may be cut back at one end to stand flush with its neighbour, in spacings."""
_SLANT = 1.75
_LEANING = 0.72
"""Distance kept from a leaning end of a tooth, in spacings."""
_LONG = 2.0
"""What a run is left, in widths of a turn, where the turn at its end lies back."""
_WIDEST = 1.5
"""Of a link, in spacings: its middle is still heated from both sides."""


_Tooth = tuple[int, int]
"""Row and number in the row."""
_Pair = tuple[_Tooth, _Tooth]


@dataclass(frozen=True, slots=True)
class _Link:
    """A piece between two teeth; ``cut_back``: a tooth that begins a little before it is to begin with it."""

    lower: _Tooth
    upper: _Tooth
    piece: Piece
    weight: float
    cut_back: bool = False


def combs(
    teeth: Sequence[Sequence[Piece]],
    gaps: Sequence[Sequence[Piece]],
    shoulders: Sequence[Sequence[Sequence[Piece]]],
    reach: Reach,
) -> list[Polygon]:
    """Outlines of the combs that ``teeth`` make, a list for each row from below; ``gaps`` lie between rows.

    ``shoulders`` are pieces that belong to each tooth. The links are a minimum spanning forest (Kruskal's
    algorithm): where teeth surround a void the weakest link is left out by itself.
    """
    pieces = {(row, number): piece for row, many in enumerate(teeth) for number, piece in enumerate(many)}
    chosen, comb_of = _forest(_all_links(teeth, gaps, reach), list(pieces))
    members: dict[_Tooth, list[Piece]] = {}
    for link in chosen:
        if link.cut_back:
            lower, upper = pieces[link.lower], pieces[link.upper]
            at = link.piece.left
            if at - lower.left_high <= _TRIM * reach.spacing:
                pieces[link.lower] = lower._replace(left_high=max(at, lower.left_high))
            if at - upper.left_low <= _TRIM * reach.spacing:
                pieces[link.upper] = upper._replace(left_low=max(at, upper.left_low))
        members.setdefault(comb_of[link.lower], []).append(link.piece)
    for tooth, piece in pieces.items():
        row, number = tooth
        own = _shortened(piece, reach) if row % 2 else piece
        members.setdefault(comb_of[tooth], []).extend((own, *shoulders[row][number]))
    return [_outline(parts) for _, parts in sorted(members.items())]


def _shortened(piece: Piece, reach: Reach) -> Piece:
    """A tooth whose turn lies back behind those beside it, if it is long enough."""
    by = reach.stagger
    if piece.right - piece.left - by < _LONG * reach.least_leg:
        return piece
    return piece._replace(right_low=piece.right_low - by, right_high=piece.right_high - by)


def _all_links(
    teeth: Sequence[Sequence[Piece]], gaps: Sequence[Sequence[Piece]], reach: Reach
) -> list[_Link]:
    return [
        link
        for row in range(len(teeth) - 1)
        for lower, low in enumerate(teeth[row])
        for upper, high in enumerate(teeth[row + 1])
        for gap in gaps[row]
        for link in [_link(((row, lower), (row + 1, upper)), (low, high), gap, reach)]
        if link is not None
    ]


def _forest(links: Sequence[_Link], teeth: Sequence[_Tooth]) -> tuple[list[_Link], dict[_Tooth, _Tooth]]:
    """The links of the minimum spanning forest, and for each tooth the one that stands for its comb."""
    group = {tooth: tooth for tooth in teeth}

    def root(tooth: _Tooth) -> _Tooth:
        while group[tooth] != tooth:
            tooth = group[tooth]
        return tooth

    chosen = []
    for link in sorted(links, key=lambda link: (round(link.weight, 6), link.lower, link.upper)):
        one, other = root(link.lower), root(link.upper)
        if one != other:
            group[max(one, other)] = min(one, other)
            chosen.append(link)
    return chosen, {tooth: root(tooth) for tooth in teeth}


def _outline(parts: Sequence[Piece]) -> Polygon:
    """One polygon: teeth and links share edges."""
    whole = union(quadrilaterals(parts))
    largest = max(shapely.get_parts(whole), key=lambda part: part.area)
    outline: Polygon = shapely.simplify(Polygon(largest.exterior), _ROUNDING)
    return outline


def _link(teeth: _Pair, between: tuple[Piece, Piece], gap: Piece, reach: Reach) -> _Link | None:
    """The best link through a gap, at its end towards the trunk."""
    lower, upper = between
    begin = max(lower.left_high, upper.left_low, gap.left)
    end = min(lower.right_high, upper.right_low, gap.right)
    if end - begin < reach.link_width - _ROUNDING:
        return None
    weight = reach.spacing / (end - begin)
    slanted = _slanted(lower, upper, gap, reach, back=teeth[0][0] % 2 == 1)
    if slanted is not None:
        bend = abs(slanted.left_low - slanted.left_high) / reach.spacing
        return _Link(*teeth, slanted, weight + 0.1 * bend)
    start, cut_back = begin, False
    legs = [begin - left for left in (lower.left_high, upper.left_low)]
    short = [leg for leg in legs if _ROUNDING < leg < reach.least_leg]
    if short and max(short) <= _TRIM * reach.spacing:
        cut_back = True
    elif short:
        aside = max(lower.left_high, upper.left_low) + reach.least_leg
        start = aside if aside + reach.link_width <= end else begin
    width = _width(start, end, (lower, upper), reach)
    if teeth[0][0] % 2 and end - start > width + reach.stagger + _LONG * reach.least_leg:
        width += reach.stagger
    piece = Piece(gap.low, gap.high, start, start + width, start, start, start + width, start + width)
    aside_cost = 0.6 if start > begin else 0.2 if max(legs) > _ROUNDING else 0.0
    return _Link(*teeth, piece, weight + aside_cost, cut_back)


def _slanted(lower: Piece, upper: Piece, gap: Piece, reach: Reach, *, back: bool) -> Piece | None:
    """A link from end to end of the teeth, if the gap is free as far as that."""
    low, high = lower.left_high, upper.left_low
    run = abs(high - low)
    if gap.left_low > low + _BESIDE_LINE or gap.left_high > high + _BESIDE_LINE:
        return None
    height = gap.high - gap.low
    width = reach.link_width * math.hypot(1.0, run / height)
    fits = (
        run <= _SLANT * height
        and low + width <= min(lower.right_high, gap.right) + _ROUNDING
        and high + width <= min(upper.right_low, gap.right) + _ROUNDING
    )
    if not fits:
        return None
    if run <= _ROUNDING:
        end = min(lower.right_high, upper.right_low, gap.right)
        width = _width(low, end, (lower, upper), reach)
        if back and end - low > width + reach.stagger + _LONG * reach.least_leg:
            width += reach.stagger
    return Piece(
        gap.low, gap.high, max(low, high), min(low, high) + width, low, high, low + width, high + width
    )


def _width(start: float, end: float, teeth: tuple[Piece, Piece], reach: Reach) -> float:
    """As wide as a link is, or up to the nearer end of the teeth where less than a leg would be left.

    Next to a tooth whose end leans over the link it is wider, so that the run behind keeps its distance.
    """
    lower, upper = teeth
    leaning = max(
        (lower.left_low - lower.left_high) / (lower.high - lower.low),
        (upper.left_high - upper.left_low) / (upper.high - upper.low),
        0.0,
    )
    width = min(reach.link_width * max(1.0, _LEANING * math.hypot(1.0, leaning)), end - start)
    nearest = min(lower.right_high, upper.right_low) - start
    if (
        end - start - width < reach.least_leg
        and nearest <= min(end - start, _WIDEST * reach.spacing) + _ROUNDING
    ):
        return nearest
    return width


def tight_corners(outline: Polygon, bend_radius: float) -> int:
    """Legs of an outline that are too short for the bends at both ends."""
    points: Array = shapely.get_coordinates(outline.exterior)[:-1]
    legs = np.roll(points, -1, axis=0) - points
    lengths = np.hypot(legs[:, 0], legs[:, 1])
    before = np.roll(legs, 1, axis=0)
    cross = before[:, 0] * legs[:, 1] - before[:, 1] * legs[:, 0]
    turn = np.arctan2(np.abs(cross), (before * legs).sum(axis=1))
    tangents = bend_radius * np.tan(np.minimum(turn, 3.1) / 2.0)
    return int(np.count_nonzero(tangents + np.roll(tangents, -1) > lengths + _ROUNDING))
