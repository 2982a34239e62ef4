"""Floor of a room that the tails of others cut off from where its own circuits come in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.regions import joined, minus, opened, parts_of
from ..model.tail_records import TailRules

__all__ = ["cut_off_area"]

_LOOKED = 0.6
"""So far ahead of where the own pairs come in their field begins [m]."""


def cut_off_area(
    room: Polygon, ways: Iterable[Sequence[Point]], own: Sequence[tuple[Point, Point]], rules: TailRules
) -> float:
    """Floor [m2] that pairs with these corners leave of a room, without the largest part into which the room's ``own``
    pairs, each at a place with its direction, come; without own pairs the largest of all."""
    taken = joined(
        shapely.buffer(LineString(way), rules.tail_pitch, cap_style="flat", join_style="mitre")
        for way in ways
    )
    parts = parts_of(opened(minus(room, taken), rules.wall_clearance))
    before = shapely.MultiLineString([[(x, y), (x + _LOOKED * u, y + _LOOKED * v)] for (x, y), (u, v) in own])
    reached = [part for part in parts if own and part.intersects(before)] or parts
    whole = sum(float(part.area) for part in parts)
    return whole - max((float(part.area) for part in reached), default=0.0)
