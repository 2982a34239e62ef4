"""Where a storey's manifold should stand, among the places that are allowed: least pipe in all tails.

Ways are shortest ways of pairs of pipes over free floor, through doorways, with clearance and bends; which ports
they take, so that none cross, comes from the tails as they are drawn.
"""

from __future__ import annotations

import math

from .cautions import MANIFOLD
from .checking import check
from .gathering import gathered
from .own_place import at_own_place, lower_left
from .results import Working
from .storey.lanes.tail_routes import routed_tails
from .storey.manifold.manifold_place import SitedManifold, best_manifold_place
from .storey.manifold.manifold_sites import Distances
from .storey.manifold.position_findings import position_findings
from .storey.manifold.position_plan import MOST_STOREY_CIRCUITS, PositionPlan, check_choice, position_plan
from .storey.manifold.position_records import (
    ManifoldPositionInputs,
    ManifoldPositionResult,
    ManifoldRoom,
    PlacedManifold,
    PlanDoorway,
    RoomTails,
    WallAllowed,
)
from .storey.model.tail_records import RoutedTails

__all__ = [
    "MOST_STOREY_CIRCUITS",
    "ManifoldPositionInputs",
    "ManifoldPositionResult",
    "ManifoldRoom",
    "PlacedManifold",
    "PlanDoorway",
    "RoomTails",
    "WallAllowed",
    "calculate",
    "workings",
]


def calculate(inputs: ManifoldPositionInputs) -> ManifoldPositionResult:
    """Place the manifolds of a storey, as few as ports and tail lengths allow.

    Raises ``InputError`` for rooms that overlap, a doorway on no wall or of no room, allowed places on no wall,
    a position outside, rooms that no allowed place reaches, and where no allowed wall takes a manifold.
    """
    check(inputs)
    return at_own_place(inputs, lower_left(room.outline for room in inputs.rooms), _calculated, "/rooms")


def _calculated(inputs: ManifoldPositionInputs) -> ManifoldPositionResult:
    storey = position_plan(inputs)
    choice = best_manifold_place(
        storey.plan,
        storey.demands,
        storey.allowed,
        tail_pitch=inputs.tail_pitch,
        wall_clearance=inputs.wall_clearance,
        bend_radius=inputs.pipe.bend_radius,
        ports_maximum=inputs.maximum_ports,
        tail_length_maximum=math.inf if inputs.maximum_tail_length is None else inputs.maximum_tail_length,
        given=storey.given,
    )
    check_choice(storey, choice)
    drawn = [_drawn(storey, sited) for sited in choice.manifolds]
    manifolds = tuple(
        _placed(storey, sited, tails, choice.distances)
        for sited, tails in zip(choice.manifolds, drawn, strict=True)
    )
    total = math.fsum(manifold.tail_pipe for manifold in manifolds)
    own = choice.given_tail_length
    return ManifoldPositionResult(
        manifolds=manifolds,
        tail_pipe=total,
        position_tail_pipe=own,
        position_excess=None if own is None else own - total,
        findings=gathered(position_findings(storey, choice, manifolds, drawn), inputs),
        cautions=MANIFOLD,
    )


def workings(inputs: ManifoldPositionInputs, result: ManifoldPositionResult) -> tuple[Working, ...]:
    """The ways and the pipe of each manifold."""
    rows = []
    for number, manifold in enumerate(result.manifolds, start=1):
        for tails in manifold.room_tails:
            rows.append(
                Working(
                    f"l_{tails.room}",
                    f"one way from manifold {number} to {tails.room}, {len(tails.circuit_ids)} circuits",
                    tails.tail_length,
                    "m",
                    "shortest way over free floor",
                    "Geometry",
                )
            )
        rows.append(
            Working(
                f"L_{number}",
                f"pipe in the tails of manifold {number}",
                manifold.tail_pipe,
                "m",
                "sum of 2 n l over its rooms",
                "Arithmetic",
            )
        )
    rows.append(Working("L", "pipe in all tails", result.tail_pipe, "m", "sum of L_i", "Arithmetic"))
    return tuple(rows)


def _drawn(storey: PositionPlan, sited: SitedManifold) -> RoutedTails:
    """The tails of one manifold as drawn: what order of ports lets them lie beside each other."""
    own = [demand for demand in storey.demands if demand.circuit in sited.circuits]
    rules = storey.rules
    return routed_tails(
        storey.plan,
        sited.manifold,
        own,
        tail_pitch=rules.tail_pitch,
        wall_clearance=rules.wall_clearance,
        bend_radius=rules.bend_radius,
    )


def _placed(
    storey: PositionPlan, sited: SitedManifold, tails: RoutedTails, distances: Distances
) -> PlacedManifold:
    ways = distances.to_rooms([sited.manifold])[0].tolist()
    served = sorted({demand.room for demand in storey.demands if demand.circuit in sited.circuits})
    rooms = tuple(
        RoomTails(
            storey.rooms[room].id,
            tuple(demand.circuit for demand in storey.demands if demand.room == room),
            float(ways[room]),
        )
        for room in served
    )
    late = tuple(tail.circuit for tail in tails.unrouted)
    return PlacedManifold(
        place=sited.manifold.place,
        ahead=(sited.manifold.ahead[0] + 0.0, sited.manifold.ahead[1] + 0.0),
        room=storey.rooms[sited.manifold.room].id,
        ports=(*tails.ports, *late),
        manifold_width=storey.rules.width_for(len(sited.circuits)),
        tail_pipe=math.fsum(2.0 * len(room.circuit_ids) * room.tail_length for room in rooms),
        room_tails=rooms,
    )
