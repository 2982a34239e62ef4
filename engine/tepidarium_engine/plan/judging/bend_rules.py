"""Where a pipe is broken or bent too tightly: judged on its pieces alone, not on the room."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...checking import Point
from ...elementwise import Array
from ..pipes.pipe_path import POSITION_TOLERANCE, TANGENT_TOLERANCE
from ..pipes.pipe_table import PipeTable
from .route_fault import RouteFault

__all__ = ["RADIUS_TOLERANCE", "TURN_TOLERANCE", "broken", "tight_bends"]

RADIUS_TOLERANCE = 1e-6
"""Of bend radii [m]: they are numbers in the path and not estimates."""
TURN_TOLERANCE = 1e-3
"""By how much a stretch may turn more than its length over the bend radius [rad].

Ten of the kinks that are let pass at joints; a twentieth of a degree.
"""


def broken(table: PipeTable) -> Iterator[RouteFault]:
    """The largest gap and the largest kink."""
    if len(table.length) < 2:
        return
    step = table.start[1:] - table.end[:-1]
    gaps = np.sqrt((step**2).sum(axis=1))
    worst = int(gaps.argmax())
    if gaps[worst] > POSITION_TOLERANCE:
        yield RouteFault("gap", _place(table.start, worst + 1), float(gaps[worst]), POSITION_TOLERANCE)
    across, along = _turn(table)
    worst = int(along.argmin())
    kink = math.atan2(abs(float(across[worst])), float(along[worst]))
    if kink > TANGENT_TOLERANCE:
        yield RouteFault("kink", _place(table.start, worst + 1), kink, TANGENT_TOLERANCE)


def tight_bends(table: PipeTable, bend_radius: float) -> Iterator[RouteFault]:
    """The tightest arc, or else the stretch of small kinks and arcs that turns most for its length.

    A pipe of radius R turns by at most length / R. Kinks too large to pass at a joint are faults of their own
    and do not count here.
    """
    arcs = np.flatnonzero(table.radius)
    if len(arcs):
        tightest = int(arcs[table.radius[arcs].argmin()])
        radius = float(table.radius[tightest])
        if radius < bend_radius - RADIUS_TOLERANCE:
            middle = table.offsets[tightest] + table.length[tightest] / 2.0
            yield RouteFault("bend_radius", _at(table, float(middle)), radius, bend_radius)
            return
    turned, at = _turned(table)
    most = TURN_TOLERANCE
    fault = None
    for hand in (1.0, -1.0):
        ahead = hand * turned - at / bend_radius
        excess = ahead - np.minimum.accumulate(ahead)
        last = int(excess.argmax())
        if excess[last] > most:
            most = float(excess[last])
            first = int(ahead[: last + 1].argmin())
            length, angle = float(at[last] - at[first]), hand * float(turned[last] - turned[first])
            middle = float(at[first] + at[last]) / 2.0
            fault = RouteFault("bend_radius", _at(table, middle), length / angle, bend_radius)
    if fault is not None:
        yield fault


def _turned(table: PipeTable) -> tuple[Array, Array]:
    """How far the pipe has turned [rad] and got [m] at either end of each piece."""
    across, along = _turn(table)
    passed = (along > 0.0) & (np.abs(across) <= TANGENT_TOLERANCE)
    turns, steps = np.zeros((2, 2 * len(table.length)))
    turns[1::2], steps[1::2] = table.sweep, table.length
    turns[2::2] = np.where(passed, across, 0.0)
    return np.cumsum(turns), np.cumsum(steps)


def _turn(table: PipeTable) -> tuple[Array, Array]:
    """Sine and cosine of the turn at each joint."""
    before, after = table.last_heading[:-1], table.heading[1:]
    return (
        before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0],
        before[:, 0] * after[:, 0] + before[:, 1] * after[:, 1],
    )


def _place(points: Array, index: int) -> Point:
    return (float(points[index, 0]), float(points[index, 1]))


def _at(table: PipeTable, position: float) -> Point:
    return _place(table.poses(np.array([position]))[0], 0)
