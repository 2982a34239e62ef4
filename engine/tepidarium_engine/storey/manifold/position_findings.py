"""What is said about the place of a manifold."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ...checking import Point
from ...results import Finding
from ..model.tail_records import RoutedTails, UnroutedTail
from .manifold_place import ManifoldChoice
from .plan_input import narrow_doorways
from .position_plan import PositionPlan
from .position_records import PlacedManifold

__all__ = ["POSITION_SOURCE", "WORTH_TELLING", "moved_to_wall", "position_findings"]

WORTH_TELLING = 1.0
"""Pipe that a better place saves before it is told [m]."""
_FROM_WALL = 0.15
"""How far from the wall the middle of a manifold is taken to hang on it [m]: the depth of a cabinet, or half a thick
wall (common practice, no source)."""
POSITION_SOURCE = "Rule of this calculation: least pipe in all tails, shortest ways over free floor"


def position_findings(
    storey: PositionPlan,
    choice: ManifoldChoice,
    manifolds: Sequence[PlacedManifold],
    drawn: Sequence[RoutedTails],
) -> Iterator[Finding]:
    if storey.given is not None and storey.inputs.position is not None:
        yield from moved_to_wall("manifold", storey.inputs.position, storey.given.place, "/position")
        yield from _about_position(storey, choice)
    if len(manifolds) > 1:
        yield Finding.at(
            "several_manifolds",
            "/maximum_ports",
            value=float(len(manifolds)),
            limit=1.0,
            source=POSITION_SOURCE,
            quantity="manifold_count",
        )
    doorways = storey.inputs.doorways
    yield from narrow_doorways(
        storey.plan.doorways,
        [doorway.width for doorway in doorways],
        [f"/doorways/{number}" for number in range(len(doorways))],
    )
    for number, tails in enumerate(drawn):
        for tail in tails.unrouted:
            yield _no_way(tail, number)


def moved_to_wall(name: str, position: Point, place: Point, where: str) -> Iterator[Finding]:
    """A manifold that was given away from the wall on which it is taken to stand."""
    away = math.dist(position, place)
    if away > _FROM_WALL:
        (x, y), (at_x, at_y) = position, place
        yield Finding.at(
            "manifold_moved",
            where,
            value=away,
            limit=_FROM_WALL,
            source="Geometry",
            point=place,
            quantity="manifold_shift",
            detail=f"From [{x:.2f}, {y:.2f}] to [{at_x:.2f}, {at_y:.2f}] m",
            subject=name,
        )


def _about_position(storey: PositionPlan, choice: ManifoldChoice) -> Iterator[Finding]:
    own, best = choice.given_tail_length, choice.tail_length
    if own is None:
        yield Finding.at(
            "position_reaches_not_all",
            "/position",
            source="Geometry",
            point=storey.inputs.position,
        )
    elif own - best > WORTH_TELLING:
        yield Finding.at(
            "better_position",
            "/position",
            detail=f"{own - best:.1f} m more than from the best place",
            value=own,
            limit=best,
            source=POSITION_SOURCE,
            point=storey.inputs.position,
            quantity="tail_pipe",
        )


def _no_way(tail: UnroutedTail, manifold: int) -> Finding:
    return Finding.at(
        "tail_without_way",
        f"/manifolds/{manifold}",
        detail=tail.reason,
        value=tail.width_there,
        limit=tail.width_needed,
        source="Geometry",
        point=tail.place,
        quantity="manifold_width",
        where_in="answer",
        subject=f"circuit {tail.circuit}",
    )
