"""Rooms as houses have them, at random: half with voids, a quarter with steps, necks or slanted walls."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator

import shapely
import shapely.affinity
from shapely import Polygon
from tepidarium_engine.checking import Point
from tepidarium_engine.errors import InputError

from .case import Ring, RoomCase, turned
from .shapes import rectangle, skewed, walls

__all__ = ["stiff_rooms", "varied_room", "varied_rooms"]

PIPES = (
    (0.075, 0.012),
    (0.1, 0.014),
    (0.1, 0.016),
    (0.125, 0.016),
    (0.15, 0.016),
    (0.15, 0.016),
    (0.15, 0.017),
    (0.2, 0.016),
    (0.2, 0.02),
    (0.25, 0.02),
    (0.3, 0.02),
)
"""Spacing and outside diameter [m]; the bend radius is five diameters (common practice, no source)."""
STIFF_PIPES = ((0.075, 0.016), (0.1, 0.017), (0.1, 0.018), (0.1, 0.02), (0.1, 0.02), (0.15, 0.032))
"""Those whose bend radius is 0.85 to 1.1 spacings."""
LEAST_LEG = 5.0
"""Least width of a leg, in spacings."""


def varied_rooms(count: int, first: int = 0) -> Iterator[RoomCase]:
    """The rooms with the numbers from ``first`` on."""
    return (varied_room(seed) for seed in range(first, first + count))


def stiff_rooms(count: int, first: int = 0) -> Iterator[RoomCase]:
    """The same rooms with pipe that hardly bends."""
    return (varied_room(seed, STIFF_PIPES) for seed in range(first, first + count))


def varied_room(seed: int, pipes: tuple[tuple[float, float], ...] = PIPES) -> RoomCase:
    """A room with an entry anywhere on its outline, and a pipe."""
    draw = random.Random(seed)
    spacing, diameter = draw.choice(pipes)
    leg = max(1.0, LEAST_LEG * spacing)
    shaped = draw.random() < 0.25
    kinds = SHAPED if shaped else PLAIN
    kind = draw.choice(tuple(kinds))
    with_voids = draw.random() < 0.5
    while True:
        outline = kinds[kind](draw, leg)
        voids = _voids(draw, Polygon(outline), spacing) if with_voids else ()
        if with_voids and not voids:
            continue
        place = shapely.line_interpolate_point(Polygon(outline).exterior, draw.random(), normalized=True)
        case = RoomCase(
            f"{kind} {seed}",
            kind + (" with voids" if voids else ""),
            outline,
            (float(place.x), float(place.y)),
            spacing,
            diameter,
            5.0 * diameter,
            0.075,
            voids,
        )
        try:
            case.room  # noqa: B018
        except InputError:
            continue
        return turned(case, draw.uniform(0.0, 360.0)) if draw.random() < 0.2 else case


def _length(draw: random.Random, low: float, high: float) -> float:
    """To a centimetre."""
    return round(draw.uniform(low, max(low, high)), 2)


def _rectangle(draw: random.Random, leg: float) -> Ring:
    return rectangle(_length(draw, max(1.5, leg), 7.5), _length(draw, leg, 5.5))


def _l_room(draw: random.Random, leg: float) -> Ring:
    across, up = _length(draw, leg, 4.0), _length(draw, leg, 4.0)
    more, further = _length(draw, leg, 3.5), _length(draw, leg, 3.5)
    return walls(round(across + more, 2), up, -more, further, -across)


def _t_room(draw: random.Random, leg: float) -> Ring:
    stem, depth, length = _length(draw, leg, 3.0), _length(draw, leg, 3.0), _length(draw, leg, 3.0)
    left, right = _length(draw, leg, 2.5), _length(draw, leg, 2.5)
    return walls(round(left + stem + right, 2), depth, -right, length, -stem, -length, -left)


def _u_room(draw: random.Random, leg: float) -> Ring:
    one, other, depth = (_length(draw, leg, 2.5) for _ in range(3))
    gap, up, more = _length(draw, 0.5, 2.5), _length(draw, leg, 3.0), _length(draw, leg, 3.0)
    return walls(round(one + gap + other, 2), round(depth + up, 2), -other, -up, -gap, more, -one)


def _stepped(draw: random.Random, leg: float) -> Ring:
    """A rectangle whose upper wall goes up and down by steps of 0.05 to 0.6 m."""
    corners: list[Point] = [(0.0, 0.0)]
    depth = _length(draw, leg + 0.6, 4.5)
    heights = [round(depth + draw.uniform(-0.6, 0.6), 2) for _ in range(draw.randint(3, 6))]
    widths = [_length(draw, 0.3, 1.6) for _ in heights]
    x = round(sum(widths), 2)
    corners += [(x, 0.0)]
    for width, height in zip(widths, heights, strict=True):
        corners += [(round(x, 2), height), (round(x - width, 2), height)]
        x -= width
    return tuple(corners)


def _necked(draw: random.Random, leg: float) -> Ring:
    """Two rectangles joined by a neck of 0.7 to 1.4 m."""
    one, other = _length(draw, leg, 3.5), _length(draw, leg, 3.5)
    depth, neck = _length(draw, max(leg, 2.0), 4.0), _length(draw, 0.7, 1.4)
    up = round(draw.uniform(0.1, depth - neck - 0.1), 2)
    long = _length(draw, 0.15, 1.0)
    top = round(depth - up - neck, 2)
    return walls(one, up, long, -up, other, depth, -other, -top, -long, top, -one)


def _leaning(draw: random.Random, leg: float) -> Ring:
    kind = draw.choice((_rectangle, _l_room, _t_room))
    return skewed(kind(draw, 1.2 * leg), draw.uniform(-25.0, 25.0))


def _quadrangle(draw: random.Random, leg: float) -> Ring:
    width, depth = draw.uniform(leg + 1.0, 7.0), draw.uniform(leg + 1.0, 5.5)
    bend = 0.18 * min(width, depth)
    corners = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    return tuple(
        (round(x + draw.uniform(-bend, bend), 3), round(y + draw.uniform(-bend, bend), 3)) for x, y in corners
    )


def _star(draw: random.Random, leg: float) -> Ring:
    count, shift = draw.randint(5, 10), draw.random()
    corners = []
    for index in range(count):
        angle = 2.0 * math.pi * (index + shift + draw.uniform(-0.25, 0.25)) / count
        away = draw.uniform(max(leg, 1.4), 3.4)
        corners.append((round(away * math.cos(angle), 3), round(away * math.sin(angle), 3)))
    return tuple(corners)


Maker = Callable[[random.Random, float], Ring]
PLAIN: dict[str, Maker] = {"rectangle": _rectangle, "L": _l_room, "T": _t_room, "U": _u_room}
SHAPED: dict[str, Maker] = {
    "stepped": _stepped,
    "necked": _necked,
    "leaning": _leaning,
    "quadrangle": _quadrangle,
    "star": _star,
}


def _voids(draw: random.Random, outline: Polygon, spacing: float) -> tuple[Ring, ...]:
    """One to three boxes, columns and slanted boxes that leave a passage of at least 2.5 spacings."""
    voids: list[Ring] = []
    taken: shapely.Geometry = outline.exterior
    passage = max(0.35, 2.5 * spacing)
    wanted = draw.choice((1, 1, 2, 3))
    for _ in range(24):
        if len(voids) == wanted:
            break
        x0, y0, x1, y1 = outline.bounds
        void = _void(draw, draw.uniform(x0, x1), draw.uniform(y0, y1))
        area = Polygon(void)
        if outline.contains(area) and area.distance(taken) >= passage:
            voids.append(void)
            taken = shapely.union(taken, area.exterior)
    return tuple(voids)


def _void(draw: random.Random, x: float, y: float) -> Ring:
    width, depth = draw.uniform(0.25, 1.8), draw.uniform(0.25, 1.2)
    shape: Polygon = shapely.box(x, y, x + width, y + depth)
    if draw.random() < 0.2:
        shape = shapely.buffer(shapely.Point(x, y), draw.uniform(0.12, 0.5), quad_segs=4)
    elif draw.random() < 0.15:
        shape = shapely.affinity.rotate(shape, draw.uniform(0.0, 90.0))
    return tuple(
        (round(px, 3), round(py, 3)) for px, py in shapely.orient_polygons(shape).exterior.coords[:-1]
    )
