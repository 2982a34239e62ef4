"""Length of the way between manifold and room, estimated until routes are drawn."""

from __future__ import annotations

from typing import NamedTuple

from shapely import Point as PointGeometry

from ..checking import Point
from ..errors import Fault, InputError, required
from ..plan.lengths.lengths import circuit_length_rule
from .floors import RoomToHeat
from .records import DesignsInputs, Manifold

__all__ = ["ASSUMED_TAIL", "Tail", "check_tail", "estimated_tail"]

ASSUMED_TAIL = 5.0
"""One way [m], where neither the tail nor two positions are known (common practice, no source)."""


class Tail(NamedTuple):
    length: float
    known: bool


def estimated_tail(heated: RoomToHeat, manifold: Manifold) -> Tail:
    """One way from a port to the room [m].

    Pipes run along walls, so the way is counted square to the axes of the plan: from the manifold to the room's
    entry, or to the nearest spot of its outline, and the height of the manifold on top.
    """
    room = heated.room
    if room.tail_length is not None:
        return Tail(room.tail_length, True)
    if manifold.position is None or (room.entry is None and room.outline is None):
        return Tail(ASSUMED_TAIL, False)
    if room.entry is not None:
        return Tail(_square_distance(manifold.position, room.entry) + manifold.height, True)
    return Tail(_square_distance_to_room(heated, manifold.position) + manifold.height, True)


def _square_distance(a: Point, b: Point) -> float:
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def _square_distance_to_room(heated: RoomToHeat, position: Point) -> float:
    """Least |dx| + |dy| to the outline: it lies at a corner or where an edge is level with the position."""
    outline, ring = required(heated.outline, "the outline"), required(heated.room.outline, "the outline")
    origin = outline.origin
    if outline.polygon.covers(PointGeometry(position[0] - origin[0], position[1] - origin[1])):
        return 0.0
    best = min(_square_distance(position, corner) for corner in ring)
    for (x1, y1), (x2, y2) in zip(ring, ring[1:] + ring[:1], strict=True):
        if min(x1, x2) < position[0] < max(x1, x2):
            best = min(best, abs(y1 + (y2 - y1) * (position[0] - x1) / (x2 - x1) - position[1]))
        if min(y1, y2) < position[1] < max(y1, y2):
            best = min(best, abs(x1 + (x2 - x1) * (position[1] - y1) / (y2 - y1) - position[0]))
    return best


def check_tail(inputs: DesignsInputs, heated: RoomToHeat, tail: Tail, manifold: str) -> None:
    """Tails that leave nothing of a circuit: too long if they use up a usual circuit, else the limit is too short."""
    usual = circuit_length_rule(inputs.pipe).usual
    given = inputs.limits.maximum_circuit_length
    limit = usual if given is None else given
    if 2.0 * tail.length < limit:
        return
    if heated.room.tail_length is not None:
        where = f"{heated.pointer}/tail_length"
    elif tail.known and (given is None or 2.0 * tail.length >= usual):
        where = f"{manifold}/position"
    else:
        where = "/limits/maximum_circuit_length"
    raise InputError(
        Fault(
            where,
            "tails_too_long",
            f"leaves nothing to the circuits of {heated.label}: flow and return between manifold and room take "
            f"{2.0 * tail.length:.1f} m of the permitted {limit:g} m",
            2.0 * tail.length if where.startswith("/limits") else limit / 2.0,
        )
    )
