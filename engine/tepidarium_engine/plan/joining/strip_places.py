"""All the places at which a strip between two loops is worth looking at."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LinearRing

from ...elementwise import Array
from ..outlines.loops import Loop
from .surgery import Opening, Strip

__all__ = ["Flags", "Places", "bend_room", "places"]

Flags = npt.NDArray[np.bool_]
Rows = Flags | npt.NDArray[np.intp]

_STEP = 0.5
"""Distance of the places tried along a loop, in spacings; less where narrower strips will do."""
_REACH = 3.0
"""Places further away than the nearest one plus this are not tried, in spacings."""
_CORNER = 0.34
"""Sine of the least turn that takes up pipe for its bend (20 degrees)."""


@dataclass(frozen=True)
class Places:
    """Many strips at once, one in each row.

    Positions [m] of the openings on both loops, and their corners [m]: side 0 joins ``one_start``, side 1
    ``one_end``, to ``corners_other[0]`` and ``[1]``.
    """

    one_start: Array
    one_end: Array
    other_start: Array
    other_end: Array
    one_width: Array
    other_width: Array
    from_one: tuple[Array, Array]
    to_other: tuple[Array, Array]
    nested: bool

    def at(self, index: Rows) -> Places:
        """Those in the given rows."""
        return Places(
            self.one_start[index],
            self.one_end[index],
            self.other_start[index],
            self.other_end[index],
            self.one_width[index],
            self.other_width[index],
            (self.from_one[0][index], self.from_one[1][index]),
            (self.to_other[0][index], self.to_other[1][index]),
            self.nested,
        )

    def side(self, end: int, less: float) -> npt.NDArray[np.object_]:
        """Lines along one long side of each strip, without a share at either end."""
        start, stop = self.from_one[end], self.to_other[end]
        step = (stop - start) * less
        sides: npt.NDArray[np.object_] = shapely.linestrings(np.stack((start + step, stop - step), axis=1))
        return sides

    @property
    def length(self) -> Array:
        """Of the long sides, on average [m]."""
        one, other = (b - a for a, b in zip(self.from_one, self.to_other, strict=True))
        lengths: Array = (np.hypot(one[:, 0], one[:, 1]) + np.hypot(other[:, 0], other[:, 1])) / 2.0
        return lengths

    @property
    def middle(self) -> Array:
        """Points [m], one a row."""
        (one, another), (over, further) = self.from_one, self.to_other
        middle: Array = (one + another + over + further) / 4.0
        return middle

    def slant(self, one: Loop, other: Loop) -> Array:
        """Sum of the cosines between the long sides and the loops at the four corners; 0: all square."""
        slant: Array = np.zeros(len(self.one_start))
        ends = (self.other_start, self.other_end)
        across = ends if self.nested else ends[::-1]
        corners = ((one, (self.one_start, self.one_end)), (other, across))
        for end in (0, 1):
            side = self.to_other[end] - self.from_one[end]
            side /= np.maximum(np.hypot(side[:, 0], side[:, 1]), 1e-9)[:, None]
            for loop, positions in corners:
                first = (end == 0) == (loop is one or self.nested)
                outwards = _headings(loop, positions[end] + (-1e-6 if first else 1e-6))
                slant += np.abs((side * outwards).sum(axis=1))
        return slant

    def strip(self, index: int, one: int, other: int) -> Strip:
        first = Opening(one, float(self.one_start[index]), float(self.one_end[index]))
        second = Opening(other, float(self.other_start[index]), float(self.other_end[index]))
        return Strip(first, second, self.nested)


def places(one: Loop, other: Loop, pipe_spacing: float, nested: bool, factor: float) -> Places:
    """Strips about one spacing wide from every place of either loop that lies near enough to the other.

    Each goes straight across, from both corners to the nearest points, or keeps its width.
    """
    rings = (LinearRing(one.points), LinearRing(other.points))
    reach = shapely.distance(*rings) + _REACH * pipe_spacing
    found: list[tuple[Array, Array, Array, Array]] = []
    for here, ring, mirrored in ((one, rings[1], False), (other, rings[0], True)):
        for width in (pipe_spacing, 0.82 * pipe_spacing * factor):
            centres = _centres(here, width, pipe_spacing, _STEP * factor**2)
            shapely.prepare(ring)
            centres = centres[shapely.dwithin(ring, shapely.points(here.points_at(centres)), reach)]
            start, end = centres - width / 2.0, centres + width / 2.0
            opposite = _located(ring, here.points_at(centres))
            for near_start, near_end in (
                (_located(ring, here.points_at(start)), _located(ring, here.points_at(end))),
                (opposite - width / 2.0, opposite + width / 2.0)
                if nested
                else (opposite + width / 2.0, opposite - width / 2.0),
            ):
                lower, upper = (near_start, near_end) if nested else (near_end, near_start)
                found.append((lower, upper, start, end) if mirrored else (start, end, lower, upper))
    return _assembled(one, other, [np.concatenate(column) for column in zip(*found, strict=True)], nested)


def _assembled(one: Loop, other: Loop, positions: list[Array], nested: bool) -> Places:
    one_start, one_end = (np.mod(p, one.length) for p in positions[:2])
    other_start, other_end = (np.mod(p, other.length) for p in positions[2:])
    one_width, other_width = (
        np.mod(one_end - one_start, one.length),
        np.mod(other_end - other_start, other.length),
    )
    sound = np.flatnonzero((one_width < one.length / 2.0) & (other_width < other.length / 2.0))
    ends = (other_start, other_end) if nested else (other_end, other_start)
    return Places(
        one_start,
        one_end,
        other_start,
        other_end,
        one_width,
        other_width,
        (one.points_at(one_start), one.points_at(one_end)),
        (other.points_at(ends[0]), other.points_at(ends[1])),
        nested,
    ).at(sound)


def _centres(loop: Loop, width: float, pipe_spacing: float, step: float) -> Array:
    """Evenly spaced positions, and those whose opening touches a corner or stays one spacing off it."""
    count = max(4, int(loop.length / (step * pipe_spacing)))
    even = np.arange(count) * (loop.length / count)
    corners = _corner_positions(loop)
    beside = [corners + sign * (width / 2.0 + off) for sign in (-1.0, 1.0) for off in (0.0, pipe_spacing)]
    return np.concatenate((even, *beside))


def _located(ring: LinearRing, points: Array) -> Array:
    located: Array = shapely.line_locate_point(ring, shapely.points(points))
    return located


def _corner_positions(loop: Loop) -> Array:
    steps = np.roll(loop.points, -1, axis=0) - loop.points
    units = steps / np.hypot(steps[:, 0], steps[:, 1])[:, None]
    before = np.roll(units, 1, axis=0)
    sine = before[:, 0] * units[:, 1] - before[:, 1] * units[:, 0]
    cosine = (before * units).sum(axis=1)
    positions: Array = loop.positions[:-1][(np.abs(sine) > _CORNER) | (cosine < 0.0)]
    return positions


def bend_room(loop: Loop, starts: Array, ends: Array) -> Array:
    """Straight length of loop [m] before each opening and behind it up to the next corner, the lesser one."""
    corners = _corner_positions(loop)
    if not len(corners):
        return np.full(len(starts), loop.length)
    before = np.concatenate((corners[-1:] - loop.length, corners))
    behind = np.concatenate((corners, corners[:1] + loop.length))
    back = starts - before[np.searchsorted(before, starts + 1e-9, side="right") - 1]
    ahead = behind[np.searchsorted(behind, ends - 1e-9)] - ends
    # An opening that ends on a corner takes the corner away.
    back, ahead = (np.where(room < 1e-6, loop.length, room) for room in (back, ahead))
    room: Array = np.minimum(back, ahead)
    return room


def _headings(loop: Loop, positions: Array) -> Array:
    index = np.searchsorted(loop.positions, np.mod(positions, loop.length), side="right") - 1
    index = np.clip(index, 0, len(loop.points) - 1)
    steps = np.roll(loop.points, -1, axis=0)[index] - loop.points[index]
    units: Array = steps / np.hypot(steps[:, 0], steps[:, 1])[:, None]
    return units
