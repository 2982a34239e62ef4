"""Which of several manifolds serves which room, and where they stand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..elementwise import Array

__all__ = ["Assignment", "Siting", "assigned", "rooms_shared"]

_ROUNDS = 50
_BETTER = 1e-6
"""Less gain than this is none [m]."""


@dataclass(frozen=True)
class Siting:
    """``costs`` [m]: of all tails of a room (column) from a place (row), infinite where it must not be served
    from there; ``circuits`` of each room; ``ports`` of a manifold; ``apart``: which places can both be taken."""

    costs: Array
    circuits: Array
    ports: int
    apart: Array


@dataclass(frozen=True)
class Assignment:
    """Rows of the places taken, and for each room the number of its manifold among them."""

    places: tuple[int, ...]
    manifolds: tuple[int, ...]
    cost: float


def assigned(siting: Siting, count: int) -> Assignment | None:
    """The best found with ``count`` manifolds: places added one by one, then rooms and places exchanged while
    that helps. ``None``: no room for all circuits was found within the ports and lengths."""
    best: Assignment | None = None
    for first in _starts(siting):
        places = _added(siting, [first], count)
        found = _exchanged(siting, places) if places is not None else None
        if found is not None and (best is None or found.cost < best.cost - _BETTER):
            best = found
    return best


def _capped(costs: Array) -> Array:
    """Costs with a large number in place of none, so that sums can be compared."""
    finite = costs[np.isfinite(costs)]
    limit = 1e3 * (1.0 + float(finite.sum() if len(finite) else 0.0))
    capped: Array = np.where(np.isfinite(costs), costs, limit)
    return capped


def _starts(siting: Siting) -> list[int]:
    """The best single place, and the best place for each room."""
    costs = _capped(siting.costs)
    chosen = [int(costs.sum(axis=1).argmin()), *(int(row) for row in costs.argmin(axis=0))]
    return list(dict.fromkeys(chosen))


def _added(siting: Siting, places: list[int], count: int) -> list[int] | None:
    costs = _capped(siting.costs)
    while len(places) < count:
        served = np.minimum(costs, costs[places].min(axis=0)[None, :]).sum(axis=1)
        served = np.where(siting.apart[places].all(axis=0), served, np.inf)
        if not np.isfinite(served).any():
            return None
        places.append(int(np.round(served, 6).argmin()))
    return places


def _exchanged(siting: Siting, places: list[int]) -> Assignment | None:
    costs = _capped(siting.costs)
    found: Assignment | None = None
    for _ in range(_ROUNDS):
        manifolds = rooms_shared(costs[places], siting.circuits, siting.ports)
        if manifolds is None:
            return found
        total = _total(siting.costs, places, manifolds)
        if found is not None and not total < found.cost - _BETTER:
            break
        if np.isfinite(total):
            found = Assignment(tuple(places), tuple(manifolds), total)
        elif found is not None:
            break
        moved = _moved(siting, costs, places, manifolds)
        if moved == places:
            break
        places = moved
    return found


def _total(costs: Array, places: list[int], manifolds: list[int]) -> float:
    return float(sum(costs[places[manifold], room] for room, manifold in enumerate(manifolds)))


def rooms_shared(costs: Array, circuits: Array, ports: int) -> list[int] | None:
    """The manifold (row of ``costs`` [m]) of each room (column), none with more than ``ports`` circuits.

    Those that would lose most by their second choice first, then single moves and swaps while they help; infinite
    costs are taken only where nothing else is left. ``None``: no room for all circuits was found.
    """
    costs = _capped(costs)
    free = np.full(len(costs), ports)
    ordered = np.sort(costs, axis=0)
    regret = ordered[1] - ordered[0] if len(costs) > 1 else ordered[0]
    manifolds = [-1] * costs.shape[1]
    for room in sorted(range(costs.shape[1]), key=lambda r: (-circuits[r], -round(float(regret[r]), 6), r)):
        fitting = [m for m in range(len(costs)) if free[m] >= circuits[room]]
        if not fitting:
            return None
        manifolds[room] = min(fitting, key=lambda m: (round(float(costs[m, room]), 6), m))
        free[manifolds[room]] -= circuits[room]
    while _improved(costs, circuits, free, manifolds):
        pass
    return manifolds


def _improved(costs: Array, circuits: Array, free: Array, manifolds: list[int]) -> bool:
    """The first move of a room, or swap of two, that shortens tails."""
    rooms = range(len(manifolds))
    for room in rooms:
        own = manifolds[room]
        for other in range(len(costs)):
            if free[other] >= circuits[room] and costs[other, room] < costs[own, room] - _BETTER:
                free[own] += circuits[room]
                free[other] -= circuits[room]
                manifolds[room] = other
                return True
    for room in rooms:
        for second in range(room):
            a, b = manifolds[room], manifolds[second]
            more = circuits[room] - circuits[second]
            gain = costs[a, room] + costs[b, second] - costs[b, room] - costs[a, second]
            if a != b and gain > _BETTER and free[b] >= more and free[a] >= -more:
                free[a] += more
                free[b] -= more
                manifolds[room], manifolds[second] = b, a
                return True
    return False


def _moved(siting: Siting, costs: Array, places: list[int], manifolds: list[int]) -> list[int]:
    """Each manifold at the best place for its rooms that the others leave free."""
    moved = list(places)
    for manifold in range(len(moved)):
        rooms = [room for room, owner in enumerate(manifolds) if owner == manifold]
        others = [place for number, place in enumerate(moved) if number != manifold]
        served = costs[:, rooms].sum(axis=1)
        if others:
            served = np.where(siting.apart[others].all(axis=0), served, np.inf)
        best = int(np.round(served, 6).argmin())
        if served[best] < served[moved[manifold]] - _BETTER:
            moved[manifold] = best
    return moved
