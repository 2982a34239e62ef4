"""From the walls of a room to the first pipe beside them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import shapely
from shapely import LinearRing, Polygon

from ..checking import Point
from .laying_steps import Step
from .sheet_records import WallDistance

__all__ = ["wall_distances"]

_PARALLEL = math.cos(math.radians(5.0))
_LEAST_WALL = 0.3
"""Shorter walls need no dimension line [m]."""
_LEAST_BESIDE = 0.15
"""A straight runs beside a wall for at least this length [m]."""
_FURTHEST = 2.5
"""Straights further from the wall are not the first beside it, in spacings."""


class _Beside(NamedTuple):
    distance: float
    step: int
    along: float


def wall_distances(
    room: Polygon, rings: Sequence[Sequence[Point]], steps: Sequence[Step], pipe_spacing: float
) -> Iterator[WallDistance]:
    """For each wall and each edge of a void the nearest straight that runs along it. ``rings`` are outline and voids
    of ``room`` as they were given, in either direction."""
    inside = [
        (number, step)
        for number, step in enumerate(steps)
        if step.arc is None and shapely.contains_xy(room, *_middle(step))
    ]
    for ring_number, ring in enumerate(rings):
        floor_on_left = LinearRing(ring).is_ccw == (ring_number == 0)
        for edge, (first, second) in enumerate(zip(ring, [*ring[1:], ring[0]], strict=True)):
            a, b = (first, second) if floor_on_left else (second, first)
            if math.dist(a, b) < _LEAST_WALL:
                continue
            found = (_beside(a, b, step, number) for number, step in inside)
            beside = [each for each in found if each is not None]
            nearest = min(beside, default=None, key=lambda each: (round(each.distance, 4), each.step))
            if nearest is not None and nearest.distance <= _FURTHEST * pipe_spacing:
                yield _dimension(ring_number, edge, a, b, nearest)


def _middle(step: Step) -> Point:
    return ((step.start[0] + step.end[0]) / 2.0, (step.start[1] + step.end[1]) / 2.0)


def _beside(a: Point, b: Point, step: Step, number: int) -> _Beside | None:
    """The straight over the wall from ``a`` to ``b``, with the room on its left; None where it is not beside it."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    run = math.dist(step.start, step.end)
    dx, dy = step.end[0] - step.start[0], step.end[1] - step.start[1]
    if run < _LEAST_BESIDE or abs(dx * ux + dy * uy) < _PARALLEL * run:
        return None
    (s0, d0), (s1, d1) = (
        ((x - a[0]) * ux + (y - a[1]) * uy, (y - a[1]) * ux - (x - a[0]) * uy)
        for x, y in (step.start, step.end)
    )
    low, high = max(min(s0, s1), 0.0), min(max(s0, s1), length)
    if high - low < _LEAST_BESIDE or min(d0, d1) <= 0.0:
        return None
    along = (low + high) / 2.0
    return _Beside(d0 + (d1 - d0) * (along - s0) / (s1 - s0), number, along)


def _dimension(ring: int, edge: int, a: Point, b: Point, beside: _Beside) -> WallDistance:
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    x, y = a[0] + ux * beside.along, a[1] + uy * beside.along
    on_pipe = (x - uy * beside.distance, y + ux * beside.distance)
    return WallDistance(ring, edge, beside.distance, (x, y), on_pipe, beside.step + 1)
