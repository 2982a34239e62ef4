"""Random storeys with a corridor of 1.0 to 1.6 m between two rows of rooms, the same for the same number."""

from __future__ import annotations

import random

from tests.storeys.case import Door, Room, StoreyCase, rect
from tests.storeys.random_storeys import grid

__all__ = ["corridor_storey"]

WALL = 0.12
DOOR = 0.8
JAMB = 0.15
PITCH = 0.06
CLEARANCE = 0.075
PORTS = 12


def corridor_storey(seed: int) -> StoreyCase:
    """Six to sixteen rooms on a corridor; manifolds stand on stretches of its wall that are free of doorways."""
    lot = random.Random(10_000 + seed)
    while True:
        case = _drawn(seed, lot)
        if case is not None:
            return case


def _drawn(seed: int, lot: random.Random) -> StoreyCase | None:
    count = lot.randint(6, 16)
    width = grid(lot.uniform(1.0, 1.6))
    longest = lot.choice((80.0, 100.0, 120.0))
    spacing = lot.choice((0.1, 0.15, 0.15, 0.2))
    north = count // 2 + lot.choice((-1, 0, 0, 1)) * (count > 7)
    sides = [_row(lot, number) for number in (north, count - north)]
    length = max(row[-1][1] for row in sides)
    rooms = {"corridor": Room(rect(0.0, 0.0, length, width), max(spacing, lot.choice((0.15, 0.2))))}
    doors: list[Door] = []
    taken: list[list[tuple[float, float]]] = [[], []]
    for side, row in enumerate(sides):
        for number, (low, end) in enumerate(row):
            high = length if number == len(row) - 1 else end
            deep = grid(lot.uniform(2.4, 4.6))
            name = f"{'north' if side == 0 else 'south'}-{number}"
            y0, y1 = (width + WALL, width + WALL + deep) if side == 0 else (-WALL - deep, -WALL)
            rooms[name] = Room(rect(low, y0, high, y1), spacing)
            at = lot.uniform(low + JAMB + DOOR / 2.0, high - JAMB - DOOR / 2.0)
            doors.append(
                Door("corridor", name, (grid(at), width + WALL / 2.0 if side == 0 else -WALL / 2.0), DOOR)
            )
            taken[side].append((grid(at) - DOOR / 2.0, grid(at) + DOOR / 2.0))
    circuits = {name: _circuits(room, longest) for name, room in rooms.items()}
    needed = -(-sum(circuits.values()) // PORTS)
    places = _places(taken, length, width, needed, -(-sum(circuits.values()) // needed))
    if places is None:
        return None
    shared = _shared(rooms, doors, circuits, [place for _, place in places])
    return StoreyCase(
        f"corridor {seed}",
        {name: Room(room.outline, room.spacing, manifold=shared[name]) for name, room in rooms.items()},
        tuple(doors),
        "corridor",
        places[0][1],
        maximum_circuit_length=longest,
        further=tuple(("corridor", place) for _, place in places[1:]),
    )


def _row(lot: random.Random, count: int) -> list[tuple[float, float]]:
    found, at = [], 0.0
    for _ in range(count):
        wide = grid(lot.uniform(2.2, 4.4))
        found.append((grid(at), grid(at + wide)))
        at = grid(at + wide + WALL)
    return found


def _circuits(room: Room, longest: float) -> int:
    (x0, y0), _, (x1, y1), _ = room.outline
    return max(1, round((x1 - x0) * (y1 - y0) / room.spacing / (longest - 14.0) + 0.45))


def _places(
    taken: list[list[tuple[float, float]]], length: float, width: float, count: int, pairs: int
) -> list[tuple[float, tuple[float, float]]] | None:
    """The free stretches of wall nearest to the middles of ``count`` equal parts of the corridor."""
    need = 2.0 * CLEARANCE + 2.0 * PITCH * (pairs + 1)
    free = []
    for side, spans in enumerate(taken):
        at = 0.0
        for low, high in [*sorted(spans), (length, length)]:
            if low - at >= need:
                free.append((at + need / 2.0, low - need / 2.0, width if side == 0 else 0.0))
            at = high
    found: list[tuple[float, tuple[float, float]]] = []
    for number in range(count):
        wanted = length * (number + 0.5) / count
        best = None
        for low, high, y in free:
            x = min(max(wanted, low), high)
            if any(abs(x - other[1][0]) < need and y == other[1][1] for other in found):
                continue
            if best is None or abs(x - wanted) < best[0]:
                best = (abs(x - wanted), (x, y))
        if best is None:
            return None
        found.append(best)
    return found


def _shared(
    rooms: dict[str, Room], doors: list[Door], circuits: dict[str, int], places: list[tuple[float, float]]
) -> dict[str, int]:
    """Rooms to manifolds from one end of the corridor to the other, within their ports."""
    order = sorted(range(len(places)), key=lambda number: places[number][0])
    at = {door.other: door.place[0] for door in doors}
    shared, left = {}, [PORTS] * len(places)
    middle = min(range(len(places)), key=lambda number: abs(places[number][0] - places[order[0]][0]))
    shared["corridor"] = middle
    left[middle] -= circuits["corridor"]
    for name in sorted(at, key=lambda one: at[one]):
        near = min(
            (number for number in order if left[number] >= circuits[name]),
            key=lambda number: abs(places[number][0] - at[name]),
            default=order[-1],
        )
        shared[name] = near
        left[near] -= circuits[name]
    return shared
