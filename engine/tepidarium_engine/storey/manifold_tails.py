"""The tails of all manifolds of a storey: one after the other, each in the floor that the others leave."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely import Polygon

from ..plan.outlines.regions import Region, joined, minus, parts_of
from .layout_records import StoreyTask
from .tail_order import manifold_middle
from .tail_records import Lane, ManifoldPlace, RoutedTails, StoreyPlan, TailDemand, TailRules
from .tail_routes import routed_tails

__all__ = ["all_tails", "tails_of_manifolds"]


def tails_of_manifolds(task: StoreyTask, demands: Sequence[Sequence[TailDemand]]) -> tuple[RoutedTails, ...]:
    """Tails by manifold, in order, for the demands of each; ``lanes`` of each are those of all.

    A manifold's tails keep off the lanes of those before it and off the floor before the ports of others.
    """
    rules = TailRules(task.tail_pitch, task.wall_clearance, task.bend_radius)
    fronts = [
        _front(task, number, own, rules) if len(demands) > 1 else None for number, own in enumerate(demands)
    ]
    lanes: list[Lane] = []
    found = []
    for number, (manifold, own) in enumerate(zip(task.manifolds, demands, strict=True)):
        others = [front for other, front in enumerate(fronts) if front is not None and other != number]
        tails = routed_tails(
            _plan_left(task.plan, [*lanes, *others], manifold),
            manifold,
            own,
            tail_pitch=task.tail_pitch,
            wall_clearance=task.wall_clearance,
            bend_radius=task.bend_radius,
        )
        lanes += tails.lanes
        found.append(tails)
    return tuple(replace(tails, lanes=tuple(lanes)) for tails in found)


def all_tails(found: Sequence[RoutedTails]) -> RoutedTails:
    """The tails of all manifolds as one record, in order of manifold."""
    return RoutedTails(
        ports=tuple(port for tails in found for port in tails.ports),
        places=tuple(place for tails in found for place in tails.places),
        routes=tuple(route for tails in found for route in tails.routes),
        lanes=found[0].lanes,
        unrouted=tuple(tail for tails in found for tail in tails.unrouted),
    )


def _front(task: StoreyTask, number: int, own: Sequence[TailDemand], rules: TailRules) -> Lane | None:
    """Floor before a manifold's ports that the circuits of its own room come into; ``None``: it has none."""
    manifold = task.manifolds[number]
    if all(demand.room != manifold.room for demand in own):
        return None
    (x, y), _ = manifold_middle(task.plan, manifold, len(own), rules)
    dx, dy = manifold.ahead
    half, deep = rules.width_for(len(own)) / 2.0, rules.pair_radius + rules.wall_clearance
    corners = [
        (x + side * half * dy + ahead * dx, y - side * half * dx + ahead * dy)
        for side, ahead in ((-1.0, -deep), (1.0, -deep), (1.0, deep), (-1.0, deep))
    ]
    return Lane(manifold.room, (), Polygon(corners))


def _plan_left(plan: StoreyPlan, taken: Sequence[Lane], manifold: ManifoldPlace) -> StoreyPlan:
    """The storey without floor that is taken; of a room that falls apart the part at the manifold, or the
    largest."""
    if not taken:
        return plan
    rooms = list(plan.rooms)
    for index in sorted({lane.room for lane in taken}):
        left = minus(rooms[index], joined(lane.floor for lane in taken if lane.room == index))
        rooms[index] = _part(left, manifold if manifold.room == index else None) or rooms[index]
    return replace(plan, rooms=tuple(rooms))


def _part(left: Region, manifold: ManifoldPlace | None) -> Polygon | None:
    parts = sorted(parts_of(left), key=lambda part: -round(float(part.area), 6))
    if manifold is not None:
        at = shapely.Point(manifold.place)
        parts.sort(key=lambda part: round(float(shapely.distance(part, at)), 3))
    return parts[0] if parts else None
