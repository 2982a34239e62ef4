"""The cells of one room: cut where movement joints part it, and in equal shares for its circuits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate, pairwise

import shapely
from shapely import Polygon

from ...checking import Point
from ...plan.outlines.room_frame import RoomFrame, room_frame
from ..fields import circuits_of_fields, joint_fields
from ..records import Segment
from .floor_cuts import CutRules, CutTree, cells_of, cut_tree

__all__ = ["RoomCells", "room_cells"]

_MOST_STEP = 0.12
"""By how much of itself a share of the floor may change from one round to the next."""
_LEAST_SHARE = 0.3
"""Of the floor of equal cells, that a cell keeps."""


@dataclass(frozen=True)
class RoomCells:
    """How a room is cut: its ``fields`` between joints, in its own frame, each with its tree of cuts, and the
    ``shares`` of the floor, by cell."""

    frame: RoomFrame
    fields: tuple[Polygon, ...]
    trees: tuple[CutTree, ...]
    shares: tuple[float, ...]

    @property
    def count(self) -> int:
        return len(self.shares)

    @cached_property
    def starts(self) -> list[int]:
        """Number of the first cell of each field, and of all."""
        return list(accumulate((tree.count for tree in self.trees), initial=0))

    @cached_property
    def cells(self) -> tuple[Polygon, ...] | None:
        """In order of the cuts, in the storey's frame; ``None`` where a cut is not there with these shares."""
        found: list[Polygon] = []
        for field, tree, (low, high) in zip(self.fields, self.trees, pairwise(self.starts), strict=True):
            cells = cells_of(field, tree, self.shares[low:high])
            if cells is None:
                return None
            found += cells
        return tuple(shapely.orient_polygons(self.frame.from_local(cell)) for cell in found)

    def spread(self, lengths: Sequence[float]) -> float:
        """(Longest - shortest) / mean of the lengths by cell [m], the greatest over the fields."""
        spreads = [
            (max(own) - min(own)) * len(own) / sum(own)
            for low, high in pairwise(self.starts)
            for own in (lengths[low:high],)
        ]
        return max(spreads)

    def evened(self, lengths: Sequence[float], fixed: Sequence[float], step: float) -> RoomCells | None:
        """Cut anew so that lengths [m] become equal within each field, of which a part is ``fixed`` [m] whatever the
        cell, or by a ``step`` of the way; ``None`` where that cannot be cut."""
        shares: list[float] = []
        for low, high in pairwise(self.starts):
            own, tails, old = lengths[low:high], fixed[low:high], self.shares[low:high]
            mean = sum(own) / len(own)
            wanted = []
            for length, tail, share in zip(own, tails, old, strict=True):
                grown = (mean - tail) / max(length - tail, 1.0)
                wanted.append(max(_LEAST_SHARE, share * min(max(grown, 1.0 - _MOST_STEP), 1.0 + _MOST_STEP)))
            shares += [share * len(wanted) / sum(wanted) for share in wanted]
        for part in (step, step / 2.0):
            moved = tuple(old + part * (new - old) for old, new in zip(self.shares, shares, strict=True))
            found = replace(self, shares=moved)
            if found.cells is not None:
                return found
        return None


def room_cells(
    room: Polygon,
    joints: Sequence[Segment],
    count: int,
    *,
    spacing: float,
    clearance: float,
    longest: float,
    entry: Point,
    kept: Sequence[shapely.Geometry],
    rank: int,
) -> RoomCells | None:
    """A room cut in ``count`` cells, none across a joint; ``None`` where there are more fields than circuits.

    The room's own pipes come in at its ``entry``; no cut is to meet what is ``kept``. ``rank``: with the best first cut (0)
    or one after that.
    """
    frame = room_frame(room)
    fields = tuple(joint_fields(room, joints))
    counts = circuits_of_fields(fields, spacing, clearance, longest, count)
    if counts is None:
        return None
    local = tuple(shapely.orient_polygons(frame.to_local(field)) for field in fields)
    rules = CutRules(
        spacing, frame.to_local(shapely.Point(entry)), tuple(frame.to_local(each) for each in kept), rank
    )
    trees, shares = [], []
    for field, number in zip(local, counts, strict=True):
        tree, areas = cut_tree(field, number, rules)
        trees.append(tree)
        shares += [area * len(areas) / field.area for area in areas]
    return RoomCells(frame, local, tuple(trees), tuple(shares))
