"""Shortest paths of bounded curvature between many pairs of poses at once, as columns of numbers.

Dubins (American Journal of Mathematics 79, 1957, 497-516): the shortest is an arc, a straight and an arc, or
three arcs, all of the least radius, and some of them may vanish. With L and R for a turn to the left and to
the right and S for straight that makes six words: LSL, RSR, LSR, RSL, LRL, RLR.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import NamedTuple

import numpy as np

from ...checking import Point
from ...elementwise import Array
from .pipe_path import LEAST_PIECE_LENGTH, Arc, Line
from .pipe_table import Index, Mask

__all__ = ["WORDS", "CurveTable", "Pieces", "Pose", "Vertices"]

WORDS = ("LSL", "RSR", "LSR", "RSL", "LRL", "RLR")
_TOUCH_TOLERANCE = 1e-9
"""Circles this near to touching do touch; relative to the radius."""
Pieces = tuple[Line | Arc, ...]


class Pose(NamedTuple):
    """A point [m] and a direction of travel [rad], counter-clockwise from the x axis."""

    place: Point
    heading: float


_RIGHT_ANGLE, _FULL_TURN = math.pi / 2.0, 2.0 * math.pi
_FIRST, _LAST = (np.array([1.0 if word[part] == "L" else -1.0 for word in WORDS]) for part in (0, 2))
"""To which side the first and the last arc turn: 1 to the left."""
_STRAIGHT = np.array([word[1] == "S" for word in WORDS])
_SAME_HAND = _FIRST == _LAST


@dataclass(frozen=True, slots=True)
class Vertices:
    """Vertices of curves one after the other: the row of the curve, how far along it [m], the points [m]."""

    row: Index
    along: Array
    points: Array


@dataclass(frozen=True, slots=True)
class CurveTable:
    """One row a curve, in the order of the pairs and for each in the order of the words.

    ``pair`` is whose it is, ``word`` its place among the words, ``start`` its first point and ``joints`` where its
    three parts meet [m]. Each part, a column, has a ``length`` [m], 0 where it is left out, a ``centre`` [m], the
    ``angle`` at which it starts as seen from there, and a ``sweep`` [rad]; the straight ones no more than a length.
    """

    radius: float
    pair: Index
    word: Index
    start: Array
    joints: Array
    length: Array
    centre: Array
    angle: Array
    sweep: Array

    @classmethod
    def between(
        cls, poses: Sequence[Pose], pairs: tuple[Index, Index], radius: float, longest: Array
    ) -> CurveTable:
        """All curves between pairs of the poses that are at most ``longest`` [m]: a number for each pair.

        Three arcs come with a middle one of more than half a turn only: the other one is never the shortest. Numbers
        are sound, and not checked here.
        """
        table = np.array(
            [(*place, heading, math.cos(heading), math.sin(heading)) for place, heading in poses]
        )
        first, last = (table[index][:, None, :] for index in pairs)
        exists, out, into, middle = _directions(first, last, radius)
        row = np.flatnonzero(exists & (np.where(_STRAIGHT, middle, 0.0) <= longest[:, None]))
        pair, word = np.divmod(row, len(WORDS))
        first, last = first[pair, 0], last[pair, 0]
        out, into, middle = out.reshape(-1, 2)[row], into.reshape(-1, 2)[row], middle.reshape(-1)[row]
        hand, last_hand, straight = _FIRST[word], _LAST[word], _STRAIGHT[word]
        centre, last_centre = _centre(first, hand, radius), _centre(last, last_hand, radius)
        turn = _turn(first[:, 3:], out, hand, radius)
        last_turn = _turn(into, last[:, 3:], last_hand, radius)
        round_about = np.zeros(len(row))
        round_about[~straight] = [math.pi + 2.0 * math.acos(base) for base in middle[~straight].tolist()]
        middle = np.where(straight, middle, radius * round_about)
        length = np.column_stack((radius * turn, middle, radius * last_turn))
        length[length < LEAST_PIECE_LENGTH] = 0.0
        heading = first[:, 2]
        angles = (
            heading - hand * _RIGHT_ANGLE,
            heading + hand * (turn + _RIGHT_ANGLE),
            heading + hand * (turn - round_about) - last_hand * _RIGHT_ANGLE,
        )
        to_right, last_to_right = _to_right(out, hand * radius), _to_right(into, last_hand * radius)
        curves = cls(
            radius,
            pair,
            word,
            first[:, :2],
            np.stack((centre + to_right, last_centre + last_to_right), axis=1),
            length,
            np.stack((centre, centre + 2.0 * to_right, last_centre), axis=1),
            np.column_stack(angles),
            np.column_stack((hand * turn, -hand * round_about, last_hand * last_turn)),
        )
        total = curves.total
        return curves.of(np.flatnonzero((total > 0.0) & (total <= longest[pair])))

    def __len__(self) -> int:
        return len(self.pair)

    def of(self, rows: Index) -> CurveTable:
        """The curves of these rows."""
        columns = (getattr(self, column.name)[rows] for column in fields(self)[1:])
        return CurveTable(self.radius, *columns)

    @property
    def total(self) -> Array:
        """Length of each curve [m]."""
        total: Array = self.length[:, 0] + self.length[:, 1] + self.length[:, 2]
        return total

    def pieces(self, row: int) -> Pieces:
        """The pieces of a curve; parts of no length are left out."""
        arcs = zip(self.centre[row].tolist(), self.angle[row].tolist(), self.sweep[row].tolist(), strict=True)
        parts: list[Line | Arc] = [Arc((x, y), self.radius, angle, sweep) for (x, y), angle, sweep in arcs]
        if _STRAIGHT[self.word[row]]:
            (ax, ay), (bx, by) = self.joints[row].tolist()
            parts[1] = Line((ax, ay), (bx, by))
        return tuple(part for part, length in zip(parts, self.length[row], strict=True) if length)

    def probes(self) -> Array:
        """Five points of each curve: the middle of each part, and in between where the parts meet [m]."""
        points = np.empty((len(self), 5, 2))
        points[:, 0::2] = self._on_arcs(self.centre, self.angle + self.sweep / 2.0)
        points[:, 1::2] = self.joints
        straight = _STRAIGHT[self.word]
        points[straight, 2] = (self.joints[straight, 0] + self.joints[straight, 1]) / 2.0
        return points

    def _on_arcs(self, centre: Array, angle: Array) -> Array:
        # By the C library and not by numpy, whose sine may differ between processors in the last bit.
        angles = angle.reshape(-1).tolist()
        cosine = np.fromiter(map(math.cos, angles), np.float64, len(angles)).reshape(angle.shape)
        sine = np.fromiter(map(math.sin, angles), np.float64, len(angles)).reshape(angle.shape)
        points: Array = centre + self.radius * np.stack((cosine, sine), axis=-1)
        return points

    def vertices(self, widest: float) -> Vertices:
        """Points of the curves, the ends of their parts among them, on arcs at most ``widest`` [rad] apart."""
        count = np.ceil(np.abs(self.sweep) / widest - 1e-9)
        straight = _STRAIGHT[self.word]
        count[straight, 1] = 1.0
        count[self.length == 0.0] = 0.0
        # A part of its own for the first point: it starts nowhere and has no length.
        counts = np.column_stack((np.ones(len(self)), count)).astype(np.intp).reshape(-1)
        part = np.repeat(np.arange(len(counts)), counts)
        share = (np.arange(len(part)) - np.repeat(np.cumsum(counts) - counts, counts) + 1) / counts[part]
        row, column = np.divmod(part, 4)
        length = np.column_stack((np.zeros(len(self)), self.length))
        along = (np.cumsum(length, axis=1) - length)[row, column] + length[row, column] * share
        points = np.empty((len(part), 2))
        points[column == 0] = self.start
        lines = np.flatnonzero((column == 2) & straight[row])
        points[lines] = self.joints[row[lines], 1]
        bent = np.flatnonzero((column > 0) & ((column != 2) | ~straight[row]))
        arc = row[bent], column[bent] - 1
        points[bent] = self._on_arcs(self.centre[arc], self.angle[arc] + self.sweep[arc] * share[bent])
        return Vertices(row, along, points)


def _directions(first: Array, last: Array, radius: float) -> tuple[Mask, Array, Array, Array]:
    """For each pair and word: whether there is such a curve, the directions out of its first arc and into its last,
    and the length [m] of the straight, or the cosine of the base angle of the triangle of three centres."""
    across = _centre(last, _LAST, radius) - _centre(first, _FIRST, radius)
    apart = np.sqrt((across * across).sum(axis=-1))
    one_circle = apart < LEAST_PIECE_LENGTH  # the direction between the centres is noise
    axis = np.where(one_circle, 1.0, apart)[..., None]
    axis = np.where(one_circle[..., None], first[..., 3:], across / axis)
    wide_enough = _SAME_HAND | (apart >= 2.0 * radius * (1.0 - _TOUCH_TOLERANCE))
    near_enough = ~one_circle & (apart <= 4.0 * radius * (1.0 + _TOUCH_TOLERANCE))
    straight = np.where(
        _SAME_HAND, apart, np.sqrt(np.maximum(0.0, (apart - 2.0 * radius) * (apart + 2.0 * radius)))
    )
    slant = np.where(_SAME_HAND, math.inf, np.sqrt(straight * straight + 4.0 * radius * radius))
    base = np.minimum(1.0, apart / (4.0 * radius))
    cosine = np.where(_STRAIGHT, np.where(_SAME_HAND, 1.0, straight / slant), -np.sqrt(1.0 - base * base))
    sine = _FIRST * np.where(_STRAIGHT, 2.0 * radius / slant, base)
    out = _turned(axis, cosine, sine)
    into = _turned(axis, cosine, np.where(_STRAIGHT, sine, -sine))
    return np.where(_STRAIGHT, wide_enough, near_enough), out, into, np.where(_STRAIGHT, straight, base)


def _centre(pose: Array, hand: Array, radius: float) -> Array:
    """Centres of the circles that turn to ``hand`` out of poses."""
    centre: Array = pose[..., :2] - _to_right(pose[..., 3:], hand * radius)
    return centre


def _to_right(unit: Array, by: Array) -> Array:
    """Vectors square to unit vectors, of a length to the right [m]."""
    return np.stack(np.broadcast_arrays(by * unit[..., 1], -by * unit[..., 0]), axis=-1)


def _turned(vector: Array, cosine: Array, sine: Array) -> Array:
    x, y = vector[..., 0], vector[..., 1]
    return np.stack((cosine * x - sine * y, sine * x + cosine * y), axis=-1)


def _turn(start: Array, end: Array, hand: Array, radius: float) -> Array:
    """From one direction to another, turning to ``hand`` [rad].

    A turn backwards that is shorter than a piece can be is rounding, not most of a circle.
    """
    across = (hand * (start[:, 0] * end[:, 1] - start[:, 1] * end[:, 0])).tolist()
    along = (start[:, 0] * end[:, 0] + start[:, 1] * end[:, 1]).tolist()
    forward = np.fromiter(map(math.atan2, across, along), np.float64, len(start)) % _FULL_TURN
    forward[radius * (_FULL_TURN - forward) < LEAST_PIECE_LENGTH] = 0.0
    return forward
