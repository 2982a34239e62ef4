"""Pipe led aside: a straight stretch of a pipe takes a way through bare floor beside it, too narrow for a loop."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.overlays import difference, intersection, placed, union
from ...plan.pipes.fillets import rounded
from ...plan.pipes.pipe_path import Line, PipePath
from ..division.pipe_ends import stretch_of

__all__ = ["NEAR", "Aside", "AsideRules", "asides", "near"]

_DEPTHS = 7
"""Distances from the pipe that are compared over the depth of the bare floor."""
_LEAST_LENGTH = 4.0
"""Shorter straight pieces have no room for four bends, in bend radii."""
_MARGIN = 0.01
"""Of straight pipe before and after the bends [m]."""
_TOUCH = 1e-3
"""Pipe nearer to a straight piece than this is that piece [m]."""
NEAR, _AROUND = 1.5, 4.0
"""Pipe so near to a part, in reaches, may be led through it, and what is done within so much does not matter."""
_HAIR = 1e-5
"""That a bend has more room than it takes [m]."""


class AsideRules(NamedTuple):
    """Lengths in metres. Floor within ``reach`` of a pipe is served; no pipe comes nearer to another one than the
    ``pitch``. Ways by which less floor than the ``least`` [m2] is served are not worth it."""

    bend_radius: float
    reach: float
    pitch: float
    least: float = 0.0

    def jog(self, depth: float) -> tuple[float, float]:
        """Way along the pipe that two bends to a line at a ``depth`` beside it take, and where on it the corner of
        the first one is: square bends where there is room for them, else bends that meet."""
        radius = self.bend_radius + _HAIR
        if depth >= 2.0 * radius:
            return 2.0 * radius, radius
        turn = math.acos(1.0 - depth / (2.0 * radius))
        return 2.0 * radius * math.sin(turn), radius * math.tan(turn / 2.0)


class Aside(NamedTuple):
    """A pipe with a stretch led aside, the straight pieces of that, and by how much less floor is bare then [m2]."""

    path: PipePath
    led: tuple[Line, ...]
    gain: float


class _Beside(NamedTuple):
    """A straight piece of pipe that begins ``at`` [m] and the frame in which it runs along x from 0, the bare floor on
    its left or, mirrored, on its right."""

    at: float
    line: Line
    mirrored: bool

    @property
    def ahead(self) -> Point:
        (x, y), (u, v) = self.line.start, self.line.end
        return (u - x) / self.line.length, (v - y) / self.line.length

    def local(self, geometry: shapely.Geometry) -> shapely.Geometry:
        (x, y), (u, v), side = self.line.start, self.ahead, -1.0 if self.mirrored else 1.0

        def turned(points: Array) -> Array:
            east, north = points[:, 0] - x, points[:, 1] - y
            return np.stack((east * u + north * v, side * (north * u - east * v)), axis=1)

        return placed(geometry, turned)

    def place(self, along: float, aside: float) -> Point:
        (x, y), (u, v) = self.line.start, self.ahead
        left = -aside if self.mirrored else aside
        return x + along * u - left * v, y + along * v + left * u


class _Row(NamedTuple):
    """A line at a ``depth`` beside a straight piece of pipe of ``length``, from where to where it runs."""

    depth: float
    start: float
    end: float
    length: float

    def corners(self, rules: AsideRules) -> list[Point]:
        """Of the piece led to the row and back."""
        jog, corner = rules.jog(self.depth)
        return [
            (0.0, 0.0),
            (self.start - jog + corner, 0.0),
            (self.start - corner, self.depth),
            (self.end + corner, self.depth),
            (self.end + jog - corner, 0.0),
            (self.length, 0.0),
        ]


def asides(
    path: PipePath,
    part: Polygon,
    lines: tuple[LineString, shapely.Geometry],
    floors: tuple[Polygon, shapely.Geometry],
    *,
    rules: AsideRules,
    led: Collection[Line] = (),
) -> Iterator[Aside]:
    """Ways of a pipe through a ``part`` of the floor beside it that is bare, for each straight piece the one that
    serves the most, if that is worth it; ``lines`` are that of the pipe and those of all others, ``floors`` that of the
    room and where on it the middle of a pipe may lie, as far as they are ``near`` the part. Pieces that were ``led``
    aside stay."""
    own, others = lines
    for at, piece in _long_pieces(path, rules):
        straight = LineString([piece.start, piece.end])
        if piece in led or not shapely.dwithin(straight, part, NEAR * rules.reach):
            continue
        for beside in (_Beside(at, piece, mirrored) for mirrored in (False, True)):
            there = beside.local(part)
            if not _has_room(there, piece.length, rules):
                continue
            rest = difference(own, shapely.buffer(straight, _TOUCH, cap_style="flat"))
            all_others = shapely.multilinestrings(shapely.get_parts([rest, others]))
            found = _best(beside, there, (all_others, *floors), rules)
            whole = None if found is None or found[0] < rules.least else _led(path, beside, found[1], rules)
            if found is not None and whole is not None:
                yield Aside(*whole, found[0])


def near(part: Polygon, rules: AsideRules) -> Polygon:
    """What lies about a part of the floor, as far as it matters to ways through it."""
    return shapely.box(*shapely.buffer(part, _AROUND * rules.reach).bounds)


def _long_pieces(path: PipePath, rules: AsideRules) -> Iterator[tuple[float, Line]]:
    """Straight pieces with room for four bends, and where they begin along the path [m]."""
    at = 0.0
    for piece in path.pieces:
        if isinstance(piece, Line) and piece.length > _LEAST_LENGTH * rules.bend_radius:
            yield at, piece
        at += piece.length


def _has_room(part: Polygon, length: float, rules: AsideRules) -> bool:
    """Whether a part may be long and deep enough for a row beside a straight piece."""
    first, _, last, deepest = part.bounds
    return bool(min(deepest, min(last, length) - max(first, 0.0)) > rules.bend_radius)


def _best(
    beside: _Beside, part: Polygon, geometries: tuple[shapely.Geometry, ...], rules: AsideRules
) -> tuple[float, _Row] | None:
    """The row by which the least floor stays bare, the farthest of equal ones, and how much less that is [m2].
    ``part``: in the frame beside the pipe; ``geometries``: lines of pipes, floor, and where on it the middle of a pipe
    may lie."""
    length, deepest = beside.line.length, part.bounds[3]
    # What lies further from all rows than this has no say in what they serve.
    away = 2.0 * max(rules.reach, rules.pitch)
    window = shapely.box(-away, -away, length + away, deepest + away)
    lines, floor, inside = (intersection(beside.local(each), window) for each in geometries)
    band = shapely.box(0.0, _HAIR, length, deepest)
    taken = shapely.buffer(lines, rules.pitch - _HAIR, quad_segs=4)
    blocked = union((intersection(band, taken), difference(band, inside)))
    depths = np.linspace(rules.bend_radius, deepest, _DEPTHS).tolist()
    rows = [row for depth in depths for row in [_row(depth, part, blocked, length, rules)] if row is not None]
    if not rows:
        return None
    alone = difference(floor, shapely.buffer(lines, rules.reach, quad_segs=4))

    def bare(corners: Sequence[Point]) -> float:
        return float(difference(alone, shapely.buffer(LineString(corners), rules.reach, quad_segs=4)).area)

    before = bare([(0.0, 0.0), (length, 0.0)])
    return max((round(before - bare(row.corners(rules)), 3), row) for row in rows)


def _row(
    depth: float, part: Polygon, blocked: shapely.Geometry, length: float, rules: AsideRules
) -> _Row | None:
    """The longest row at a depth that comes to it and back by free floor, no shorter than it is deep: a narrow and deep
    one would be a finger."""
    jog, corner = rules.jog(depth)
    below = shapely.get_parts(intersection(blocked, shapely.box(0.0, 0.0, length, depth)))
    spans = sorted(shapely.bounds(below[shapely.area(below) > 0.0])[:, ::2].tolist())
    at, gaps = _MARGIN, []
    for first, last in (*spans, (length - _MARGIN, length)):
        gaps.append((first - at, -at))
        at = max(at, last)
    wide, before = max(gaps)
    start = max(-before + jog, float(part.bounds[0]))
    end = min(wide - before - jog, float(part.bounds[2]))
    return _Row(depth, start, end, length) if end - start >= max(2.0 * corner, depth) else None


def _led(
    path: PipePath, beside: _Beside, row: _Row, rules: AsideRules
) -> tuple[PipePath, tuple[Line, ...]] | None:
    bends = rounded([beside.place(*corner) for corner in row.corners(rules)], rules.bend_radius)
    if bends.unresolved:
        return None
    before = stretch_of(path, 0.0, beside.at)
    after = stretch_of(path, beside.at + beside.line.length, path.length)
    aside = tuple(piece for piece in bends.path.pieces[1:-1] if isinstance(piece, Line))
    return PipePath((*before, *bends.path.pieces, *after)), aside
