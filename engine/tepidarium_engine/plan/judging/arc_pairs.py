"""Places on a pipe and arcs near them: how far, and what is seen square to the pipe.

Arcs are looked at as such, so that no figure hangs on the chords of a drawing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...elementwise import Array
from ..pipes.pipe_table import Index, Mask
from .pipe_stretches import Near, Places, Stretches, allowed_shares, too_near_along

__all__ = ["ArcPairs"]


@dataclass(frozen=True, slots=True)
class ArcPairs:
    """``here`` is the place, ``first`` and ``last`` are the ends of the arc, as seen from its centre [m]."""

    places: Places
    stretches: Stretches
    pairs: Near
    here: Array
    first: Array
    last: Array
    radius: Array
    angle: Array
    hand: Array

    @classmethod
    def of(cls, places: Places, stretches: Stretches, near: Near) -> ArcPairs:
        place, stretch = places.paired(stretches, near)
        piece = stretches.piece[stretch]
        centre, radius = stretches.table.centre[piece], stretches.table.radius[piece]
        return cls(
            places,
            stretches,
            (place, stretch),
            places.points[place] - centre,
            stretches.start[stretch] - centre,
            stretches.end[stretch] - centre,
            radius,
            stretches.length[stretch] / radius,
            stretches.hand[stretch],
        )

    def squared(self) -> Array:
        """Squared distance [m2], to what is far enough along the pipe; infinite if nothing is."""
        near = np.flatnonzero(too_near_along(self.places, self.stretches, self.pairs))
        place, stretch = self.pairs[0][near], self.pairs[1][near]
        low, high = allowed_shares(self.places, self.stretches, (place, stretch))
        first, last, angle = self.first.copy(), self.last.copy(), self.angle.copy()
        angle[near] *= high - low
        piece = self.stretches.piece[stretch]
        for ends, share in ((first, low), (last, high)):
            cut = np.flatnonzero((share > 0.0) & (share < 1.0))
            at = self.stretches.start_at[stretch[cut]] + share[cut] * self.stretches.length[stretch[cut]]
            ends[near[cut]] = (
                self.stretches.table.poses(at, piece[cut])[0] - self.stretches.table.centre[piece[cut]]
            )
        facing = _on_arc(self.here, first, last, angle, self.hand)
        to_circle = np.sqrt(_dot(self.here, self.here)) - self.radius
        to_first, to_last = self.here - first, self.here - last
        to_ends = np.minimum(_dot(to_first, to_first), _dot(to_last, to_last))
        squared: Array = np.where(facing, to_circle**2, to_ends)
        squared[near[low >= high]] = math.inf
        return squared

    def seen(self, look: float) -> tuple[Index, Array, Array]:
        """What is met square to the pipe within ``look`` [m]: the place, how far to its left [m], and the
        position there [m]. A line meets a circle twice or not at all."""
        place, stretch = self.pairs
        tangent = self.places.tangents[place]
        ahead, left = -_dot(self.here, tangent), -_cross(tangent, self.here)
        met = np.flatnonzero(np.abs(ahead) <= self.radius)
        half = np.sqrt(self.radius[met] ** 2 - ahead[met] ** 2)
        met, side = np.concatenate((met, met)), np.concatenate((left[met] - half, left[met] + half))
        near = np.abs(side) <= look
        met, side = met[near], side[near]
        square = np.column_stack((-tangent[met, 1], tangent[met, 0]))
        way = self.here[met] + side[:, None] * square
        on = _on_arc(way, self.first[met], self.last[met], self.angle[met], self.hand[met])
        met, side, way = met[on], side[on], way[on]
        along = self.radius[met] * self._turned(met, way)
        return place[met], side, self.stretches.start_at[stretch[met]] + along

    def _turned(self, row: Index, way: Array) -> Array:
        """Angle from the start of the arc to a way from its centre [rad]."""
        full = 2.0 * math.pi
        across = (self.hand[row] * _cross(self.first[row], way)).tolist()
        along = _dot(self.first[row], way).tolist()
        turned = np.array([math.atan2(y, x) % full for y, x in zip(across, along, strict=True)])
        # What rounding puts off the arc belongs to the end that is nearer.
        angle = self.angle[row]
        return np.where(full - turned < turned - angle, 0.0, np.minimum(turned, angle))


def _on_arc(way: Array, first: Array, last: Array, angle: Array, hand: Array) -> Mask:
    """Whether ways from the centre of an arc, that goes from ``first`` to ``last`` by ``angle``, meet it."""
    past_first, before_last = hand * _cross(first, way), hand * _cross(way, last)
    within: Mask = np.where(
        angle <= math.pi,
        (past_first >= 0.0) & (before_last >= 0.0) & (_dot(first + last, way) >= -1e-12),
        ~((past_first < 0.0) & (before_last < 0.0)),
    )
    return within


def _cross(a: Array, b: Array) -> Array:
    product: Array = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    return product


def _dot(a: Array, b: Array) -> Array:
    product: Array = a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1]
    return product
