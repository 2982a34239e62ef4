"""The turns of a pipe, of its lines and arcs or of the corners from which it is to be bent."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...elementwise import Array
from .pipe_table import PipeTable

__all__ = ["Turns"]

_TOUCHING = 1e-3
"""Arcs of one hand with no more than this between them are one turn [m]."""


@dataclass(frozen=True, slots=True)
class Turns:
    """One row a turn in the order of flow: its ``angle`` [rad], counter-clockwise when positive, the headings [rad]
    ``before`` and ``after`` it, and the length of ``straight`` pipe [m] up to the next turn, or to the end."""

    angle: Array
    before: Array
    after: Array
    straight: Array

    @classmethod
    def of_pipe(cls, table: PipeTable) -> Turns:
        """The bends of a pipe; arcs of one hand that touch are one."""
        arcs = np.flatnonzero(table.radius)
        if not len(arcs):
            return cls(*(np.empty(0) for _ in range(4)))
        sweep, start, end = table.sweep[arcs], table.offsets[arcs], table.offsets[arcs + 1]
        ahead = np.append(start[1:], table.total) - end
        goes_on = (ahead[:-1] <= _TOUCHING) & (sweep[:-1] * sweep[1:] > 0.0)
        first = np.flatnonzero(np.concatenate(([True], ~goes_on)))
        last = np.append(first[1:], len(arcs)) - 1
        angle, before = np.add.reduceat(sweep, first), table.angle[arcs][first]
        return cls(angle, before, before + angle, ahead[last])

    @classmethod
    def of_corners(cls, corners: Array, bend_radius: float) -> Turns:
        """The turns at the corners of a polyline [m], with what straights bends of a radius [m] leave, if that is
        less than nothing too."""
        steps = np.diff(corners, axis=0)
        heading = _angles(steps)
        angle = np.array([math.remainder(turn, 2.0 * math.pi) for turn in np.diff(heading).tolist()])
        taken = bend_radius * np.array([math.tan(min(abs(turn), 3.0) / 2.0) for turn in angle.tolist()])
        straight = np.hypot(steps[1:, 0], steps[1:, 1]) - taken - np.append(taken[1:], 0.0)
        return cls(angle, heading[:-1], heading[:-1] + angle, straight)


def _angles(steps: Array) -> Array:
    return np.array([math.atan2(y, x) for x, y in steps.tolist()])
