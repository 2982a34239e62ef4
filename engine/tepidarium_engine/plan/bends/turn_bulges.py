"""Turns between two pipes that lie nearer than two bend radii: they bulge to both sides like the letter omega.

Of such a turn the pipe first swings out by an angle whose cosine is (R + p / 2) / 2R, for pipes p apart, and then comes
round by half a turn and twice that. Its corners are those of tangents to the three arcs, so that rounding them with the
bend radius gives the arcs.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely

from ...checking import Point
from ..pipes.fillets import RADIUS_TOLERANCE, turn_at
from .bend_arcs import bend_points
from .bend_space import BendSpace
from .corner_easing import LEAST_DISTANCE, Corners

__all__ = ["bulged"]

_PARALLEL = 0.1
"""How much the two pipes may lean [rad]."""
_SLANT = 0.9
"""Sine of the steepest slant of a turn: along a wall that is not square to the pipes."""
_ARCS = 3
"""Corners for the arc round the tip."""


class _Bulge(NamedTuple):
    """The corners that replace numbers ``at`` and ``at + 1``."""

    at: int
    corners: Corners


def bulged(corners: Corners, space: BendSpace) -> Corners:
    """With room for the bends of turns between two near pipes, where floor and other pipe leave it [m]."""
    radius = space.field.bend_radius
    found: list[_Bulge] = []
    for at in range(1, len(corners) - 2):
        new = _bulge(corners[at - 1 : at + 3], radius)
        if new is not None and (not found or found[-1].at < at - 1):
            found.append(_Bulge(at, new))
    if not found:
        return corners
    kept = [bulge for bulge, free in zip(found, _free(corners, found, space), strict=True) if free]
    changed: Corners = []
    done = 0
    for bulge in kept:
        changed += [*corners[done : bulge.at], *bulge.corners]
        done = bulge.at + 2
    return [*changed, *corners[done:]]


def _bulge(four: Sequence[Point], radius: float) -> Corners | None:
    """The corners of a turn round the middle two of four; none where a plain one fits or it is no such turn."""
    before, first, last, after = four
    turns = turn_at(before, first, last), turn_at(first, last, after)
    if turns[0] * turns[1] <= 0.0 or abs(abs(turns[0] + turns[1]) - math.pi) > _PARALLEL:
        return None
    run, back = math.dist(before, first), math.dist(last, after)
    hand = math.copysign(1.0, turns[0])
    u = ((first[0] - before[0]) / run, (first[1] - before[1]) / run)
    n = (hand * u[1], -hand * u[0])  # away from the other pipe
    leg = (last[0] - first[0], last[1] - first[1])
    width, rise = -(leg[0] * n[0] + leg[1] * n[1]), leg[0] * u[0] + leg[1] * u[1]
    slant = math.hypot(width, rise)
    if not 0.0 < width < 2.0 * radius * (1.0 - RADIUS_TOLERANCE) or abs(rise) > _SLANT * slant:
        return None
    swing = math.acos((radius + width / 2.0) / (2.0 * radius))
    depth = radius * slant / width + 2.0 * radius * math.sin(swing)
    if depth > min(run + rise / 2.0, back - rise / 2.0):
        return None
    round_tip = (math.pi + 2.0 * swing) / _ARCS
    out, step = radius * math.tan(swing / 2.0), radius * math.tan(round_tip / 2.0)
    # Walked from where the pipe swings out: how far on, and by how much it turns there.
    along = rise / 2.0 - depth + out
    x, y = first[0] + along * u[0], first[1] + along * u[1]
    heading = math.atan2(u[1], u[0])
    found = [(x, y)]
    heading -= hand * swing
    for length in (out + step, 2.0 * step, 2.0 * step, step + out):
        x, y = x + length * math.cos(heading), y + length * math.sin(heading)
        found.append((x, y))
        heading += hand * round_tip
    return found


def _free(corners: Corners, bulges: Sequence[_Bulge], space: BendSpace) -> list[bool]:
    """Which of the turns keep off walls and other pipe; of two that are in each other's way the first one."""
    field = space.field
    lines = np.array([_bent(corners, bulge, field.bend_radius) for bulge in bulges], dtype=object)
    reach = LEAST_DISTANCE * field.pipe_spacing
    legs = shapely.STRtree(shapely.linestrings(list(pairwise(corners))))
    own = [range(bulge.at - 1, bulge.at + 2) for bulge in bulges]
    blocked = {
        one
        for one, leg in zip(*legs.query(lines, predicate="dwithin", distance=reach).tolist(), strict=True)
        if leg not in own[one]
    }
    free: list[bool] = []
    tree = shapely.STRtree(lines)
    near: list[list[int]] = [[] for _ in bulges]
    for one, other in zip(*tree.query(lines, predicate="dwithin", distance=reach).tolist(), strict=True):
        if other < one:
            near[one].append(other)
    for number, held in enumerate(space.holds(lines).tolist()):
        free.append(held and number not in blocked and not any(free[other] for other in near[number]))
    return free


def _bent(corners: Corners, bulge: _Bulge, radius: float) -> shapely.LineString:
    chain = [corners[bulge.at - 1], *bulge.corners, corners[bulge.at + 2]]
    triples = np.array([chain[i - 1 : i + 2] for i in range(1, len(chain) - 1)])
    return shapely.linestrings(bend_points(triples, radius).reshape(-1, 2))
