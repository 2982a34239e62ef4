"""How handy a pipe is to lay, counted on its lines and arcs alone: apart from the engine's own measures of craft."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import Polygon
from tepidarium_engine.plan.pipes.pipe_path import Arc, PipePath

__all__ = ["Craft", "craft_of"]

SLIGHT = (math.radians(3.0), math.radians(60.0))
"""Turns between these are slight [rad]: nobody bends them without a wall that asks for it."""
PARALLEL = math.radians(4.0)
"""Pipe and wall whose directions differ by less run along each other [rad]."""
OPPOSED = math.radians(30.0)
"""Bends of opposite hand count from here on [rad]."""
TOUCHING = 1e-3
"""Arcs of one hand with less between them are one bend [m]."""


@dataclass(frozen=True)
class Craft:
    """``slight_turns``: turns of less than 60 degrees of which at least one leg runs along no wall;
    ``short_straights``: between bends of opposite hand, shorter than two bend radii; ``right_angles``: all turning of
    the pipe in right angles for each square metre of floor."""

    slight_turns: int
    short_straights: int
    right_angles: float


@dataclass(frozen=True)
class _Bend:
    angle: float
    start: float
    end: float
    before: float
    after: float


def craft_of(path: PipePath, room: Polygon, bend_radius: float) -> Craft:
    """Counts for a pipe in a room, both in one direction of the drawing; ``bend_radius`` [m]."""
    bends = _bends(path)
    walls = _wall_directions(room)
    slight = sum(
        SLIGHT[0] < abs(bend.angle) < SLIGHT[1]
        and not (_runs_along(bend.before, walls) and _runs_along(bend.after, walls))
        for bend in bends
    )
    short = sum(
        one.angle * other.angle < 0.0
        and min(abs(one.angle), abs(other.angle)) >= OPPOSED
        and other.start - one.end < 2.0 * bend_radius * (1.0 - 1e-6)
        for one, other in pairwise(bends)
    )
    turning = math.fsum(abs(bend.angle) for bend in bends)
    return Craft(slight, short, turning / (math.pi / 2.0) / room.area)


def _bends(path: PipePath) -> list[_Bend]:
    bends: list[_Bend] = []
    at = 0.0
    for piece in path.pieces:
        end = at + piece.length
        if isinstance(piece, Arc):
            last = bends[-1] if bends else None
            if last is not None and last.angle * piece.sweep > 0.0 and at - last.end < TOUCHING:
                bends[-1] = _Bend(last.angle + piece.sweep, last.start, end, last.before, piece.end_heading)
            else:
                bends.append(_Bend(piece.sweep, at, end, piece.start_heading, piece.end_heading))
        at = end
    return bends


def _wall_directions(room: Polygon) -> np.ndarray:
    steps = np.concatenate(
        [np.diff(shapely.get_coordinates(ring), axis=0) for ring in shapely.get_rings(room)]
    )
    return np.mod(np.arctan2(steps[:, 1], steps[:, 0]), math.pi)


def _runs_along(heading: float, walls: np.ndarray) -> bool:
    apart = np.abs(np.mod(heading - walls + math.pi / 2.0, math.pi) - math.pi / 2.0)
    return bool((apart < PARALLEL).any())
