"""What is assumed of a house of which little is known."""

from __future__ import annotations

import math
from types import MappingProxyType
from typing import NamedTuple

from ..errors import FaultList, InputError
from ..plan.outlines.polygons import room_outline
from .estimate_records import EstimateRoom, EstimatesInputs

__all__ = ["COVERING_RESISTANCES", "KnownHouse", "demand_range", "known_house"]

ROOM_SIZE = 14.0
"""Floor of a room where their number is not known [m2] (common practice, no source)."""
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


class KnownHouse(NamedTuple):
    """The rooms, given or assumed, and how much of them is ``known``: rooms, count or area; ``wall_length`` [m] where
    an outline gives it."""

    rooms: tuple[EstimateRoom, ...]
    known: str
    wall_length: float | None

    @property
    def floor_area(self) -> float:
        return math.fsum(room.area for room in self.rooms)


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
        return KnownHouse((EstimateRoom(1.0),), "area", None)
    if inputs.rooms:
        faults.require(
            inputs.room_count in (None, len(inputs.rooms)),
            "/room_count",
            "differs",
            "must be the number of rooms in the list, or be left out",
            len(inputs.rooms),
        )
        return KnownHouse(inputs.rooms, "rooms", None)
    area, walls = inputs.floor_area or 0.0, None
    if inputs.outline is not None:
        try:
            outline = room_outline(inputs.outline, (), "")
            area, walls = outline.area, outline.perimeter
        except InputError as error:
            faults.faults.extend(error.faults)
            return KnownHouse((EstimateRoom(1.0),), "area", None)
    return _divided(inputs, area, walls, faults)


def _divided(inputs: EstimatesInputs, area: float, walls: float | None, faults: FaultList) -> KnownHouse:
    count = inputs.room_count
    if count is None:
        count = 1 if walls is not None else min(max(round(area / ROOM_SIZE), inputs.storey_count), 64)
    most = max(math.floor(area / LEAST_ROOM), 1)
    if not faults.require(
        count <= most,
        "/room_count",
        "too_large",
        f"must be at most {most}: rooms have {LEAST_ROOM:g} m2 at least",
        most,
    ):
        count = most
    known = "area" if inputs.room_count is None and walls is None else "rooms" if count == 1 else "count"
    return KnownHouse(_assumed_rooms(area, count), known, walls if count == 1 else None)


def _assumed_rooms(area: float, count: int) -> tuple[EstimateRoom, ...]:
    """The largest first."""
    steps = max(count - 1, 1)
    weights = [
        LARGEST_OVER_SMALLEST - (LARGEST_OVER_SMALLEST - 1.0) * number / steps for number in range(count)
    ]
    whole = math.fsum(weights)
    bathroom = count - 1 if count >= BATHROOM_FROM else count
    return tuple(
        EstimateRoom(area * weight / whole, "bathroom" if number == bathroom else "occupied")
        for number, weight in enumerate(weights)
    )


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
