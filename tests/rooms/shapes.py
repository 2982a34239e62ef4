"""Outlines from a few numbers. Lengths in metres, angles in degrees."""

from __future__ import annotations

import math

from tepidarium_engine.checking import Point

from .case import Ring

__all__ = [
    "arc",
    "bevelled",
    "box",
    "disc",
    "ellipse",
    "halfway",
    "rectangle",
    "regular",
    "sector",
    "skewed",
    "staircase",
    "tilted",
    "walls",
]


def rectangle(width: float, depth: float) -> Ring:
    return walls(width, depth, -width)


def walls(*moves: float) -> Ring:
    """From (0, 0) along x, then y, then x again, by turns; the last wall goes back to the start along y."""
    corners = [(0.0, 0.0)]
    for index, move in enumerate(moves):
        x, y = corners[-1]
        corners.append((round(x + move, 6), y) if index % 2 == 0 else (x, round(y + move, 6)))
    return tuple(corners)


def box(x: float, y: float, width: float, depth: float) -> Ring:
    """A rectangle with its lower left corner at (x, y)."""
    return ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth))


def tilted(x: float, y: float, width: float, depth: float, degrees: float) -> Ring:
    """A rectangle about the middle (x, y), turned."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    half = ((-width, -depth), (width, -depth), (width, depth), (-width, depth))
    return tuple((x + (c * u - s * v) / 2.0, y + (s * u + c * v) / 2.0) for u, v in half)


def disc(x: float, y: float, radius: float, corners: int = 16) -> Ring:
    return tuple(arc((x, y), radius, 0.0, 360.0, corners)[:-1])


def regular(corners: int, radius: float) -> Ring:
    """A regular polygon about the origin with one corner at the bottom."""
    return tuple(arc((0.0, 0.0), radius, -90.0, 270.0, corners)[:-1])


def ellipse(width: float, depth: float, corners: int = 40) -> Ring:
    return tuple((width * x, depth * y) for x, y in arc((0.0, 0.0), 0.5, 0.0, 360.0, corners)[:-1])


def arc(centre: Point, radius: float, start: float, end: float, steps: int) -> list[Point]:
    """Points on a circle, both ends included."""
    angles = [math.radians(start + (end - start) * step / steps) for step in range(steps + 1)]
    x, y = centre
    return [(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles]


def sector(inner: float, outer: float, start: float, end: float) -> Ring:
    """A piece of a ring about the origin."""
    return (*arc((0.0, 0.0), outer, start, end, 24), *arc((0.0, 0.0), inner, end, start, 16))


def halfway(outline: Ring, wall: int) -> Point:
    """The middle of the wall that starts at a corner."""
    (x0, y0), (x1, y1) = outline[wall], outline[(wall + 1) % len(outline)]
    return ((x0 + x1) / 2.0, (y0 + y1) / 2.0)


def staircase(steps: int, run: float, rise: float, depth: float) -> Ring:
    """A room whose upper wall goes down to the right by steps."""
    corners = [(0.0, 0.0), (steps * run, 0.0)]
    for step in range(steps):
        x, y = (steps - step) * run, depth + step * rise
        corners += [(x, y), (round(x - run, 6), y)]
    return tuple(corners)


def bevelled(width: float, depth: float, cut: float) -> Ring:
    """A rectangle with all four corners cut off."""
    return (
        (cut, 0.0),
        (width - cut, 0.0),
        (width, cut),
        (width, depth - cut),
        (width - cut, depth),
        (cut, depth),
        (0.0, depth - cut),
        (0.0, cut),
    )


def skewed(outline: Ring, degrees: float) -> Ring:
    """The outline with its walls along y leaning over."""
    lean = math.tan(math.radians(degrees))
    return tuple((x + lean * y, y) for x, y in outline)
