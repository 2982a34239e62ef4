"""Straight runs of a right-angled loop moved out towards floor that no cell of the lattice could take."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ..elementwise import Array

__all__ = ["moved_out"]

_WIDEST_GAP = 1.45
"""To which the gap behind a run that moves may grow, in spacings: all floor in it is still served."""
_BARE_STRIP = 0.25
"""Width of floor between a run and where pipe may lie that is served from the run, in spacings."""
_BESIDE = 0.7
"""Pipe that passes the end of a run at less than this counts as lying ahead of it, in spacings."""
_TIP = 1.3
"""A run between two outward corners that is no longer than this turns back, in spacings: it may move freely."""
_HAIR = 1e-6
"""[m]"""


def moved_out(points: Array, edges: Array, pipe_spacing: float) -> Array:
    """The corners [m] of a right-angled loop, counter-clockwise, with runs moved out of its inside.

    ``edges`` (x0, y0, x1, y1) [m] bound the floor where pipe may lie. A run before a strip of
    floor moves half way, or up to a quarter of a spacing from its end; between pipe and pipe one remains.
    """
    for axis in (0, 1):
        runs = _Runs.of(points, axis, pipe_spacing)
        step = runs.outward * runs.steps(edges)
        points = points.copy()
        points[runs.index, axis] += step
        points[(runs.index + 1) % len(points), axis] += step
    return points


@dataclass(frozen=True)
class _Runs:
    """All runs square to an axis: corner numbers of their starts, ``at`` their places along the axis, from
    ``low`` to ``high`` across it; ``outward`` is the sign of the way out of the loop."""

    index: npt.NDArray[np.intp]
    axis: int
    at: Array
    low: Array
    high: Array
    outward: Array
    outward_corners: npt.NDArray[np.bool_]
    """At the start and at the end of each run."""
    legs: Array
    """Lengths of the run before and of the one after."""
    pipe_spacing: float

    @classmethod
    def of(cls, points: Array, axis: int, pipe_spacing: float) -> _Runs:
        steps = np.roll(points, -1, axis=0) - points
        before = np.roll(steps, 1, axis=0)
        convex = before[:, 0] * steps[:, 1] - before[:, 1] * steps[:, 0] > 0.0
        lengths = np.abs(steps).sum(axis=1)
        index = np.flatnonzero(np.abs(steps[:, axis]) < np.abs(steps[:, 1 - axis]))
        ahead = (index + 1) % len(points)
        start, end = points[index, 1 - axis], points[ahead, 1 - axis]
        return cls(
            index,
            axis,
            points[index, axis],
            np.minimum(start, end),
            np.maximum(start, end),
            np.sign(end - start) * (1.0 if axis == 0 else -1.0),
            np.column_stack((convex[index], convex[ahead])),
            np.column_stack((lengths[index - 1], lengths[ahead])),
            pipe_spacing,
        )

    def steps(self, edges: Array) -> Array:
        """How far each run moves [m]."""
        spacing, both = self.pipe_spacing, self.outward_corners.all(axis=1)
        tip = both & (self.high - self.low <= _TIP * spacing)
        wall, ahead = self._to_floor_edge(edges), self._to_pipe(self.outward, _BESIDE * spacing)
        behind = self._to_pipe(-self.outward, -_HAIR)
        half = np.maximum(wall / 2.0, wall - _BARE_STRIP * spacing)
        allowed = np.where(tip, wall, np.minimum(half, _WIDEST_GAP * spacing - behind))
        allowed = np.minimum(allowed, (ahead - spacing) / 2.0)
        for end in (0, 1):
            shortened = np.where(self.outward_corners[:, end], np.inf, self.legs[:, end] - spacing)
            allowed = np.minimum(allowed, shortened)
        blind = ~self.outward_corners.any(axis=1)
        steps: Array = np.where(blind | (allowed < _HAIR), 0.0, allowed)
        return steps

    def _to_floor_edge(self, edges: Array) -> Array:
        """From each run outwards to the edge of the floor."""
        low, high = self.low[:, None] + _HAIR, self.high[:, None] - _HAIR
        start, end = edges[:, 1 - self.axis], edges[:, 3 - self.axis]
        nearer, further = np.minimum(start, end), np.maximum(start, end)
        run = np.where(end == start, 1.0, end - start)
        place, rise = edges[:, self.axis], edges[:, 2 + self.axis] - edges[:, self.axis]
        away = []
        for limit in (np.maximum(low, nearer), np.minimum(high, further)):
            share = np.where(end == start, 0.0, (limit - start) / run)
            away.append((place + share * rise - self.at[:, None]) * self.outward[:, None])
        # An edge that runs straight away from the run begins at the nearer of its ends.
        along = (place + rise - self.at[:, None]) * self.outward[:, None]
        least = np.minimum(*away)
        least = np.where(end == start, np.minimum(least, along), least)
        meets = (nearer < high) & (further > low) & (least > -10.0 * _HAIR)
        distances: Array = np.maximum(0.0, np.where(meets, least, np.inf).min(axis=1))
        return distances

    def _to_pipe(self, sense: Array, beside: float) -> Array:
        """From each run to the next one parallel to it, and how far they may miss each other."""
        away = (self.at - self.at[:, None]) * sense[:, None]
        meets = (self.low < self.high[:, None] + beside) & (self.high > self.low[:, None] - beside)
        distances: Array = np.where(meets & (away > _HAIR), away, np.inf).min(axis=1)
        return distances
