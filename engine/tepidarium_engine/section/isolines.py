"""Lines of equal value in a field given on a rectangular grid."""

from __future__ import annotations

import math

from ..checking import Point
from ..elementwise import Array

__all__ = ["isolines", "round_levels"]

_STEPS = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0)
_EDGES = ((0, 1), (1, 2), (2, 3), (3, 0))


def round_levels(low: float, high: float, most: int = 16) -> tuple[float, ...]:
    """Round values strictly between two, evenly spaced, at most ``most``."""
    step = next((step for step in _STEPS if (high - low) / step <= most), (high - low) / most)
    first, last = math.floor(low / step) + 1, math.ceil(high / step) - 1
    return tuple(number * step for number in range(first, last + 1))


def isolines(across: Array, upwards: Array, values: Array, level: float) -> list[list[Point]]:
    """The lines on which ``values`` (rows upwards) are ``level``, linear along the edges of the grid's cells."""
    xs, ys, rows = across.tolist(), upwards.tolist(), values.tolist()
    neighbours: dict[Point, list[Point]] = {}
    for j in range(len(ys) - 1):
        for i in range(len(xs) - 1):
            corners = (
                (xs[i], ys[j], rows[j][i]),
                (xs[i + 1], ys[j], rows[j][i + 1]),
                (xs[i + 1], ys[j + 1], rows[j + 1][i + 1]),
                (xs[i], ys[j + 1], rows[j + 1][i]),
            )
            crossings = _crossings(corners, level)
            for a, b in zip(crossings[::2], crossings[1::2], strict=True):
                if a != b:
                    neighbours.setdefault(a, []).append(b)
                    neighbours.setdefault(b, []).append(a)
    return _joined(neighbours)


def _crossings(corners: tuple[tuple[float, float, float], ...], level: float) -> list[Point]:
    found = []
    for first, second in _EDGES:
        a, b = corners[first], corners[second]
        if (a[2] >= level) == (b[2] >= level):
            continue
        a, b = sorted((a, b))  # the same bits from both cells that share the edge
        share = (level - a[2]) / (b[2] - a[2])
        found.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return found


def _joined(neighbours: dict[Point, list[Point]]) -> list[list[Point]]:
    """Chains of points, open ones from their ends first."""
    lines = []
    used: set[Point] = set()
    for start in sorted(neighbours, key=lambda point: (len(neighbours[point]) != 1, point)):
        if start in used:
            continue
        line = [start]
        used.add(start)
        while ahead := [point for point in neighbours[line[-1]] if point not in used]:
            line.append(ahead[0])
            used.add(ahead[0])
        if len(line) > 2 and len(neighbours[start]) == 2 and start in neighbours[line[-1]]:
            line.append(start)
        if len(line) > 1:
            lines.append(line)
    return lines
