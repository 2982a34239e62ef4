"""Outlines that are valid and hard: necks, slivers, steps, spikes, walls nearly level, voids that nearly touch.

All are of a few square metres, so that thousands of them can be tried.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable

import shapely
from shapely import Polygon
from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.outlines.polygons import room_outline

from tests.rooms.case import Ring
from tests.rooms.shapes import arc, box, disc, tilted

__all__ = ["UNITS", "fine", "hard_room", "snapped"]

Rings = list[Ring]

UNITS = (0.0, 0.0, 0.05, 0.01, 0.001, 0.0001, 0.3048, 0.0254, 0.0254 / 4.0, 0.0254 / 64.0)
"""What corners are measured in [m]: 0 for not at all; feet, inches and parts of them are exact (1959 agreement)."""


def hard_room(lot: random.Random) -> Rings:
    """Outline and voids [m] that ``room_outline`` accepts, on a grid or not, in any direction."""
    while True:
        outline = lot.choice(KINDS)(lot)
        rings = [outline, *_voids(lot, outline)]
        unit = lot.choice(UNITS)
        rings = [_any_order(lot, snapped(ring, unit)) for ring in rings]
        try:
            room_outline(rings[0], rings[1:])
        except InputError:
            continue
        return rings


def snapped(ring: Ring, unit: float) -> Ring:
    if not unit:
        return ring
    return tuple((round(x / unit) * unit, round(y / unit) * unit) for x, y in ring)


def fine(lot: random.Random) -> float:
    """A length from 1 mm to 0.6 m, all sizes alike."""
    return float(10.0 ** lot.uniform(-3.0, -0.22))


def _any_order(lot: random.Random, ring: Ring) -> Ring:
    """The ring from any of its corners on, in either direction, sometimes closed."""
    first = lot.randrange(len(ring))
    ring = ring[first:] + ring[:first]
    if lot.random() < 0.5:
        ring = ring[::-1]
    return (*ring, ring[0]) if lot.random() < 0.1 and len(ring) < 256 else ring


# -- outlines


def _box(lot: random.Random) -> Ring:
    return box(0.0, 0.0, lot.uniform(0.5, 5.0), lot.uniform(0.3, 4.0))


def _skew(lot: random.Random) -> Ring:
    """Four or more corners, walls off level by as little as a hundredth of a millimetre."""
    off = 10.0 ** lot.uniform(-5.0, -0.5)
    return tuple((x + lot.uniform(-off, off), y + lot.uniform(-off, off)) for x, y in _boxes(lot))


def _boxes(lot: random.Random) -> Ring:
    """Overlapping rectangles, some just so."""
    while True:
        parts = [shapely.box(0.0, 0.0, lot.uniform(0.6, 3.5), lot.uniform(0.6, 3.0))]
        for _ in range(lot.randint(0, 4)):
            x0, y0, x1, y1 = lot.choice(parts).bounds
            lap = fine(lot)
            x = lot.choice((x0, x1 - lap, lot.uniform(x0, x1 - 0.05)))
            y = lot.choice((y0, y1 - lap, lot.uniform(y0, y1 - 0.05)))
            parts.append(shapely.box(x, y, x + lot.uniform(0.1, 2.5), y + lot.uniform(0.1, 2.5)))
        whole = shapely.union_all(parts)
        if isinstance(whole, Polygon) and not whole.interiors:
            return _corners(whole)


def _necked(lot: random.Random) -> Ring:
    """Two to four rooms in a row, joined by bands of any width and length at any height."""
    parts, at = [], 0.0
    for number in range(lot.randint(2, 4)):
        if number:
            band, long = fine(lot), fine(lot)
            low = lot.uniform(-0.1, 0.4)
            parts.append(shapely.box(at - 0.3, low, at + long + 0.3, low + band))
            at += long
        wide = lot.uniform(0.5, 2.2)
        parts.append(shapely.box(at, lot.uniform(-1.0, -0.2), at + wide, lot.uniform(0.5, 1.6)))
        at += wide
    whole = shapely.union_all(parts)
    return _corners(whole if isinstance(whole, Polygon) else parts[0])


def _arms(lot: random.Random) -> Ring:
    """A band with arms: a U, an E, a comb."""
    count, band, long = lot.randint(2, 6), fine(lot), lot.uniform(0.5, 2.5)
    parts, at = [], 0.0
    for _ in range(count):
        wide = lot.choice((fine(lot), lot.uniform(0.3, 1.4)))
        parts.append(shapely.box(at, 0.0, at + wide, long))
        at += wide + lot.choice((fine(lot), lot.uniform(0.1, 1.0)))
    parts.append(shapely.box(0.0, 0.0, at, band))
    whole = shapely.union_all(parts)
    return _corners(whole)


def _steps(lot: random.Random) -> Ring:
    """A staircase of large and small steps."""
    x, y = lot.uniform(0.8, 2.0), 0.0
    points = [(0.0, 0.0), (x, 0.0)]
    for _ in range(lot.randint(1, 20)):
        y += fine(lot)
        points.append((x, y))
        x -= fine(lot)
        if x < 0.3:
            break
        points.append((x, y))
    y += lot.uniform(0.4, 1.5)
    return (*points, (points[-1][0], y), (0.0, y))


def _wedge(lot: random.Random) -> Ring:
    """A triangle or a needle on a box."""
    if lot.random() < 0.5:
        return (
            (0.0, 0.0),
            (lot.uniform(1.0, 6.0), lot.uniform(-0.2, 0.2)),
            (lot.uniform(-1.0, 5.0), lot.uniform(0.5, 3.0)),
        )
    wide, deep, thick = lot.uniform(0.8, 2.5), lot.uniform(0.8, 2.5), fine(lot)
    far = wide + lot.uniform(0.2, 4.0)
    return (
        (0.0, 0.0),
        (wide, 0.0),
        (far, lot.uniform(0.0, 0.3)),
        (wide, min(thick + 0.3, deep - 0.1)),
        (wide, deep),
        (0.0, deep),
    )


def _star(lot: random.Random) -> Ring:
    count, low, high = lot.randint(3, 24), lot.uniform(0.3, 1.2), lot.uniform(1.0, 2.6)
    shift = lot.random()
    return tuple(
        (away * math.cos(turn), away * math.sin(turn))
        for number in range(2 * count)
        for turn in (math.pi * (number + shift) / count,)
        for away in (low if number % 2 else high * lot.uniform(0.8, 1.0),)
    )


def _round(lot: random.Random) -> Ring:
    """Many short walls: a circle, a bay, a bean."""
    count = lot.choice((12, 40, 120, 250))
    wide, deep = lot.uniform(0.6, 2.5), lot.uniform(0.4, 2.0)
    lobes, deepest = lot.randint(1, 4), lot.choice((0.0, 0.15, 0.4))
    points = []
    for x, y in arc((0.0, 0.0), 1.0, 0.0, 360.0, count)[:-1]:
        away = 1.0 - deepest * (0.5 + 0.5 * math.cos(lobes * math.atan2(y, x)))
        points.append((wide * away * x, deep * away * y))
    return tuple(points)


def _zigzag(lot: random.Random) -> Ring:
    """A wall that goes to and fro."""
    count, high, long = lot.randint(3, 60), fine(lot), lot.uniform(1.5, 5.0)
    teeth = [(long * number / count, high * (number % 2)) for number in range(count + 1)]
    deep = high + lot.uniform(0.3, 2.0)
    return (*teeth, (long, deep), (0.0, deep))


def _spiral(lot: random.Random) -> Ring:
    """A corridor that winds up."""
    wide, wall = lot.uniform(0.25, 0.9), lot.choice((0.002, 0.05, 0.12))
    pitch, turns = wide + wall, lot.randint(3, 7)
    way, (x, y), long = [(0.0, 0.0)], (0.0, 0.0), pitch * turns / 2.0
    for number in range(turns):
        dx, dy = ((1, 0), (0, 1), (-1, 0), (0, -1))[number % 4]
        x, y = x + dx * long, y + dy * long
        way.append((x, y))
        if number % 2:
            long -= pitch
        if long < pitch:
            break
    floor = shapely.buffer(shapely.LineString(way), wide / 2.0, cap_style="square", join_style="mitre")
    return _corners(floor) if isinstance(floor, Polygon) and not floor.interiors else _box(lot)


KINDS: tuple[Callable[[random.Random], Ring], ...] = (
    *(_box, _skew, _boxes, _boxes, _necked, _necked, _arms, _steps, _wedge, _star, _round, _zigzag, _spiral),
)


# -- voids


def _voids(lot: random.Random, outline: Ring) -> Rings:
    """Often none; else some that may lie a millimetre from a wall or from each other."""
    kind = lot.randrange(8)
    floor = Polygon(outline)
    if kind > 3 or not floor.is_valid:
        return []
    x0, y0, x1, y1 = floor.bounds
    found: Rings = []
    for _ in range(lot.choice((1, 1, 2, 3, 6, 12)) * 4):
        x, y = lot.uniform(x0, x1), lot.uniform(y0, y1)
        void = _void(lot, x, y) if kind else _beside(lot, floor, x, y)
        taken = [floor.exterior, *(shapely.LinearRing(ring) for ring in found)]
        area = Polygon(void)
        apart = min(float(area.distance(one)) for one in taken)
        if (
            floor.contains(area)
            and apart > 0.001
            and not any(area.intersects(Polygon(ring)) for ring in found)
        ):
            found.append(void)
    return found[:12]


def _void(lot: random.Random, x: float, y: float) -> Ring:
    wide, deep = fine(lot) + 0.01, fine(lot) + 0.01
    which = lot.randrange(4)
    if which == 0:
        return disc(x, y, wide, lot.choice((5, 12, 32)))
    if which == 1:
        return tilted(x, y, wide, deep, lot.choice((0.01, 45.0, lot.uniform(0.0, 90.0))))
    if which == 2:
        return ((x, y), (x + wide, y + 0.3 * deep), (x + 0.2 * wide, y + deep))
    return box(x, y, wide, deep)


def _beside(lot: random.Random, floor: Polygon, x: float, y: float) -> Ring:
    """A box a little off the nearest wall."""
    here, there = shapely.get_coordinates(shapely.shortest_line(floor.exterior, shapely.Point(x, y))).tolist()
    long = math.dist(here, there)
    if long < 0.01:
        return box(x, y, 0.1, 0.1)
    share = 1.0 / long
    ux, uy = (there[0] - here[0]) * share, (there[1] - here[1]) * share
    gap, wide, deep = fine(lot) + 0.001, fine(lot) + 0.01, fine(lot) + 0.01
    ring = ((gap, -wide), (gap + deep, -wide), (gap + deep, wide), (gap, wide))
    return tuple((here[0] + a * ux - b * uy, here[1] + a * uy + b * ux) for a, b in ring)


def _corners(room: Polygon) -> Ring:
    plain = shapely.simplify(shapely.orient_polygons(room), 1e-9)
    return tuple((float(x), float(y)) for x, y in plain.exterior.coords[:-1])
