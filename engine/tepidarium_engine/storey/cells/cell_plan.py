"""The floor of a storey as cells and openings: rooms, or the cells that they are cut in, doorways and cut lines."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.regions import minus, parts_of
from ..records import Doorway, Segment
from ..tail_records import ManifoldPlace, StoreyPlan

__all__ = ["Cell", "CellPlan", "cell_plan"]

_NEAR = 1e-5
"""Edges no farther from a wall are on it [m]."""
_TIDY = 1e-3
"""Corners nearer to each other are one [m]."""
_AT_WALL = 0.01
"""An end of a border is at a wall that is no farther away [m]."""
_LEAST_BORDER = 0.3
"""Borders of two cells that are shorter let no pair pass [m]."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A polygon of floor of a ``room`` (its number), laid by one ``circuit`` or crossed by lanes alone (None)."""

    room: int
    floor: Polygon
    circuit: str | None


@dataclass(frozen=True)
class CellPlan:
    """``cells`` are the rooms of ``plan``; ``manifolds`` stand in cells; ``doors``: number of the storey's doorway behind
    each of the plan's, None for openings between cells of a room."""

    cells: tuple[Cell, ...]
    plan: StoreyPlan
    manifolds: tuple[ManifoldPlace, ...]
    doors: tuple[int | None, ...]


def cell_plan(
    plan: StoreyPlan,
    cells: Sequence[Cell],
    manifolds: Sequence[ManifoldPlace],
    *,
    gaps: Sequence[float],
    opening: float,
    inner: float,
) -> CellPlan:
    """Cells with the openings between them.

    ``gaps`` [m], by room, are how far the floor of a cell stays from a cut, so that a clearance from there on is half a
    spacing; ``opening``: width that is enough for all pairs; ``inner``: how far openings stay from an end of their border
    at which no wall is [m].
    """
    by_room: dict[int, list[int]] = {}
    for number, cell in enumerate(cells):
        by_room.setdefault(cell.room, []).append(number)
    floors = tuple(
        _drawn_back(cell.floor, plan.rooms[cell.room], gaps[cell.room])
        if len(by_room[cell.room]) > 1
        else cell.floor
        for cell in cells
    )
    doorways: list[Doorway] = []
    doors: list[int | None] = []
    for number, doorway in enumerate(plan.doorways):
        found = _between(doorway, floors, [by_room[room] for room in doorway.rooms])
        doorways.append(found)
        doors.append(number)
    for room, own in by_room.items():
        for one, other in combinations(own, 2):
            for each in _openings(
                plan.rooms[room], cells, (one, other), floors, _Width(gaps[room], opening, inner)
            ):
                doorways.append(each)
                doors.append(None)
    placed = tuple(_standing(place, floors, by_room[place.room]) for place in manifolds)
    return CellPlan(tuple(cells), StoreyPlan(floors, tuple(doorways)), placed, tuple(doors))


def _drawn_back(floor: Polygon, room: Polygon, gap: float) -> Polygon:
    cuts = shapely.difference(floor.boundary, shapely.buffer(room.boundary, _NEAR))
    if gap <= 0.0 or cuts.is_empty:
        return _tidied(floor)
    left = parts_of(minus(floor, shapely.buffer(cuts, gap, cap_style="square", join_style="mitre")))
    return _tidied(max(left, key=lambda part: part.area)) if left else floor


def _tidied(floor: Polygon) -> Polygon:
    """Without corners that are none."""
    plain: Polygon = shapely.simplify(shapely.remove_repeated_points(floor, _TIDY), _TIDY / 10.0)
    return shapely.orient_polygons(plain)


def _between(doorway: Doorway, floors: Sequence[Polygon], choices: Sequence[Sequence[int]]) -> Doorway:
    """The doorway between the cells at which most of it opens; as narrow as these are there."""
    numbers, stretches = [], []
    for stretch, own in zip(doorway.stretches, choices, strict=True):
        line = LineString(stretch)
        common = [
            shapely.intersection(line, shapely.buffer(floors[number].exterior, _NEAR)).length
            for number in own
        ]
        number = own[int(np.argmax(np.round(common, 6)))]
        numbers.append(number)
        stretches.append(stretch if len(own) == 1 else _clipped(stretch, floors[number]))
    return Doorway((numbers[0], numbers[1]), (stretches[0], stretches[1]))


def _clipped(stretch: Segment, floor: Polygon) -> Segment:
    """What of a stretch lies on the edge of a floor."""
    (ax, ay), (bx, by) = stretch
    line = LineString(stretch)
    common = shapely.get_coordinates(
        shapely.intersection(line, shapely.buffer(floor.exterior, _NEAR, cap_style="flat"))
    )
    if len(common) < 2:
        return stretch
    length = line.length
    along = sorted(((common - (ax, ay)) @ np.array(((bx - ax) / length, (by - ay) / length))).tolist())
    low, high = max(0.0, along[0]), min(length, along[-1])
    if high - low < 1e-3:
        return stretch
    a, b = ((ax + t / length * (bx - ax), ay + t / length * (by - ay)) for t in (low, high))
    return (a, b)


class _Width(NamedTuple):
    gap: float
    opening: float
    inner: float


def _openings(
    room: Polygon, cells: Sequence[Cell], pair: tuple[int, int], floors: Sequence[Polygon], width: _Width
) -> Iterator[Doorway]:
    """At both ends of every straight border of two cells, kept to the end."""
    one, other = (cells[number].floor for number in pair)
    shared = shapely.intersection(one.boundary, other.boundary)
    lines = [
        part for part in shapely.get_parts(shared) if isinstance(part, LineString) and part.length > _NEAR
    ]
    if not lines:
        return
    for line in shapely.get_parts(shapely.line_merge(shapely.MultiLineString(lines))):
        points = shapely.get_coordinates(line.simplify(1e-6)).tolist()
        for (ax, ay), (bx, by) in pairwise(points):
            if math.dist((ax, ay), (bx, by)) >= _LEAST_BORDER:
                for start, end in (((ax, ay), (bx, by)), ((bx, by), (ax, ay))):
                    at_wall = room.boundary.distance(shapely.Point(start)) < _AT_WALL
                    found = _opening(pair, start, end, floors, width, 0.0 if at_wall else width.inner)
                    if found is not None:
                        yield found


def _opening(
    pair: tuple[int, int],
    start: Point,
    end: Point,
    floors: Sequence[Polygon],
    width: _Width,
    inner: float,
) -> Doorway | None:
    length, gap = math.dist(start, end), width.gap
    u, v = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    sides = []
    for number in pair:
        near = [
            LineString(
                [
                    (start[0] - s * gap * v, start[1] + s * gap * u),
                    (end[0] - s * gap * v, end[1] + s * gap * u),
                ]
            )
            for s in (1.0, -1.0)
        ]
        line = min(near, key=lambda each: round(float(each.centroid.distance(floors[number])), 6))
        common = shapely.get_coordinates(
            shapely.intersection(line, shapely.buffer(floors[number].exterior, _NEAR, cap_style="flat"))
        )
        if len(common) < 2:
            return None
        along = ((common - start) @ np.array((u, v))).tolist()
        sides.append((line, min(along), max(along)))
    low, high = max(sides[0][1], sides[1][1], inner), min(sides[0][2], sides[1][2])
    high = min(high, low + width.opening)
    if high - low < _LEAST_BORDER:
        return None
    stretches = [
        tuple((x0 + t * u, y0 + t * v) for t in (low, high))
        for (x0, y0) in (shapely.get_coordinates(line)[0].tolist() for line, _, _ in sides)
    ]
    (ax, ay), _ = stretches[0]
    (bx, by), _ = stretches[1]
    one, other = ((s[0], s[1]) for s in stretches)
    return Doorway(pair, (one, other), ((ax + bx) / 2.0, (ay + by) / 2.0))


def _standing(place: ManifoldPlace, floors: Sequence[Polygon], own: Sequence[int]) -> ManifoldPlace:
    """The manifold in the cell at whose wall it stands."""
    (x, y), (u, v) = place.place, place.ahead
    ahead = shapely.Point(x + 1e-2 * u, y + 1e-2 * v)
    number = min(own, key=lambda each: round(float(floors[each].distance(ahead)), 6))
    outline = floors[number].exterior
    near = outline.interpolate(outline.project(shapely.Point(x, y)))
    return ManifoldPlace((near.x, near.y), place.ahead, number)
