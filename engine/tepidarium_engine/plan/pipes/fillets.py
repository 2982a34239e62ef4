"""A polyline as a pipe can be bent: every corner rounded by an arc that touches both legs.

An arc of radius ``r`` that turns by the angle ``a`` takes ``r tan(a / 2)`` of each leg (the tangent length of a
simple circular curve, known from road surveying).
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from ...checking import Point
from ...errors import FaultList
from .pipe_path import LEAST_PIECE_LENGTH, POSITION_TOLERANCE, Arc, Line, PipePath

__all__ = [
    "LEAST_BEND_RADIUS",
    "RADIUS_TOLERANCE",
    "STRAIGHT",
    "Rounded",
    "TightCorner",
    "distinct",
    "rounded",
    "turn_at",
]

LEAST_BEND_RADIUS = 0.01
"""Tighter bends than any pipe in a floor takes [m]."""
STRAIGHT = 1e-5
"""A smaller turn is no corner [rad]: 10 micrometres to the metre."""
RADIUS_TOLERANCE = 1e-8
"""Share of the bend radius that may be missing by rounding alone."""


class TightCorner(NamedTuple):
    """A corner whose legs are too short for the bend radius.

    ``place`` is the corner of the polyline [m], ``radius`` [m] what fits there: about 0 where the polyline
    turns back on itself.
    """

    place: Point
    radius: float


@dataclass(frozen=True)
class Rounded:
    """``path`` bends with the bend radius at every corner that is not named in ``unresolved``.

    Those, in the order of flow, have the radius they are listed with. Where that leaves an arc too short to
    be a piece of a path, the lines meet in a kink.
    """

    path: PipePath
    unresolved: tuple[TightCorner, ...]


class _Corner(NamedTuple):
    """``turn`` [rad] is counter-clockwise when positive; ``tangent`` is the tangent length per radius."""

    place: Point
    turn: float
    tangent: float


def rounded(corners: Sequence[Point], bend_radius: float) -> Rounded:
    """The polyline with an arc of ``bend_radius`` [m], at least 0.01 m, at each corner.

    Corners that share too short a leg get smaller radii: those at which the smallest one is as large as
    possible, then the second smallest, and so on. Doubled points and points on a straight run are dropped.
    Raises ``InputError`` for a number that is not finite, a bend radius below 0.01 m, or fewer than two
    distinct points.
    """
    _check(corners, bend_radius)
    points = _straightened(distinct(corners))
    faults = FaultList()
    faults.require(len(points) > 1, "/corners", "too_few", "must have at least 2 distinct points", 2)
    faults.raise_if_any()
    bends = [_corner(*three) for three in zip(points, points[1:], points[2:], strict=False)]
    legs = [math.dist(a, b) for a, b in pairwise(points)]
    radii = _fitting_radii(legs, [bend.tangent for bend in bends], bend_radius)
    tight = tuple(
        TightCorner(bend.place, radius)
        for bend, radius in zip(bends, radii, strict=True)
        if radius < bend_radius
    )
    return Rounded(PipePath.of(_pieces(points, bends, radii)), tight)


def _check(corners: Sequence[Point], bend_radius: float) -> None:
    faults = FaultList()
    for index, (x, y) in enumerate(corners):
        finite = math.isfinite(x) and math.isfinite(y)
        faults.require(finite, f"/corners/{index}", "type", "must have finite numbers")
    faults.require(
        LEAST_BEND_RADIUS <= bend_radius < math.inf,
        "/bend_radius",
        "too_small" if bend_radius < LEAST_BEND_RADIUS else "type",
        f"must be a finite number of at least {LEAST_BEND_RADIUS:g} m",
        LEAST_BEND_RADIUS,
    )
    faults.raise_if_any()


def distinct(corners: Sequence[Point]) -> list[Point]:
    """Without points that repeat the one before; the first and the last point stay."""
    kept: list[Point] = []
    for point in corners:
        if not kept or math.dist(kept[-1], point) > POSITION_TOLERANCE:
            kept.append(point)
    last = corners[-1:]
    while last and kept and math.dist(kept[-1], last[0]) <= POSITION_TOLERANCE:
        kept.pop()
    return [*kept, *last]


def _straightened(points: list[Point]) -> list[Point]:
    """Without points on a straight run.

    The turn is measured from the last point kept, so that many small turns in a row cannot hide a bend.
    """
    kept = points[:1]
    for here, after in pairwise(points[1:]):
        if abs(turn_at(kept[-1], here, after)) > STRAIGHT:
            kept.append(here)
    return kept + points[1:][-1:]


def turn_at(before: Point, here: Point, after: Point) -> float:
    """Change of heading [rad] at ``here``, counter-clockwise when positive."""
    ax, ay = here[0] - before[0], here[1] - before[1]
    bx, by = after[0] - here[0], after[1] - here[1]
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def _corner(before: Point, here: Point, after: Point) -> _Corner:
    turn = turn_at(before, here, after)
    return _Corner(here, turn, math.tan(abs(turn) / 2.0))


def _fitting_radii(legs: list[float], tangents: list[float], bend_radius: float) -> list[float]:
    """Let all radii grow alike and stop both ends of a leg when it is used up.

    Stopping one corner only ever leaves more of a leg to the other one, so a leg's entry in the heap can be
    out of date in one direction: too early. Then it is put back.
    """
    radii: list[float | None] = [None] * len(tangents)

    def full_at(leg: int) -> float:
        """The radius at which the corners still growing have used up the leg."""
        left, growing = legs[leg], 0.0
        for corner in _ends(leg, len(tangents)):
            radius = radii[corner]
            if radius is None:
                growing += tangents[corner]
            else:
                left -= radius * tangents[corner]
        return left / growing if growing else math.inf

    enough = bend_radius * (1.0 - RADIUS_TOLERANCE)
    waiting = [(full_at(leg), leg) for leg in range(len(legs))]
    heapq.heapify(waiting)
    while waiting and waiting[0][0] < enough:
        level, leg = heapq.heappop(waiting)
        now = full_at(leg)
        if now > level:
            heapq.heappush(waiting, (now, leg))
            continue
        for corner in _ends(leg, len(tangents)):
            if radii[corner] is None:
                radii[corner] = level
    return [bend_radius if radius is None else radius for radius in radii]


def _ends(leg: int, count: int) -> tuple[int, ...]:
    """The corners at the ends of a leg; the polyline's own ends are none."""
    return tuple(corner for corner in (leg - 1, leg) if 0 <= corner < count)


def _pieces(points: list[Point], bends: list[_Corner], radii: list[float]) -> list[Line | Arc]:
    pieces: list[Line | Arc] = []
    start = points[0]
    for index, (bend, radius) in enumerate(zip(bends, radii, strict=True)):
        reach = radius * bend.tangent
        arc_start = _towards(bend.place, points[index], reach)
        arc = _arc(points[index], bend, radius, arc_start)
        if arc.length < LEAST_PIECE_LENGTH:
            _append_line(pieces, start, bend.place)
            start = bend.place
            continue
        _append_line(pieces, start, arc_start)
        pieces.append(arc)
        start = _towards(bend.place, points[index + 2], reach)
    _append_line(pieces, start, points[-1])
    return pieces


def _arc(before: Point, bend: _Corner, radius: float, start: Point) -> Arc:
    (x0, y0), (x1, y1) = before, bend.place
    to_centre = math.copysign(radius, bend.turn) / math.hypot(x1 - x0, y1 - y0)
    centre = (start[0] - to_centre * (y1 - y0), start[1] + to_centre * (x1 - x0))
    heading = math.atan2(y1 - y0, x1 - x0)
    return Arc(centre, radius, heading - math.copysign(math.pi / 2.0, bend.turn), bend.turn)


def _towards(origin: Point, target: Point, distance: float) -> Point:
    share = distance / math.dist(origin, target)
    return (origin[0] + share * (target[0] - origin[0]), origin[1] + share * (target[1] - origin[1]))


def _append_line(pieces: list[Line | Arc], start: Point, end: Point) -> None:
    """Add a line unless two arcs meet without one."""
    line = Line(start, end)
    if line.length >= LEAST_PIECE_LENGTH:
        pieces.append(line)
