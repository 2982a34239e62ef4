"""The likely values of an estimate, by the physics of a design and rules of thumb for what is not known.

The rooms' heat demands differ: a third of the floor each needs less than the mean, the mean and more. The third that
needs most sets the supply temperature, as the governing room does in a design; the others get the widest spacing that
serves them. A room takes its share of all three.
"""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

from ..building.floors import OperatingPoint, RoomToHeat, surface_limit
from ..building.records import BuildUp, DesignLimits, DesignRoom, HeatSource
from ..building.spacings import BATHROOM_SPACING
from ..building.supply import choose_supply, operate_rooms
from ..plan.laying.spacing_limits import bends_fit
from ..plan.lengths.lengths import circuit_length_rule
from .assumptions import COVERING_RESISTANCES, KnownHouse
from .estimate_records import EstimatesInputs

__all__ = ["BATHROOM_TEMPERATURE", "SCREED_COVER", "RoughDesign", "rough_design"]

_THIRDS = (0.75, 1.0, 1.25)
"""Demand of the thirds of the floor over the mean (common practice, no source)."""
_TAIL_REACH = 0.5
"""One way from the manifold to a room over the root of the storey's floor area (common practice, no source)."""
_MANIFOLD_HEIGHT = 0.5
"""Between port and screed [m]."""
_LEAST_FIELD = 0.2
"""Share of a circuit's permitted length that is field at least, however far the manifold is."""
SCREED_COVER = 0.045
"""Above the pipe [m] (EN 1264-4, common value)."""
_INSULATED = (2.0, 10.0)
"""Resistance [m2.K/W] and temperature [degC] below: neither changes what is estimated by more than its spread."""
BATHROOM_TEMPERATURE = 24.0
"""[degC] (EN 12831-1, usual)."""


Use = Literal["occupied", "bathroom"]


class RoughDesign(NamedTuple):
    """``pipe_length`` [m], ``heat_output`` [W], ``supply_temperature`` [degC]; ``circuits``: of each room.
    ``heat_share`` [1] of what is asked; ``tail_length`` [m] one way; ``pipe_per_area`` [m/m2] without tails."""

    pipe_length: float
    circuits: tuple[int, ...]
    heat_output: float
    supply_temperature: float
    heat_share: float
    tail_length: float
    pipe_per_area: float

    @property
    def circuit_count(self) -> int:
        return sum(self.circuits)


def rough_design(inputs: EstimatesInputs, house: KnownHouse, specific_demand: float) -> RoughDesign:
    """The house at a demand [W/m2]."""
    areas: dict[Use, float] = {"occupied": _area(house, "occupied"), "bathroom": _area(house, "bathroom")}
    parts = _parts(inputs, areas, specific_demand)
    source = HeatSource(maximum_supply_temperature=inputs.maximum_supply_temperature)
    supply = choose_supply(parts, source).temperature
    points = operate_rooms(parts, supply, source, DesignLimits())
    length = {room.use: _per_area(parts, points, room.use) for room in house.rooms}
    heat = math.fsum(part.area * point.heat_output for part, point in zip(parts, points, strict=True))
    tail = _MANIFOLD_HEIGHT + _TAIL_REACH * math.sqrt(house.floor_area / inputs.storey_count)
    limit = circuit_length_rule(inputs.pipe).usual
    most_field = max(limit - 2.0 * tail, _LEAST_FIELD * limit)
    fields = [room.area * length[room.use] for room in house.rooms]
    circuits = tuple(max(1, math.ceil(each / most_field - 1e-9)) for each in fields)
    return RoughDesign(
        math.fsum(fields) + 2.0 * tail * sum(circuits),
        circuits,
        heat,
        supply,
        heat / (specific_demand * house.floor_area),
        tail,
        math.fsum(fields) / house.floor_area,
    )


def _parts(inputs: EstimatesInputs, areas: dict[Use, float], demand: float) -> tuple[RoomToHeat, ...]:
    """Thirds of the occupied floor, and the bathrooms."""
    resistance = inputs.covering_resistance
    build_up = BuildUp(
        "floor",
        *_INSULATED,
        screed_cover=SCREED_COVER,
        covering=inputs.covering,
        covering_resistance=COVERING_RESISTANCES[inputs.covering] if resistance is None else resistance,
    )
    occupied = DesignRoom("occupied", "floor")
    bathroom = DesignRoom("bathroom", "floor", use="bathroom", room_temperature=BATHROOM_TEMPERATURE)
    parts = [(occupied, areas["occupied"] / len(_THIRDS), share) for share in _THIRDS]
    parts.append((bathroom, areas["bathroom"], 1.0))
    return tuple(
        RoomToHeat(
            index=number,
            room=room,
            heat_demand=area * demand * share,
            build_up=build_up,
            pipe=inputs.pipe,
            area=area,
            outline=None,
            surface_limit=surface_limit(room, build_up),
            pipe_spacings=_spacings(inputs, room.use),
            numbered=f"{room.id}-",
        )
        for number, (room, area, share) in enumerate(parts)
        if area > 0.0
    )


def _spacings(inputs: EstimatesInputs, use: Use) -> tuple[float, ...]:
    """Those that the pipe bends to, the widest first; close ones in a bathroom."""
    offered = sorted(DesignLimits().pipe_spacings, reverse=True)
    laid = [each for each in offered if bends_fit(inputs.pipe.bend_radius, each, "counterflow")] or offered[
        :1
    ]
    if use == "bathroom":
        laid = [each for each in laid if each <= BATHROOM_SPACING] or laid[-1:]
    return tuple(laid)


def _area(house: KnownHouse, use: Use) -> float:
    return math.fsum(room.area for room in house.rooms if room.use == use)


def _per_area(parts: tuple[RoomToHeat, ...], points: tuple[OperatingPoint, ...], use: Use) -> float:
    """Pipe in the floor of rooms of this use [m/m2]."""
    own = [
        (part.area, part.area / point.choice.pipe_spacing)
        for part, point in zip(parts, points, strict=True)
        if part.room.use == use
    ]
    return math.fsum(pipe for _, pipe in own) / math.fsum(area for area, _ in own) if own else 0.0
