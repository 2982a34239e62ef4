"""Random rooms, the same for the same number."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator

import shapely
from shapely import Polygon
from tepidarium_engine.checking import Point
from tepidarium_engine.errors import InputError

from .case import Ring, RoomCase, turned
from .shapes import box, disc, skewed, tilted

__all__ = ["random_room", "random_rooms"]

PIPES = (0.012, 0.014, 0.016, 0.017, 0.018, 0.02)
SPACINGS = (0.1, 0.1, 0.125, 0.15, 0.15, 0.15, 0.2, 0.2, 0.25, 0.3)
CLEARANCES = (0.075, 0.075, 0.075, 0.05, 0.1)
STIFF = 0.15
"""Share of rooms with pipe that needs more than half a spacing to bend."""
STIFFEST = 0.7
"""Greatest bend radius of these, in spacings."""
LEAST_LEG = 1.1
"""Least width of a leg of an orthogonal room [m], or five spacings."""


def random_rooms(count: int, first: int = 0) -> Iterator[RoomCase]:
    """The rooms with the numbers from ``first`` on."""
    return map(random_room, range(first, first + count))


def random_room(seed: int) -> RoomCase:
    """A room with up to three voids, an entry anywhere on its outline, and a pipe."""
    lot = random.Random(seed)
    kind = lot.choice(tuple(KINDS))
    spacing = lot.choice(SPACINGS)
    while True:
        outline = KINDS[kind](lot, max(LEAST_LEG, 5.0 * spacing))
        voids = _voids(lot, Polygon(outline), spacing)
        entry = _place_on(outline, lot.random())
        diameter = lot.choice(PIPES)
        radius = min(5.0 * diameter, (STIFFEST if lot.random() < STIFF else 0.5) * spacing)
        case = RoomCase(
            f"{kind} {seed}", kind, outline, entry, spacing, diameter, radius, lot.choice(CLEARANCES), voids
        )
        try:
            case.room  # noqa: B018
        except InputError:
            continue
        return turned(case, lot.uniform(0.0, 360.0)) if lot.random() < 0.3 else case


def _orthogonal(lot: random.Random, leg: float) -> Ring:
    """Two to five overlapping rectangles on a grid of 50 mm."""
    while True:
        boxes = [(0.0, 0.0, _grid(lot.uniform(leg, 5.5)), _grid(lot.uniform(leg, 5.0)))]
        for _ in range(lot.randint(1, 4)):
            x, y, width, depth = lot.choice(boxes)
            wide, deep = _grid(lot.uniform(leg, 4.5)), _grid(lot.uniform(leg, 4.5))
            boxes.append(
                (
                    _grid(x + lot.uniform(leg - wide, width - leg)),
                    _grid(y + lot.uniform(leg - deep, depth - leg)),
                    wide,
                    deep,
                )
            )
        whole = shapely.union_all([shapely.box(x, y, x + w, y + d) for x, y, w, d in boxes])
        if isinstance(whole, Polygon) and not whole.interiors and whole.area <= 70.0:
            return _corners(whole)


def _star(lot: random.Random, leg: float) -> Ring:
    """Five to twelve corners about a middle, none nearer to it than a leg is wide."""
    count = lot.randint(5, 12)
    shift = lot.random()
    corners = []
    for index in range(count):
        angle = 2.0 * math.pi * (index + shift + lot.uniform(-0.25, 0.25)) / count
        away = lot.uniform(max(leg, 1.4), 3.6)
        corners.append((round(away * math.cos(angle), 3), round(away * math.sin(angle), 3)))
    return tuple(corners)


def _leaning(lot: random.Random, leg: float) -> Ring:
    """An orthogonal room whose walls lean over."""
    return skewed(_orthogonal(lot, 1.2 * leg), lot.uniform(-25.0, 25.0))


def _quadrangle(lot: random.Random, leg: float) -> Ring:
    """Four walls, none square to another."""
    width, depth = lot.uniform(leg + 1.0, 7.0), lot.uniform(leg + 1.0, 5.5)
    corners = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    bend = 0.18 * min(width, depth)
    return tuple((x + lot.uniform(-bend, bend), y + lot.uniform(-bend, bend)) for x, y in corners)


KINDS: dict[str, Callable[[random.Random, float], Ring]] = {
    "orthogonal": _orthogonal,
    "star": _star,
    "leaning": _leaning,
    "quadrangle": _quadrangle,
}


def _voids(lot: random.Random, outline: Polygon, spacing: float) -> tuple[Ring, ...]:
    """Up to three voids far enough from walls and each other for some pipe to pass."""
    voids: list[Ring] = []
    taken = outline.exterior
    passage = max(0.45, 2.5 * spacing)
    for _ in range(lot.choice((0, 0, 1, 1, 2, 3)) * 8):
        if len(voids) == 3:
            break
        x0, y0, x1, y1 = outline.bounds
        void = _void(lot, lot.uniform(x0, x1), lot.uniform(y0, y1))
        area = Polygon(void)
        if outline.contains(area) and area.distance(taken) >= passage:
            voids.append(void)
            taken = shapely.union(taken, area.exterior)
    return tuple(voids)


def _void(lot: random.Random, x: float, y: float) -> Ring:
    width, depth = lot.uniform(0.25, 1.8), lot.uniform(0.25, 1.2)
    which = lot.randrange(3)
    if which == 0:
        return box(_grid(x), _grid(y), _grid(width), _grid(depth))
    if which == 1:
        return disc(x, y, lot.uniform(0.12, 0.6), 14)
    return tilted(x, y, width, depth, lot.uniform(0.0, 90.0))


def _place_on(outline: Ring, share: float) -> Point:
    place = shapely.line_interpolate_point(Polygon(outline).exterior, share, normalized=True)
    return (float(place.x), float(place.y))


def _corners(room: Polygon) -> Ring:
    plain = shapely.simplify(shapely.orient_polygons(room), 1e-6)
    return tuple((round(x, 6), round(y, 6)) for x, y in plain.exterior.coords[:-1])


def _grid(value: float) -> float:
    return round(20.0 * value) / 20.0
