"""The lines of all ways over a cell: each is the edge of what lies on one side of it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.ops import substring

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.loops import loop_of
from ...plan.outlines.regions import Region, common, dilated, joined, minus, parts_of
from ..records import Segment
from .cell_edge import CellEdge, Mark
from .pitches import LaneRules, pitches
from .ramps import with_ramps
from .side_table import SideTable, Span

__all__ = ["CellWays", "Way"]

_HAIR = 2e-4
"""By so much floor that others need is taken smaller, so that what fits exactly passes [m]."""
_ON_EDGE = 2e-3


class Way(NamedTuple):
    """The way of one pipe over a cell, from one point of its edge [m] to another, square to both. ``forward``: it comes
    to its end counter-clockwise along the edge; it does not go round floor narrower than twice its ``reach`` [m]."""

    start: Point
    end: Point
    forward: bool
    reach: float


@dataclass(frozen=True)
class CellWays:
    """Ways that do not cross over a cell, in any order; ``gates`` are the stretches of its edge that they pass."""

    cell: Polygon
    ways: Sequence[Way]
    rules: LaneRules
    gates: Sequence[Segment] = ()

    @cached_property
    def _spans(self) -> list[Span]:
        loop = loop_of(self.cell)
        return [Span(loop.project(way.start), loop.project(way.end), way.forward) for way in self.ways]

    @cached_property
    def _gate_marks(self) -> list[Mark]:
        loop = loop_of(self.cell)
        found = []
        for one, other in self.gates:
            low, high = loop.project(one), loop.project(other)
            if (high - low) % loop.length > loop.length / 2.0:
                low, high = high, low
            mark = Mark(low, low + (high - low) % loop.length, "gate", True)
            leaving = self._leaving(mark, loop.length)
            found.append(mark._replace(forward=not leaving or leaving[0].forward))
        return found

    def _leaving(self, gate: Mark, length: float) -> list[Span]:
        """Ways that leave by a gate."""
        return [span for span in self._spans if (span.end - gate.low) % length <= gate.high - gate.low]

    @cached_property
    def plain(self) -> SideTable:
        """With walls and gates alone."""
        return SideTable(CellEdge(self.cell, self._gate_marks), self._spans)

    @cached_property
    def table(self) -> SideTable:
        """With ramps where ways draw together."""
        return with_ramps(self.plain, self.rules)

    @cached_property
    def pitches(self) -> list[float]:
        """Of the stretches of the edge [m]."""
        return pitches(self.table, self.rules)

    def depths(self, way: int) -> list[float]:
        """Of a way from the stretches of the edge, with those between [m]."""
        edge, beside = self.table.edge, self.table.beside(way)
        found = []
        for number, pitch in enumerate(self.pitches):
            own = edge.stretch_of_place == number
            found.append(self.rules.off_wall + (float(beside[own].max()) if own.any() else 0.0) * pitch)
        return found

    def needed(self, way: int) -> tuple[Region, Region]:
        """Floor on the right and on the left of a way that the ways there need."""
        edge, span, depths = self.table.edge, self.table.spans[way], self.depths(way)
        return edge.strip(span.start, span.end, depths), edge.strip(span.end, span.start, depths)

    @cached_property
    def lines(self) -> list[Array | None]:
        """Corners of all ways [m], one a row; ``None``: there is no way. Those with the fewest others on their own side
        come first, and others keep off them."""
        drawn: dict[int, tuple[Region, Region]] = {}
        found: list[Array | None] = [None] * len(self.ways)
        for way in self._order:
            right, left = self.needed(way)
            for other in self._neighbours(way, drawn):
                behind = drawn[other][1 if self.table.of_ways[way, other] else 0]
                kept = dilated(behind, self.rules.least)
                if self.table.of_ways[other, way]:
                    right = joined((right, kept))
                else:
                    left = joined((left, kept))
            side, corners = self._drawn(way, right, left)
            found[way] = corners
            if side is not None and corners is not None:
                rest = minus(self.cell, side)
                drawn[way] = (side, rest) if self.ways[way].forward else (rest, side)
        return found

    @property
    def _order(self) -> list[int]:
        """Of the ways, by the number of others on their own side."""
        of_ways = self.table.of_ways
        on_right = of_ways.sum(axis=0) - np.diag(of_ways)
        counts = [
            int(on_right[way]) if each.forward else len(self.ways) - 1 - int(on_right[way])
            for way, each in enumerate(self.ways)
        ]
        return sorted(range(len(self.ways)), key=lambda way: (counts[way], way))

    def _neighbours(self, way: int, drawn: Collection[int]) -> Iterator[int]:
        """Ways drawn between which and a way there is no other one."""
        of_ways, others = self.table.of_ways, np.array(sorted(drawn), dtype=int)
        for other in others.tolist():
            between = of_ways[other, others] != of_ways[way, others]
            if not (between & (others != other)).any():
                yield other

    def _drawn(self, way: int, right: Region, left: Region) -> tuple[Region, Array | None]:
        """What lies on the own side of a way, and its corners."""
        one = self.ways[way]
        own, other = (right, left) if one.forward else (left, right)
        for part in parts_of(_side(own, other, self.cell, one.reach)):
            corners = _edge_between(part, *((one.start, one.end) if one.forward else (one.end, one.start)))
            if corners is not None:
                return part, corners if one.forward else corners[::-1]
        return None, None


def _side(own: Region, other: Region, cell: Polygon, reach: float) -> Region:
    """All floor on one side of a way: what is needed there, with what is too narrow to go round."""
    closed = dilated(dilated(own, reach), -reach) if reach > 0.0 else own
    return joined((minus(common(closed, cell), dilated(other, -_HAIR)), common(own, cell)))


def _edge_between(side: Polygon, start: Point, end: Point) -> Array | None:
    """The edge of what lies right of a way from start to end, away from the wall."""
    ring = shapely.orient_polygons(side).exterior
    points = shapely.points(np.array([start, end]))
    if (shapely.distance(ring, points) > _ON_EDGE).any():
        return None
    line = LineString(shapely.get_coordinates(ring))
    first, last = (float(line.project(point)) for point in points)
    if last < first:
        back = shapely.get_coordinates(substring(line, last, first))
    else:
        back = np.concatenate(
            (
                shapely.get_coordinates(substring(line, last, line.length)),
                shapely.get_coordinates(substring(line, 0.0, first)),
            )
        )
    corners: Array = np.concatenate(([start], back[::-1][1:-1], [end]))
    return corners
