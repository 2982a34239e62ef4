"""Straight runs of a right-angled loop moved out towards floor that no cell of the lattice could take."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from ...elementwise import Array

__all__ = ["moved_out"]

_WIDEST_GAP = 1.45
"""To which the gap behind a run that moves may grow, in spacings: all floor in it is still served."""
_BARE_STRIP = 0.25
"""Width of floor between a run and where pipe may lie that is served from the run, in spacings."""
_BESIDE = 0.7
"""Pipe that passes the end of a run at less than this counts as lying ahead of it, in spacings."""
_FAR = 2.0
"""What lies further ahead of a run does not matter, in spacings."""
_TIP = 1.3
"""A run between two outward corners that is no longer than this turns back, in spacings: it may move freely."""
_SLANT = 4.0
"""A part of a run moves out on this many times its step: 14 degrees."""
_SHORTEST = 0.5
"""What remains of such a part between its slants, in spacings."""
_WORTHWHILE = 0.05
"""Smaller steps are not made, in spacings."""
_HAIR = 1e-6
"""[m]"""


def moved_out(points: Array, edges: Array, pipe_spacing: float) -> Array:
    """The corners [m] of a right-angled loop, counter-clockwise, with runs moved out of its inside.

    ``edges`` (x0, y0, x1, y1) [m] bound the floor where pipe may lie. What of a run lies before a strip of
    floor moves half way, or up to a quarter of a spacing from its end; between pipe and pipe one remains.
    Where only a part of a run moves it does so on the slant, so that the pipe hardly bends.
    """
    for axis in (0, 1):
        pieces = _Runs.of(points, axis, pipe_spacing).split(edges)
        points = _redrawn(points, pieces, pieces.steps(edges))
    return points


def _redrawn(points: Array, pieces: _Runs, steps: Array) -> Array:
    """The loop with each piece of its runs moved."""
    inserted: dict[int, list[Array]] = {}
    points = points.copy()
    bounds = np.flatnonzero(np.diff(pieces.index, prepend=-1, append=-1))
    for first, end in pairwise(bounds.tolist()):
        if not steps[first:end].any():
            continue
        start = int(pieces.index[first])
        after = (start + 1) % len(points)
        rising = points[after, 1 - pieces.axis] > points[start, 1 - pieces.axis]
        order = range(first, end) if rising else range(end - 1, first - 1, -1)
        lengths = [float(pieces.high[piece] - pieces.low[piece]) for piece in order]
        moved = _settled(lengths, [float(steps[piece]) for piece in order], pieces.pipe_spacing)
        places = float(pieces.at[first]) + float(pieces.outward[first]) * np.array(moved)
        between = []
        for one, (here, ahead) in zip(order, pairwise(range(len(moved))), strict=False):
            cut = pieces.high[one] if rising else pieces.low[one]
            slant = _SLANT * (moved[ahead] - moved[here]) * (1.0 if rising else -1.0)
            ends = (cut, cut + slant) if moved[ahead] > moved[here] else (cut + slant, cut)
            if slant:
                between += [
                    _point(pieces.axis, places[i], end) for i, end in zip((here, ahead), ends, strict=True)
                ]
        points[start, pieces.axis], points[after, pieces.axis] = places[0], places[-1]
        inserted[start] = between
    rows = [row for at, point in enumerate(points) for row in (point, *inserted.get(at, ()))]
    return np.array(rows)


def _point(axis: int, at: float, across: float) -> Array:
    return np.array((at, across) if axis == 0 else (across, at))


def _settled(lengths: list[float], steps: list[float], pipe_spacing: float) -> list[float]:
    """Steps of the pieces of one run, lowered where a piece is too short for the slants at its ends."""
    steps = [step if step > _WORTHWHILE * pipe_spacing else 0.0 for step in steps]
    settled = False
    while not settled:
        settled = True
        for at, (length, step) in enumerate(zip(lengths, steps, strict=True)):
            lower = [
                other for other in (*steps[max(0, at - 1) : at], *steps[at + 1 : at + 2]) if other < step
            ]
            needed = sum(_SLANT * (step - other) for other in lower) + _SHORTEST * pipe_spacing
            if lower and (length < needed or step - max(lower) < _WORTHWHILE * pipe_spacing):
                steps[at], settled = max(lower), False
    return steps


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
    """Lengths of the run before and of the one after; pieces have those of their run."""
    tip: npt.NDArray[np.bool_]
    """Whether the pipe turns back there."""
    pipe_spacing: float

    @classmethod
    def of(cls, points: Array, axis: int, pipe_spacing: float) -> _Runs:
        steps = np.roll(points, -1, axis=0) - points
        before = np.roll(steps, 1, axis=0)
        convex = before[:, 0] * steps[:, 1] - before[:, 1] * steps[:, 0] > 0.0
        lengths = np.abs(steps).sum(axis=1)
        index = np.flatnonzero(np.abs(steps[:, axis]) < _HAIR)
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
            convex[index] & convex[ahead] & (lengths[index] <= _TIP * pipe_spacing),
            pipe_spacing,
        )

    def split(self, edges: Array) -> _Runs:
        """Pieces of the runs: cut where the edge of the floor or the pipe before them begins or ends."""
        spacing, beside = self.pipe_spacing, _BESIDE * self.pipe_spacing
        across = np.concatenate(
            (edges[:, 1 - self.axis], edges[:, 3 - self.axis], self.low - beside, self.high + beside)
        )
        along = np.concatenate((edges[:, self.axis], edges[:, 2 + self.axis], self.at, self.at))
        away = (along - self.at[:, None]) * self.outward[:, None]
        margin = _SHORTEST * spacing
        cuts = (across > self.low[:, None] + margin) & (across < self.high[:, None] - margin)
        cuts &= (away > -_HAIR) & (away < _FAR * spacing)
        rows, low, high = [], [], []
        for run in range(len(self.index)):
            ends = [float(self.low[run])]
            for cut in np.sort(across[cuts[run]]).tolist():
                if cut - ends[-1] >= margin:
                    ends.append(cut)
            rows += [run] * len(ends)
            low += ends
            high += [*ends[1:], float(self.high[run])]
        parts = replace(
            self,
            index=self.index[rows],
            at=self.at[rows],
            low=np.array(low),
            high=np.array(high),
            outward=self.outward[rows],
            outward_corners=self.outward_corners[rows],
            legs=self.legs[rows],
            tip=self.tip[rows],
        )
        # Where a run was cut there is no corner that could be in the way.
        rising = self.outward[rows] > 0.0 if self.axis == 0 else self.outward[rows] < 0.0
        for inner, at_start in (
            (parts.low > self.low[rows], rising),
            (parts.high < self.high[rows], ~rising),
        ):
            parts.outward_corners[inner & at_start, 0] = True
            parts.outward_corners[inner & ~at_start, 1] = True
        return parts

    def steps(self, edges: Array) -> Array:
        """How far each run moves [m]."""
        spacing = self.pipe_spacing
        wall, ahead = self._to_floor_edge(edges), self._to_pipe(self.outward, _BESIDE * spacing)
        behind = self._to_pipe(-self.outward, -_HAIR)
        half = np.maximum(wall / 2.0, wall - _BARE_STRIP * spacing)
        allowed = np.where(self.tip, wall, np.minimum(half, _WIDEST_GAP * spacing - behind))
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
