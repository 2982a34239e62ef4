"""Which manifold serves each room: the one it names, else the one with the shortest ways that has the ports."""

from __future__ import annotations

import math

import numpy as np

from ..elementwise import Array
from ..storey.manifold.manifold_assignment import rooms_shared
from .house import House, StoreySite
from .tails import estimated_tail

__all__ = ["NO_WAY", "nearest_manifolds", "served_by", "ways_to_manifolds"]

NO_WAY = 1e4
"""Stands for no way over free floor [m]; what is estimated still tells near from far."""


def ways_to_manifolds(house: House) -> Array:
    """One way [m] of each room (row) to each manifold (column); infinite where it must not be served from there."""
    ways = np.full((len(house.rooms), len(house.manifolds)), np.inf)
    for row, room in enumerate(house.rooms):
        for manifold in house.choices(room):
            ways[row, manifold] = estimated_tail(room, house.manifolds[manifold]).length
    for site in house.sites:
        rows = [room.index for room in site.rooms]
        if (np.isfinite(ways[rows]).sum(axis=1) > 1).any():
            _walked(site, ways)
    return ways


def _walked(site: StoreySite, ways: Array) -> None:
    """Shortest ways of pairs of pipes over free floor in place of those estimated."""
    lengths = site.ways
    for place, room in enumerate(site.rooms):
        for row, manifold in enumerate(site.numbers):
            length = float(lengths[row, place])
            if math.isfinite(ways[room.index, manifold]):
                ways[room.index, manifold] = (
                    length if math.isfinite(length) else NO_WAY + ways[room.index, manifold]
                )


def nearest_manifolds(ways: Array) -> tuple[int, ...]:
    """The manifold of each room by its way alone."""
    return tuple(int(row) for row in np.round(ways, 6).argmin(axis=1))


def served_by(house: House, ways: Array, circuits: list[int]) -> tuple[int, ...]:
    """The manifold of each room when each room takes so many circuits, within the ports of each manifold; where
    there are too few ports in all, the nearest."""
    served = list(nearest_manifolds(ways))
    for storey, manifolds in enumerate(house.manifolds_on):
        rooms = [room for room in house.rooms if house.storey_of[room.index] == storey]
        if len(manifolds) < 2 or not rooms:
            continue
        rows = [room.index for room in rooms]
        counts = np.array([max(circuits[room.index], room.ports) for room in rooms])
        costs = 2.0 * ways[np.ix_(rows, list(manifolds))].T * counts[None, :]
        shared = rooms_shared(costs, counts, house.inputs.limits.maximum_circuits)
        for row, manifold in zip(rows, shared or [], strict=bool(shared)):
            served[row] = manifolds[manifold]
    return _as_named(house, served)


def _as_named(house: House, served: list[int]) -> tuple[int, ...]:
    """What a room names goes before ports."""
    choices = [house.choices(room) for room in house.rooms]
    return tuple(own if own in allowed else allowed[0] for own, allowed in zip(served, choices, strict=True))
