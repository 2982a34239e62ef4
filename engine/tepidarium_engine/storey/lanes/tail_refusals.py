"""Tails that find no way: where it is too narrow, for how many pairs, and what would help."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.overlays import intersection
from ...plan.outlines.regions import eroded
from ..model.tail_records import ManifoldPlace, StoreyPlan, TailDemand, TailRules, UnroutedTail
from .lane_way import Pose, WayCosts, lane_way
from .relief import doorway_uses
from .room_lanes import LaidLanes
from .tail_order import RoomOrder, manifold_middle, row_of, slots
from .walkways import Access

__all__ = ["ANOTHER_MANIFOLD", "OTHER_MANIFOLD", "PLACES", "admitted", "no_bend", "no_lane", "widen"]

_STEP = 0.05
"""Between places at which the width beside a way is measured [m]."""
ANOTHER_MANIFOLD = "give part of the circuits another manifold"
OTHER_MANIFOLD = "serve this room from the other manifold"
PLACES = {
    "manifold": "the stretch of wall of the manifold",
    "doorway": "the doorway",
    "room": "the room there",
}
_OTHER_WAY = "Open a doorway that takes a pair of pipes to this room, or place a manifold in reach of it."
_ROOM_TO_BEND = "Leave more floor before the doorway, or take a pipe that bends with a smaller radius."


def widen(missing: Mapping[str, float], otherwise: str) -> str:
    """The least change that lets all pairs pass, by the width [m] that each place lacks, and what can be done
    otherwise."""
    parts = [
        f"{place} by {math.ceil(100.0 * width - 1e-6) / 100.0:.2f} m" for place, width in missing.items()
    ]
    listed = " and ".join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)
    return f"Widen {listed}, or {otherwise}."


@dataclass(frozen=True, slots=True)
class _Spot:
    """A place that does not take the pairs that were to pass; without a ``remedy`` it is to be wider."""

    named: str
    index: int
    place: Point
    pairs: int
    width: float
    remedy: str = ""

    def refusal(self, circuit: str, rules: TailRules) -> UnroutedTail:
        needed = rules.width_for(self.pairs)
        remedy = self.remedy or widen({PLACES[self.named]: needed - self.width}, ANOTHER_MANIFOLD)
        return UnroutedTail(
            circuit, self.named, self.index, self.place, self.pairs, needed, self.width, remedy
        )


def admitted(
    plan: StoreyPlan,
    manifold: ManifoldPlace,
    reached: Mapping[int, Access],
    demands: Sequence[TailDemand],
    rules: TailRules,
) -> tuple[list[TailDemand], list[UnroutedTail]]:
    """Circuits, in the order given, that the manifold's wall and the doorways on their way take: those of the nearest
    rooms first, whose tails take the least of what all share."""
    wall = manifold_middle(plan, manifold, len(demands), rules)[1]
    asked = doorway_uses(reached, demands)
    count = sum(demand.room in reached for demand in demands)
    used: dict[int, int] = {}
    kept: set[str] = set()
    refused = {}
    for demand in sorted(
        demands, key=lambda one: reached[one.room].length if one.room in reached else math.inf
    ):
        row = row_of(reached, demand.room) if demand.room in reached else []
        full = next((p for p in row if used.get(p.doorway, 0) >= rules.pairs_in(p.width)), None)
        if demand.room not in reached:
            spot = _Spot("no_way", demand.room, manifold.place, 1, 0.0, _OTHER_WAY)
        elif len(kept) >= rules.pairs_in(wall):
            spot = _Spot("manifold", manifold.room, manifold.place, count, wall)
        elif full is not None:
            spot = _Spot("doorway", full.doorway, full.near, asked[full.doorway], full.width)
        else:
            kept.add(demand.circuit)
            for passage in row:
                used[passage.doorway] = used.get(passage.doorway, 0) + 1
            continue
        refused[demand.circuit] = spot.refusal(demand.circuit, rules)
    return (
        [demand for demand in demands if demand.circuit in kept],
        [refused[demand.circuit] for demand in demands if demand.circuit in refused],
    )


def no_lane(
    plan: StoreyPlan, order: RoomOrder, laid: LaidLanes, entry: tuple[Point, Point], rules: TailRules
) -> list[UnroutedTail]:
    """For each pair without a way: the narrowest place on the way that it would take if it were alone."""
    return [_no_lane(plan, order, laid, circuit=circuit, entry=entry, rules=rules) for circuit in laid.failed]


def _no_lane(
    plan: StoreyPlan,
    order: RoomOrder,
    laid: LaidLanes,
    *,
    circuit: str,
    entry: tuple[Point, Point],
    rules: TailRules,
) -> UnroutedTail:
    room = plan.rooms[order.room]
    place = slots(*entry, len(order.circuits), rules)[order.circuits.index(circuit)]
    target = next(passage for passage, circuits in order.exits if circuit in circuits)
    alone = lane_way(
        eroded(room, rules.pair_clearance),
        room,
        Pose(place, entry[1]),
        Pose(target.near, (-target.ahead[0], -target.ahead[1])),
        side="any",
        rules=rules,
        costs=WayCosts(1.3),
    )
    if alone is None:
        return _Spot("room", order.room, target.near, 1, 0.0, _ROOM_TO_BEND).refusal(circuit, rules)
    others = [LineString(corners) for corners in laid.corners.values()]
    spare, where, pairs, width = min(_narrowness(room, alone, others, rules))
    remedy = "" if spare < 0.0 else _ROOM_TO_BEND
    return _Spot("room", order.room, where, pairs, width, remedy).refusal(circuit, rules)


def _narrowness(
    room: Polygon, way: Sequence[Point], others: Sequence[LineString], rules: TailRules
) -> list[tuple[float, Point, int, float]]:
    """Along a way: width to spare, place, pairs side by side with this one, width of the room across."""
    line = LineString(way)
    reach = math.hypot(room.bounds[2] - room.bounds[0], room.bounds[3] - room.bounds[1])
    found = []
    for at in np.arange(_STEP, line.length, _STEP).tolist():
        (x0, y0), (x1, y1) = (line.interpolate(at + shift).coords[0] for shift in (-1e-3, 1e-3))
        length = math.hypot(x1 - x0, y1 - y0)
        across = (-(y1 - y0) / length, (x1 - x0) / length)
        x, y = (x0 + x1) / 2.0, (y0 + y1) / 2.0
        ends = [(x + sign * reach * across[0], y + sign * reach * across[1]) for sign in (-1.0, 1.0)]
        chords = shapely.get_parts(intersection(LineString(ends), room))
        chord = chords[int(shapely.distance(chords, shapely.Point(x, y)).argmin())]
        pairs = 1 + sum(bool(chord.intersects(other)) for other in others)
        width = float(chord.length)
        found.append((round(width - rules.width_for(pairs), 6), (x, y), pairs, width))
    return found


def no_bend(demand: TailDemand, corners: Sequence[Point], rules: TailRules) -> UnroutedTail:
    """A way whose corners leave no room for the bend radius."""
    return _Spot("room", demand.room, corners[-1], 1, 0.0, _ROOM_TO_BEND).refusal(demand.circuit, rules)
