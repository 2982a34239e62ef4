"""Rooms measured in feet and inches, or to tenths of a millimetre, or turned: divided like those in whole millimetres.

One foot is 0.3048 m and one inch 0.0254 m (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import math
from functools import cache

import pytest
from tepidarium_engine.places import Point
from tepidarium_engine.routes import RoutesInputs, RoutesResult, calculate

FOOT, INCH = 0.3048, 0.0254
RECTANGLES = {
    "12 x 16 ft": (12 * FOOT, 16 * FOOT),
    "11 ft 6 1/4 in x 15 ft 3 1/8 in": (138.25 * INCH, 183.125 * INCH),
    "tenths of a millimetre": (4.11135, 5.21945),
}
LIMIT = 80.0
"""Longest circuit [m]: each of the rooms takes two."""


def turned(ring: tuple[Point, ...], degrees: float, decimals: int = 15) -> tuple[Point, ...]:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple((round(c * x - s * y, decimals), round(s * x + c * y, decimals)) for x, y in ring)


def divided(ring: tuple[Point, ...]) -> RoutesResult:
    (ax, ay), (bx, by) = ring[0], ring[1]
    entry = (ax + 0.37 * (bx - ax), ay + 0.37 * (by - ay))
    return calculate(
        RoutesInputs(outline=ring, entry=entry, pipe_spacing=0.15, maximum_circuit_length=LIMIT, quick=True)
    )


def rectangle(name: str, decimals: int = 15) -> tuple[Point, ...]:
    width, depth = (round(side, decimals) for side in RECTANGLES[name])
    return ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))


@cache
def in_millimetres(name: str) -> RoutesResult:
    return divided(rectangle(name, 3))


@pytest.mark.parametrize("degrees", [0.0, 0.01, 33.3])
@pytest.mark.parametrize("name", RECTANGLES)
def test_a_room_in_any_unit_is_divided_like_one_in_millimetres(name: str, degrees: float) -> None:
    found, plain = divided(turned(rectangle(name), degrees)), in_millimetres(name)
    assert len(found.circuits) == len(plain.circuits) == 2
    assert max(circuit.total_length for circuit in found.circuits) <= LIMIT
    # lengths of one room in two units may differ by half a per cent
    assert found.pipe_length == pytest.approx(plain.pipe_length, rel=0.005)


@pytest.mark.parametrize("degrees", [7.77, 88.0])
def test_a_drawing_that_is_turned_and_then_rounded_is_divided_alike(degrees: float) -> None:
    """Walls that miss level by the rounding of a drawing, a millimetre, count as level."""
    name = "12 x 16 ft"
    found = divided(turned(rectangle(name), degrees, 3))
    assert len(found.circuits) == 2
    assert found.pipe_length == pytest.approx(in_millimetres(name).pipe_length, rel=0.01)
