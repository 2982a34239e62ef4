"""The likely values of an estimate, by the physics of a design and rules of thumb for what is not known.

The rooms' heat demands differ: a third of the floor each needs less than the mean, the mean and more. The third that
needs most sets the supply temperature, as the governing room does in a design; the others get the widest spacing that
serves them. A room takes its share of all three.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial
from typing import Literal, NamedTuple, Protocol, get_args

from ..building.floors import OperatingPoint, RoomToHeat, surface_limit
from ..building.records import BuildUp, DesignLimits, DesignRoom, HeatSource
from ..building.spacings import BATHROOM_SPACING
from ..building.supply import choose_supply, operate_rooms
from ..plan.laying.spacing_limits import bends_fit
from ..plan.lengths.lengths import circuit_length_rule
from .assumptions import COVERING_RESISTANCES, KnownHouse
from .estimate_records import EstimatesInputs

__all__ = ["BATHROOM_TEMPERATURE", "SCREED_COVER", "RoughDesign", "rough_designs"]

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
_USES: tuple[Use, ...] = get_args(Use)


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


class _Asked(Protocol):
    """Makes a room of its demand [W]."""

    def __call__(self, *, heat_demand: float) -> RoomToHeat: ...


class _Part(NamedTuple):
    """A part of the floor of ``area`` [m2], whose demand over the mean of the house is ``share``."""

    area: float
    share: float
    asked: _Asked


def rough_designs(
    inputs: EstimatesInputs, house: KnownHouse, specific_demands: Sequence[float]
) -> tuple[RoughDesign, ...]:
    """The house at each of the demands [W/m2]."""
    areas = {use: _area(house, use) for use in _USES}
    parts = _parts(inputs, areas)
    return tuple(_rough_design(inputs, house, parts, demand) for demand in specific_demands)


def _rough_design(
    inputs: EstimatesInputs, house: KnownHouse, parts: Sequence[_Part], specific_demand: float
) -> RoughDesign:
    rooms = tuple(part.asked(heat_demand=part.area * specific_demand * part.share) for part in parts)
    source = HeatSource(maximum_supply_temperature=inputs.maximum_supply_temperature)
    supply = choose_supply(rooms, source).temperature
    points = operate_rooms(rooms, supply, source, DesignLimits())
    length = {use: _per_area(rooms, points, use) for use in _USES}
    heat = math.fsum(room.area * point.heat_output for room, point in zip(rooms, points, strict=True))
    tail = _MANIFOLD_HEIGHT + _TAIL_REACH * math.sqrt(house.floor_area / inputs.storey_count)
    limit = circuit_length_rule(inputs.pipe).usual
    most_field = max(limit - 2.0 * tail, _LEAST_FIELD * limit)
    fields = [room.area * length[room.use] for room in house.rooms]
    circuits = tuple(max(1, math.ceil(each / most_field - 1e-9)) for each in fields)
    laid = math.fsum(fields)
    return RoughDesign(
        laid + 2.0 * tail * sum(circuits),
        circuits,
        heat,
        supply,
        heat / (specific_demand * house.floor_area),
        tail,
        laid / house.floor_area,
    )


def _parts(inputs: EstimatesInputs, areas: dict[Use, float]) -> tuple[_Part, ...]:
    """Thirds of the occupied floor, and the bathrooms."""
    resistance = inputs.covering_resistance
    build_up = BuildUp(
        "floor",
        *_INSULATED,
        screed_cover=SCREED_COVER,
        covering=inputs.covering,
        covering_resistance=COVERING_RESISTANCES[inputs.covering] if resistance is None else resistance,
    )
    rooms: dict[Use, DesignRoom] = {
        "occupied": DesignRoom("occupied", "floor"),
        "bathroom": DesignRoom("bathroom", "floor", use="bathroom", room_temperature=BATHROOM_TEMPERATURE),
    }
    spacings = {use: _spacings(inputs, use) for use in rooms}
    parts: list[tuple[Use, float, float]] = [
        ("occupied", areas["occupied"] / len(_THIRDS), share) for share in _THIRDS
    ]
    parts.append(("bathroom", areas["bathroom"], 1.0))
    return tuple(
        _Part(
            area,
            share,
            partial(
                RoomToHeat,
                index=number,
                room=rooms[use],
                build_up=build_up,
                pipe=inputs.pipe,
                area=area,
                outline=None,
                surface_limit=surface_limit(rooms[use], build_up),
                pipe_spacings=spacings[use],
                numbered=f"{use}-",
            ),
        )
        for number, (use, area, share) in enumerate(parts)
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


def _per_area(rooms: tuple[RoomToHeat, ...], points: tuple[OperatingPoint, ...], use: Use) -> float:
    """Pipe in the floor of rooms of this use [m/m2]."""
    own = [
        (room.area, room.area / point.choice.pipe_spacing)
        for room, point in zip(rooms, points, strict=True)
        if room.room.use == use
    ]
    return math.fsum(pipe for _, pipe in own) / math.fsum(area for area, _ in own) if own else 0.0
