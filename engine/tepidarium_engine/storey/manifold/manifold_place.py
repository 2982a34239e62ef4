"""Where a storey's manifolds should stand: where tails are shortest in all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..model.tail_records import ManifoldPlace, StoreyPlan, TailDemand, TailRules
from .manifold_sites import AllowedWall, Distances
from .place_search import FoundPlace, PlaceSearch, RoomDemand, Stand

__all__ = [
    "MOST_MANIFOLDS",
    "AllowedWall",
    "ManifoldChoice",
    "SitedManifold",
    "best_manifold_place",
]

MOST_MANIFOLDS = 8
"""Of a storey, where they are placed."""


@dataclass(frozen=True, slots=True)
class SitedManifold:
    """A manifold, its circuits in the order asked for, and the pipe in all their tails, flow and return [m]."""

    manifold: ManifoldPlace
    circuits: tuple[str, ...]
    tail_length: float


@dataclass(frozen=True, slots=True)
class ManifoldChoice:
    """``manifolds``: none where no allowed place serves all rooms that can be reached; ``tail_length`` [m] of
    all; ``given_tail_length`` [m] from the caller's own position, ``None`` without one or where it does not
    reach every room; ``unreached``: circuits of rooms that no allowed place reaches; ``distances``: the ways
    that were found for it."""

    manifolds: tuple[SitedManifold, ...]
    tail_length: float
    given_tail_length: float | None
    unreached: tuple[str, ...]
    distances: Distances


def best_manifold_place(
    plan: StoreyPlan,
    demands: Sequence[TailDemand],
    allowed: Sequence[AllowedWall],
    *,
    tail_pitch: float,
    wall_clearance: float,
    bend_radius: float,
    ports_maximum: int = 12,
    tail_length_maximum: float = math.inf,
    given: ManifoldPlace | None = None,
) -> ManifoldChoice:
    """As few manifolds as ``ports_maximum`` circuits each and ``tail_length_maximum`` [m] (one way) allow, at
    places on ``allowed`` walls, each room wholly on one of them.

    Lengths are those of shortest ways over free floor, each pair for itself. Doorways are kept clear.
    """
    distances = Distances.of(plan, TailRules(tail_pitch, wall_clearance, bend_radius))
    search = PlaceSearch(distances, min(ports_maximum, len(demands)), tail_length_maximum)
    walls = tuple(allowed)
    _, lengths = search.along(walls, search.ports)
    rooms = sorted({demand.room for demand in demands})
    reached = [room for room in rooms if np.isfinite(lengths[:, room]).any()]
    wanted = [RoomDemand(room, sum(demand.room == room for demand in demands)) for room in reached]
    found = _fewest(search, walls, wanted)
    sited = tuple(
        SitedManifold(
            one.place, _circuits(demands, {reached[column] for column in one.served}), one.tail_length
        )
        for one in found
        if one.served
    )
    given_length = None
    if given is not None:
        ways = distances.to_rooms([given])[0]
        total = math.fsum(2.0 * float(ways[demand.room]) for demand in demands)
        given_length = total if math.isfinite(total) else None
    return ManifoldChoice(
        sited,
        math.fsum(one.tail_length for one in sited),
        given_length,
        tuple(demand.circuit for demand in demands if demand.room not in reached),
        distances,
    )


def _circuits(demands: Sequence[TailDemand], rooms: set[int]) -> tuple[str, ...]:
    return tuple(demand.circuit for demand in demands if demand.room in rooms)


def _fewest(
    search: PlaceSearch, walls: tuple[AllowedWall, ...], wanted: Sequence[RoomDemand]
) -> list[FoundPlace]:
    least = math.ceil(sum(demand.circuits for demand in wanted) / search.ports)
    for count in range(max(1, least), MOST_MANIFOLDS + 1) if wanted else ():
        found = search.question([Stand(walls=walls)] * count, wanted).answer()
        if found is not None:
            return found
    return []
