"""Side loops: floor that lanes cut off is laid as a loop, spliced into a pipe of a lane that borders it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.laying.laying import LayingTask, Pattern, lay
from ...plan.outlines.overlays import intersection
from ...plan.outlines.polygons import RoomOutline
from ...plan.outlines.regions import Region, common
from ...plan.pipes.pipe_path import LEAST_PIECE_LENGTH, Arc, Line, PipePath
from ..division.pipe_ends import joined_ends, stretch_of

__all__ = ["Border", "LoopRules", "borders", "part_along", "spliced"]

_ALONG = math.radians(2.0)
"""Edges that differ by less run along a pipe."""
_ASIDE = 0.02
"""How far from where it should lie an edge may lie beside its pipe [m]."""
_HALVINGS = 10
"""Of the length of a part of a floor, until it fits."""
_MARGIN = 0.02
"""Of straight pipe beside the bends of a splice [m]."""


@dataclass(frozen=True, slots=True)
class LoopRules:
    """Lengths in metres; ``pitch``: of the two ends of a loop."""

    spacing: float
    clearance: float
    bend_radius: float
    pattern: Pattern

    @property
    def pitch(self) -> float:
        return max(self.spacing, 2.0 * self.bend_radius)

    @property
    def gap(self) -> float:
        """From a pipe to floor for a loop: its outer pipe turns back along the one that it is spliced into."""
        return self.pitch - self.clearance


class Border(NamedTuple):
    """Straight pipe from ``start`` to ``end`` [m] along its path beside a floor, on the pipe's ``left`` or right."""

    start: float
    end: float
    left: bool


def borders(path: PipePath, floor: Polygon, rules: LoopRules) -> Iterator[Border]:
    """Where a pipe runs straight beside a floor, long enough for a splice; the longest first."""
    found = []
    at = 0.0
    edges = _edges(floor)
    for piece in path.pieces:
        if isinstance(piece, Line) and piece.length > rules.pitch + 2.0 * rules.bend_radius:
            for low, high, left in _beside(piece, edges, rules):
                found.append(Border(at + low, at + high, left))
        at += piece.length
    need = rules.pitch + 2.0 * (rules.bend_radius + _MARGIN)
    wide = [border for border in found if border.end - border.start >= need]
    yield from sorted(wide, key=lambda border: (-round(border.end - border.start, 4), border.start))


def _edges(floor: Polygon) -> list[tuple[Point, Point]]:
    points = shapely.get_coordinates(shapely.orient_polygons(floor).exterior).tolist()
    return [((ax, ay), (bx, by)) for (ax, ay), (bx, by) in pairwise(points)]


def _beside(
    line: Line, edges: Sequence[tuple[Point, Point]], rules: LoopRules
) -> Iterator[tuple[float, float, bool]]:
    """Stretches of a line beside edges that lie at the gap from it."""
    (x, y), length = line.start, line.length
    u, v = (line.end[0] - x) / length, (line.end[1] - y) / length
    gap = rules.gap
    for (ax, ay), (bx, by) in edges:
        first, last = (ax - x) * u + (ay - y) * v, (bx - x) * u + (by - y) * v
        aside, other = (ay - y) * u - (ax - x) * v, (by - y) * u - (bx - x) * v
        run = math.dist((ax, ay), (bx, by))
        if run < rules.pitch or abs(other - aside) > run * math.sin(_ALONG):
            continue
        # The floor lies on the left of its edges: with the pipe's direction where it is on the pipe's left.
        left = last > first
        if abs((aside if left else -aside) - gap) > _ASIDE:
            continue
        low, high = max(0.0, min(first, last)), min(length, max(first, last))
        if high > low:
            yield low, high, left


def part_along(path: PipePath, border: Border, floor: Polygon, fits: Callable[[Polygon], bool]) -> Region:
    """As long a part of a floor along its border, from one end, as ``fits``; the part is cut off squarely."""
    place, ahead = _pose(path, (border.start + border.end) / 2.0)
    along = (shapely.get_coordinates(floor) - np.array(place)) @ np.array(ahead)
    first, last = float(along.min()), float(along.max())
    low, high = 0.0, last - first
    best: Region = None
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        part = common(floor, _strip(place, ahead, (first, first + middle), last - first + floor.length))
        if part is not None and fits(part):
            low, best = middle, part
        else:
            high = middle
    return best


def _strip(place: Point, ahead: Point, span: tuple[float, float], reach: float) -> Polygon:
    (x, y), (u, v) = place, ahead
    return Polygon(
        [
            (x + at * u - side * v, y + at * v + side * u)
            for at, side in ((span[0], -reach), (span[1], -reach), (span[1], reach), (span[0], reach))
        ]
    )


def spliced(
    path: PipePath, border: Border, floor: Polygon, rules: LoopRules
) -> tuple[PipePath, float] | None:
    """The pipe with a loop on the floor put in, and what the loop adds [m]; ``None`` where that cannot be laid."""
    middle = (border.start + border.end) / 2.0
    half, radius = rules.pitch / 2.0, rules.bend_radius
    place, ahead = _pose(path, middle)
    side = (-ahead[1], ahead[0]) if border.left else (ahead[1], -ahead[0])
    gap = _gap(place, side, floor)
    if gap is None:
        return None
    entry = (place[0] + gap * side[0], place[1] + gap * side[1])
    laid = lay(
        RoomOutline.of(floor),
        LayingTask(
            pipe_spacing=rules.spacing,
            wall_clearance=rules.clearance,
            bend_radius=radius,
            tail_pitch=rules.pitch,
            entry=entry,
            pattern=rules.pattern,
            quick=True,
        ),
    )
    if laid.path is None:
        return None
    turn = _Turn(path, ahead, side, gap, radius)
    inward, outward = turn.inward(middle - half, 1.0), turn.inward(middle + half, -1.0)
    loop = laid.path
    if math.dist(loop.start, inward.end) > math.dist(loop.start, outward.end):
        loop = loop.reversed()
    whole = joined_ends((inward, outward), loop, radius, rules.pitch)
    return None if whole is None else (whole[0], whole[0].length - path.length)


def _pose(path: PipePath, at: float) -> tuple[Point, Point]:
    points, headings = path.poses_at(np.array([at]))
    return (float(points[0, 0]), float(points[0, 1])), (float(headings[0, 0]), float(headings[0, 1]))


def _gap(place: Point, side: Point, floor: Polygon) -> float | None:
    """From a pipe to the floor beside it [m]."""
    ray = LineString([place, (place[0] + side[0], place[1] + side[1])])
    met = shapely.get_coordinates(intersection(ray, floor.exterior))
    return float(np.hypot(*(met - place).T).min()) if len(met) else None


class _Turn(NamedTuple):
    """From straight pipe that runs ``ahead`` into a floor at its ``side`` that lies beyond a ``gap`` [m]."""

    path: PipePath
    ahead: Point
    side: Point
    gap: float
    radius: float

    def inward(self, at: float, sign: float) -> PipePath:
        """The pipe from its start (``sign`` 1), or from its end (-1), with the bend into the floor."""
        path, side, radius = self.path, self.side, self.radius
        kept = (
            stretch_of(path, 0.0, at - radius)
            if sign > 0.0
            else PipePath(stretch_of(path, at + radius, path.length)).reversed().pieces
        )
        start = kept[-1].end
        left = sign * (self.ahead[0] * side[1] - self.ahead[1] * side[0]) > 0.0
        centre = (start[0] + radius * side[0], start[1] + radius * side[1])
        angle = math.atan2(-side[1], -side[0])
        bend = Arc(centre, radius, angle, math.pi / 2.0 if left else -math.pi / 2.0)
        pieces: tuple[Line | Arc, ...] = (*kept, bend)
        onward = self.gap - radius
        if onward > LEAST_PIECE_LENGTH:
            (x, y) = bend.end
            pieces = (*pieces, Line((x, y), (x + onward * side[0], y + onward * side[1])))
        return PipePath(pieces)
