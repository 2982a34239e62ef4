"""Small random storeys that are quick to lay: few rooms, wide spacings, odd outlines, columns, one or two manifolds."""

from __future__ import annotations

import random

import shapely
from shapely import Polygon

from tests.storeys.case import Door, Room, StoreyCase, rect
from tests.storeys.random_storeys import Box, Doorways, cut, doors_between, grid, on_wall

__all__ = ["small_storey"]

LEAST = 1.5
"""Least side of a room [m]."""
CLEAR = 0.45
"""Of what an odd outline or a column takes from doorways and manifolds [m]."""
COLUMN = 0.25
WIDTHS = (0.8, 0.8, 0.8, 0.35)
"""Of doorways [m]; the last takes one pair of pipes."""

Point = tuple[float, float]


def small_storey(seed: int) -> StoreyCase:
    """Two to four rooms, the same for the same number."""
    lot = random.Random(f"small {seed}")
    doors = None
    while doors is None:
        whole = (0.0, 0.0, grid(lot.uniform(3.4, 5.4)), grid(lot.uniform(2.6, 4.2)))
        boxes = cut(lot, whole, lot.choice((2, 2, 2, 3, 3, 4)), LEAST)
        doors = doors_between(lot, boxes)
    hubs = _hubs(lot, boxes, doors)
    kept = [place for _, _, place in doors] + [place for _, place in hubs]
    rooms = {
        f"r{number}": _room(lot, box, kept, _served_by(lot, number, hubs)) for number, box in enumerate(boxes)
    }
    names = list(rooms)
    return StoreyCase(
        f"small {seed}",
        rooms,
        tuple(Door(names[one], names[other], place, lot.choice(WIDTHS)) for one, other, place in doors),
        names[hubs[0][0]],
        hubs[0][1],
        bend_radius=lot.choice((0.08, 0.1)),
        tail_pitch=lot.choice((0.05, 0.06)),
        maximum_circuit_length=30.0 if lot.random() < 0.08 else 80.0,
        further=tuple((names[hub], place) for hub, place in hubs[1:]),
    )


def _hubs(lot: random.Random, boxes: list[Box], doors: Doorways) -> list[tuple[int, Point]]:
    """Rooms with a manifold on a wall of theirs: the one with most doorways and, one time in four, another."""
    degree = [sum(number in pair[:2] for pair in doors) for number in range(len(boxes))]
    hub = max(range(len(boxes)), key=lambda number: (degree[number], lot.random()))
    others = [number for number in range(len(boxes)) if number != hub]
    chosen = [hub, *([lot.choice(others)] if lot.random() < 0.3 else [])]
    return [(number, on_wall(lot, boxes[number], _own(doors, number))) for number in chosen]


def _served_by(lot: random.Random, room: int, hubs: list[tuple[int, Point]]) -> int:
    """The manifold that stands in the room, else any."""
    standing = [number for number, (hub, _) in enumerate(hubs) if hub == room]
    return standing[0] if standing else lot.randrange(len(hubs))


def _own(doors: Doorways, room: int) -> list[Point]:
    return [place for one, other, place in doors if room in (one, other)]


def _room(lot: random.Random, box: Box, kept: list[Point], manifold: int) -> Room:
    outline = rect(*box)
    shape, voids = Polygon(outline), ()
    kind = lot.choice(("plain", "slant", "step", "column"))
    if kind in ("slant", "step"):
        corner = lot.randrange(4)
        odd = _without_corner(outline, corner, grid(lot.uniform(0.3, 0.8)), grid(lot.uniform(0.3, 0.8)), kind)
        if _clear(shape.difference(Polygon(odd)), kept):
            outline = odd
    elif kind == "column":
        x, y = (grid(lot.uniform(box[axis] + 0.6, box[axis + 2] - 0.6 - COLUMN)) for axis in (0, 1))
        column = rect(x, y, x + COLUMN, y + COLUMN)
        if _clear(Polygon(column), kept) and shape.exterior.distance(Polygon(column)) > 0.5:
            voids = (column,)
    return Room(
        outline,
        lot.choice((0.25, 0.3)),
        voids,
        pattern="serpentine" if lot.random() < 0.06 else "counterflow",
        manifold=manifold,
        count=0 if lot.random() < 0.06 else None,
    )


def _clear(taken: Polygon, kept: list[Point]) -> bool:
    return all(taken.distance(shapely.Point(place)) > CLEAR + 0.4 for place in kept)


def _without_corner(
    outline: tuple[Point, ...], corner: int, before: float, after: float, kind: str
) -> tuple[Point, ...]:
    """The rectangle with a corner cut off on the slant, or stepped back."""
    (x, y), previous, following = outline[corner], outline[corner - 1], outline[(corner + 1) % 4]
    first, last = (_towards((x, y), end, away) for end, away in ((previous, before), (following, after)))
    inner = ((first[0] + last[0] - x, first[1] + last[1] - y),) if kind == "step" else ()
    return (*outline[:corner], first, *inner, last, *outline[corner + 1 :])


def _towards(start: Point, end: Point, away: float) -> Point:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = abs(dx) + abs(dy)
    return (start[0] + away * dx / length, start[1] + away * dy / length)
