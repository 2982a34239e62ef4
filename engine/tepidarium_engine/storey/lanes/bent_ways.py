"""Ways as pipe: corners rounded, and where legs are too short for that a curve of the bend radius in their place."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise, product

import shapely
from shapely import LineString

from ...checking import Point
from ...elementwise import Array
from ...plan.pipes.dubins import Pose, curves_within
from ...plan.pipes.fillets import rounded
from ...plan.pipes.pipe_path import Arc, Line, PipePath

__all__ = ["bent_way", "plain_corners"]

_STRAIGHT = 2e-3
"""Corners that stray less from a straight line are none [m]: no pipe is laid more exactly."""
_BACK = (0.0, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0)
"""How far before and after a place that does not bend the way is left, in bend radii."""
_DETOUR, _LONGER = 1.25, 1.0
"""Of a curve, over the legs that it stands for: as a factor, and beside it in bend radii."""
_LEFT = 0.2
"""What a metre of way that is left counts, beside a metre of detour."""
_TURNED = 0.15
"""What a turn by one radian counts, beside a metre of detour: pipes side by side come nearer to each other in steep jogs."""
_ROOM = 1.0 + 1e-6
"""By which legs are longer than their bends take."""


def plain_corners(corners: Array) -> list[Point]:
    """Without corners that are none."""
    found = shapely.get_coordinates(shapely.simplify(LineString(corners), _STRAIGHT)).tolist()
    return [(x, y) for x, y in found]


def bent_way(corners: Sequence[Point], bend_radius: float) -> PipePath | None:
    """The pipe along the corners [m] with bends of the radius [m]; ``None`` where there is no room for one."""
    bends = rounded(corners, bend_radius)
    if not bends.unresolved:
        return bends.path
    tight = {corner.place for corner in bends.unresolved}
    groups = _groups([point in tight for point in corners])
    pieces: list[Line | Arc] = []
    start, first = corners[0], 1
    for low, high in groups:
        found = _curve(corners, low, high, start, first, bend_radius)
        if found is None:
            return None
        before, curve, after = found
        pieces += _rounded_pieces([start, *corners[first:low], before], bend_radius)
        pieces += curve
        start, first = after, high + 1
    pieces += _rounded_pieces([start, *corners[first:]], bend_radius)
    return PipePath(tuple(pieces))


def _groups(tight: Sequence[bool]) -> list[tuple[int, int]]:
    """First and last number of corners in a row that are too tight."""
    found: list[tuple[int, int]] = []
    for number, bad in enumerate(tight):
        if bad and found and found[-1][1] == number - 1:
            found[-1] = (found[-1][0], number)
        elif bad:
            found.append((number, number))
    return found


def _curve(
    corners: Sequence[Point], low: int, high: int, start: Point, first: int, radius: float
) -> tuple[Point, tuple[Line | Arc, ...], Point] | None:
    """The least detour past corners ``low`` to ``high``: where it leaves the way, the curve, and where it ends."""
    before_leg = (start if low == first else corners[low - 1], corners[low])
    after_leg = (corners[high], corners[high + 1])
    free = _free(corners, low, before_leg, radius), _free_after(corners, high, after_leg, radius)
    heading = _heading(*before_leg), _heading(*after_leg)
    best: tuple[float, Point, tuple[Line | Arc, ...], Point] | None = None
    for back, on in _distances(radius, free):
        leaves, enters = _along(before_leg[1], heading[0], -back), _along(after_leg[0], heading[1], on)
        legs = [leaves, *corners[low : high + 1], enters]
        length = sum(math.dist(*leg) for leg in pairwise(legs))
        if length < 1e-6:
            continue
        for curve in curves_within(
            Pose(leaves, heading[0]), Pose(enters, heading[1]), radius, _DETOUR * length + _LONGER * radius
        ):
            turned = sum(abs(piece.sweep) for piece in curve if isinstance(piece, Arc))
            detour = abs(sum(piece.length for piece in curve) - length)
            cost = round(detour + _LEFT * (back + on) + _TURNED * turned, 6)
            if best is None or cost < best[0]:
                best = (cost, leaves, curve, enters)
    return None if best is None else best[1:]


def _distances(radius: float, free: tuple[float, float]) -> Iterator[tuple[float, float]]:
    backs, ons = (
        sorted(
            {
                *(share * radius for share in _BACK if share * radius < most),
                max(0.0, min(most, _BACK[-1] * radius)),
            }
        )
        for most in free
    )
    yield from product(backs, ons)


def _free(corners: Sequence[Point], low: int, leg: tuple[Point, Point], radius: float) -> float:
    """Of the leg before a corner, what the bend before it leaves [m]."""
    taken = 0.0 if low < 2 or leg[0] != corners[low - 1] else _tangent(*corners[low - 2 : low + 1], radius)
    return math.dist(*leg) - taken * _ROOM


def _free_after(corners: Sequence[Point], high: int, leg: tuple[Point, Point], radius: float) -> float:
    taken = 0.0 if high + 2 >= len(corners) else _tangent(*corners[high : high + 3], radius)
    return math.dist(*leg) - taken * _ROOM


def _tangent(before: Point, here: Point, after: Point, radius: float) -> float:
    turn = abs(math.remainder(_heading(here, after) - _heading(before, here), 2.0 * math.pi))
    return radius * math.tan(min(turn, 3.0) / 2.0)


def _heading(start: Point, end: Point) -> float:
    return math.atan2(end[1] - start[1], end[0] - start[0])


def _along(place: Point, heading: float, distance: float) -> Point:
    return (place[0] + distance * math.cos(heading), place[1] + distance * math.sin(heading))


def _rounded_pieces(corners: Sequence[Point], radius: float) -> tuple[Line | Arc, ...]:
    kept = [corners[0], *(b for a, b in pairwise(corners) if math.dist(a, b) > 1e-6)]
    return rounded(kept, radius).path.pieces if len(kept) > 1 else ()
