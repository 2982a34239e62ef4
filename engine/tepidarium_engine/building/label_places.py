"""Where the name of a room is written in a drawing."""

from __future__ import annotations

import shapely
from shapely import Polygon

from ..checking import Point
from .records import DesignsInputs

__all__ = ["label_places"]

_WIDE_ENOUGH = 0.6
"""The centroid will do with this share of the room's largest circle about it."""
_FINE = 0.05


def label_places(inputs: DesignsInputs) -> tuple[Point | None, ...]:
    """A place well inside each room [m], clear of its voids; ``None`` for a room without an outline."""
    return tuple(None if room.outline is None else _place(room.outline, room.voids) for room in inputs.rooms)


def _place(outline: tuple[Point, ...], voids: tuple[tuple[Point, ...], ...]) -> Point:
    floor = Polygon(outline, voids)
    circle = shapely.maximum_inscribed_circle(floor, tolerance=_FINE)
    middle = floor.centroid
    away = shapely.distance(floor.boundary, middle) if floor.contains(middle) else 0.0
    place = middle if away >= _WIDE_ENOUGH * circle.length else shapely.get_point(circle, 0)
    return (float(place.x), float(place.y))
