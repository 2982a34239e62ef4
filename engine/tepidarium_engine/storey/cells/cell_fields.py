"""The pipe of a cell: laid on its floor, joined to the tails that lead to it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import shapely
from shapely import LineString, Polygon

from ...plan.judging.route_faults import CLEARANCE_TOLERANCE, ENTRY_TOLERANCE
from ...plan.laying.laying import Laid, LayingTask, lay
from ...plan.outlines.polygons import RoomOutline
from ...plan.pipes.pipe_path import PipePath
from ..lanes.cell_lanes import CellLanes, Stub
from ..pipe_ends import joined_ends
from ..tail_records import TailRules

__all__ = ["FieldJob", "joined_field", "laid_field", "outlined"]

_REACH = 0.6
"""Before and behind a gate a tail may bend so far into its field [m]."""
_BESIDE = 0.01
"""Beside a pair that passes a gate, and behind the gate [m]."""


class FieldJob(NamedTuple):
    """A floor to be laid by one circuit, and what is asked of it."""

    floor: Polygon
    task: LayingTask


def laid_field(job: FieldJob) -> Laid:
    return lay(outlined(job.floor), job.task)


def outlined(floor: Polygon) -> RoomOutline:
    """A floor as a room; the clearance holds along all of its edge."""
    low = (float(floor.bounds[0]), float(floor.bounds[1]))
    return RoomOutline(shapely.orient_polygons(shapely.transform(floor, lambda points: points - low)), low)


@dataclass(frozen=True)
class _Reach:
    """Where curves between tails and field may lie."""

    cell: Polygon
    lanes: CellLanes
    stub: Stub
    rules: TailRules

    def floor(self) -> shapely.Geometry:
        free = shapely.buffer(
            self.cell, -(self.rules.wall_clearance - CLEARANCE_TOLERANCE), join_style="mitre"
        )
        half = math.dist(self.stub.right, self.stub.left) / 2.0
        found = shapely.union_all(
            [
                free,
                self._box(-_REACH, _BESIDE, half + _BESIDE),
                self._box(0.0, _REACH, half + 2.0 * self.rules.bend_radius),
            ]
        )
        if self.lanes.lanes:
            pipes = shapely.union_all(
                [LineString(pipe) for lane in self.lanes.lanes for pipe in (lane.right, lane.left)]
            )
            found = shapely.difference(found, shapely.buffer(pipes, self.rules.tail_pitch - ENTRY_TOLERANCE))
        shapely.prepare(found)
        return found

    def _box(self, low: float, high: float, side: float) -> shapely.Geometry:
        """Before the gate from one distance to another [m], so far to either side of the pair."""
        (ax, ay), (bx, by), (u, v) = self.stub
        x, y = (ax + bx) / 2.0, (ay + by) / 2.0
        way = LineString([(x + low * u, y + low * v), (x + high * u, y + high * v)])
        return shapely.buffer(way, side, cap_style="flat")


def joined_field(
    path: PipePath,
    tails: tuple[PipePath, PipePath],
    cell: Polygon,
    lanes: CellLanes,
    stub: Stub,
    rules: TailRules,
) -> tuple[PipePath, float] | None:
    """The whole circuit from its port and back, and what of it is the ``path`` that is laid in the field [m]; ``tails``
    lead from the manifold to the field, that of the flow first."""
    if math.dist(path.start, tails[0].end) > math.dist(path.start, tails[1].end):
        path = path.reversed()
    floor = _Reach(cell, lanes, stub, rules).floor()
    return joined_ends(tails, path, rules.bend_radius, rules.tail_pitch, floor=floor)
