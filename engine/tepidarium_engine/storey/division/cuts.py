"""Cutting an area in two along axis-parallel lines, again and again: the pieces that circuits are to fill.

A cut is one chord of a line, two neighbouring ones, or all of them, whatever leaves exactly two pieces. A tree
of cuts keeps its shape (line, chords, how many pieces on either side) while the shares of area change: else
the best tree would change from round to round, and lengths would not settle.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from heapq import merge
from itertools import product

import numpy as np
import shapely
from shapely import Polygon

from ...plan.outlines.regions import is_plain, opened
from ...plan.tolerances import SAME_PLACE
from ...queues import Queue
from .sheets import Cut, Halves, Sheet

__all__ = ["Cut", "CutTree", "cut_trees", "leaves", "pieces_of", "pieces_of_fields", "varied_trees"]

_POSITIONS = 17
"""Lines looked at along each axis of an area with many corners."""
_FEW_CORNERS = 10
"""Places of corners along an axis, beside which alone lines are looked at: chords stay as they are between."""
_BESIDE = 1e-4
"""How far beside [m]."""
_OFF_TIP = 0.1
"""How far off a corner in which the area ends, of the way to the next one."""
_STEPS = 16
_LEAST_WALL = 0.8
"""Of the wall that a piece must have for its tails to arrive along it [m]."""
_EVEN = 1e-6
"""How far a piece may be from its share of the area, of the whole."""
_KEPT = 3
"""Ways to cut an area that are followed up, per split of the number of circuits."""
_FEW = 6
"""More circuits take too many ways to follow up more than one."""
_TREES = 8
"""Trees handed on, cheapest first."""
_FOLLOWED = 2
"""Trees of a piece that are followed up."""
_LEAST_COST = 1.2
"""Of a cut: of all that part a rectangle the cheapest costs 1.3."""
_REMEMBERED = 512
"""Areas whose ways to be cut are remembered: a room is cut in the same ways again when its pieces are to be reached
through each other, and when its entry is moved."""


@dataclass(frozen=True, slots=True)
class CutTree:
    """A cut with the trees of the lower (left) and upper (right) piece, or a leaf: one circuit's piece."""

    count: int
    cut: Cut | None = None
    lower: CutTree | None = None
    upper: CutTree | None = None
    cost: float = 0.0


def leaves(tree: CutTree) -> int:
    return tree.count


def pieces_of(tree: CutTree, area: Polygon, shares: Sequence[float]) -> list[Polygon] | None:
    """The pieces in the order of the leaves, with areas in proportion to ``shares``; None where a chord that
    the tree cuts is not there."""
    if tree.cut is None or tree.lower is None or tree.upper is None:
        return [area]
    left = tree.lower.count
    wanted = sum(shares[:left]) / sum(shares)
    sheet = Sheet(area)
    placed = _placed(sheet, tree.cut, wanted)
    halves = None if placed is None else sheet.halves(placed)
    if halves is None:
        return None
    lower = pieces_of(tree.lower, halves.lower, shares[:left])
    upper = pieces_of(tree.upper, halves.upper, shares[left:])
    return None if lower is None or upper is None else lower + upper


def pieces_of_fields(
    trees: Sequence[CutTree], fields: Sequence[Polygon], shares: Sequence[float]
) -> list[Polygon] | None:
    """The pieces of several areas, each cut by its own tree; ``shares`` of all of them in that order."""
    pieces: list[Polygon] = []
    for tree, field in zip(trees, fields, strict=True):
        cut = pieces_of(tree, field, shares[len(pieces) : len(pieces) + tree.count])
        if cut is None:
            return None
        pieces += cut
    return pieces


def varied_trees(
    choices: Sequence[Sequence[CutTree]], most: int | None = None
) -> Iterator[tuple[CutTree, ...]]:
    """One tree for each area: the first of each, then one of them varied at a time, by ``most`` others each."""
    if not all(choices):
        return
    first = tuple(trees[0] for trees in choices)
    yield first
    for index, trees in enumerate(choices):
        for tree in trees[1 : None if most is None else most + 1]:
            yield (*first[:index], tree, *first[index + 1 :])


def cut_trees(
    area: Polygon, count: int, pipe_spacing: float, avoid: shapely.Geometry, walls: shapely.Geometry
) -> list[CutTree]:
    """Trees that cut the area in ``count`` pieces of equal area, cheapest first; no cut meets ``avoid``,
    and each piece has a part of ``walls``."""
    cache: dict[tuple[bytes, int], list[CutTree]] = {}
    shapely.prepare([avoid, walls])
    return _trees(area, count, _TREES, _Taste(pipe_spacing, avoid, walls), cache)


@dataclass(frozen=True, slots=True)
class _Taste:
    """What makes a cut a good one."""

    spacing: float
    avoid: shapely.Geometry
    walls: shapely.Geometry


def _trees(
    area: Polygon, count: int, most: int, taste: _Taste, cache: dict[tuple[bytes, int], list[CutTree]]
) -> list[CutTree]:
    """The ``most`` cheapest trees, cheapest first; what cannot come to be one of them is not followed up."""
    if count == 1:
        return [CutTree(1)]
    key = (shapely.to_wkb(area), count)
    if key in cache:
        return cache[key]
    found: list[CutTree] = []
    kept = _KEPT if count <= _FEW else 1
    each = (_cheapest(area, lower_count, count, taste, kept) for lower_count in _splits(count))
    for way, lower_count in merge(*each, key=lambda item: item[0].order):
        least = way.cost + _LEAST_COST * (count - 2)
        if len(found) >= most and least >= found[most - 1].cost:
            break
        below = _trees(way.halves.lower, lower_count, _FOLLOWED, taste, cache)
        above = _trees(way.halves.upper, count - lower_count, _FOLLOWED, taste, cache)
        for one, other in product(below, above):
            total = round(way.cost + one.cost + other.cost, 6)
            insort(found, CutTree(count, way.cut, one, other, total), key=lambda tree: tree.cost)
    cache[key] = found[:most]
    return cache[key]


def _splits(count: int) -> list[int]:
    """Numbers of circuits below a cut: near half, and one alone."""
    near = {count // 2, count - count // 2}
    if count <= 5:
        near |= {1, count - 1}
    if count in {6, 9}:
        near |= {count // 3, count - count // 3}
    return sorted(near)


@dataclass(frozen=True, slots=True)
class _Way:
    """A cut and both pieces."""

    cost: float
    cut: Cut
    halves: Halves
    judged: bool

    @property
    def order(self) -> tuple[float, int, float, tuple[int, ...]]:
        return (self.cost, self.cut.axis, self.cut.at, self.cut.chords)


def _cheapest(
    area: Polygon, lower_count: int, count: int, taste: _Taste, most: int
) -> Iterator[tuple[_Way, int]]:
    """The cheapest ways to leave a share of the area for so many pieces below, cheapest first.

    A way costs at least what its pieces' outlines tell; it is judged only when that makes it the cheapest.
    """
    waiting: Queue[_Way] = Queue()
    for cut, halves in _ways(area, lower_count / count):
        if shapely.intersects(taste.avoid, halves.line):
            continue
        way = _Way(_shape_cost(area, halves), cut, halves, False)
        waiting.push(way.order, way)
    while waiting and most:
        way = waiting.pop()
        if way.judged:
            most -= 1
            yield way, lower_count
        else:
            judged = replace(way, cost=way.cost + _penalty(way.halves, taste), judged=True)
            waiting.push(judged.order, judged)


@lru_cache(maxsize=_REMEMBERED)
def _ways(area: Polygon, wanted: float) -> list[tuple[Cut, Halves]]:
    """Cut and both pieces of every family of chords that can give the wanted share of the area."""
    sheet, target = Sheet(area), wanted * area.area
    ways = []
    for axis in (0, 1):
        before: dict[tuple[tuple[int, ...], int], float] = {}
        for at in _positions(sheet, axis):
            now: dict[tuple[tuple[int, ...], int], float] = {}
            for chords, of in sheet.families(axis, at):
                cut = Cut(axis, chords, of, at)
                below = sheet.below(cut)
                if below is None:
                    continue
                now[chords, of] = below[0] - target
                if before.get((chords, of), np.nan) * now[chords, of] <= 0.0:
                    placed = _placed(sheet, cut, wanted)
                    halves = None if placed is None else sheet.halves(placed)
                    if placed is not None and halves is not None:
                        ways.append((placed, halves))
            before = now
    return ways


def _positions(sheet: Sheet, axis: int) -> list[float]:
    """Lines to look at: on both sides of each corner, or of several that are level but for rounding, or evenly spread
    where there are many; off a corner in which the area ends, where a line has no chord."""
    area = sheet.area
    low, high = area.bounds[axis], area.bounds[axis + 2]
    corners = np.unique(shapely.get_coordinates(area)[:, axis])
    gaps = np.diff(corners) > SAME_PLACE
    first, last = corners[np.append(True, gaps)], corners[np.append(gaps, True)]
    if len(first) > _FEW_CORNERS:
        even: list[float] = np.linspace(low, high, _POSITIONS + 2)[1:-1].tolist()
        return even
    beside = np.stack((first - _BESIDE, last + _BESIDE), axis=1).ravel()
    lines = [at for at in beside.tolist() if low < at < high]
    for end, beyond in ((0, 1), (-1, -2)) if len(lines) > 1 else ():
        if not sheet.families(axis, lines[end]):
            lines[end] += _OFF_TIP * (lines[beyond] - lines[end])
    return lines


def _placed(sheet: Sheet, cut: Cut, wanted: float) -> Cut | None:
    """The cut moved to where the lower piece has the wanted share of the area.

    Newton's method: the area grows with the position by the length of what is cut. A step that loses the
    chords, or brings the area no nearer, is halved.
    """
    target = wanted * sheet.area.area
    at, step, best = cut.at, 0.0, np.inf
    for _ in range(_STEPS):
        below = sheet.below(replace(cut, at=at + step))
        if below is None or abs(target - below[0]) > best:
            step /= 2.0
            continue
        at, best = at + step, abs(target - below[0])
        if best < _EVEN * sheet.area.area:
            break
        step = (target - below[0]) / max(below[1], 0.05)
    return None if np.isinf(best) else replace(cut, at=at)


def _shape_cost(area: Polygon, halves: Halves) -> float:
    """Length of the cut and raggedness of both pieces."""
    cut = (sum(half.length for half in halves[:2]) - area.length) / 2.0
    cost = float(cut / area.area**0.5)
    return cost + sum(0.35 * float(half.length**2 / (16.0 * half.area)) for half in halves[:2])


def _penalty(halves: Halves, taste: _Taste) -> float:
    """Of pieces that are narrow for most part, or that tails can hardly reach along a wall."""
    cost = 0.0
    for half in halves[:2]:
        if not _is_wide(half, 4.0 * taste.spacing):
            wide = opened(half, 2.0 * taste.spacing)
            cost += 3.0 if wide is None or wide.area < 0.6 * half.area else 0.0
        if _wall_length(half, taste.walls) < _LEAST_WALL:
            cost += 10.0
    return cost


def _is_wide(half: Polygon, width: float) -> bool:
    """Whether a piece is nowhere less than a width [m], by a quick look that may say no though it is so."""
    x0, y0, x1, y1 = half.bounds
    if half.area > (1.0 - _EVEN) * (x1 - x0) * (y1 - y0):
        return bool(min(x1 - x0, y1 - y0) >= width)
    return is_plain(half, width, 0.0)


def _wall_length(half: Polygon, walls: shapely.Geometry) -> float:
    """Of the edges of a piece that lie on walls [m]: a cut ends where a wall begins."""
    points = shapely.get_coordinates(half.exterior)
    middles = (points[1:] + points[:-1]) / 2.0
    on_wall = shapely.contains_xy(walls, middles)
    return float(np.hypot(*(points[1:] - points[:-1])[on_wall].T).sum())
