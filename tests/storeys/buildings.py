"""Random storeys in the style of measured buildings: whole inches with all decimals, walls of 0.1 to 0.4 m, halls that
turn off the square, plans that are turned. The same for the same number."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely
import shapely.ops
from shapely import LineString, Polygon
from tepidarium_engine.designs import BuildUp, DesignRoom, DesignsInputs, PlanDoorway

__all__ = ["building", "building_with_inner_hall", "floor_area"]

INCH = 0.0254
JAMB = 0.12
_FLOOR = BuildUp("floor", resistance_below=2.5, temperature_below=8.0)
_HEAT = 45.0
"""Of a room [W/m2]."""
_INNER = 0.5
"""Of that for a hall without walls to the outside: tails of others give it all that it needs in every fourth plan."""

Ring = tuple[tuple[float, float], ...]


def floor_area(inputs: DesignsInputs) -> float:
    return sum(Polygon(room.outline).area for room in inputs.rooms if room.outline is not None)


def building(seed: int) -> DesignsInputs:
    """Four to twenty rooms, 40 to 400 m2, along a hall; the manifold's place is to be found."""
    lot = random.Random(20_000 + seed)
    while True:
        found = _drawn(lot)
        if found is not None:
            return found


def building_with_inner_hall(seed: int) -> DesignsInputs:
    """The same with a hall that needs half as much heat."""
    whole = building(seed)
    hall, *rooms = whole.rooms
    return replace(whole, rooms=(replace(hall, heat_demand=_INNER * hall.heat_demand), *rooms))


def _drawn(lot: random.Random) -> DesignsInputs | None:
    count = lot.randint(3, 17)
    bearing, thin = _inches(lot.uniform(0.12, 0.4)), _inches(lot.uniform(0.1, 0.15))
    width = _inches(lot.choice((lot.uniform(1.0, 1.6), lot.uniform(1.2, 2.6))))
    rows = [_row(lot, number) for number in (count - count // 2, count // 2)]
    spine = _spine(lot, max(sum(row) for row in rows))
    hall = shapely.buffer(spine, width / 2.0, cap_style="flat", join_style="mitre")
    rooms: dict[str, Polygon] = {"hall": _shrunk(hall, thin / 2.0)}
    for side, row in zip((1.0, -1.0), rows, strict=True):
        for number, room in enumerate(_rooms(lot, spine, width, side, row)):
            walls = bearing if lot.random() < 0.4 else thin
            rooms[f"{'left' if side > 0 else 'right'}-{number}"] = _shrunk(room, walls / 2.0)
    if any(not isinstance(room, Polygon) or room.is_empty or room.area < 1.2 for room in rooms.values()):
        return None
    if any(a.intersects(b) for i, a in enumerate(rooms.values()) for b in list(rooms.values())[:i]):
        return None
    rooms, inner = _with_inner_rooms(lot, rooms, thin)
    area = sum(room.area for room in rooms.values())
    if not 40.0 <= area <= 400.0 or not 4 <= len(rooms) <= 20:
        return None
    doors = [_door(lot, rooms, "hall", name) for name in rooms if name != "hall" and name not in inner]
    doors += [_door(lot, rooms, other, name) for name, other in inner.items()]
    if any(door is None for door in doors):
        return None
    turn = lot.choice((0.0, 0.0, math.radians(lot.uniform(1.0, 89.0))))
    spacing = lot.choice((None, None, 0.15, 0.2))
    return DesignsInputs(
        tuple(
            DesignRoom(
                name,
                "floor",
                _HEAT * room.area,
                outline=_ring(room, turn),
                pipe_spacing=spacing,
                use="bathroom" if room.area < 7.0 and name != "hall" and lot.random() < 0.5 else "occupied",
                room_temperature=20.0,
            )
            for name, room in rooms.items()
        ),
        (_FLOOR,),
        doorways=tuple(
            PlanDoorway(door[0], _turned(door[1], turn), door[2]) for door in doors if door is not None
        ),
    )


def _inches(value: float) -> float:
    return round(value / INCH) * INCH


def _row(lot: random.Random, count: int) -> list[float]:
    return [_inches(lot.uniform(1.9, 5.2)) for _ in range(max(1, count))]


def _spine(lot: random.Random, length: float) -> LineString:
    """Straight, or with one turn, square or not."""
    turn = lot.choice((0.0, 0.0, math.pi / 2.0, math.radians(lot.uniform(20.0, 70.0))))
    first = _inches(length * (1.0 if turn == 0.0 else lot.uniform(0.35, 0.65)))
    last = _inches(length - first)
    points = [(0.0, 0.0), (first, 0.0)]
    if turn and last > 1.5:
        points.append((first + last * math.cos(turn), last * math.sin(turn)))
    return LineString(points)


def _rooms(
    lot: random.Random, spine: LineString, width: float, side: float, row: list[float]
) -> Iterator[Polygon]:
    """Rooms of one row along the spine, their sides square to it."""
    at = 0.0
    deep = _inches(lot.uniform(2.4, 5.5))
    for wide in row:
        if at > spine.length - 1.2:
            return
        end = min(at + wide, spine.length)
        if spine.length - end < 1.2:
            end = spine.length
        piece = shapely.ops.substring(spine, at, end) if end - at > 0.1 else None
        if piece is None:
            return
        band = shapely.difference(
            shapely.buffer(piece, side * (width / 2.0 + deep), single_sided=True, join_style="mitre"),
            shapely.buffer(spine, width / 2.0, cap_style="square", join_style="mitre"),
        )
        parts = [part for part in shapely.get_parts(band) if isinstance(part, Polygon)]
        if parts:
            yield max(parts, key=lambda part: part.area)
        at = end


def _with_inner_rooms(
    lot: random.Random, rooms: dict[str, Polygon], wall: float
) -> tuple[dict[str, Polygon], dict[str, str]]:
    """Some large rooms have a smaller one behind them."""
    found, inner = dict(rooms), {}
    for name, room in rooms.items():
        corners = shapely.get_coordinates(room)[:-1]
        if name == "hall" or room.area < 16.0 or lot.random() < 0.6 or len(corners) != 4:
            continue
        away = [shapely.Point(p).distance(rooms["hall"]) for p in corners]
        first = int(np.argsort(away)[-1])
        nxt = (first + 1) % 4 if away[(first + 1) % 4] > away[(first - 1) % 4] else (first - 1) % 4
        a, b = corners[first], corners[nxt]
        along = (b - a) / np.hypot(*(b - a))
        inward = np.array((-along[1], along[0]))
        middle = np.array(room.centroid.coords[0])
        if (middle - a) @ inward < 0:
            inward = -inward
        depth = _inches(lot.uniform(1.6, 2.2))
        strip = LineString([a - 5 * along + depth * inward, b + 5 * along + depth * inward])
        parts = [part for part in shapely.get_parts(shapely.ops.split(room, strip)) if part.area > 2.0]
        if len(parts) != 2:
            continue
        near, far = sorted(parts, key=lambda part: part.distance(rooms["hall"]))
        found[name] = _cut_back(near, strip, wall / 2.0)
        found[f"{name}-inner"] = _cut_back(far, strip, wall / 2.0)
        inner[f"{name}-inner"] = name
    return found, inner


def _cut_back(room: Polygon, line: LineString, by: float) -> Polygon:
    left = shapely.difference(room, shapely.buffer(line, by, cap_style="flat"))
    return max(shapely.get_parts(left), key=lambda part: part.area)


def _shrunk(room: Polygon, by: float) -> Polygon:
    return shapely.buffer(room, -by, join_style="mitre")


def _door(
    lot: random.Random, rooms: dict[str, Polygon], one: str, other: str
) -> tuple[tuple[str, str], tuple[float, float], float] | None:
    """Where walls of two rooms face each other for long enough."""
    width = _inches(lot.uniform(0.7, 0.92))
    a, b = rooms[one], rooms[other]
    best = None
    for p, q in _edges(a):
        along = (q - p) / np.hypot(*(q - p))
        normal = np.array((along[1], -along[0]))
        for r, s in _edges(b):
            if abs(((s - r) / np.hypot(*(s - r))) @ along + 1.0) > 1e-6:
                continue
            away = (r - p) @ normal
            if not 0.0 <= away <= 0.5:
                continue
            low = max(0.0, min((r - p) @ along, (s - p) @ along))
            high = min(np.hypot(*(q - p)), max((r - p) @ along, (s - p) @ along))
            if high - low >= width + 2 * JAMB and (best is None or high - low > best[0]):
                best = (high - low, p, along, normal, low, high, away)
    if best is None:
        return None
    _, p, along, normal, low, high, away = best
    half = width / 2.0 + JAMB
    at = lot.uniform(low + half, high - half)
    x, y = p + at * along + away / 2.0 * normal
    return (one, other), (float(x), float(y)), width


def _edges(room: Polygon) -> Iterator[tuple[np.ndarray, np.ndarray]]:  # type: ignore[type-arg]
    points = shapely.get_coordinates(shapely.orient_polygons(room).exterior)
    yield from pairwise(points)


def _ring(room: Polygon, turn: float) -> Ring:
    points = shapely.get_coordinates(shapely.remove_repeated_points(room, 1e-3).exterior)[:-1]
    return tuple(_turned((float(x), float(y)), turn) for x, y in points)


def _turned(point: tuple[float, float], turn: float) -> tuple[float, float]:
    c, s = math.cos(turn), math.sin(turn)
    return (c * point[0] - s * point[1], s * point[0] + c * point[1])
