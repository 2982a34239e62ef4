"""A hall in which several manifolds stand, cut between them: each part is a room that its own manifold serves."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
import shapely.ops
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.overlays import intersection
from ...plan.outlines.polygons import RoomOutline
from ..lanes.tail_order import row_of
from ..lanes.walkways import Walkways, access_to_rooms
from ..model.layout_records import StoreyTask
from ..model.records import Doorway
from ..model.tail_records import StoreyPlan, TailRules
from .floor_apart import free_name

__all__ = ["cut_between_manifolds"]

_STEP = 0.1
"""Between cuts that are compared along a wall [m]."""
_LONGEST = 5.0
"""Of a cut [m]: a wider hall is no hall."""
_LEAST_AREA = 2.0
"""Of a part [m2]."""
_ASIDE = 0.02
"""From a doorway or the end of a manifold to a cut, beyond the wall clearance [m]."""

_ON_WALL = 1e-3
"""Nearer to a wall is on it [m]."""
_BESIDE = 0.01
"""On either side of a cut [m]."""
_SPARE = 2
"""Pairs for which there is room beside a manifold."""


class _Way(NamedTuple):
    """Of so many ``pairs`` of a manifold through a hall: where they come in, and where they leave it or end."""

    manifold: int
    start: Point
    end: Point | None
    pairs: int


class _Cut(NamedTuple):
    """A line across a hall, its parts, and pairs that cross it."""

    line: LineString
    parts: tuple[Polygon, Polygon]
    crossing: int


def cut_between_manifolds(task: StoreyTask, hall: int, counts: Counter[int]) -> StoreyTask | None:
    """The storey with a hall in a part for each manifold that stands in it, the parts of the others as its last rooms;
    ``None`` where only one does or no cut leaves all doorways whole. ``counts``: circuits by room.

    In 100 storeys in the style of measured buildings it was tried 35 times and mended the hall 22 times; with those
    cuts alone that no pair crosses no hall was mended that was not with all.
    """
    if task.rooms[hall].only:
        return None
    rules = TailRules(task.tail_pitch, task.wall_clearance, task.bend_radius)
    ways = list(_ways(task, hall, counts, rules))
    cuts: list[_Cut] = []
    parts = _parted(task, hall, task.plan.rooms[hall], ways, cuts)
    if len(parts) < 2:
        return None
    own = task.rooms[hall].manifold
    served = [(_serving(part, ways, own), part) for part in parts]
    served.sort(key=lambda each: (each[0] != own, each[0]))
    return _with_parts(task, hall, served, cuts, rules)


def _ways(task: StoreyTask, hall: int, counts: Counter[int], rules: TailRules) -> Iterator[_Way]:
    walkways = Walkways(task.plan, rules)
    for number, manifold in enumerate(task.manifolds):
        reached = access_to_rooms(walkways, manifold)
        start = manifold.place if manifold.room == hall else None
        for index, room in enumerate(task.rooms):
            if room.manifold != number or index not in reached or not counts[index] or index == hall:
                continue
            row = row_of(reached, index)
            entry = start or next((passage.far for passage in row if passage.enters == hall), None)
            leaves = next((passage.near for passage in row if passage.leaves == hall), None)
            if entry is not None:
                yield _Way(number, entry, leaves, counts[index])


def _parted(
    task: StoreyTask, hall: int, floor: Polygon, ways: Sequence[_Way], cuts: list[_Cut]
) -> list[Polygon]:
    """Parts of a floor with one manifold in each; the ``cuts`` made are added."""
    inside = [one.place for one in task.manifolds if one.room == hall and _lies_on(floor, one.place)]
    if len(inside) < 2:
        return [floor]
    found = [
        cut
        for cut in _cuts(task, hall, floor, ways)
        if all(any(_lies_on(part, place) for place in inside) for part in cut.parts)
    ]
    if not found:
        return [floor]
    best = min(found, key=lambda cut: _badness(cut, inside))
    cuts.append(best)
    return [one for part in best.parts for one in _parted(task, hall, part, ways, cuts)]


def _badness(cut: _Cut, places: Sequence[Point]) -> tuple[int, float, tuple[float, ...]]:
    """Pairs that cross a cut, then how far it is from the middle between the manifolds at its sides."""
    near = [
        min(shapely.distance(cut.line, shapely.Point(place)) for place in places if _lies_on(part, place))
        for part in cut.parts
    ]
    return cut.crossing, round(abs(near[0] - near[1]), 3), cut.line.bounds


def _cuts(task: StoreyTask, hall: int, floor: Polygon, ways: Sequence[_Way]) -> Iterator[_Cut]:
    """Lines from wall to wall square to the first, clear of doorways and manifolds."""
    kept = _kept_clear(task, hall, ways)
    for line in _lines(floor):
        if shapely.distance(kept, line) < task.wall_clearance + _ASIDE:
            continue
        parts = _halves(floor, line)
        if len(parts) == 2 and min(part.area for part in parts) >= _LEAST_AREA:
            crossing = sum(
                way.pairs
                for way in ways
                if way.end is not None and _lies_on(parts[0], way.start) != _lies_on(parts[0], way.end)
            )
            yield _Cut(line, (parts[0], parts[1]), crossing)


def _lines(floor: Polygon) -> Iterator[LineString]:
    """Across a floor at steps along its walls, each as far as the wall that it meets first."""
    ring = shapely.get_coordinates(shapely.orient_polygons(floor).exterior)
    shapely.prepare(floor)
    for (ax, ay), (bx, by) in pairwise(ring.tolist()):
        length = math.dist((ax, ay), (bx, by))
        count = int(length / _STEP)
        for step in range(1, count):
            share = step / count
            x, y = ax + share * (bx - ax), ay + share * (by - ay)
            inward = ((ay - by) / length, (bx - ax) / length)
            ray = LineString([(x, y), (x + _LONGEST * inward[0], y + _LONGEST * inward[1])])
            met = np.sort(shapely.get_coordinates(intersection(ray, floor.boundary)) @ np.array(inward))
            across = met - (x * inward[0] + y * inward[1])
            across = across[across > _ON_WALL]
            if len(across):
                yield LineString(
                    [(x, y), (x + float(across[0]) * inward[0], y + float(across[0]) * inward[1])]
                )


def _kept_clear(task: StoreyTask, hall: int, ways: Sequence[_Way]) -> shapely.Geometry:
    """Doorways of a hall and manifolds in it, with ports for two circuits more."""
    kept = [
        LineString(stretch)
        for doorway in task.plan.doorways
        for room, stretch in zip(doorway.rooms, doorway.stretches, strict=True)
        if room == hall
    ]
    for number, manifold in enumerate(task.manifolds):
        if manifold.room == hall:
            pairs = sum(way.pairs for way in ways if way.manifold == number) + _SPARE
            half = pairs * task.tail_pitch
            (x, y), (dx, dy) = manifold.place, manifold.ahead
            kept.append(LineString([(x - half * dy, y + half * dx), (x + half * dy, y - half * dx)]))
    return shapely.multilinestrings(kept)


def _halves(floor: Polygon, line: LineString) -> list[Polygon]:
    (ax, ay), (bx, by) = shapely.get_coordinates(line).tolist()
    ux, uy = (bx - ax) / line.length * _ON_WALL, (by - ay) / line.length * _ON_WALL
    through = LineString([(ax - ux, ay - uy), (bx + ux, by + uy)])
    return list(shapely.get_parts(shapely.ops.split(floor, through)))


def _lies_on(part: Polygon, place: Point) -> bool:
    return bool(shapely.dwithin(part, shapely.Point(place), _ON_WALL))


def _with_parts(
    task: StoreyTask, hall: int, served: Sequence[tuple[int, Polygon]], cuts: Sequence[_Cut], rules: TailRules
) -> StoreyTask:
    first = len(task.rooms)
    indices = (hall, *range(first, first + len(served) - 1))
    parts = dict(zip(indices, (shapely.orient_polygons(part) for _, part in served), strict=True))

    def of(place: Point) -> int:
        at = shapely.Point(place)
        away = {index: round(float(shapely.distance(part, at)), 4) for index, part in parts.items()}
        nearest: int = min(away, key=lambda index: (away[index], index))
        return nearest

    def moved(doorway: Doorway) -> Doorway:
        each = zip(doorway.rooms, doorway.stretches, strict=True)
        one, other = (of(_middle(stretch)) if room == hall else room for room, stretch in each)
        return replace(doorway, rooms=(one, other))

    asked = task.rooms[hall]
    rooms = list(task.rooms)
    for index, (number, _) in zip(indices, served, strict=True):
        name = asked.id if index == hall else f"{free_name(task, asked)}{index}"
        own = replace(asked, id=name, room=RoomOutline.of(parts[index]), count=None, manifold=number)
        rooms[index : index + 1] = [own if index == hall else replace(own, numbered=None)]
    plan = StoreyPlan(
        (
            *task.plan.rooms[:hall],
            parts[hall],
            *task.plan.rooms[hall + 1 :],
            *(parts[i] for i in indices[1:]),
        ),
        (*map(moved, task.plan.doorways), *(one for cut in cuts for one in _openings(cut, of, rules))),
        task.plan.entries_of_others,
    )
    manifolds = [replace(one, room=of(one.place)) if one.room == hall else one for one in task.manifolds]
    return replace(
        task, plan=plan, rooms=tuple(rooms), manifold=manifolds[0], further_manifolds=tuple(manifolds[1:])
    )


def _serving(part: Polygon, ways: Sequence[_Way], own: int) -> int:
    """The manifold that stands in a part, that of the hall if there are several."""
    inside = sorted(
        {way.manifold for way in ways if _lies_on(part, way.start)}, key=lambda one: (one != own, one)
    )
    return inside[0] if inside else own


def _middle(stretch: tuple[Point, Point]) -> Point:
    (ax, ay), (bx, by) = stretch
    return ((ax + bx) / 2.0, (ay + by) / 2.0)


def _openings(cut: _Cut, of: Callable[[Point], int], rules: TailRules) -> Iterator[Doorway]:
    """At both ends of a cut as wide as the pairs that cross it need, or one as wide as it may be; none where none
    do."""
    if not cut.crossing:
        return
    margin = rules.first_lane - rules.wall_clearance - rules.tail_pitch / 2.0
    (ax, ay), (bx, by) = shapely.get_coordinates(cut.line).tolist()
    length = cut.line.length
    ux, uy = (bx - ax) / length, (by - ay) / length
    run = min(length - 2.0 * margin, rules.width_for(cut.crossing))
    starts = (margin, length - margin - run) if 2.0 * run <= length - 2.0 * margin else (margin,)
    for start in starts:
        first, last = ((ax + along * ux, ay + along * uy) for along in (start, start + run))
        x, y = _middle((first, last))
        # A part may have been cut further: the parts at the opening count.
        one, other = (of((x - side * uy, y + side * ux)) for side in (_BESIDE, -_BESIDE))
        yield Doorway((one, other), ((first, last), (first, last)))
