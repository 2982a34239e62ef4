"""Cutting an area in two along axis-parallel lines, again and again: the pieces that circuits are to fill.

A cut is one chord of a line, two neighbouring ones, or all of them, whatever leaves exactly two pieces. A tree
of cuts keeps its shape (line, chords, how many pieces on either side) while the shares of area change: else
the best tree would change from round to round, and lengths would not settle.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, MultiLineString, Polygon

from ..plan.outlines.regions import opened

__all__ = ["Cut", "CutTree", "cut_trees", "leaves", "pieces_of"]

_POSITIONS = 17
"""Lines looked at along each axis."""
_STEPS = 16
_LEAST_WALL = 0.8
"""Of the wall that a piece must have for its tails to arrive along it [m]."""
_HAIR = 1e-7
_LEAST_CHORD = 0.02
_KEPT = 3
"""Ways to cut an area that are followed up, per split of the number of circuits."""
_FEW = 6
"""More circuits take too many ways to follow up more than one."""
_TREES = 12
"""Trees handed on, cheapest first."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A line ``x = at`` (axis 0) or ``y = at`` (axis 1) and which of its chords in the area are cut."""

    axis: int
    chords: tuple[int, ...]
    of: int
    at: float


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
    halves = _placed(area, tree.cut, wanted)
    if halves is None:
        return None
    lower = pieces_of(tree.lower, halves[0], shares[:left])
    upper = pieces_of(tree.upper, halves[1], shares[left:])
    return None if lower is None or upper is None else lower + upper


def cut_trees(
    area: Polygon, count: int, pipe_spacing: float, avoid: shapely.Geometry, walls: shapely.Geometry
) -> list[CutTree]:
    """Trees that cut the area in ``count`` pieces of equal area, cheapest first; no cut meets ``avoid``,
    and each piece has a part of ``walls``."""
    cache: dict[tuple[bytes, int], list[CutTree]] = {}
    return _trees(area, count, _Taste(pipe_spacing, avoid, walls), cache)[:_TREES]


@dataclass(frozen=True, slots=True)
class _Taste:
    """What makes a cut a good one."""

    spacing: float
    avoid: shapely.Geometry
    walls: shapely.Geometry


def _trees(
    area: Polygon, count: int, taste: _Taste, cache: dict[tuple[bytes, int], list[CutTree]]
) -> list[CutTree]:
    if count == 1:
        return [CutTree(1)]
    key = (shapely.to_wkb(area), count)
    if key in cache:
        return cache[key]
    found: list[CutTree] = []
    for lower_count in _splits(count):
        ways = sorted(
            _ways(area, lower_count / count, taste), key=lambda way: (way[0], way[1].axis, way[1].at)
        )
        for cost, cut, lower, upper in ways[: _KEPT if count <= _FEW else 1]:
            below = _trees(lower, lower_count, taste, cache)
            above = _trees(upper, count - lower_count, taste, cache)
            for one in below[:2]:
                for other in above[:2]:
                    total = round(cost + one.cost + other.cost, 6)
                    found.append(CutTree(count, cut, one, other, total))
    found.sort(key=lambda tree: tree.cost)
    cache[key] = found[: 2 * _TREES]
    return cache[key]


def _splits(count: int) -> list[int]:
    """Numbers of circuits below a cut: near half, and one alone."""
    near = {count // 2, count - count // 2}
    if count <= 5:
        near |= {1, count - 1}
    if count in {6, 9}:
        near |= {count // 3, count - count // 3}
    return sorted(near)


def _ways(area: Polygon, wanted: float, taste: _Taste) -> Iterator[tuple[float, Cut, Polygon, Polygon]]:
    """Cost, cut and both pieces of every family of chords that can give the wanted share of the area."""
    total = area.area
    for axis in (0, 1):
        low, high = area.bounds[axis], area.bounds[axis + 2]
        positions = np.linspace(low, high, _POSITIONS + 2)[1:-1].tolist()
        before: dict[tuple[tuple[int, ...], int], tuple[float, float]] = {}
        for at in positions:
            now: dict[tuple[tuple[int, ...], int], tuple[float, float]] = {}
            for chords, of in _families(area, axis, at):
                halves = _halves(area, Cut(axis, chords, of, at))
                if halves is None:
                    continue
                share = halves[0].area / total
                now[chords, of] = (at, share)
                known = before.get((chords, of))
                if known is not None and (known[1] - wanted) * (share - wanted) <= 0.0:
                    cut = Cut(axis, chords, of, at)
                    placed = _placed(area, cut, wanted)
                    if placed is not None and not shapely.intersects(_line_between(placed), taste.avoid):
                        yield _cost(area, placed, taste), cut, *placed
            before = now


def _chords(area: Polygon, axis: int, at: float) -> list[LineString]:
    """Stretches of the line in the area, in order."""
    x0, y0, x1, y1 = area.bounds
    ends = ((at, y0 - 1.0), (at, y1 + 1.0)) if axis == 0 else ((x0 - 1.0, at), (x1 + 1.0, at))
    met = shapely.intersection(LineString(ends), area)
    if isinstance(met, LineString):
        return [met] if met.length > _LEAST_CHORD else []
    lines = [
        line for line in shapely.get_parts(met) if isinstance(line, LineString) and line.length > _LEAST_CHORD
    ]
    return sorted(lines, key=lambda line: line.bounds)


def _families(area: Polygon, axis: int, at: float) -> list[tuple[tuple[int, ...], int]]:
    count = len(_chords(area, axis, at))
    singles = [(index,) for index in range(count)]
    pairs = [(index, index + 1) for index in range(count - 1)]
    whole = [tuple(range(count))] if count > 2 else []
    return [(chords, count) for chords in (*singles, *pairs, *whole)]


def _halves(area: Polygon, cut: Cut) -> tuple[Polygon, Polygon] | None:
    """The piece below the first chord and the other one, if there are exactly two."""
    chords = _chords(area, cut.axis, cut.at)
    if len(chords) != cut.of or not chords:
        return None
    taken = [chords[index] for index in cut.chords]
    pieces = _split(area, taken)
    if len(pieces) != 2:
        return None
    middle = shapely.line_interpolate_point(taken[0], 0.5, normalized=True)
    shift = (-1e-4, 0.0) if cut.axis == 0 else (0.0, -1e-4)
    below = shapely.Point(middle.x + shift[0], middle.y + shift[1])
    return (pieces[0], pieces[1]) if shapely.contains(pieces[0], below) else (pieces[1], pieces[0])


def _split(area: Polygon, lines: Sequence[LineString]) -> list[Polygon]:
    """Faces of the area with all the lines drawn in at once."""
    drawn = shapely.union_all([area.boundary, MultiLineString([_lengthened(line) for line in lines])])
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(drawn)))
    inside = (
        [face for face in faces if shapely.contains(area, shapely.point_on_surface(face))]
        if area.interiors
        else list(faces)
    )
    return sorted(inside, key=lambda face: face.bounds)


def _lengthened(line: LineString) -> LineString:
    """A hair longer at both ends, so that it surely meets what it ends on."""
    (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
    dx, dy = (x1 - x0) * _HAIR / line.length, (y1 - y0) * _HAIR / line.length
    return LineString([(x0 - dx, y0 - dy), (x1 + dx, y1 + dy)])


def _placed(area: Polygon, cut: Cut, wanted: float) -> tuple[Polygon, Polygon] | None:
    """Both pieces with the line moved to where the lower one has the wanted share of the area.

    Newton's method: the area grows with the position by the length of what is cut. A step that loses the
    chords is halved.
    """
    halves = _halves(area, cut)
    best, at, step = halves, cut.at, 0.0
    for _ in range(_STEPS):
        if halves is None:
            step /= 2.0
        else:
            missing = wanted * area.area - halves[0].area
            if best is None or abs(missing) <= abs(wanted * area.area - best[0].area):
                best, at = halves, at + step
            else:
                step /= 2.0
                halves = _halves(area, replace(cut, at=at + step))
                continue
            if abs(missing) < 1e-6 * area.area:
                break
            step = missing / max(_line_between(halves).length, 0.05)
        halves = _halves(area, replace(cut, at=at + step))
    return best


def _line_between(halves: tuple[Polygon, Polygon]) -> shapely.Geometry:
    return shapely.intersection(halves[0].boundary, halves[1].boundary)


def _cost(area: Polygon, halves: tuple[Polygon, Polygon], taste: _Taste) -> float:
    """Length of the cut and raggedness of both pieces; much more for a piece that is narrow for most part."""
    cut = (sum(half.length for half in halves) - area.length) / 2.0
    cost = float(cut / area.area**0.5)
    for half in halves:
        cost += 0.35 * half.length**2 / (16.0 * half.area)
        wide = opened(half, 2.0 * taste.spacing)
        if wide is None or wide.area < 0.6 * half.area:
            cost += 3.0
        if shapely.intersection(half.exterior, taste.walls).length < _LEAST_WALL:
            cost += 10.0
    return cost
