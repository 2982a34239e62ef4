"""From the entry on the outline to the outermost pipe and back."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ..model.field import Entry, Field
from ..outlines.loops import Loop, loop_of
from ..outlines.overlays import intersection
from ..outlines.regions import Region
from .surgery import Opening

__all__ = ["entry_at", "entry_opening", "with_tails"]

_TRIED_EVERY = 0.02
"""Distance of the places tried along a wall [m]."""
_ROUNDING = 1e-5
"""Share by which a tail has more room for its bends than they take."""
_TO_THE_LEFT = 1e-4
"""Of the entry, from where the way to a loop is measured [m]."""
_STRAIGHT_STRETCH = math.cos(math.radians(20.0))
"""Chords of a curved wall that turn by less count as one stretch of wall."""


def entry_at(
    room: Polygon, place: Point, tail_pitch: float, zone: Region = None, reach: float = 0.0
) -> Entry:
    """The entry nearest to ``place`` [m], moved along the wall as far as two pipes need to stand on one wall.

    Where a ``zone`` is given, both pipes have at most ``reach`` [m] to go to it: in a corner they would meet
    the other wall. Where no such place exists the entry stays where it was asked for; in a room without a
    stretch of wall as long as the pitch, the pipes stand on both sides of a corner.
    """
    outline = loop_of(room)
    half = tail_pitch / 2.0
    at = outline.project(place)
    start, end = _stretch_round(outline, at)
    if end - start >= tail_pitch:
        at = min(max(at, start + half), end - half)
        if _near_zone(outline, np.array([at]), half, zone, reach)[0]:
            return _entry(outline, at, half)
    return _entry(outline, _nearest_good_place(outline, place, half, zone, reach) or at, half)


def _entry(outline: Loop, at: float, half: float) -> Entry:
    ends = (outline.at(at + half), outline.at(at - half))
    dx, dy = ends[0][0] - ends[1][0], ends[0][1] - ends[1][1]
    length = math.hypot(dx, dy)
    return Entry(outline.at(at), ends, (-dy / length, dx / length))


def _near_zone(outline: Loop, at: Array, half: float, zone: Region, reach: float) -> npt.NDArray[np.bool_]:
    """For each place whether both pipes have a short way to the zone."""
    if zone is None:
        return np.ones(len(at), dtype=np.bool_)
    ends = [shapely.distance(zone, shapely.points(outline.points_at(at + side))) for side in (half, -half)]
    near: npt.NDArray[np.bool_] = np.maximum(*ends) <= reach
    return near


def _nearest_good_place(outline: Loop, place: Point, half: float, zone: Region, reach: float) -> float | None:
    """Position nearest to the place at which a stretch of wall takes two pipes; ``None``: there is none."""
    found: list[tuple[float, float]] = []
    for middle in ((outline.positions[:-1] + outline.positions[1:]) / 2.0).tolist():
        start, end = _stretch_round(outline, middle)
        if end - start >= 2.0 * half:
            tried = np.linspace(start + half, end - half, max(9, int((end - start) / _TRIED_EVERY)))
            tried = tried[_near_zone(outline, tried, half, zone, reach)]
            away = np.hypot(*(outline.points_at(tried) - place).T)
            found.extend((round(float(way), 6), float(at)) for way, at in zip(away, tried, strict=True))
    return min(found)[1] if found else None


def _stretch_round(outline: Loop, at: float) -> tuple[float, float]:
    """Positions of the ends of the nearly straight stretch of wall round a place; ``at`` lies between them."""
    count = len(outline.points)
    steps = np.roll(outline.points, -1, axis=0) - outline.points
    units = steps / np.diff(outline.positions)[:, None]
    edge = min(int(np.searchsorted(outline.positions, at, side="right")) - 1, count - 1)
    start, end = float(outline.positions[edge]), float(outline.positions[edge + 1])
    lengths = np.diff(outline.positions)
    for step in range(1, count):
        nearer, further = (edge + step - 1) % count, (edge + step) % count
        if float(units[nearer] @ units[further]) < _STRAIGHT_STRETCH or end - at > outline.length / 4.0:
            break
        end += float(lengths[further])
    for step in range(1, count):
        nearer, further = (edge - step + 1) % count, (edge - step) % count
        if float(units[nearer] @ units[further]) < _STRAIGHT_STRETCH or at - start > outline.length / 4.0:
            break
        start -= float(lengths[further])
    return start, end


def entry_opening(loop: Loop, field: Field, number: int = 0) -> Opening:
    """Where to open a loop for the entry, as wide as the tails and their bends need.

    The place is the one on the loop that lies straight ahead of the entry, else nearest to it, moved on where
    the loop's edge there is too short for the opening.
    """
    entry, radius = field.entry, field.bend_radius
    # Of two places equally near it is always the one to the left: not what the last bit or the loop's start says.
    (x, y), (dx, dy) = entry.place, entry.inward
    place = (x - _TO_THE_LEFT * dy, y + _TO_THE_LEFT * dx)
    across = LineString([entry.place, _ahead(entry.place, entry.inward, 4.0 * field.pipe_spacing)])
    met = intersection(across, shapely.LinearRing(loop.points))
    points = shapely.get_coordinates(met)
    if len(points):
        nearest = points[np.hypot(*(points - entry.place).T).argmin()]
        at = loop.project((float(nearest[0]), float(nearest[1])))
    else:
        at = loop.project(place)
    away = math.dist(loop.at(at), entry.place)
    width = field.tail_pitch + 2.0 * _sideways(away, radius)
    start, end = _stretch_round(loop, at)
    margin = width / 2.0 + radius
    if end - start >= 2.0 * margin:
        at = min(max(at, start + margin), end - margin)
    elif end - start >= width:
        at = (start + end) / 2.0
    return Opening(number, (at - width / 2.0) % loop.length, (at + width / 2.0) % loop.length)


def _sideways(away: float, bend_radius: float) -> float:
    """How far a tail goes sideways on its way to a loop ``away`` [m] from the wall.

    A corner that turns by the angle a takes R tan(a / 2) of the tail, whose length is away / sin(a): it fits
    where away >= R (1 - cos a). A loop nearer than R is reached on the slant.
    """
    if away >= bend_radius * (1.0 + _ROUNDING):
        return 0.0
    cosine = 1.0 - away / (bend_radius * (1.0 + _ROUNDING))
    return away * cosine / math.sqrt(max(1e-12, 1.0 - cosine * cosine))


def with_tails(core: Array, field: Field) -> Array:
    """Corners of the pipe from the first of the entry's ends through ``core`` to the other one [m]."""
    first, last = field.entry.ends
    return np.concatenate(([first], core, [last]))


def _ahead(place: Point, direction: Point, distance: float) -> Point:
    return (place[0] + distance * direction[0], place[1] + distance * direction[1])
