"""What is assumed of a house of which little is known."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from types import MappingProxyType
from typing import Literal, NamedTuple

from ..errors import FaultList, InputError
from ..plan.outlines.polygons import room_outline
from .estimate_records import EstimatesInputs, Use

__all__ = ["COVERING_RESISTANCES", "Known", "KnownHouse", "RoomGroup", "Use", "demand_range", "known_house"]

Known = Literal["rooms", "count", "area"]

ROOM_SIZE = 14.0
"""Floor of a room where their number is not known [m2]; a hall comes on top (common practice, no source)."""
LARGEST_OVER_SMALLEST = 3.0
"""Floor areas of rooms whose number alone is known, the others evenly between (common practice, no source)."""
LEAST_ROOM = 1.0
"""A house is not divided into smaller rooms [m2]."""
BATHROOM_FROM = 3
"""A house of so many rooms has a bathroom, the smallest (common practice, no source)."""
_INSIDE, _STANDARD_OUTSIDE = 20.0, -12.0
_DEMANDS = MappingProxyType(
    {"new": (25.0, 35.0, 50.0), "renovated": (40.0, 60.0, 80.0), "unrenovated": (80.0, 110.0, 150.0)}
)
"""Heat demand [W/m2] at -12 degC outside: low, likely, high (common practice, no source)."""
COVERING_RESISTANCES = MappingProxyType(
    {
        "ceramic": 0.01,
        "natural_stone": 0.015,
        "resilient": 0.02,
        "laminate": 0.06,
        "timber": 0.10,
        "carpet": 0.15,
    }
)
"""[m2.K/W] (common practice, no source; EN 1264-2 designs up to 0.15)."""


class RoomGroup(NamedTuple):
    """Rooms of ``area`` [m2] each. Their ``number`` is whole where rooms are given or counted."""

    area: float
    use: Use
    number: float


class KnownHouse(NamedTuple):
    """The rooms, given or assumed, and how much of them is ``known``: rooms, count or area.

    ``areas`` [m2] by use, ``largest`` [m2] of a room; ``evenness`` is the number of equal rooms that the house is like;
    ``wall_length`` [m] where an outline gives it.
    """

    rooms: tuple[RoomGroup, ...]
    room_count: int
    known: Known
    floor_area: float
    areas: dict[Use, float]
    largest: float
    evenness: float
    wall_length: float | None


_UNKNOWN = KnownHouse((RoomGroup(1.0, "occupied", 1.0),), 1, "area", 1.0, {"occupied": 1.0}, 1.0, 1.0, None)
"""Stands for a house that is at fault."""


def known_house(inputs: EstimatesInputs, faults: FaultList) -> KnownHouse:
    """The rooms of the request; faults are noted, and one room of 1 m2 then stands for all."""
    given = {
        "floor_area": inputs.floor_area is not None,
        "outline": inputs.outline is not None,
        "rooms": bool(inputs.rooms),
    }
    names = [name for name, is_given in given.items() if is_given]
    if len(names) != 1:
        detail = "give one of floor_area, outline and rooms"
        faults.add(f"/{names[1] if names else 'floor_area'}", "one_of", detail)
        return _UNKNOWN
    if inputs.rooms:
        faults.require(
            inputs.room_count in (None, len(inputs.rooms)),
            "/room_count",
            "differs",
            "must be the number of rooms in the list, or be left out",
            len(inputs.rooms),
        )
        return _of_rooms([RoomGroup(room.area, room.use, 1.0) for room in inputs.rooms], "rooms", None)
    area, walls = inputs.floor_area or 0.0, None
    if inputs.outline is not None:
        try:
            outline = room_outline(inputs.outline, (), "")
            area, walls = outline.area, outline.perimeter
        except InputError as error:
            faults.faults.extend(error.faults)
            return _UNKNOWN
    return _divided(inputs, area, walls, faults)


def _of_rooms(rooms: Sequence[RoomGroup], known: Known, walls: float | None) -> KnownHouse:
    areas: dict[Use, float] = {}
    squares = 0.0
    for room in rooms:
        areas[room.use] = areas.get(room.use, 0.0) + room.area
        squares += room.area * room.area
    whole = math.fsum(areas.values())
    largest = max(room.area for room in rooms)
    return KnownHouse(tuple(rooms), len(rooms), known, whole, areas, largest, whole * whole / squares, walls)


def _divided(inputs: EstimatesInputs, area: float, walls: float | None, faults: FaultList) -> KnownHouse:
    by_area = inputs.room_count is None and walls is None
    rooms = min(max(1.0 + area / ROOM_SIZE, inputs.storey_count), 64.0) if by_area else inputs.room_count or 1
    most = max(math.floor(area / LEAST_ROOM), 1)
    count = round(rooms)
    if by_area and inputs.storey_count <= most:
        rooms = max(min(rooms, area / LEAST_ROOM), 1.0)
        return _by_area(area, rooms, min(count, most))
    if not faults.require(
        count <= most,
        "/room_count",
        "too_large",
        f"must be at most {most}: rooms have {LEAST_ROOM:g} m2 at least",
        most,
    ):
        count = most
    return _of_rooms(_counted(area, count), "rooms" if count == 1 else "count", walls if count == 1 else None)


def _by_area(area: float, number: float, count: int) -> KnownHouse:
    """Rooms whose ``number`` grows with the area without a jump, so that what they take does, too; a bathroom comes
    with the third."""
    part = min(max(number - (BATHROOM_FROM - 1.0), 0.0), 1.0)
    bath = part * min(0.5 * ROOM_SIZE, area / number)
    left, others = area - bath, number - part
    rooms = [RoomGroup(left / others, "occupied", others)]
    areas: dict[Use, float] = {"occupied": left}
    if bath > 0.0:
        rooms.append(RoomGroup(bath / part, "bathroom", part))
        areas["bathroom"] = bath
    return KnownHouse(tuple(rooms), count, "area", area, areas, _weights(count)[0] * area, number, None)


def _counted(area: float, count: int) -> list[RoomGroup]:
    """The largest first."""
    bathroom = count - 1 if count >= BATHROOM_FROM else count
    return [
        RoomGroup(area * weight, "bathroom" if number == bathroom else "occupied", 1.0)
        for number, weight in enumerate(_weights(count))
    ]


@cache
def _weights(count: int) -> tuple[float, ...]:
    """Shares of the floor, the largest first."""
    steps = max(count - 1, 1)
    weights = [
        LARGEST_OVER_SMALLEST - (LARGEST_OVER_SMALLEST - 1.0) * number / steps for number in range(count)
    ]
    whole = math.fsum(weights)
    return tuple(weight / whole for weight in weights)


def demand_range(inputs: EstimatesInputs, floor_area: float) -> tuple[float, float, float]:
    """Specific heat demand [W/m2]: low, likely, high; all the same where it is given. Demands for a standard of
    building go with the difference between inside and outside."""
    if inputs.heat_demand is not None:
        return (inputs.heat_demand / floor_area,) * 3
    if inputs.specific_heat_demand is not None:
        return (inputs.specific_heat_demand,) * 3
    share = (_INSIDE - inputs.outside_design_temperature) / (_INSIDE - _STANDARD_OUTSIDE)
    low, likely, high = (share * demand for demand in _DEMANDS[inputs.building_standard])
    return low, likely, high
