"""How handy a pipe is to lay: turns that no wall asks for, bends close upon each other, how much it turns at all.

The definitions are our own; no standard states figures for the craft of a route.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely

from ...elementwise import Array
from ..pipes.pipe_table import Mask
from ..pipes.turns import Turns

__all__ = ["Craft", "craft_of", "wall_directions"]

_SLIGHT = (math.radians(3.0), math.radians(60.0))
"""Turns between these are slight [rad]; less than that nobody sees."""
_PARALLEL = math.radians(4.0)
"""Pipe and wall whose directions differ by less run along each other [rad]."""
_OPPOSED = math.radians(30.0)
"""Bends count as opposite from here on [rad]."""
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Craft:
    """- ``slight_turns``: turns of less than 60 degrees of which a leg runs along no wall: no wall asks for them;
    - ``short_straights``: straights shorter than two bend radii between bends of opposite hand;
    - ``right_angles``: all turning of the pipe in right angles, for each square metre of floor [1/m2].
    """

    slight_turns: int
    short_straights: int
    right_angles: float


def craft_of(turns: Turns, walls: Array, bend_radius: float, area: float) -> Craft:
    """Of pipe on a floor of ``area`` [m2] with walls in the directions ``walls`` [rad]."""
    size = np.abs(turns.angle)
    slight = (size > _SLIGHT[0]) & (size < _SLIGHT[1])
    slight &= ~(_along(turns.before, walls) & _along(turns.after, walls))
    opposed = turns.angle[:-1] * turns.angle[1:] < 0.0
    opposed &= np.minimum(size[:-1], size[1:]) >= _OPPOSED
    short = opposed & (turns.straight[:-1] < 2.0 * bend_radius * (1.0 - _ROUNDING))
    return Craft(
        int(np.count_nonzero(slight)),
        int(np.count_nonzero(short)),
        math.fsum(size.tolist()) / (math.pi / 2.0) / area,
    )


def wall_directions(floor: shapely.Geometry) -> Array:
    """Directions of all walls and edges of voids, from 0 to half a turn [rad]."""
    steps = [np.diff(shapely.get_coordinates(ring), axis=0) for ring in shapely.get_rings(floor)]
    angles = {math.atan2(y, x) % math.pi for x, y in np.concatenate(steps).tolist()}
    return np.array(sorted(angles))


def _along(heading: Array, walls: Array) -> Mask:
    """Which headings run along some wall, either way."""
    turned = np.mod(heading, math.pi)
    nearest = np.searchsorted(walls, turned)
    apart = [np.abs(turned - walls[number]) for number in (nearest % len(walls), nearest - 1)]
    along: Mask = np.minimum(*(np.minimum(one, math.pi - one) for one in apart)) < _PARALLEL
    return along
