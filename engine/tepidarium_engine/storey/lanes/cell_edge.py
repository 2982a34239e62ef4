"""The edge of a cell as ways see it: stretches of wall, places that stand for them, depths from them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Literal, NamedTuple

import numpy as np
import shapely
from shapely import Polygon

from ...elementwise import Array
from ...plan.outlines.loops import Loop, loop_of
from ...plan.outlines.regions import Region, joined

__all__ = ["CellEdge", "Mark", "Stretch"]

_STEP = 0.15
"""Between places that stand for a wall, at most [m]."""
_IN_CORNER = 1e-3
"""From a corner to the first place of each of its walls [m]."""
_PARALLEL = 0.999
"""Cosine of the angle between walls that are parallel."""
_BEHIND = 1e-3
"""How far a strip beside a wall reaches behind it, so that strips overlap [m]."""
_SHARPEST = 3.0
"""Reach of the mitre at a corner that stands out, in depths of the strips that meet there."""
_STANDS_OUT = -1e-6
_SHORT = 1e-6
"""Shorter stretches are none [m]."""

Kind = Literal["wall", "gate", "ramp"]


class Mark(NamedTuple):
    """What lies between two positions on the edge [m]: a ``gate``, over which ways keep the depth they come with, or a
    ``ramp``, over which they go from the depth before it to the one behind it. ``forward``: they go on
    counter-clockwise there."""

    low: float
    high: float
    kind: Kind
    forward: bool


class Stretch(NamedTuple):
    """Of the edge between two positions [m], on one straight ``wall`` of the outline."""

    wall: int
    low: float
    high: float
    kind: Kind
    forward: bool


@dataclass(frozen=True)
class CellEdge:
    """The outline of a cell, counter-clockwise, with what is ``marked`` on it, gates before ramps.

    Positions are lengths along the outline, modulo its length.
    """

    cell: Polygon
    marked: Sequence[Mark] = ()

    @cached_property
    def loop(self) -> Loop:
        return loop_of(self.cell)

    def away(self, start: float, end: float) -> float:
        """From one position on to another, the shorter way round; back is negative [m]."""
        length = self.loop.length
        return (end - start + length / 2.0) % length - length / 2.0

    @cached_property
    def stretches(self) -> list[Stretch]:
        """In order round the cell; what is marked first goes before what lies over it."""
        length = self.loop.length
        marked = [
            mark._replace(low=mark.low + turn, high=mark.high + turn)
            for turn in (-length, 0.0, length)
            for mark in self.marked
        ]
        marked.sort(key=lambda mark: mark.kind != "gate")
        found = []
        for wall, (low, high) in enumerate(pairwise(self.loop.positions.tolist())):
            ends = sorted({low, high, *(e for m in marked for e in (m.low, m.high) if low < e < high)})
            for a, b in pairwise(ends):
                middle = (a + b) / 2.0
                over = next((mark for mark in marked if mark.low < middle < mark.high), None)
                if b - a > _SHORT:
                    kind, forward = ("wall", True) if over is None else (over.kind, over.forward)
                    found.append(Stretch(wall, a, b, kind, forward))
        return found

    @cached_property
    def _on_stretch(self) -> list[tuple[Array, Array]]:
        """Positions of the places on each stretch, and for each the position that says which ways it lies beside: its
        own, in a gate those beside both ends, as ways pass it at the greater of the depths there; none on ramps."""
        found = []
        for one in self.stretches:
            corner = min(_IN_CORNER, (one.high - one.low) / 4.0)
            at = np.linspace(
                one.low + corner, one.high - corner, max(2, math.ceil((one.high - one.low) / _STEP) + 1)
            )
            if one.kind == "wall":
                found.append((at, at))
            elif one.kind == "gate":
                beside = np.repeat((one.low - _IN_CORNER, one.high + _IN_CORNER), len(at))
                found.append((np.tile(at, 2), beside))
            else:
                found.append((np.zeros(0), np.zeros(0)))
        return found

    @cached_property
    def stretch_of_place(self) -> Array:
        """Number of the stretch that each place lies on."""
        return np.repeat(np.arange(len(self._on_stretch)), [len(at) for at, _ in self._on_stretch])

    @cached_property
    def positions(self) -> Array:
        """Of all places, in order along the edge [m]."""
        return np.concatenate([at for at, _ in self._on_stretch])

    @cached_property
    def sides_at(self) -> Array:
        """Positions that say which ways the places lie beside [m]."""
        return np.concatenate([beside for _, beside in self._on_stretch])

    @cached_property
    def places(self) -> Array:
        """Points [m], one a row."""
        return self.loop.points_at(self.positions)

    @cached_property
    def inward(self) -> Array:
        """Unit vectors into the cell at the places."""
        walls = np.array([one.wall for one in self.stretches])[self.stretch_of_place]
        units = self.loop.units[walls]
        return np.stack((-units[:, 1], units[:, 0]), axis=1)

    @cached_property
    def _steps(self) -> Array:
        return self.places[None, :, :] - self.places[:, None, :]

    @cached_property
    def facing(self) -> Array:
        """Between which places (rows and columns) lies floor: each is ahead of the other's wall."""
        ahead = (self._steps * self.inward[:, None, :]).sum(axis=2) > 1e-6
        found: Array = ahead & ahead.T
        return found

    @cached_property
    def meet(self) -> Array:
        """Whether the walls of two places meet at a corner."""
        walls = np.array([one.wall for one in self.stretches])[self.stretch_of_place]
        turns = np.abs(walls[:, None] - walls[None, :])
        found: Array = (turns == 1) | (turns == len(self.loop.points) - 1)
        return found

    @cached_property
    def apart(self) -> Array:
        """Distances between places [m]; square to the walls where these are opposite to each other, so that it is no
        matter which of the places on a wall is looked at."""
        away = np.hypot(self._steps[:, :, 0], self._steps[:, :, 1])
        square = (self._steps * self.inward[:, None, :]).sum(axis=2)
        aside = np.sqrt(np.maximum(away**2 - square**2, 0.0))
        opposite = (self.inward @ self.inward.T < -_PARALLEL) & (aside <= 2.0 * _STEP)
        found: Array = np.where(opposite, np.minimum(square, square.T), away)
        return found

    def strip(self, start: float, end: float, depths: Sequence[float]) -> Region:
        """Floor beside the edge from one position on to another, as deep as ``depths`` [m] of the walls say."""
        pieces = _merged(self._pieces(start, end, depths))
        if not pieces:
            return None
        walls = [piece.wall for piece in pieces]
        units = self.loop.units[walls]
        normals = np.stack((-units[:, 1], units[:, 0]), axis=1)
        origins = self.loop.points[walls] - self.loop.positions[walls][:, None] * units
        ends, deep = (np.array([(piece[at], piece[at + 1]) for piece in pieces]) for at in (1, 3))
        low = origins[:, None, :] + ends[:, :, None] * units[:, None, :]
        top = low + deep[:, :, None] * normals[:, None, :]
        behind = low - _BEHIND * normals[:, None, :]
        found = list(shapely.polygons(np.concatenate((behind, top[:, ::-1, :]), axis=1)))
        for number in range(len(pieces) - 1):
            if (
                units[number, 0] * units[number + 1, 1] - units[number, 1] * units[number + 1, 0]
                < _STANDS_OUT
            ):
                corner = low[number + 1, 0]
                found.append(
                    _mitre(corner, normals[number : number + 2], (deep[number, 1], deep[number + 1, 0]))
                )
        return joined(found)

    def _pieces(self, start: float, end: float, depths: Sequence[float]) -> Iterator[_Piece]:
        """One for each stretch between two positions, in order."""
        length = self.loop.length
        span, first = (end - start) % length, start % length
        parts: list[tuple[Stretch, float, float, float]] = []
        for turn in (0.0, length):
            for number, one in enumerate(self.stretches):
                begin, stop = max(first, one.low + turn), min(first + span, one.high + turn)
                if stop - begin > _SHORT:
                    parts.append((one, begin - turn, stop - turn, depths[number]))
        for at, (stretch, begin, stop, deep) in enumerate(parts):
            ends = (deep, deep)
            if stretch.kind != "wall":
                before, after = _known(parts, at, -1), _known(parts, at, 1)
                if before is None:
                    before = after if after is not None else _around(parts, at, -1, deep)
                if after is None:
                    after = before
                ends = (before, after)
                if stretch.kind == "gate":
                    ends = (max(ends), max(ends))
            yield _Piece(stretch.wall, begin, stop, *ends)


class _Piece(NamedTuple):
    """A strip beside a ``wall`` between two positions, and its depths there [m]."""

    wall: int
    low: float
    high: float
    first: float
    last: float


def _merged(pieces: Iterable[_Piece]) -> list[_Piece]:
    """Neighbours on one wall that are equally deep as one."""
    found: list[_Piece] = []
    for piece in pieces:
        if (
            found
            and found[-1].wall == piece.wall
            and found[-1][3:] == piece[3:]
            and piece.first == piece.last
        ):
            found[-1] = found[-1]._replace(high=piece.high)
        else:
            found.append(piece)
    return found


def _known(parts: Sequence[tuple[Stretch, float, float, float]], at: int, step: int) -> float | None:
    """Depth of the next stretch of the same wall."""
    other = at + step
    while 0 <= other < len(parts) and parts[other][0].wall == parts[at][0].wall:
        if parts[other][0].kind == "wall":
            return parts[other][3]
        other += step
    return None


def _around(parts: Sequence[tuple[Stretch, float, float, float]], at: int, step: int, deep: float) -> float:
    """Depth of the wall round the corner, from which a way comes to a gate that begins there."""
    for other in (at + step, at - step):
        if 0 <= other < len(parts) and parts[other][0].kind == "wall":
            return parts[other][3]
    return deep


def _mitre(corner: Array, normals: Array, depths: tuple[float, float]) -> Polygon:
    """What two strips leave out at a corner that stands out into the cell."""
    tip = corner + np.linalg.solve(normals, np.array(depths))
    reach = _SHARPEST * max(depths)
    away = float(np.hypot(*(tip - corner)))
    if away > reach:
        tip = corner + (tip - corner) * (reach / away)
    behind = corner - _BEHIND * (normals[0] + normals[1])
    hull = shapely.convex_hull(
        shapely.multipoints(
            np.array([behind, corner + depths[0] * normals[0], tip, corner + depths[1] * normals[1]])
        )
    )
    return hull if isinstance(hull, Polygon) else Polygon()
