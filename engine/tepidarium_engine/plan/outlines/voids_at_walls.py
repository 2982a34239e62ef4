"""Kitchen units, baths, stairs and chimneys stand at walls: the outline that goes round such voids."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely
from shapely import MultiPoint, Point, Polygon

from ...elementwise import Array
from ...errors import Change
from ..tolerances import BLUR, GRID, LEAST_DISTANCE, stepped
from .overlays import difference

__all__ = ["OutlineRoundVoids", "outline_round_voids"]


class OutlineRoundVoids(NamedTuple):
    """``outline`` [m] begins where it began and runs as it ran before; voids by number that it goes ``round``."""

    outline: tuple[tuple[float, float], ...]
    round: tuple[int, ...]

    def changes(self, pointer: str) -> tuple[Change, ...]:
        """Of the room at ``pointer``; the last void goes first, so that the others keep their numbers."""
        return (
            Change("replace", f"{pointer}/outline", self.outline),
            *(Change("remove", f"{pointer}/voids/{number}") for number in reversed(self.round)),
        )


def outline_round_voids(outline: Array, voids: Sequence[Array]) -> OutlineRoundVoids | None:
    """The ``outline`` without those voids that stand at it, and without those that stand at them.

    Corners of outline and voids stay to the last digit, places where edges meet are put on the grid of ``GRID``.
    Distances below ``LEAST_DISTANCE`` are none. ``None`` where no void stands at the outline, where one reaches
    further out, or where more than one simple outline is left.
    """
    origin = outline.min(0)
    floor = Polygon(outline - origin)
    most = shapely.buffer(floor, LEAST_DISTANCE, join_style="mitre")
    areas = {number: Polygon(void - origin) for number, void in enumerate(voids)}
    cut: list[int] = []
    while (number := _at_edge(floor, areas)) is not None:
        void = areas.pop(number)
        left = _without(floor, void) if shapely.covers(most, void) else None
        if left is None:
            return None
        floor = left
        cut.append(number)
    if not cut:
        return None
    sent = _Sent(origin, outline, np.concatenate([voids[number] for number in cut]))
    return OutlineRoundVoids(sent.named(shapely.get_coordinates(floor.exterior)[:-1]), tuple(sorted(cut)))


def _at_edge(floor: Polygon, areas: dict[int, Polygon]) -> int | None:
    return next(
        (number for number, area in areas.items() if shapely.distance(floor.exterior, area) < LEAST_DISTANCE),
        None,
    )


def _without(floor: Polygon, void: Polygon) -> Polygon | None:
    """What is left of the floor; void and floor share the corners of both at which they meet, so that no gap stays."""
    near = shapely.snap(void, MultiPoint(shapely.get_coordinates(floor.exterior)), LEAST_DISTANCE)
    corners = [Point(place) for place in shapely.get_coordinates(near.exterior)[:-1]]
    away = [float(shapely.distance(floor.exterior, corner)) for corner in corners]
    met = [
        floor.exterior.interpolate(floor.exterior.project(corner)) if distance < LEAST_DISTANCE else corner
        for corner, distance in zip(corners, away, strict=True)
    ]
    shared = [corner for corner, distance in zip(met, away, strict=True) if distance < LEAST_DISTANCE]
    taken, whole = Polygon(met), shapely.snap(floor, MultiPoint(shared), BLUR)
    if not (taken.is_valid and whole.is_valid):
        return None
    parts = [part for part in shapely.get_parts(difference(whole, taken)) if _is_floor(part)]
    if len(parts) != 1 or parts[0].geom_type != "Polygon" or parts[0].interiors:
        return None
    return parts[0]


def _is_floor(part: shapely.Geometry) -> bool:
    return not shapely.buffer(part, -LEAST_DISTANCE / 2.0).is_empty


@dataclass(frozen=True)
class _Sent:
    """Corners as they were sent, of the outline and of voids; ``origin`` is that of the frame computed in."""

    origin: Array
    outline: Array
    voids: Array

    def named(self, ring: Array) -> tuple[tuple[float, float], ...]:
        """A ring by the corners that were sent, without those of voids that bend nothing."""
        kept = [
            place
            for before, place, after in zip(np.roll(ring, 1, 0), ring, np.roll(ring, -1, 0), strict=True)
            if self._number(self.outline, place) is not None or _bends(before, place, after)
        ]
        if _runs_left(self.outline - self.origin) is not _runs_left(np.array(kept)):
            kept.reverse()
        numbers = [self._number(self.outline, place) for place in kept]
        known = [(number, at) for at, number in enumerate(numbers) if number is not None]
        first = min(known)[1] if known else 0
        return tuple(self._as_sent(place) for place in kept[first:] + kept[:first])

    def _as_sent(self, place: Array) -> tuple[float, float]:
        for corners in (self.outline, self.voids):
            number = self._number(corners, place)
            if number is not None:
                x, y = corners[number].tolist()
                return x, y
        x, y = (place + self.origin).tolist()
        return stepped(x, GRID), stepped(y, GRID)

    def _number(self, corners: Array, place: Array) -> int | None:
        away = np.hypot(*(corners - self.origin - place).T)
        nearest = int(np.argmin(away))
        return nearest if away[nearest] < BLUR else None


def _bends(before: Array, place: Array, after: Array) -> bool:
    """Whether a corner lies beside the line between its neighbours."""
    (ax, ay), (bx, by) = place - before, after - place
    return bool(abs(ax * by - ay * bx) >= BLUR * max(math.hypot(ax + bx, ay + by), BLUR))


def _runs_left(ring: Array) -> bool:
    return bool(shapely.is_ccw(shapely.LinearRing(ring)))
