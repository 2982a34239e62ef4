"""All lanes over one cell: pairs of pipes that pass it, drawn in until they keep their distance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.regions import Region, joined
from .bent_ways import bent_way, plain_corners
from .pitches import LaneRules, NarrowPlace, narrowest
from .way_lines import CellWays, Way

__all__ = ["CellLanes", "Lane", "LaneDemand", "Stub", "lanes_over"]

_DRAWN_IN = (1.0, 0.9, 0.8, 0.65, 0.5)
"""Shares of the widest pitch that are tried, until lanes keep their distance."""
_TOLERANCE = 4.5e-3
"""By which pipes of lanes may be nearer to each other than the least pitch [m]: they may do so in all of the drawing."""
_CHORD_ERROR = 1e-3
_STRAIGHT_ON = 2e-3
"""Pipe that leaves a gate squarely before it bends [m]."""


class Stub(NamedTuple):
    """Where a pair of pipes passes a gate: its ``right`` and ``left`` pipe [m] and its direction."""

    right: Point
    left: Point
    ahead: Point


class LaneDemand(NamedTuple):
    """A circuit's pair that passes a cell from one gate to another; ``keeps_right``: on which side it keeps; ``reach``:
    it does not go round floor that is narrower than twice this [m]."""

    circuit: str
    enters: Stub
    leaves: Stub
    keeps_right: bool
    reach: float


class Lane(NamedTuple):
    """Corners [m] of the right and of the left pipe of a circuit's pair over a cell, from gate to gate."""

    circuit: str
    right: tuple[Point, ...]
    left: tuple[Point, ...]


@dataclass(frozen=True)
class CellLanes:
    """``lanes`` over a cell, those ``without`` a way, and the place that is too narrow for them, where one is known."""

    lanes: tuple[Lane, ...]
    without: tuple[str, ...] = ()
    narrow: NarrowPlace | None = None

    def floor(self, reach: float) -> Region:
        """All within ``reach`` [m] of the lanes' pipes."""
        lines = [LineString(pipe) for lane in self.lanes for pipe in (lane.right, lane.left)]
        return joined(shapely.buffer(line, reach, cap_style="flat", join_style="mitre") for line in lines)


def lanes_over(
    cell: Polygon, demands: Sequence[LaneDemand], rules: LaneRules, gates: Sequence[tuple[Point, Point]]
) -> CellLanes:
    """The lanes of all demands, as far apart as they may be and still have a way; as many as have one."""
    if not demands:
        return CellLanes(())
    best: CellLanes | None = None
    for share in _DRAWN_IN:
        drawn = replace(rules, spacing=max(rules.least, share * rules.spacing))
        found = _drawn(cell, demands, drawn, gates)
        if best is None or len(found.without) < len(best.without):
            best = found
        if not best.without:
            break
    assert best is not None
    return best


def _drawn(
    cell: Polygon, demands: Sequence[LaneDemand], rules: LaneRules, gates: Sequence[tuple[Point, Point]]
) -> CellLanes:
    ways = [
        Way(enters, leaves, demand.keeps_right, demand.reach)
        for demand in demands
        for enters, leaves in (
            (demand.enters.right, demand.leaves.right),
            (demand.enters.left, demand.leaves.left),
        )
    ]
    over = CellWays(cell, ways, rules, gates)
    corners = over.lines
    lanes: list[Lane] = []
    lines: list[LineString] = []
    without = []
    for number, demand in enumerate(demands):
        pair = [_pipe(demand, corners[2 * number + side], side, rules) for side in (0, 1)]
        drawn = [bent_way(pipe, rules.bend_radius) for pipe in pair if pipe is not None]
        paths = [LineString(path.polyline(_CHORD_ERROR)) for path in drawn if path is not None]
        if len(paths) == 2 and _keeps_apart(paths, lines, cell, rules):
            assert pair[0] is not None and pair[1] is not None
            lanes.append(Lane(demand.circuit, tuple(pair[0]), tuple(pair[1])))
            lines += paths
        else:
            without.append(demand.circuit)
    return CellLanes(tuple(lanes), tuple(without), narrowest(over.plain, rules) if without else None)


def _pipe(demand: LaneDemand, corners: Array | None, side: int, rules: LaneRules) -> list[Point] | None:
    """Corners of a pipe that leaves both gates squarely."""
    if corners is None:
        return None
    start, end = demand.enters[side], demand.leaves[side]
    (ux, uy), (vx, vy) = demand.enters.ahead, demand.leaves.ahead
    first = (start[0] + _STRAIGHT_ON * ux, start[1] + _STRAIGHT_ON * uy)
    last = (end[0] - _STRAIGHT_ON * vx, end[1] - _STRAIGHT_ON * vy)
    away = np.minimum(*(np.hypot(*(corners - place).T) for place in (start, end)))
    inner = plain_corners(np.concatenate(([first], corners[away > 2.0 * _STRAIGHT_ON], [last])))
    return [start, *inner, end]


def _keeps_apart(
    pair: Sequence[LineString], others: Sequence[LineString], cell: Polygon, rules: LaneRules
) -> bool:
    least = rules.least - _TOLERANCE
    if not all(line.is_simple for line in pair) or pair[0].distance(pair[1]) < least:
        return False
    if others and shapely.distance(np.array(pair)[:, None], np.array(others)[None, :]).min() < least:
        return False
    return bool(shapely.covers(shapely.buffer(cell, _CHORD_ERROR), pair).all())
