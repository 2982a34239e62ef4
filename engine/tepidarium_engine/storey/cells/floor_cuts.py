"""Cutting a floor in two by a straight line, again and again: the cells that circuits are to fill.

A cut leaves on one side what a line cuts off at one end of the floor; it may meet voids. Which ends are cut off, and how
many circuits each side gets, stays as it is while the shares of area change: lengths would not settle otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.regions import eroded, opened, parts_of

__all__ = ["CutRules", "CutTree", "cells_of", "cut_tree"]

_AXES: tuple[Point, ...] = ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))
_HALVINGS = 24
_GRID = 1e-3
"""Cuts lie on whole millimetres [m]: nothing is decided by less."""
_MOST_LESS = 0.5
"""Share of a circuit's floor that lanes may take."""
_EVEN = 0.012
"""How far a cell may be from its share of the area, of the whole."""
_SHAPE = 0.35
"""What raggedness of both sides costs, beside a cut as long as the side of a square."""
_NARROW, _SLIVER = 3.0, 2.0
"""What a side that is narrow throughout costs, and one that would lose all of its area where it is narrow."""
_BLOCKED = 4.0
"""What a cut costs that meets a place where pipes come in."""
_AT_NECK = 0.5
"""What a cut at a neck costs less."""
_NEAR_NECK = 0.06
"""Share of the area by which a cut may miss its own, to lie at a neck."""
_NECKS = (1.0, 2.0, 3.0)
"""Half the width of a neck that is looked for, in spacings."""
_LEAST_BULB = 0.1
"""Of what lies behind a neck, as a share of the area."""
_FAR = 0.06
"""What a metre from a side of the cut to where pipes come in costs."""


@dataclass(frozen=True, slots=True)
class CutRules:
    """``entry``: where the floor's own circuits come in; no cut is to meet what is ``kept``; ``rank``: the first cut is
    to be the best one (0), the next best one (1) or one after that."""

    spacing: float
    entry: shapely.Point
    kept: tuple[shapely.Geometry, ...] = ()
    rank: int = 0


class _Cut(NamedTuple):
    """The floor within ``at`` [m] along ``axis``, in the part that holds ``seed``."""

    axis: Point
    seed: Point
    at: float


@dataclass(frozen=True, slots=True)
class CutTree:
    """A cut with the trees of what it cuts off (``near``) and of the rest, or a leaf: one circuit's cell."""

    count: int
    cut: _Cut | None = None
    near: CutTree | None = None
    rest: CutTree | None = None


def cut_tree(floor: Polygon, count: int, rules: CutRules) -> tuple[CutTree, list[float]]:
    """Cuts that leave ``count`` cells, fewer where a part cannot be cut, and their areas [m2]: such that with the lanes
    that lead to them circuits are about equally long."""
    best = _best_cut(floor, count, rules) if count > 1 else None
    if best is None:
        return CutTree(1), [floor.area]
    cut, first, *halves = best
    trees, areas = [], []
    for half, number in zip(halves, (first, count - first), strict=True):
        entry = shapely.Point(shapely.get_coordinates(shapely.shortest_line(half, rules.entry))[0])
        tree, own = cut_tree(half, number, replace(rules, entry=entry, rank=0))
        trees.append(tree)
        areas += own
    return CutTree(trees[0].count + trees[1].count, cut, *trees), areas


def cells_of(floor: Polygon, tree: CutTree, shares: Sequence[float]) -> list[Polygon] | None:
    """The cells in the order of the leaves, with areas in proportion to ``shares``; ``None`` where a cut of the tree is
    not there."""
    if tree.cut is None or tree.near is None or tree.rest is None:
        return [floor]
    first = tree.near.count
    sweep = _Sweep(floor, tree.cut.axis, tree.cut.seed)
    at = sweep.at_area(floor.area * sum(shares[:first]) / sum(shares))
    halves = None if at is None else sweep.halves(at)
    if halves is None:
        return None
    near = cells_of(halves[0], tree.near, shares[:first])
    rest = cells_of(halves[1], tree.rest, shares[first:])
    return None if near is None or rest is None else near + rest


def _best_cut(floor: Polygon, count: int, rules: CutRules) -> tuple[_Cut, int, Polygon, Polygon] | None:
    found: list[tuple[float, _Cut, int, Polygon, Polygon]] = []
    necks = _necks(floor, rules.spacing)
    for first in _splits(count):
        for axis in _AXES:
            for seed in _ends(floor, axis):
                sweep = _Sweep(floor, axis, seed)
                area = _area(sweep, first, count, rules)
                for at in () if area is None else _places(sweep, area, necks):
                    halves = sweep.halves(at)
                    if halves is None:
                        continue
                    cost = _cost(floor, halves, area / floor.area, rules, necks)
                    found.append((cost, _Cut(axis, seed, at), first, *halves))
    found.sort(key=lambda each: each[0])
    unlike: list[tuple[float, _Cut, int, Polygon, Polygon]] = []
    for each in found:
        if all(each[2] != one[2] or each[1].axis != one[1].axis for one in unlike):
            unlike.append(each)
    return unlike[rules.rank][1:] if rules.rank < len(unlike) else None


def _area(sweep: _Sweep, first: int, count: int, rules: CutRules) -> float | None:
    """What is to be cut off for the ``first`` circuits [m2]: of the side that lanes lead to over the other one, so much
    less as they take there."""
    even = sweep.floor.area * first / count
    at = sweep.at_area(even)
    halves = None if at is None else sweep.halves(at)
    if halves is None:
        return None
    near, rest = (float(half.distance(rules.entry)) for half in halves)
    less = min(2.0 * rules.spacing * max(near, rest), _MOST_LESS * sweep.floor.area / count)
    return even - first * less if near > rest else even + (count - first) * less


def _splits(count: int) -> list[int]:
    """Circuits of what is cut off: half of them, or one alone of a few."""
    return sorted({count // 2, count - count // 2} | ({1, count - 1} if count <= 3 else set()))


def _places(sweep: _Sweep, area: float, necks: Sequence[LineString]) -> Iterator[float]:
    """Where the cut leaves the area, and at necks nearby."""
    even = sweep.at_area(area)
    if even is None:
        return
    yield even
    for neck in necks:
        along = shapely.get_coordinates(neck) @ np.array(sweep.axis)
        at = round(float(along.mean()) / _GRID) * _GRID
        if np.ptp(along) < 0.1 * neck.length and abs(at - even) > _GRID:
            halves = sweep.halves(at)
            if halves is not None and abs(halves[0].area - area) < _NEAR_NECK * sweep.floor.area:
                yield at


def _cost(
    floor: Polygon,
    halves: tuple[Polygon, Polygon],
    share: float,
    rules: CutRules,
    necks: Sequence[LineString],
) -> float:
    """Length of the cut, raggedness of both sides, and what is in its way."""
    line = shapely.intersection(halves[0].boundary, halves[1].boundary)
    cost = line.length / math.sqrt(floor.area)
    for half in halves:
        cost += _SHAPE * half.length**2 / (16.0 * half.area)
        wide = opened(half, 2.0 * rules.spacing)
        cost += _NARROW if wide is None else _SLIVER * (1.0 - wide.area / half.area)
    cost += _BLOCKED * sum(bool(line.distance(place) < 1e-6) for place in rules.kept)
    cost += _FAR * sum(float(half.distance(rules.entry)) for half in halves)
    if any(line.distance(neck) < 0.05 and line.length < 1.2 * neck.length for neck in necks):
        cost -= _AT_NECK
    return round(float(cost) + abs(halves[0].area / floor.area - share), 6)


def _necks(floor: Polygon, spacing: float) -> list[LineString]:
    """The shortest lines across the floor at which it falls apart when it is shrunk by a few spacings."""
    for half in _NECKS:
        bulbs = [
            bulb for bulb in parts_of(eroded(floor, half * spacing)) if bulb.area > _LEAST_BULB * floor.area
        ]
        if len(bulbs) > 1:
            return _lines_between(floor, bulbs, 2.0 * half * spacing)
    return []


def _lines_between(floor: Polygon, bulbs: Sequence[Polygon], width: float) -> list[LineString]:
    """From corners that stand out to the edge across, where that parts the bulbs."""
    found = []
    boundary = floor.boundary
    for corner in _standing_out(floor):
        point = shapely.Point(corner)
        near = shapely.difference(boundary, shapely.buffer(point, 1e-3))
        far = [part for part in shapely.get_parts(near) if part.length > 1e-3]
        for part in far:
            (_, (x, y)) = shapely.get_coordinates(shapely.shortest_line(point, part)).tolist()
            line = LineString([corner, (x, y)])
            if 1e-2 < line.length <= width * 1.5 and shapely.covers(shapely.buffer(floor, 1e-6), line):
                sides = parts_of(shapely.difference(floor, shapely.buffer(line, 1e-5, cap_style="square")))
                if len(sides) == 2 and all(any(side.contains(bulb) for bulb in bulbs) for side in sides):
                    found.append(line)
    return sorted(found, key=lambda line: round(line.length, 4))[:4]


def _standing_out(floor: Polygon) -> list[Point]:
    found: list[Point] = []
    for ring in shapely.get_rings(shapely.orient_polygons(floor)):
        points = shapely.get_coordinates(ring)[:-1]
        after = np.roll(points, -1, axis=0) - points
        before = np.roll(after, 1, axis=0)
        turn = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
        found += [(x, y) for x, y in points[turn < -1e-9].tolist()]
    return found


def _ends(floor: Polygon, axis: Point) -> list[Point]:
    """Points at which the floor begins along an axis, one for each leg of it."""
    points = shapely.get_coordinates(shapely.orient_polygons(floor).exterior)[:-1]
    along = points @ np.array(axis)
    before, after = np.roll(along, 1), np.roll(along, -1)
    lowest = (along <= before + _GRID) & (along < after - _GRID)
    inside = _convex(points)
    return [(x, y) for x, y in points[lowest & inside].tolist()]


def _convex(points: Array) -> Array:
    after = np.roll(points, -1, axis=0) - points
    before = np.roll(after, 1, axis=0)
    found: Array = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0] > 0.0
    return found


@dataclass(frozen=True)
class _Sweep:
    """What a line square to an axis cuts off, moved on from an end of the floor."""

    floor: Polygon
    axis: Point
    seed: Point

    @cached_property
    def _bounds(self) -> tuple[float, float]:
        along = shapely.get_coordinates(self.floor.exterior) @ np.array(self.axis)
        return float(along.min()), float(along.max())

    def _cut_off(self, at: float) -> Polygon | None:
        (u, v), (low, _) = self.axis, self._bounds
        reach = sum(self.floor.bounds[2:]) - sum(self.floor.bounds[:2]) + 1.0
        middle = shapely.get_coordinates(self.floor.centroid)[0] @ np.array((-v, u))
        corners = [
            (x * u - y * v, x * v + y * u)
            for x, y in (
                (low - 1.0, middle - reach),
                (at, middle - reach),
                (at, middle + reach),
                (low - 1.0, middle + reach),
            )
        ]
        inside = shapely.intersection(self.floor, Polygon(corners))
        seed = shapely.Point(self.seed)
        parts = [part for part in shapely.get_parts(inside) if isinstance(part, Polygon)]
        away = [round(float(part.distance(seed)), 6) for part in parts]
        return parts[away.index(min(away))] if away else None

    def at_area(self, area: float) -> float | None:
        """Where the line cuts off an area [m2]; ``None``: it cuts off less or more at a stroke."""
        low, high = self._bounds
        for _ in range(_HALVINGS):
            middle = (low + high) / 2.0
            part = self._cut_off(middle)
            if part is not None and part.area >= area:
                high = middle
            else:
                low = middle
            if high - low < _GRID / 4.0:
                break
        at = round((low + high) / 2.0 / _GRID) * _GRID
        found = self._cut_off(at)
        return at if found is not None and abs(found.area - area) <= _EVEN * self.floor.area else None

    def halves(self, at: float) -> tuple[Polygon, Polygon] | None:
        """What is cut off, and the rest, if that is in one piece."""
        near = self._cut_off(at)
        if near is None:
            return None
        rest = parts_of(shapely.difference(self.floor, near))
        if len(rest) != 1 or rest[0].area < 1e-3:
            return None
        return near, rest[0]
