"""Rings made smoother from level to level: steps, shallow niches and notches of the wall that pipe would not follow.

A ring may come nearer to the one round it, and leave it further, than one spacing by a little. Within that, two walls
that lie a step apart get one straight ring before them; what is deeper loses that much of its depth with each level.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import shapely
from shapely import Polygon

from ...checking import Point
from ...elementwise import Array
from ..outlines.regions import (
    Region,
    closed_gaps,
    common,
    dilated,
    eased_steps,
    eroded,
    joined,
    minus,
    opened,
    parts_of,
    trimmed_ring,
)

__all__ = ["NEARER", "bridged", "smoothed"]

NEARER, _FURTHER = 0.18, 0.22
"""By how much a ring may come nearer to the one round it, or leave it further, in spacings."""
_REACH = 1.2
"""Half of the width up to which niches and notches are bridged, in spacings."""
_LONGEST_STEP = 1.0
"""Deeper steps are followed as they are, in spacings."""
_SHORT = 8.0
"""Longer stretches do not move inwards: floor along all of them would be heated less, in spacings."""
_WORTH = 0.15
"""By how much a step is to get lower at least, in spacings."""
_PARALLEL = 0.98
"""Cosine of the most that walls on both sides of a step may lean."""
_SQUARE = 0.3
"""Sine of the least turn at the corners of a step."""
_MOST_STEPS = 24
"""Of one ring that are bridged: a wall of more is followed."""
_SLANTED = 0.3
"""Steps of a ring that are less deep are crossed on the slant where they are not bridged, in spacings."""
_TRIM = 0.03
"""Corners that stand out by less are cut, in spacings."""
_LARGEST_TRIM = 0.003
_INSIDE = 1e-5
"""What counts as inside, by rounding [m]."""


def smoothed(part: Polygon, spacing: float) -> Polygon:
    """A part without steps and corners that pipe would not follow; nothing is ever added."""
    return trimmed_ring(eased_steps(part, _SLANTED * spacing), min(_LARGEST_TRIM, _TRIM * spacing))


def bridged(region: Region, before: Region, taken: Region, spacing: float) -> Region:
    """A level with shallow niches, notches and steps bridged as far as the level ``before`` allows; ``taken`` are voids
    that it must not cover."""
    if before is None or region is None:
        return region
    limit = minus(eroded(before, (1.0 - NEARER) * spacing), taken)
    return joined(_straightened(part, limit, spacing) for part in parts_of(_levelled(region, limit, spacing)))


def _levelled(region: Region, limit: Region, spacing: float) -> Region:
    """Without notches that the limit has not, and without niches that are shallow."""
    notches = [gap for gap in parts_of(closed_gaps(region, _REACH * spacing)) if _covers(limit, gap)]
    if notches:
        region = joined((region, *(dilated(gap, _INSIDE) for gap in notches)))
    wide = opened(region, _REACH * spacing)
    if wide is None or wide is region:
        return region
    reach = dilated(wide, _FURTHER * spacing)
    deep = [part for part in parts_of(minus(region, wide)) if not _covers(reach, part)]
    return common(region, joined((wide, *(dilated(part, _INSIDE) for part in deep))))


class _Step(NamedTuple):
    """Corners number ``at`` and the next one lie between two parallel stretches; ``inward`` [m] is how much further
    inside the second stretch lies."""

    at: int
    inward: float


def _straightened(part: Polygon, limit: Region, spacing: float) -> Polygon:
    """The part with steps bridged, the lowest first."""
    for _ in range(_MOST_STEPS):
        points = shapely.get_coordinates(shapely.orient_polygons(part).exterior)[:-1]
        bridge = next(
            (new for step in _steps(points, spacing) for new in _bridges(points, step, limit, spacing)), None
        )
        if bridge is None:
            break
        part = bridge
    return part


def _steps(points: Array, spacing: float) -> list[_Step]:
    edges = np.roll(points, -1, axis=0) - points
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    units = edges / lengths[:, None]
    before, after = np.roll(units, 1, axis=0), np.roll(units, -1, axis=0)
    turn = before[:, 0] * units[:, 1] - before[:, 1] * units[:, 0]
    back = np.roll(turn, -1)
    inward = before[:, 0] * edges[:, 1] - before[:, 1] * edges[:, 0]
    found = (before * after).sum(axis=1) > _PARALLEL
    found &= (turn * back < 0.0) & (np.minimum(np.abs(turn), np.abs(back)) > _SQUARE)
    found &= np.abs(inward) < _LONGEST_STEP * spacing
    steps = [_Step(int(at), float(inward[at])) for at in np.flatnonzero(found)]
    return sorted(steps, key=lambda step: (round(abs(step.inward), 6), step.at))


def _bridges(points: Array, step: _Step, limit: Region, spacing: float) -> Iterator[Polygon]:
    """The part with a step bridged or made lower, if it can be: by both stretches, or by the outer one alone."""
    count = len(points)
    numbers = [(step.at + off) % count for off in (-2, -1, 0, 1, 2, 3)]
    if len(set(numbers)) < len(numbers):
        return
    a, b, c, d, e, f = (tuple(points[number].tolist()) for number in numbers)
    depth, sign = abs(step.inward), math.copysign(1.0, step.inward)
    # The outer stretch may move inwards, the inner one outwards.
    lengths = (math.dist(b, c), math.dist(d, e)) if sign > 0.0 else (math.dist(d, e), math.dist(b, c))
    longer_outer = lengths[0] >= lengths[1]
    inwards = _FURTHER * spacing if lengths[0] <= _SHORT * spacing else 0.0
    for outwards in (NEARER * spacing, 0.0):
        out = min(depth, outwards) if longer_outer else max(0.0, min(depth - inwards, outwards))
        into = min(depth - out, inwards)
        if out + into < min(depth, _WORTH * spacing):
            continue
        first, second = (into, -out) if sign > 0.0 else (-out, into)
        moved = _moved((a, b, c, d, e, f), first, second)
        if moved is None:
            continue
        ring = points.copy()
        for number, place in zip(numbers[1:5], moved, strict=True):
            ring[number] = place
        part = Polygon(ring)
        if part.is_valid and _covers(limit, part):
            trimmed = trimmed_ring(part, _INSIDE)
            if len(trimmed.exterior.coords) <= count:
                yield trimmed


def _moved(
    places: tuple[Point, ...], first: float, second: float
) -> tuple[Point, Point, Point, Point] | None:
    """The four corners of two stretches after both moved to their left [m]; none where a neighbour is in the way."""
    a, b, c, d, e, f = places
    line, other = _shifted(b, c, first), _shifted(d, e, second)
    start, end = _met(line, (a, b)), _met(other, (e, f))
    if start is None or end is None:
        return None
    (x, y), (u, v) = line[0], (line[1][0] - line[0][0], line[1][1] - line[0][1])
    apart = (u * (other[0][1] - y) - v * (other[0][0] - x)) / math.hypot(u, v)
    if abs(apart) < _INSIDE:
        middle = ((line[1][0] + other[0][0]) / 2.0, (line[1][1] + other[0][1]) / 2.0)
        return start, middle, middle, end
    near, far = _met(line, (c, d)), _met(other, (c, d))
    return None if near is None or far is None else (start, near, far, end)


def _shifted(start: Point, end: Point, by: float) -> tuple[Point, Point]:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = math.hypot(dx, dy)
    x, y = -dy / length * by, dx / length * by
    return (start[0] + x, start[1] + y), (end[0] + x, end[1] + y)


def _met(line: tuple[Point, Point], other: tuple[Point, Point]) -> Point | None:
    """Where two lines meet; none where they are as good as parallel."""
    (x, y), (u, v) = line[0], (line[1][0] - line[0][0], line[1][1] - line[0][1])
    (p, q), (r, s) = other[0], (other[1][0] - other[0][0], other[1][1] - other[0][1])
    cross = u * s - v * r
    if abs(cross) < _SQUARE * math.hypot(u, v) * math.hypot(r, s):
        return None
    along = ((p - x) * s - (q - y) * r) / cross
    return x + along * u, y + along * v


def _covers(region: Region, part: Polygon) -> bool:
    return region is not None and bool(
        shapely.covers(shapely.buffer(region, _INSIDE, join_style="mitre"), part)
    )
