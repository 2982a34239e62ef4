"""How much of a room's floor the pipes of several circuits reach together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely import LineString

from ...plan.asking.route_records import RouteCoverage
from ...plan.judging.route_measures import CHORD_ERROR, MOST_SPOTS, NEAR, SERVED, BareSpot, band_of, bare_spot
from ...plan.outlines.heated_floor import heated_floor
from ...plan.outlines.overlays import difference, union
from ...plan.outlines.pipe_zone import WallClearance
from ...plan.outlines.polygons import RoomOutline
from ...plan.pipes.pipe_path import PipePath

__all__ = ["CoveredFloor", "room_coverage"]

_LEAST_SPOT = 1e-6
"""Of a spot that is told [m2]."""


@dataclass(frozen=True)
class CoveredFloor:
    """The floor of a ``room`` and all ``paths`` (in the caller's frame), lengths in metres; ``walls`` with a clearance
    of their own in the room's frame. The measure is that of ``route_measures``."""

    room: RoomOutline
    paths: Sequence[PipePath]
    pipe_spacing: float
    wall_clearance: float
    walls: Sequence[WallClearance] = ()

    @cached_property
    def floor(self) -> shapely.Geometry:
        """What is to be heated."""
        return heated_floor(self.room.polygon, self.pipe_spacing, self.wall_clearance, self.walls)

    @cached_property
    def bare(self) -> shapely.Geometry:
        """Floor that no pipe heats evenly."""
        return self.beyond(SERVED)

    @property
    def spots(self) -> tuple[BareSpot, ...]:
        """The largest parts of it."""
        x, y = self.room.origin
        pipes = union(self._lines)
        parts = [part for part in shapely.get_parts(self.bare) if part.area > _LEAST_SPOT]
        parts.sort(key=lambda part: (-round(part.area, 9), part.bounds))
        spots = [bare_spot(part, pipes) for part in parts[:MOST_SPOTS]]
        return tuple(
            BareSpot(s.area, (s.place[0] + x, s.place[1] + y), s.width, s.pipe_distance) for s in spots
        )

    def beyond(self, share: float) -> shapely.Geometry:
        """Floor that is further than a share of the spacing from all pipe."""
        reach = share * self.pipe_spacing
        return difference(self.floor, union([band_of(line, reach) for line in self._near]))

    @cached_property
    def _lines(self) -> list[LineString]:
        x, y = self.room.origin
        return [LineString(path.moved((-x, -y)).polyline(CHORD_ERROR)) for path in self.paths]

    @cached_property
    def _near(self) -> list[LineString]:
        return _clipped(self._lines, self.floor, self.pipe_spacing)


def room_coverage(covered: CoveredFloor) -> RouteCoverage:
    """Coverage of the whole room by all paths."""
    total, bare = float(covered.floor.area), float(covered.bare.area)
    near = 1.0 - float(covered.beyond(NEAR).area) / total
    return RouteCoverage(total, near, 1.0 - bare / total, bare, covered.spots)


def _clipped(lines: Sequence[LineString], floor: shapely.Geometry, spacing: float) -> list[LineString]:
    """The parts of the lines that floor may be near: the rest of a long pipe costs time and serves none of it."""
    west, south, east, north = shapely.bounds(shapely.buffer(floor, spacing, quad_segs=1)).tolist()
    parts = shapely.get_parts(shapely.clip_by_rect(lines, west, south, east, north))
    return [part for part in parts if part.length > 0.0]
