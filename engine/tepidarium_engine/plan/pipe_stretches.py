"""A pipe cut into short stretches, and what is to be known about a place and a stretch near it.

Lines and arcs are looked at as such, so that no figure hangs on the chords of a drawing.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ..elementwise import Array
from .pipe_path import LEAST_PIECE_LENGTH
from .pipe_table import Index, Mask, PipeTable

__all__ = ["APART", "Places", "Stretches", "squared_distances", "views"]

APART = 2.6
"""Parts of the pipe count as different pipes when they are further apart along it, in spacings.

A U-turn over one spacing is 1.6 spacings long, and the straight pipes behind it are a spacing apart.
"""


@dataclass(frozen=True, slots=True)
class Stretches:
    """One row a stretch: where it starts along the pipe, its ends, and the circle if it is an arc.

    ``hand`` is 1 for an arc that turns to the left, -1 to the right, 0 for a line.
    """

    table: PipeTable
    piece: Index
    ends_at: Array
    start_at: Array
    length: Array
    start: Array
    end: Array
    hand: Array

    @classmethod
    def of(cls, table: PipeTable, longest: float, breaks: Sequence[float]) -> Stretches:
        """The pieces cut into stretches of at most ``longest`` [m], and at ``breaks`` too."""
        piece, ends_at = table.cut(math.inf, longest)
        new = [
            at for at in breaks if np.abs(ends_at - at).min() > LEAST_PIECE_LENGTH and 0.0 < at < table.total
        ]
        if new:
            starts = np.append(ends_at[:-1], new)
            order = np.argsort(starts)
            piece = np.append(piece, table.piece_at(np.array(new)))[order]
            ends_at = np.append(starts[order], ends_at[-1:])
        start, _ = table.poses(ends_at[:-1], piece)
        end, _ = table.poses(ends_at[1:], piece)
        hand = np.sign(table.sweep)[piece]
        return cls(table, piece, ends_at, ends_at[:-1], np.diff(ends_at), start, end, hand)

    def near(self, reach: float) -> tuple[Index, Index]:
        """Pairs of stretches whose boxes come within ``reach`` [m]; two of one straight line are none."""
        radius = self.table.radius[self.piece]
        # The rise of an arc over its chord is less than an eighth of length times angle.
        rise = np.zeros(len(radius))
        np.divide(self.length**2 / 8.0, radius, out=rise, where=radius > 0.0)
        low = np.minimum(self.start, self.end) - rise[:, None]
        high = np.maximum(self.start, self.end) + rise[:, None]
        tree = shapely.STRtree(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
        low, high = low - reach, high + reach
        here, there = tree.query(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
        keep = (self.piece[here] != self.piece[there]) | (self.hand[here] != 0.0)
        return here[keep], there[keep]


@dataclass(frozen=True, slots=True)
class Places:
    """Places on the pipe in the order of flow: ``at`` [m] along it, and the ``spacing`` [m] to judge by."""

    at: Array
    points: Array
    tangents: Array
    spacing: Array

    def paired(self, stretches: Stretches, near: tuple[Index, Index]) -> tuple[Index, Index]:
        """Each place on the first stretch of a pair with the second stretch."""
        first = np.searchsorted(self.at, stretches.ends_at)
        first[-1] = len(self.at)
        here, there = near
        counts = np.diff(first)[here]
        before = np.cumsum(counts) - counts
        place = np.repeat(first[here] - before, counts) + np.arange(int(counts.sum()))
        return place, np.repeat(there, counts)


def squared_distances(places: Places, stretches: Stretches, place: Index, stretch: Index) -> Array:
    """Squared distance [m2] of each pair, to what is far enough along the pipe; infinite if nothing is."""
    squared = np.empty(len(place))
    bent = stretches.hand[stretch] != 0.0
    for chosen, rule in ((np.flatnonzero(~bent), _to_lines), (np.flatnonzero(bent), _to_arcs)):
        squared[chosen] = rule(places, stretches, place[chosen], stretch[chosen])
    return squared


def _allowed(places: Places, stretches: Stretches, place: Index, stretch: Index) -> tuple[Array, Array]:
    """The part of each stretch that is far enough along the pipe, from one share of it to another.

    A stretch is short enough to reach out of what is left out at one end only: a share from that end is left.
    """
    start_at, length, at = stretches.start_at[stretch], stretches.length[stretch], places.at[place]
    ahead = start_at + length / 2.0 > at
    apart = np.where(ahead, APART, -APART) * places.spacing[place]
    share = np.clip((at + apart - start_at) / length, 0.0, 1.0)
    return np.where(ahead, share, 0.0), np.where(ahead, 1.0, share)


def _to_lines(places: Places, stretches: Stretches, place: Index, stretch: Index) -> Array:
    low, high = _allowed(places, stretches, place, stretch)
    x, y, dx, dy = _seen_from(places, stretches, place, stretch)
    nearest = np.clip(-(x * dx + y * dy) / np.maximum(dx * dx + dy * dy, 1e-300), low, high)
    squared = (x + nearest * dx) ** 2 + (y + nearest * dy) ** 2
    return np.where(low < high, squared, math.inf)


def _seen_from(
    places: Places, stretches: Stretches, place: Index, stretch: Index
) -> tuple[Array, Array, Array, Array]:
    """The first end of each stretch as seen from the place, and the way to its other end [m]."""
    way = stretches.end - stretches.start
    return (
        stretches.start[stretch, 0] - places.points[place, 0],
        stretches.start[stretch, 1] - places.points[place, 1],
        way[stretch, 0],
        way[stretch, 1],
    )


def _to_arcs(places: Places, stretches: Stretches, place: Index, stretch: Index) -> Array:
    low, high = _allowed(places, stretches, place, stretch)
    arc = stretches.piece[stretch]
    centre, radius = stretches.table.centre[arc], stretches.table.radius[arc]
    ends = []
    for share, whole in ((low, stretches.start), (high, stretches.end)):
        end = whole[stretch]
        cut = np.flatnonzero((share > 0.0) & (share < 1.0))
        at = stretches.start_at[stretch[cut]] + share[cut] * stretches.length[stretch[cut]]
        end[cut] = stretches.table.poses(at, arc[cut])[0]
        ends.append(end - centre)
    here = places.points[place] - centre
    angle = (high - low) * stretches.length[stretch] / radius
    facing = _on_arc(here, ends[0], ends[1], angle, stretches.hand[stretch])
    to_ends = [((here - end) ** 2).sum(axis=1) for end in ends]
    squared = np.where(facing, (_lengths(here) - radius) ** 2, np.minimum(*to_ends))
    return np.where(low < high, squared, math.inf)


def _on_arc(way: Array, first: Array, last: Array, angle: Array, hand: Array) -> Mask:
    """Whether ways from the centre of an arc, that goes from ``first`` to ``last`` by ``angle``, meet it."""
    past_first, before_last = hand * _cross(first, way), hand * _cross(way, last)
    within: Mask = np.where(
        angle <= math.pi,
        (past_first >= 0.0) & (before_last >= 0.0) & (_dot(first + last, way) >= -1e-12),
        ~((past_first < 0.0) & (before_last < 0.0)),
    )
    return within


def views(
    places: Places, stretches: Stretches, place: Index, stretch: Index, look: float
) -> tuple[Index, Array, Array]:
    """What is seen square to the pipe within ``look`` [m].

    The place, how far to its left the stretch is met [m], negative to its right, and the position there [m].
    """
    bent = stretches.hand[stretch] != 0.0
    straight, curved = np.flatnonzero(~bent), np.flatnonzero(bent)
    lines = _lines_met(places, stretches, place[straight], stretch[straight])
    arcs = _arcs_met(places, stretches, place[curved], stretch[curved], look)
    who, side, at = (np.concatenate(both) for both in zip(lines, arcs, strict=True))
    near = np.abs(side) <= look
    return who[near], side[near], at[near]


def _lines_met(
    places: Places, stretches: Stretches, place: Index, stretch: Index
) -> tuple[Index, Array, Array]:
    tangent_x, tangent_y = places.tangents[place, 0], places.tangents[place, 1]
    x, y, dx, dy = _seen_from(places, stretches, place, stretch)
    before = x * tangent_x + y * tangent_y
    step = dx * tangent_x + dy * tangent_y
    met = np.flatnonzero((before * (before + step) <= 0.0) & (step != 0.0))
    share = -before[met] / step[met]
    side = (y[met] + share * dy[met]) * tangent_x[met] - (x[met] + share * dx[met]) * tangent_y[met]
    row = stretch[met]
    return place[met], side, stretches.start_at[row] + share * stretches.length[row]


def _arcs_met(
    places: Places, stretches: Stretches, place: Index, stretch: Index, look: float
) -> tuple[Index, Array, Array]:
    """A line square to the pipe meets a circle twice or not at all."""
    arc = stretches.piece[stretch]
    centre, radius = stretches.table.centre[arc], stretches.table.radius[arc]
    to_centre, tangent = centre - places.points[place], places.tangents[place]
    ahead, left = _dot(to_centre, tangent), _cross(tangent, to_centre)
    met = np.flatnonzero(np.abs(ahead) <= radius)
    half = np.sqrt(radius[met] ** 2 - ahead[met] ** 2)
    met, side = np.concatenate((met, met)), np.concatenate((left[met] - half, left[met] + half))
    near = np.abs(side) <= look
    met, side = met[near], side[near]
    row, square = stretch[met], np.column_stack((-tangent[met, 1], tangent[met, 0]))
    way = side[:, None] * square - to_centre[met]
    first, last = stretches.start[row] - centre[met], stretches.end[row] - centre[met]
    angle = stretches.length[row] / radius[met]
    on = np.flatnonzero(_on_arc(way, first, last, angle, stretches.hand[row]))
    across = (stretches.hand[row[on]] * _cross(first[on], way[on])).tolist()
    along = _dot(first[on], way[on]).tolist()
    full = 2.0 * math.pi
    turned = np.array([math.atan2(y, x) % full for y, x in zip(across, along, strict=True)])
    # What rounding puts off the arc belongs to the end that is nearer.
    turned = np.where(full - turned < turned - angle[on], 0.0, np.minimum(turned, angle[on]))
    return place[met[on]], side[on], stretches.start_at[row[on]] + turned * radius[met[on]]


def _cross(a: Array, b: Array) -> Array:
    product: Array = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    return product


def _dot(a: Array, b: Array) -> Array:
    product: Array = a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1]
    return product


def _lengths(vectors: Array) -> Array:
    lengths: Array = np.sqrt(_dot(vectors, vectors))
    return lengths
