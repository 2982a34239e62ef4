"""A floor in parallel strips, for what is laid in courses: boards and film."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import shapely
from shapely import Polygon

from ..plan.outlines.overlays import intersection

__all__ = ["Span", "Strip", "strips", "turned"]

_SLACK = 1e-6
"""Narrower than this is nothing [m]."""


class Span(NamedTuple):
    """From ``start`` to ``end`` along a strip [m]."""

    start: float
    end: float

    @property
    def length(self) -> float:
        return self.end - self.start


class Strip(NamedTuple):
    """Between ``low`` and ``high`` across; ``spans`` along it hold all of the floor that is there [m]."""

    low: float
    high: float
    spans: tuple[Span, ...]


def strips(floor: Polygon, lows: list[float], width: float) -> list[Strip]:
    """The strips of one ``width`` [m] that begin at ``lows``, along the x axis; those without floor are left out."""
    found = [Strip(low, low + width, tuple(_spans(floor, low, low + width))) for low in lows]
    return [strip for strip in found if strip.spans]


def _spans(floor: Polygon, low: float, high: float) -> Iterator[Span]:
    left, _, right, _ = floor.bounds
    parts = shapely.get_parts(intersection(floor, shapely.box(left - 1.0, low, right + 1.0, high)))
    bounds = sorted(
        (float(part.bounds[0]), float(part.bounds[2])) for part in parts if part.area > _SLACK * _SLACK
    )
    start, end = None, None
    for first, last in bounds:
        if start is None or end is None:
            start, end = first, last
        elif first <= end + _SLACK:
            end = max(end, last)
        else:
            yield Span(start, end)
            start, end = first, last
    if start is not None and end is not None:
        yield Span(start, end)


def turned(floor: Polygon) -> Polygon:
    """The floor with x and y exchanged, so that strips along y can be laid along x."""
    return shapely.transform(floor, lambda points: points[:, ::-1])
