"""Houses for the calibration of estimates: generated ones, the same for the same number, and given rooms with a hall.

What a customer would say of a house (``told``) is kept apart from the house as it is designed.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, replace

import shapely
from shapely import LineString, Polygon
from tepidarium_engine.designs import BuildUp, DesignRoom, DesignsInputs, Manifold, PlanDoorway, Storey
from tepidarium_engine.materials import Ordering
from tepidarium_engine.pipe import Pipe

from tests.storeys.case import Door, Room, StoreyCase
from tests.storeys.random_storeys import random_storey
from tests.storeys.small_storeys import small_storey

__all__ = ["GivenRoom", "House", "generated", "given"]

COVERINGS = {"ceramic": 0.01, "resilient": 0.02, "laminate": 0.06, "timber": 0.10, "carpet": 0.15}
"""Resistances [m2.K/W] that go with coverings."""
PIPES = ((0.014, 0.002), (0.016, 0.002), (0.016, 0.002), (0.017, 0.002), (0.020, 0.002))
HALL = (1.6, 1.8)
"""Along the wall and deep [m]: the hall with the manifold beside a given room."""
WALL = 0.12
OUTSIDE_SHARE = 0.6
"""Of the heat demand that goes through outside walls, the rest goes with the floor area."""


@dataclass(frozen=True)
class House:
    """``told`` is a request of estimates in which nothing is left out; ``design`` a request of designs."""

    name: str
    told: dict[str, object]
    design: DesignsInputs


@dataclass(frozen=True)
class GivenRoom:
    """An outline [m] that somebody measured."""

    name: str
    outline: tuple[tuple[float, float], ...]


def generated(seed: int) -> House:
    """One storey or, one time in ten, two; two to nine rooms each, up to 140 m2 each."""
    lot = random.Random(f"estimate {seed}")
    kinds = [
        lot.choice(("random", "random", "random", "small")) for _ in range(2 if lot.random() < 0.1 else 1)
    ]
    return _house(f"generated {seed}", lot, [_storey(lot, kind) for kind in kinds])


def _storey(lot: random.Random, kind: str) -> StoreyCase:
    while True:
        case = (small_storey if kind == "small" else random_storey)(lot.randrange(10**6))
        rooms = {name: _plain(room) for name, room in case.rooms.items()}
        if math.fsum(Polygon(room.outline, room.voids).area for room in rooms.values()) <= 140.0:
            return replace(case, rooms=rooms, doors=tuple(replace(door, width=0.8) for door in case.doors))


def _plain(room: Room) -> Room:
    return replace(room, pattern="counterflow", count=None, manifold=0)


def given(room: GivenRoom) -> House | None:
    """The room beside a small hall with the manifold, before its longest straight wall; None: there is no place."""
    lot = random.Random(f"estimate {room.name}")
    edges = list(zip(room.outline, (*room.outline[1:], room.outline[0]), strict=True))
    (ax, ay), (bx, by) = max(edges, key=lambda edge: math.dist(*edge))
    length = math.dist((ax, ay), (bx, by))
    if length < HALL[0] + 0.4:
        return None
    ux, uy = (bx - ax) / length, (by - ay) / length
    inside = Polygon(room.outline)
    out = (
        1.0
        if not inside.covers(shapely.Point((ax + bx) / 2 + 0.05 * uy, (ay + by) / 2 - 0.05 * ux))
        else -1.0
    )
    nx, ny = out * uy, -out * ux

    def at(along: float, away: float) -> tuple[float, float]:
        middle = length / 2.0 + along
        return (ax + middle * ux + away * nx, ay + middle * uy + away * ny)

    half, deep = HALL[0] / 2.0, WALL + HALL[1]
    hall = (at(-half, WALL), at(half, WALL), at(half, deep), at(-half, deep))
    if inside.distance(Polygon(hall)) < WALL - 1e-6:
        return None
    case = StoreyCase(
        room.name,
        {"room": Room(room.outline), "hall": Room(hall)},
        (Door("room", "hall", at(0.0, WALL / 2.0)),),
        "hall",
        at(0.0, deep),
    )
    return _house(room.name, lot, [case])


def _house(name: str, lot: random.Random, cases: list[StoreyCase]) -> House:
    covering = lot.choice(list(COVERINGS))
    pipe = Pipe(*lot.choice(PIPES))
    build_up = BuildUp(
        "floor",
        lot.choice((1.25, 2.0, 3.0)),
        lot.choice((5.0, 10.0, 18.0)),
        covering=covering,  # type: ignore[arg-type]
        covering_resistance=COVERINGS[covering],
    )
    specific = lot.uniform(25.0, 75.0)
    rooms = [room for number, case in enumerate(cases) for room in _rooms(case, number, specific)]
    rooms = _with_bathroom(rooms)
    demand = math.fsum(room.heat_demand or 0.0 for room in rooms)
    areas = {room.id: Polygon(room.outline or (), room.voids).area for room in rooms}
    design = DesignsInputs(
        tuple(rooms),
        (build_up,),
        pipe=pipe,
        manifolds=tuple(
            Manifold(position=case.task().manifold.place, id=str(number), storey=str(number))
            for number, case in enumerate(cases)
        ),
        storeys=tuple(Storey(str(number)) for number in range(len(cases))),
        doorways=tuple(
            PlanDoorway((f"{number}-{door.one}", f"{number}-{door.other}"), door.place, door.width)
            for number, case in enumerate(cases)
            for door in case.doors
        ),
        ordering=Ordering(),
    )
    told: dict[str, object] = {
        "rooms": [{"area": round(areas[room.id], 3), "use": room.use} for room in rooms],
        "heat_demand": round(demand, 1),
        "covering": covering,
        "covering_resistance": build_up.covering_resistance,
        "pipe": {"outside_diameter": pipe.outside_diameter, "wall_thickness": pipe.wall_thickness},
        "storey_count": len(cases),
    }
    return House(name, told, design)


def _rooms(case: StoreyCase, storey: int, specific: float) -> list[DesignRoom]:
    """Rooms whose demand grows with the length of their outside walls."""
    shapes = {name: Polygon(room.outline, room.voids) for name, room in case.rooms.items()}
    whole = shapely.union_all([shapely.buffer(shape, WALL, join_style="mitre") for shape in shapes.values()])
    skin = shapely.buffer(LineString(whole.buffer(0.01).convex_hull.exterior.coords), 1.5 * WALL)
    outside = {name: shape.exterior.intersection(skin).length for name, shape in shapes.items()}
    area = math.fsum(shape.area for shape in shapes.values())
    walls = math.fsum(outside.values())
    return [
        DesignRoom(
            id=f"{storey}-{name}",
            build_up="floor",
            outline=case.rooms[name].outline,
            voids=case.rooms[name].voids,
            storey=str(storey),
            heat_demand=specific
            * ((1.0 - OUTSIDE_SHARE) * shape.area + OUTSIDE_SHARE * area * outside[name] / walls),
        )
        for name, shape in shapes.items()
    ]


def _with_bathroom(rooms: list[DesignRoom]) -> list[DesignRoom]:
    """The smallest of three rooms or more is one."""
    if len(rooms) < 3:
        return rooms
    least = min(range(len(rooms)), key=lambda number: Polygon(rooms[number].outline or ()).area)
    bath = replace(rooms[least], use="bathroom", room_temperature=24.0)
    return [*rooms[:least], bath, *rooms[least + 1 :]]
