"""Random storeys, cut out of a rectangle, the same for the same number."""

from __future__ import annotations

import random

from tests.storeys.case import Door, Room, StoreyCase, rect

__all__ = ["Box", "Doorways", "cut", "doors_between", "grid", "on_wall", "random_storey"]

WALL = 0.12
LEAST = 1.7
"""Least side of a room [m]."""
DOOR = 0.8
JAMB = 0.15
"""Wall beside a doorway at least [m]."""

Box = tuple[float, float, float, float]
Doorways = list[tuple[int, int, tuple[float, float]]]


def random_storey(seed: int) -> StoreyCase:
    """Three to nine rooms, doorways that lead everywhere, the manifold on a wall of one of the rooms."""
    lot = random.Random(seed)
    while True:
        width, depth = grid(lot.uniform(5.0, 13.0)), grid(lot.uniform(4.5, 10.0))
        boxes = cut(lot, (0.0, 0.0, width, depth), lot.randint(3, 9))
        doors = doors_between(lot, boxes)
        if doors is not None:
            break
    names = [f"r{number}" for number in range(len(boxes))]
    spacing = lot.choice((0.1, 0.15, 0.15, 0.2))
    # Serpentines turn by a whole spacing at each end: none is laid where the pipe bends no tighter than that.
    winding = 0.15 if spacing > 0.1 else 0.0
    rooms = {
        name: Room(rect(*box), spacing, pattern="serpentine" if lot.random() < winding else "counterflow")
        for name, box in zip(names, boxes, strict=True)
    }
    degree = [sum(number in pair[:2] for pair in doors) for number in range(len(boxes))]
    hub = max(range(len(boxes)), key=lambda number: (degree[number], lot.random()))
    return StoreyCase(
        f"random {seed}",
        rooms,
        tuple(Door(names[one], names[other], place, DOOR) for one, other, place in doors),
        names[hub],
        on_wall(lot, boxes[hub], [place for one, other, place in doors if hub in (one, other)]),
        maximum_circuit_length=lot.choice((80.0, 100.0, 120.0)),
    )


def grid(value: float) -> float:
    return round(value * 20.0) / 20.0


def cut(lot: random.Random, whole: Box, count: int, least: float = LEAST) -> list[Box]:
    boxes = [whole]
    for _ in range(40):
        if len(boxes) == count:
            break
        box = max(boxes, key=lambda b: (b[2] - b[0]) * (b[3] - b[1]) * lot.uniform(0.4, 1.0))
        x0, y0, x1, y1 = box
        across = (x1 - x0) > (y1 - y0) * lot.uniform(0.7, 1.4)
        low, high = (x0, x1) if across else (y0, y1)
        if high - low < 2.0 * least + WALL:
            continue
        at = grid(lot.uniform(low + least, high - least - WALL))
        if at < low + least - 1e-9 or at + WALL > high - least + 1e-9:
            continue
        boxes.remove(box)
        if across:
            boxes += [(x0, y0, at, y1), (at + WALL, y0, x1, y1)]
        else:
            boxes += [(x0, y0, x1, at), (x0, at + WALL, x1, y1)]
    return sorted(boxes)


def doors_between(lot: random.Random, boxes: list[Box]) -> Doorways | None:
    """A doorway wherever it joins rooms that were apart, and a few more; None: a room stays shut off."""
    walls = [
        (one, other, place)
        for one in range(len(boxes))
        for other in range(one + 1, len(boxes))
        if (place := _shared(lot, boxes[one], boxes[other])) is not None
    ]
    lot.shuffle(walls)
    group = list(range(len(boxes)))
    found = []
    for one, other, place in walls:
        joins = group[one] != group[other]
        if joins or lot.random() < 0.1:
            found.append((one, other, place))
        if joins:
            old = group[other]
            group = [group[one] if each == old else each for each in group]
    return found if len(set(group)) == 1 else None


def _shared(lot: random.Random, a: Box, b: Box) -> tuple[float, float] | None:
    for axis in (0, 1):
        first, second = (a, b) if a[axis] < b[axis] else (b, a)
        if abs(second[axis] - first[axis + 2] - WALL) < 1e-6:
            low = max(a[1 - axis], b[1 - axis]) + JAMB + DOOR / 2.0
            high = min(a[3 - axis], b[3 - axis]) - JAMB - DOOR / 2.0
            if high < low:
                return None
            along, across = _within(lot, low, high), first[axis + 2] + WALL / 2.0
            return (across, along) if axis == 0 else (along, across)
    return None


def _within(lot: random.Random, low: float, high: float) -> float:
    return min(max(grid(lot.uniform(low, high)), low), high)


def on_wall(lot: random.Random, box: Box, doors: list[tuple[float, float]]) -> tuple[float, float]:
    """The middle of the wall that is farthest from doorways, moved a little."""
    x0, y0, x1, y1 = box
    middles = [((x0 + x1) / 2.0, y0), (x1, (y0 + y1) / 2.0), ((x0 + x1) / 2.0, y1), (x0, (y0 + y1) / 2.0)]
    x, y = max(middles, key=lambda m: min(((m[0] - x) ** 2 + (m[1] - y) ** 2 for x, y in doors), default=0.0))
    shift = lot.uniform(-0.2, 0.2)
    return (x, y + shift) if x in (x0, x1) and y not in (y0, y1) else (x + shift, y)
