"""Which of several manifolds serves which room, and where they stand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ...elementwise import Array

__all__ = ["Assignment", "Siting", "assigned", "rooms_shared"]

_ROUNDS = 50
_BETTER = 1e-6
"""Less gain than this is none [m]."""


@dataclass(frozen=True)
class Siting:
    """``costs`` [m]: of all tails of a room (column) from a place (row), infinite where it must not be served
    from there; ``circuits`` of each room; ``ports`` of a manifold; ``clear_of`` tells which places can be taken
    beside one. ``open_to`` (manifold, place) tells where each manifold may stand, ``serves`` (manifold, room) which
    rooms it may have; ``None``: all alike, any place and any room."""

    costs: Array
    circuits: Array
    ports: int
    clear_of: Callable[[int], Array]
    open_to: Array | None = None
    serves: Array | None = None

    def costs_of(self, manifold: int) -> Array:
        """As ``costs``, infinite for rooms that are not the manifold's."""
        if self.serves is None:
            return self.costs
        costs: Array = np.where(self.serves[manifold][None, :], self.costs, np.inf)
        return costs

    def best_row(self, manifold: int, totals: Array, others: list[int]) -> int | None:
        """The place with the least of ``totals`` that the manifold may take beside ``others``."""
        free = np.ones(len(totals), dtype=bool) if self.open_to is None else self.open_to[manifold].copy()
        if free.sum() > 1:  # one that stands already is not asked to move
            for other in others:
                free &= self.clear_of(other)
        totals = np.where(free, np.round(totals, 6), np.inf)
        row = int(totals.argmin())
        return row if np.isfinite(totals[row]) else None


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
    capped = [_capped(siting.costs_of(manifold)) for manifold in range(count)]
    for first in _starts(siting, capped[0]):
        places = _added(siting, capped, first)
        found = _exchanged(siting, capped, places) if places is not None else None
        if found is not None and (best is None or found.cost < best.cost - _BETTER):
            best = found
    return best


def _capped(costs: Array) -> Array:
    """Costs with a large number in place of none, so that sums can be compared."""
    finite = costs[np.isfinite(costs)]
    limit = 1e3 * (1.0 + float(finite.sum() if len(finite) else 0.0))
    capped: Array = np.where(np.isfinite(costs), costs, limit)
    return capped


def _starts(siting: Siting, costs: Array) -> list[int]:
    """For the first manifold: the best single place, and the best place for each room."""
    totals = [costs.sum(axis=1), *costs.T]
    chosen = [siting.best_row(0, each, []) for each in totals]
    return list(dict.fromkeys(row for row in chosen if row is not None))


def _added(siting: Siting, capped: list[Array], first: int) -> list[int] | None:
    places = [first]
    for manifold in range(1, len(capped)):
        taken = np.min([capped[number][place] for number, place in enumerate(places)], axis=0)
        served = np.minimum(capped[manifold], taken[None, :]).sum(axis=1)
        row = siting.best_row(manifold, served, places)
        if row is None:
            return None
        places.append(row)
    return places


def _exchanged(siting: Siting, capped: list[Array], places: list[int]) -> Assignment | None:
    found: Assignment | None = None
    for _ in range(_ROUNDS):
        own = np.array([capped[manifold][place] for manifold, place in enumerate(places)])
        manifolds = rooms_shared(own, siting.circuits, siting.ports)
        if manifolds is None:
            return found
        costs = np.array([siting.costs_of(manifold)[place] for manifold, place in enumerate(places)])
        total = float(sum(costs[manifold, room] for room, manifold in enumerate(manifolds)))
        if found is not None and not total < found.cost - _BETTER:
            break
        if np.isfinite(total):
            found = Assignment(tuple(places), tuple(manifolds), total)
        elif found is not None:
            break
        moved = _moved(siting, capped, places, manifolds)
        if moved == places:
            break
        places = moved
    return found


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
    """The move of a room, or else the swap of two, that shortens tails most."""
    own, rooms = np.array(manifolds), np.arange(len(manifolds))
    spared = costs[own, rooms][None, :] - costs
    spared = np.where(free[:, None] >= circuits[None, :], spared, -np.inf)
    other, room = np.unravel_index(int(np.round(spared, 6).argmax()), spared.shape)
    if spared[other, room] > _BETTER:
        free[own[room]] += circuits[room]
        free[other] -= circuits[room]
        manifolds[int(room)] = int(other)
        return True
    gains = _swap_gains(costs, circuits, free, own)
    one, two = np.unravel_index(int(np.round(gains, 6).argmax()), gains.shape)
    if gains[one, two] > _BETTER:
        more = circuits[one] - circuits[two]
        free[own[one]] += more
        free[own[two]] -= more
        manifolds[int(one)], manifolds[int(two)] = int(own[two]), int(own[one])
        return True
    return False


def _swap_gains(costs: Array, circuits: Array, free: Array, own: Array) -> Array:
    """What is spared when two rooms (row, column) exchange their manifolds; minus infinity where ports forbid it."""
    rooms = np.arange(len(own))
    here = costs[own, rooms]
    there = costs[own[None, :], rooms[:, None]]
    more = circuits[:, None] - circuits[None, :]
    fits = (free[own][None, :] >= more) & (free[own][:, None] >= -more) & (own[:, None] != own[None, :])
    gains: Array = np.where(fits, here[:, None] + here[None, :] - there - there.T, -np.inf)
    return gains


def _moved(siting: Siting, capped: list[Array], places: list[int], manifolds: list[int]) -> list[int]:
    """Each manifold at the best place for its rooms that the others leave free."""
    moved = list(places)
    for manifold in range(len(moved)):
        rooms = [room for room, owner in enumerate(manifolds) if owner == manifold]
        others = [place for number, place in enumerate(moved) if number != manifold]
        served = capped[manifold][:, rooms].sum(axis=1)
        best = siting.best_row(manifold, served, others)
        if best is not None and served[best] < served[moved[manifold]] - _BETTER:
            moved[manifold] = best
    return moved
