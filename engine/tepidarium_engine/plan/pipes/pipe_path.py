"""The centre line of a laid pipe: straight lines and arcs, stored as such.

A radius is then a number and not an estimate from points, and the length is a plain sum.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np

from ...checking import Point
from ...elementwise import Array
from ...errors import FaultList
from ...quick_records import quickly_made

__all__ = [
    "LEAST_PIECE_LENGTH",
    "MOST_PIECES",
    "POSITION_TOLERANCE",
    "TANGENT_TOLERANCE",
    "Arc",
    "Joint",
    "Line",
    "PipePath",
]

LEAST_PIECE_LENGTH = 1e-7
"""Shorter pieces have no direction worth the name [m]."""
MOST_PIECES = 5000
"""Lines and arcs of a path that is looked at: a circuit of 200 m has 200."""
POSITION_TOLERANCE = 1e-6
"""Largest gap between the end of a piece and the start of the next one [m]."""
TANGENT_TOLERANCE = 1e-4
"""Largest kink between two pieces [rad]: 10 micrometres over a spacing of 100 mm."""


@quickly_made
@dataclass(frozen=True, slots=True)
class Line:
    """A straight piece from ``start`` to ``end`` [m]."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        return math.hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def start_heading(self) -> float:
        """Direction of travel [rad], counter-clockwise from the x axis."""
        return math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0])

    @property
    def end_heading(self) -> float:
        return self.start_heading

    def reversed(self) -> Line:
        return Line(self.end, self.start)

    def moved(self, by: Point) -> Line:
        return Line(_sum(self.start, by), _sum(self.end, by))

    def turned(self, axis: Point) -> Line:
        return Line(_turned(self.start, axis), _turned(self.end, axis))


@quickly_made
@dataclass(frozen=True, slots=True)
class Arc:
    """A piece of a circle.

    ``centre`` and ``radius`` [m]; ``start_angle`` [rad] is where the piece starts as seen from the centre,
    ``sweep`` [rad] how far it goes: counter-clockwise when positive, at most one full turn.
    """

    centre: Point
    radius: float
    start_angle: float
    sweep: float

    @property
    def start(self) -> Point:
        return self._at(self.start_angle)

    @property
    def end(self) -> Point:
        return self._at(self.start_angle + self.sweep)

    @property
    def middle(self) -> Point:
        return self._at(self.start_angle + self.sweep / 2.0)

    @property
    def length(self) -> float:
        return self.radius * abs(self.sweep)

    @property
    def start_heading(self) -> float:
        """Direction of travel [rad], counter-clockwise from the x axis."""
        return self.start_angle + math.copysign(math.pi / 2.0, self.sweep)

    @property
    def end_heading(self) -> float:
        return self.start_heading + self.sweep

    def reversed(self) -> Arc:
        return Arc(self.centre, self.radius, self.start_angle + self.sweep, -self.sweep)

    def moved(self, by: Point) -> Arc:
        return Arc(_sum(self.centre, by), self.radius, self.start_angle, self.sweep)

    def turned(self, axis: Point) -> Arc:
        angle = self.start_angle + math.atan2(axis[1], axis[0])
        return Arc(_turned(self.centre, axis), self.radius, angle, self.sweep)

    def _at(self, angle: float) -> Point:
        return (
            self.centre[0] + self.radius * math.cos(angle),
            self.centre[1] + self.radius * math.sin(angle),
        )


class Joint(NamedTuple):
    """Where a piece ends and the next one starts: ``gap`` [m] and ``kink`` [rad] between them."""

    place: Point
    gap: float
    kink: float


@dataclass(frozen=True)
class PipePath:
    """Pieces in the order of flow.

    Raises ``InputError`` when there is no piece, or one that is not finite, too short to have a direction,
    of no radius, or more than a full turn; pointers are ``/pieces/{i}``. Whether the pieces join is a
    question to ask (``joints``), not a condition: a path that does not join can still be looked at.
    """

    pieces: tuple[Line | Arc, ...]

    def __post_init__(self) -> None:
        faults = FaultList()
        faults.require(len(self.pieces) > 0, "/pieces", "too_few", "must have at least 1 piece", 1)
        for index, piece in enumerate(self.pieces):
            if not _is_sound(piece):
                _check_piece(piece, f"/pieces/{index}", faults)
        faults.raise_if_any()

    @classmethod
    def of(cls, pieces: Iterable[Line | Arc]) -> PipePath:
        return cls(tuple(pieces))

    @property
    def start(self) -> Point:
        return self.pieces[0].start

    @property
    def end(self) -> Point:
        return self.pieces[-1].end

    @cached_property
    def length(self) -> float:
        """Sum of the pieces' lengths [m], without error of summation."""
        return math.fsum(piece.length for piece in self.pieces)

    @cached_property
    def offsets(self) -> Array:
        """Distance along the pipe at which each piece starts, and the total at the end [m]."""
        return np.concatenate(([0.0], np.cumsum([piece.length for piece in self.pieces])))

    def reversed(self) -> PipePath:
        return PipePath(tuple(piece.reversed() for piece in reversed(self.pieces)))

    def moved(self, by: Point) -> PipePath:
        return PipePath(tuple(piece.moved(by) for piece in self.pieces))

    def turned(self, axis: Point) -> PipePath:
        """Turned round (0, 0) by the angle whose cosine and sine ``axis`` holds."""
        return PipePath(tuple(piece.turned(axis) for piece in self.pieces))

    def joints(self) -> list[Joint]:
        """All joints between neighbouring pieces, sound ones too."""
        joints = []
        for before, after in zip(self.pieces, self.pieces[1:], strict=False):
            (x0, y0), (x1, y1) = before.end, after.start
            turn = after.start_heading - before.end_heading
            kink = abs(math.remainder(turn, 2.0 * math.pi))
            joints.append(Joint((x1, y1), math.hypot(x1 - x0, y1 - y0), kink))
        return joints

    def positions(self, chord_error: float, longest: float = math.inf) -> Array:
        """Distances along the pipe [m] at which to put vertices of a polyline.

        Every end of a piece is one. The polyline strays from arcs by at most ``chord_error`` [m], and no
        two vertices are more than ``longest`` [m] apart. Within a piece they are evenly spaced, so that
        the reversed pipe has the same vertices.
        """
        counts = np.array([_chords(piece, chord_error, longest) for piece in self.pieces])
        first = np.repeat(np.cumsum(counts) - counts, counts)
        share = (np.arange(len(first)) - first) / np.repeat(counts, counts)
        starts, steps = self.offsets[:-1], np.diff(self.offsets)
        inner = np.repeat(starts, counts) + share * np.repeat(steps, counts)
        return np.concatenate((inner, self.offsets[-1:]))

    def polyline(self, chord_error: float) -> Array:
        """Vertices [m], one a row, that stray from the centre line by at most ``chord_error`` [m]; to be read only."""
        if chord_error not in self._polylines:
            points = self.points_at(self.positions(chord_error))
            points.flags.writeable = False
            self._polylines[chord_error] = points
        return self._polylines[chord_error]

    @cached_property
    def _polylines(self) -> dict[float, Array]:
        return {}

    def points_at(self, positions: Array) -> Array:
        """Points [m], one a row, at distances along the pipe [m] from 0 to its length."""
        return self.poses_at(positions)[0]

    def poses_at(self, positions: Array) -> tuple[Array, Array]:
        """Points [m] and unit vectors of the direction of travel at distances along the pipe [m].

        At a joint it is the later piece that answers.
        """
        table = self._table
        index = np.clip(np.searchsorted(self.offsets, positions, side="right") - 1, 0, len(table) - 1)
        along = positions - self.offsets[index]
        x, y, from_x, from_y, heading, curvature = table[index].T
        to_x, to_y = from_x.copy(), from_y.copy()
        bent = np.flatnonzero(curvature)
        turned = (heading[bent] + curvature[bent] * along[bent]).tolist()
        # By the C library and not by numpy, whose sine may differ between processors in the last bit.
        to_x[bent], to_y[bent] = [math.cos(angle) for angle in turned], [math.sin(angle) for angle in turned]
        dx, dy = along * from_x, along * from_y
        dx[bent] = (to_y[bent] - from_y[bent]) / curvature[bent]
        dy[bent] = (from_x[bent] - to_x[bent]) / curvature[bent]
        return np.column_stack((x + dx, y + dy)), np.column_stack((to_x, to_y))

    @cached_property
    def _table(self) -> Array:
        """Start x and y, unit vector, heading and signed curvature of each piece."""
        rows = []
        for piece in self.pieces:
            heading = piece.start_heading
            rows.append((*piece.start, math.cos(heading), math.sin(heading), heading, _curvature(piece)))
        return np.array(rows, dtype=np.float64)


def _sum(a: Point, b: Point) -> Point:
    return (a[0] + b[0], a[1] + b[1])


def _turned(place: Point, axis: Point) -> Point:
    (x, y), (c, s) = place, axis
    return (c * x - s * y, s * x + c * y)


def _curvature(piece: Line | Arc) -> float:
    return 0.0 if isinstance(piece, Line) else math.copysign(1.0 / piece.radius, piece.sweep)


def _chords(piece: Line | Arc, chord_error: float, longest: float) -> int:
    """Number of chords. A chord over the angle ``a`` strays by ``2 radius sin(a / 4) ** 2``."""
    count = math.ceil(piece.length / longest - 1e-9)
    if isinstance(piece, Arc):
        angle = 4.0 * math.asin(math.sqrt(min(0.5, chord_error / (2.0 * piece.radius))))
        count = max(count, math.ceil(abs(piece.sweep) / angle - 1e-9))
    return max(1, count)


def _is_sound(piece: Line | Arc) -> bool:
    """By a quick look that may say no though it is so; a number that is not finite makes a length that is none."""
    if not LEAST_PIECE_LENGTH <= piece.length < math.inf:
        return False
    if isinstance(piece, Line):
        return True
    (x, y), turned = piece.centre, abs(piece.sweep) <= 2.0 * math.pi
    return turned and piece.radius > 0.0 and math.isfinite(x + y + piece.start_angle)


def _check_piece(piece: Line | Arc, where: str, faults: FaultList) -> None:
    numbers = (
        (*piece.start, *piece.end)
        if isinstance(piece, Line)
        else (*piece.centre, piece.radius, piece.start_angle, piece.sweep)
    )
    if not all(math.isfinite(number) for number in numbers):
        faults.add(where, "type", "must have finite numbers")
        return
    if isinstance(piece, Arc):
        faults.require(piece.radius > 0.0, f"{where}/radius", "too_small", "must be greater than 0 m", 0.0)
        faults.require(
            abs(piece.sweep) <= 2.0 * math.pi,
            f"{where}/sweep",
            "too_large",
            "must not be more than a full turn",
            2.0 * math.pi,
        )
    faults.require(
        piece.length >= LEAST_PIECE_LENGTH,
        where,
        "too_short",
        f"must be at least {LEAST_PIECE_LENGTH:g} m long",
        LEAST_PIECE_LENGTH,
    )
