"""Doorways that the tails of several manifolds pass: each manifold has its part of the width, beside each other."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.overlays import intersection
from ...plan.outlines.regions import Region, joined, minus, opened, parts_of
from ..model.layout_records import StoreyTask
from ..model.records import Doorway, Segment
from ..model.tail_records import Lane, StoreyPlan, TailDemand, TailRules
from .relief import doorway_uses, relieved
from .walkways import Access, Walkways, access_to_rooms

__all__ = ["Sharing", "front_of"]

_TOUCHED = 1e-3
"""A doorway so near to a part of a room opens into it [m]."""
_HAIR = 1e-4
_SLIVER = 1e-3
"""Half the width of what is no floor between tails and a wall [m]."""
_NO_WIDTH = 1e-6
"""Of what is left of a doorway that is taken [m]."""


@dataclass(frozen=True)
class Sharing:
    """The storey as each of its manifolds may use it while those before it lie and those after it are to come."""

    task: StoreyTask
    demands: Sequence[Sequence[TailDemand]]
    rules: TailRules

    @cached_property
    def reached(self) -> list[dict[int, Access]]:
        """By manifold: how it would reach all rooms if it were alone."""
        walkways = Walkways(self.task.plan, self.rules)
        return [
            relieved(walkways, manifold, access_to_rooms(walkways, manifold), own)
            for manifold, own in zip(self.task.manifolds, self.demands, strict=True)
        ]

    @cached_property
    def uses(self) -> list[dict[int, int]]:
        """By manifold: pairs that would pass each doorway."""
        return [doorway_uses(*each) for each in zip(self.reached, self.demands, strict=True)]

    @cached_property
    def shared(self) -> list[int]:
        """Doorways that more than one manifold would use."""
        counts: dict[int, int] = {}
        for uses in self.uses:
            for doorway in uses:
                counts[doorway] = counts.get(doorway, 0) + 1
        return sorted(doorway for doorway, count in counts.items() if count > 1)

    def plan_for(
        self, number: int, later: Sequence[int], taken: Sequence[Lane], at_start: Mapping[int, bool]
    ) -> StoreyPlan:
        """The storey without floor that is ``taken``. Of a doorway that ``later`` manifolds share it has one end: that
        at the start of its first stretch or the other."""
        rooms = list(self.task.plan.rooms)
        gone = {
            index: joined(lane.floor for lane in taken if lane.room == index) for index in range(len(rooms))
        }
        doorways = tuple(
            self._narrowed(number, later, index, gone, at_start.get(index, True))
            for index in range(len(self.task.plan.doorways))
        )
        for index, floor in gone.items():
            if floor is not None:
                left = opened(minus(rooms[index], floor), _SLIVER)
                rooms[index] = self._part(number, index, left, doorways) or rooms[index]
        return StoreyPlan(tuple(rooms), doorways, tuple(self._entries(number)))

    def _narrowed(
        self, number: int, later: Sequence[int], index: int, gone: Mapping[int, Region], at_start: bool
    ) -> Doorway:
        """What a manifold may use of a doorway; a doorway that is taken stays, to keep its number, without width."""
        whole = self.task.plan.doorways[index]
        left = _left_of(whole, [gone[room] for room in whole.rooms])
        if left is None:
            return _between(whole, 0.0, _NO_WIDTH)
        ours = self.uses[number].get(index, 0)
        others = [pairs for other in later if (pairs := self.uses[other].get(index, 0))]
        return self._end_of(left, ours, others, at_start) if ours and others else left

    def _entries(self, number: int) -> Iterator[tuple[int, Point]]:
        """Rooms with circuits of other manifolds, and where these would come in."""
        for other, (manifold, reached) in enumerate(zip(self.task.manifolds, self.reached, strict=True)):
            rooms = sorted({demand.room for demand in self.demands[other]} & reached.keys())
            for room in rooms if other != number else ():
                passage = reached[room].passage
                yield room, manifold.place if passage is None else passage.far

    def _end_of(self, doorway: Doorway, ours: int, others: Sequence[int], at_start: bool) -> Doorway:
        """The end of a doorway that takes our pairs and its share of what is to spare; all of it where the doorway is
        too narrow for all. Tails of others count as a wall."""
        width = _width(doorway)
        needed = self.rules.width_for(ours) + sum(
            self.rules.width_for(pairs) - self.rules.wall_clearance for pairs in others
        )
        if needed > width:
            return doorway
        own = self.rules.width_for(ours) + (width - needed) / (1 + len(others))
        return _between(doorway, 0.0, own) if at_start else _between(doorway, width - own, width)

    def _part(self, number: int, index: int, left: Region, doorways: Sequence[Doorway]) -> Polygon | None:
        """Of a room that falls apart the part at the manifold, or that into which most of the doorways that it would
        use open, the largest of them."""
        manifold = self.task.manifolds[number]
        parts = sorted(parts_of(left), key=lambda part: -round(float(part.area), 6))
        if index == manifold.room:
            at = shapely.Point(manifold.place)
            parts.sort(key=lambda part: round(float(shapely.distance(part, at)), 3))
        elif len(parts) > 1:
            used = set(self.uses[number])
            stretches = [
                LineString(stretch)
                for place, doorway in enumerate(doorways)
                if place in used
                for room, stretch in zip(doorway.rooms, doorway.stretches, strict=True)
                if room == index
            ]
            parts.sort(key=lambda part: -sum(part.distance(stretch) < _TOUCHED for stretch in stretches))
        return parts[0] if parts else None


def front_of(room: int, place: Point, ahead: Point, width: float, rules: TailRules) -> Lane:
    """Floor of a room, ``width`` [m] wide, before a place on its outline where pairs come in or leave."""
    (x, y), (dx, dy) = place, ahead
    half, deep = width / 2.0, rules.pair_radius + rules.wall_clearance
    corners = [
        (x + side * half * dy + far * dx, y - side * half * dx + far * dy)
        for side, far in ((-1.0, -deep), (1.0, -deep), (1.0, deep), (-1.0, deep))
    ]
    return Lane(room, (), Polygon(corners))


def _width(doorway: Doorway) -> float:
    return math.dist(*doorway.stretches[0])


def _between(doorway: Doorway, low: float, high: float) -> Doorway:
    """What of a doorway lies between two distances from the start of its first stretch, on both sides of the wall."""
    (x0, y0), (x1, y1) = doorway.stretches[0]
    length = math.dist((x0, y0), (x1, y1))
    along = ((x1 - x0) / length, (y1 - y0) / length)
    return replace(
        doorway,
        stretches=(
            _clipped(doorway.stretches[0], (x0, y0), along, low, high),
            _clipped(doorway.stretches[1], (x0, y0), along, low, high),
        ),
    )


def _clipped(stretch: Segment, origin: Point, along: Point, low: float, high: float) -> Segment:
    """The stretch between two distances along from an origin, in its own direction."""
    start, end = ((x - origin[0]) * along[0] + (y - origin[1]) * along[1] for x, y in stretch)
    (x0, y0), (x1, y1) = stretch
    first, last = (low, high) if start < end else (high, low)
    shares = [min(max((at - start) / (end - start), 0.0), 1.0) for at in (first, last)]
    a, b = ((x0 + share * (x1 - x0), y0 + share * (y1 - y0)) for share in shares)
    return (a, b)


def _left_of(doorway: Doorway, taken: Sequence[Region]) -> Doorway | None:
    """The widest part of a doorway that is not taken on either side; ``None``: nothing is left of it."""
    if all(region is None for region in taken):
        return doorway
    (x0, y0), (x1, y1) = doorway.stretches[0]
    length = math.dist((x0, y0), (x1, y1))
    along = ((x1 - x0) / length, (y1 - y0) / length)
    covered: list[tuple[float, float]] = []
    for stretch, region in zip(doorway.stretches, taken, strict=True):
        if region is None:
            continue
        wide = shapely.buffer(region, _HAIR, join_style="mitre")
        for piece in shapely.get_parts(intersection(LineString(stretch), wide)):
            points: Array = shapely.get_coordinates(piece)
            spans = ((points - (x0, y0)) @ along).tolist()
            if len(spans) > 1 and max(spans) - min(spans) > 3.0 * _HAIR:
                covered.append((min(spans), max(spans)))
    if not covered:
        return doorway
    free, at = [], 0.0
    for low, high in sorted(covered):
        free.append((at, low))
        at = max(at, high)
    free.append((at, length))
    low, high = max(free, key=lambda span: round(span[1] - span[0], 6))
    return _between(doorway, low, high) if high - low > _HAIR else None
