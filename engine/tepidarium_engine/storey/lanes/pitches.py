"""How far apart the pipes of lanes lie, place by place: as wide as the floor between two walls lets all of them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ...checking import Point
from ...elementwise import Array
from .cell_edge import CellEdge
from .side_table import SideTable

__all__ = ["LaneRules", "NarrowPlace", "narrowest", "pitches", "slope_at"]

_STRETCH = 1.35
"""Widest pitch in spacings of the floor: floor between two pipes is then heated evenly enough."""
_STEEPEST = math.tan(math.radians(35.0))
_LEAST_SLOPE = math.tan(math.radians(12.0))
"""Of pipes that part from each other or draw together, as way aside over way along."""
_ALIKE = 1.3
"""Pitches along a wall that differ by no more than this factor are made one: pipes then run straight."""
_NEARLY = 3e-3
"""By which pipes may be nearer to each other than the least pitch, where all of them miss a little room [m]."""
_SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class LaneRules:
    """Lengths in metres: ``clearance`` of a lane's pipe from walls, ``bend_radius``, the ``least`` pitch, and the
    ``spacing`` of the floor."""

    clearance: float
    bend_radius: float
    least: float
    spacing: float

    @property
    def widest(self) -> float:
        return max(self.least, _STRETCH * self.spacing)

    @property
    def off_wall(self) -> float:
        """Of a way from walls: so much that it can leave a wall squarely and turn along it [m]."""
        return max(self.clearance, self.bend_radius) + 1e-3

    def width_for(self, pipes: float) -> float:
        """Floor that pipes side by side take at least between two walls [m]."""
        return 2.0 * self.clearance + max(0.0, pipes - 1.0) * self.least


class NarrowPlace(NamedTuple):
    """``pipes`` were to pass between two places, ``width`` [m] apart, round about ``place``; they need ``needed`` [m]."""

    place: Point
    pipes: int
    width: float
    needed: float


def slope_at(pitch: float, least: float) -> float:
    """How steeply pipes at a pitch may run aside and still keep the least distance: way aside over way along."""
    if pitch <= least:
        return _LEAST_SLOPE
    cosine = least / pitch
    return min(_STEEPEST, max(_LEAST_SLOPE, math.sqrt(1.0 - cosine * cosine) / cosine))


def _shares(table: SideTable, rules: LaneRules) -> Array:
    """The pitch that each two places leave the pipes between them [m]; infinite where no two pass between."""
    edge = table.edge
    between = np.where(edge.meet, table.between_ends, table.between)
    with np.errstate(divide="ignore", invalid="ignore"):
        share = (edge.apart - 2.0 * rules.off_wall) / (between - 1.0)
    found: Array = np.where(edge.facing & (between > 1.0 + 1e-9), share, np.inf)
    return found


def _up_to_slots(table: SideTable, rules: LaneRules) -> Array:
    """The pitch that each place leaves the pipes between it and the ends of all ways [m]."""
    edge = table.edge
    found = np.full(len(edge.positions), np.inf)
    for way, span in enumerate(table.spans):
        beside = table.beside(way)
        for end in (span.start, span.end):
            steps = np.array(edge.loop.at(end)) - edge.places
            ahead = (steps * edge.inward).sum(axis=1) > _SLACK
            with np.errstate(divide="ignore", invalid="ignore"):
                share = (np.hypot(steps[:, 0], steps[:, 1]) - rules.off_wall) / beside
            found = np.where(ahead & (beside > 0.5), np.minimum(found, share), found)
    return found


def narrowest(table: SideTable, rules: LaneRules) -> NarrowPlace | None:
    """The place that takes the pipes between two walls least of all; ``None``: all of them have room."""
    edge, between = table.edge, np.round(table.between)
    needed = 2.0 * rules.clearance + np.maximum(between - 1.0, 0.0) * rules.least
    short = np.where(edge.facing & (between > 0.5), edge.apart - needed, np.inf)
    if not len(short) or short.min() >= -_SLACK:
        return None
    row, column = np.unravel_index(int(np.round(short, 6).argmin()), short.shape)
    (ax, ay), (bx, by) = edge.places[[row, column]].tolist()
    return NarrowPlace(
        ((ax + bx) / 2.0, (ay + by) / 2.0),
        int(between[row, column]),
        float(edge.apart[row, column]),
        float(needed[row, column]),
    )


def pitches(table: SideTable, rules: LaneRules) -> list[float]:
    """The pitch along each stretch of the edge [m]; neighbours on one wall that are nearly alike have one."""
    edge = table.edge
    share = np.minimum(_shares(table, rules).min(axis=1, initial=np.inf), _up_to_slots(table, rules))
    wanted = np.where(share <= rules.widest, share, max(rules.spacing, rules.least))
    wanted = np.where(wanted >= rules.least - _NEARLY, wanted, rules.least)
    found = [rules.spacing] * len(edge.stretches)
    for number in np.unique(edge.stretch_of_place).tolist():
        found[number] = float(wanted[edge.stretch_of_place == number].min())
    return _alike(edge, found)


def _alike(edge: CellEdge, pitches: list[float]) -> list[float]:
    """One pitch from ramp to ramp along each wall, and past short walls between ramps."""
    found = list(pitches)
    for wall in range(len(edge.loop.points)):
        group: list[int] = []
        ramp = False
        for number, one in enumerate(edge.stretches):
            if one.wall != wall:
                continue
            ramp |= one.kind == "ramp"
            if one.kind != "wall":
                continue
            values = [pitches[each] for each in (*group, number)]
            if ramp and max(values) > _ALIKE * min(values):
                group = []
            ramp = False
            group.append(number)
            least = min(pitches[each] for each in group)
            for each in group:
                found[each] = least
    return found
