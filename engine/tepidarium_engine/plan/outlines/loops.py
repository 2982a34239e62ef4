"""Closed curves of pipe centre line, measured along themselves."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import LinearRing, Polygon

from ...checking import Point
from ...elementwise import Array

__all__ = ["Loop", "loop_of"]

_LEAST_BEND = math.cos(math.radians(20.0))
_SAME_POINT = 1e-9
_AT_BEND = 1e-6
"""Nearer to a bend is on it [m]."""


@dataclass(frozen=True)
class Loop:
    """One closed curve of straight pieces.

    ``points`` [m], one a row, counter-clockwise, the first not repeated at the end; ``positions`` [m] is the
    length along the loop at each point and, last, the whole length. Positions count round: they may be any
    number and mean the same modulo ``length``.
    """

    points: Array
    positions: Array

    @classmethod
    def round(cls, points: Array) -> Loop:
        """The loop through points [m], one a row, none of which repeats the one before."""
        steps = np.roll(points, -1, axis=0) - points
        return cls(points, np.concatenate(([0.0], np.cumsum(np.hypot(steps[:, 0], steps[:, 1])))))

    @property
    def length(self) -> float:
        """Of the closed loop [m]."""
        return float(self.positions[-1])

    @cached_property
    def line(self) -> LinearRing:
        """The loop as a ring that starts at position 0."""
        return LinearRing(self.points)

    @cached_property
    def area(self) -> Polygon:
        """What the loop encloses."""
        return Polygon(self.points)

    def at(self, position: float) -> Point:
        """The point [m] at a length along the loop [m]."""
        wrapped = position % self.length
        index = min(int(self.positions.searchsorted(wrapped, side="right")), len(self.points)) - 1
        (x, y), (dx, dy) = self.points[index].tolist(), self.units[index].tolist()
        along = wrapped - float(self.positions[index])
        return x + along * dx, y + along * dy

    def points_at(self, positions: Array) -> Array:
        """Points [m], one a row, at lengths along the loop [m]."""
        wrapped = np.mod(positions, self.length)
        index = np.minimum(self.positions.searchsorted(wrapped, side="right"), len(self.points)) - 1
        points: Array = self.points[index] + (wrapped - self.positions[index])[:, None] * self.units[index]
        return points

    def project(self, point: Point) -> float:
        """Length along the loop [m] of its point nearest to ``point``."""
        return float(self.project_all(np.array([point]))[0])

    def project_all(self, points: Array) -> Array:
        """Lengths along the loop [m] of its points nearest to the given ones, one a row."""
        steps, lengths = self._steps, self._lengths
        offsets = points[:, None, :] - self.points[None, :, :]
        along = np.clip((offsets * steps).sum(axis=2) / lengths**2, 0.0, 1.0)
        apart = offsets - along[:, :, None] * steps
        nearest = (apart * apart).sum(axis=2).argmin(axis=1)
        rows = np.arange(len(points))
        found: Array = np.mod(self.positions[nearest] + along[rows, nearest] * lengths[nearest], self.length)
        return found

    def stretch(self, start: float, end: float) -> Array:
        """The loop's points [m] from one position forward to another, both ends included.

        Equal positions (to rounding) give the single point, never the whole loop.
        """
        span = (end - start) % self.length
        first = start % self.length
        corners = self._corners
        inner = np.flatnonzero((corners > first + 1e-9) & (corners < first + span - 1e-9))
        between = self.points[inner % len(self.points)]
        ends = self.points_at(np.array([start, start + span]))
        return np.concatenate((ends[:1], between, ends[1:]))

    @cached_property
    def _corners(self) -> Array:
        """Positions of the points [m], twice round."""
        return np.concatenate((self.positions[:-1], self.positions[:-1] + self.length))

    @cached_property
    def units(self) -> Array:
        """Unit vectors of the direction of travel from each point, one a row."""
        units: Array = self._steps / self._lengths[:, None]
        return units

    @cached_property
    def _steps(self) -> Array:
        """From each point to the next."""
        steps: Array = np.roll(self.points, -1, axis=0) - self.points
        return steps

    @cached_property
    def _lengths(self) -> Array:
        lengths: Array = np.diff(self.positions)
        return lengths

    @cached_property
    def bends(self) -> Array:
        """Positions [m] of the corners that turn by more than 20 degrees."""
        cosine = (np.roll(self.units, 1, axis=0) * self.units).sum(axis=1)
        found: Array = self.positions[:-1][cosine < _LEAST_BEND]
        return found

    def straight_run(self, positions: Array, side: int) -> Array:
        """Length of loop [m] from each position to the next bend, forward (1) or back (-1).

        A bend at the position itself does not count.
        """
        bends = self.bends
        if not len(bends):
            return np.full(len(positions), self.length)
        away = np.mod(side * (bends[None, :] - positions[:, None]) - _AT_BEND, self.length)
        run: Array = away.min(axis=1) + _AT_BEND
        return run

    def heading_at(self, position: float) -> Point:
        """Unit vector of the direction of travel at a length along the loop [m]."""
        index = int(np.searchsorted(self.positions, position % self.length, side="right")) - 1
        x, y = self.units[min(index, len(self.points) - 1)].tolist()
        return x, y


def loop_of(outline: Polygon) -> Loop:
    """The outer ring of a polygon as a loop, without repeated points; inner rings are not looked at."""
    points: Array = shapely.get_coordinates(shapely.orient_polygons(outline).exterior)[:-1]
    steps = np.roll(points, -1, axis=0) - points
    apart = np.hypot(steps[:, 0], steps[:, 1]) > _SAME_POINT
    return Loop.round(points if apart.all() else points[apart])
