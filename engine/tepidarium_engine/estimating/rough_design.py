"""The likely values of an estimate, by the physics of a design and rules of thumb for what is not known.

The rooms' heat demands differ, the more the more rooms there are. The floor is taken in three parts: the governing
room, which sets the supply temperature as in a design, and two halves of the rest, which need more and less than its
mean. Each gets the widest spacing that serves it; between two spacings it is laid with both, as over many houses some
rooms have one and some the other. So nothing jumps: more floor at the same demand for each m2 never takes less pipe.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from ..building.floor_choices import FloorChoice, floor_choices
from ..building.floors import surface_limit
from ..building.records import BuildUp, DesignLimits, DesignRoom, HeatSource
from ..building.spacings import BATHROOM_SPACING
from ..building.supply import LEAST_EXCESS
from ..pipe import Pipe
from ..plan.laying.spacing_limits import bends_fit
from ..plan.lengths.lengths import circuit_length_rule
from ..practice.coverings import Covering
from ..thermal.characteristic import mean_excess_temperature
from ..thermal.dimensioning import supply_excess
from ..thermal.floor import Floor
from .assumptions import COVERING_RESISTANCES, KnownHouse, Use
from .estimate_records import EstimatesInputs

__all__ = ["BATHROOM_TEMPERATURE", "LEAST_SUPPLY", "SCREED_COVER", "RoughDesign", "rough_designs"]

_GROWTH, _MOST = 0.17, 0.4
"""Demand of the governing room over the mean, less 1: so much for each e-fold of the number of rooms, and at most so
much (fitted to the drawn designs of tests/estimates)."""
_HALVES = 0.6
"""How far the halves of the rest lie from its mean, as a share of the same (common practice, no source)."""
_TAIL_REACH = 0.5
"""One way from the manifold to a room over the root of the storey's floor area (common practice, no source)."""
_MANIFOLD_HEIGHT = 0.5
"""Between port and screed [m]."""
_LEAST_FIELD = 0.2
"""Share of a circuit's permitted length that is field at least, however far the manifold is."""
_ROUNDED_UP = 0.5
"""What rounding up to whole circuits adds to a room's share of one, on average."""
_GREATEST_COOLING = 0.95
"""Largest share of its excess over the room that the water may lose, as in a design."""
SCREED_COVER = 0.045
"""Above the pipe [m] (EN 1264-4, common value)."""
_INSULATED = (2.0, 10.0)
"""Resistance [m2.K/W] and temperature [degC] below: neither changes what is estimated by more than its spread."""
BATHROOM_TEMPERATURE = 24.0
"""[degC] (EN 12831-1, usual)."""
LEAST_SUPPLY = BATHROOM_TEMPERATURE + LEAST_EXCESS
"""[degC]"""
_LIMITS, _DROP = DesignLimits(), HeatSource().temperature_drop
_SAME = 1e-9
_EVEN = ((1.0, 1.0),)


class RoughDesign(NamedTuple):
    """``pipe_length`` [m], ``circuit_count`` before it is rounded, ``heat_output`` [W], ``supply_temperature`` [degC].
    ``heat_share`` [1] of what is asked; ``tail_length`` [m] one way; ``pipe_per_area`` [m/m2] without tails."""

    pipe_length: float
    circuit_count: float
    heat_output: float
    supply_temperature: float
    heat_share: float
    tail_length: float
    pipe_per_area: float


class _Floor(NamedTuple):
    """A floor of this use at each spacing that may be laid, the widest first; closer ones give more."""

    room_temperature: float
    choices: tuple[FloorChoice, ...]


def rough_designs(
    inputs: EstimatesInputs, house: KnownHouse, specific_demands: Sequence[float]
) -> tuple[RoughDesign, ...]:
    """The house at each of the demands [W/m2]."""
    resistance = inputs.covering_resistance
    if resistance is None:
        resistance = COVERING_RESISTANCES[inputs.covering]
    floors = {use: _floor(inputs.pipe, inputs.covering, resistance, use) for use in house.areas}
    made: dict[float, RoughDesign] = {}
    for demand in specific_demands:
        if demand not in made:
            made[demand] = _rough_design(inputs, house, floors, demand)
    return tuple(made[demand] for demand in specific_demands)


def _rough_design(
    inputs: EstimatesInputs, house: KnownHouse, floors: dict[Use, _Floor], demand: float
) -> RoughDesign:
    shares = _shares(house.evenness)
    governing: Use = "occupied" if "occupied" in floors else "bathroom"
    most = shares[0][1] if governing == "occupied" else 1.0
    supply = min(_supply(floors[governing], demand * most), inputs.maximum_supply_temperature)
    pipes: dict[Use, float] = {}
    field = heat = 0.0
    for use, area in house.areas.items():
        pipes[use], output = _of_use(floors[use], supply, demand, shares if use == "occupied" else _EVEN)
        field += area * pipes[use]
        heat += area * output
    tail = _MANIFOLD_HEIGHT + _TAIL_REACH * math.sqrt(house.floor_area / inputs.storey_count)
    limit = circuit_length_rule(inputs.pipe).usual
    most_field = max(limit - 2.0 * tail, _LEAST_FIELD * limit)
    circuits = 0.0
    for area, use, number in house.rooms:
        circuits += number * max(1.0, area * pipes[use] / most_field + _ROUNDED_UP)
    return RoughDesign(
        field + 2.0 * tail * circuits,
        circuits,
        heat,
        supply,
        heat / (demand * house.floor_area),
        tail,
        field / house.floor_area,
    )


def _of_use(
    floor: _Floor, supply: float, demand: float, shares: tuple[tuple[float, float], ...]
) -> tuple[float, float]:
    """Pipe [m/m2] and heat output [W/m2] of all floor of one use, by its parts."""
    waters = _waters(supply - floor.room_temperature)
    pipe = heat = 0.0
    for part, need in shares:
        laid, output = _laid(floor.choices, waters, demand * need)
        pipe += part * laid
        heat += part * output
    return pipe, heat


def _shares(evenness: float) -> tuple[tuple[float, float], ...]:
    """Parts of the occupied floor with their demand over the mean, the governing room first; ``evenness`` is the number
    of equal rooms that the house is like."""
    if evenness <= 1.0:
        return _EVEN
    over = min(_GROWTH * math.log(evenness), _MOST)
    own = 1.0 / evenness
    half, mean = 0.5 * (1.0 - own), 1.0 - own * over / (1.0 - own)
    return (own, 1.0 + over), (half, mean * (1.0 + _HALVES * over)), (half, mean * (1.0 - _HALVES * over))


def _supply(floor: _Floor, need: float) -> float:
    """That on which the closest spacing gives the need [W/m2], as far as its limit lets it."""
    closest = floor.choices[-1]
    mean = min(need, closest.limit_heat_output) / closest.heat_transmittance
    return floor.room_temperature + supply_excess(mean, _DROP)


def _waters(excess: float) -> tuple[float, float]:
    """Mean excess [K] of water that enters with ``excess`` [K] over the room, at the least drop and at the greatest."""
    most = _GREATEST_COOLING * excess
    least_drop, most_drop = min(_DROP, most), min(_LIMITS.maximum_temperature_drop, most)
    return (
        mean_excess_temperature(excess, excess - least_drop, 0.0),
        mean_excess_temperature(excess, excess - most_drop, 0.0),
    )


def _laid(choices: Sequence[FloorChoice], waters: tuple[float, float], need: float) -> tuple[float, float]:
    """Pipe [m/m2] and heat output [W/m2] at the widest spacing that gives the need [W/m2]; between two that give less
    and more with some of both."""
    warm, cool = waters
    wider: FloorChoice | None = None
    before = 0.0
    for choice in choices:
        output = min(choice.heat_transmittance * warm, choice.limit_heat_output)
        if output >= need * (1.0 - _SAME):
            if wider is None:
                throttled = max(need, choice.heat_transmittance * cool)
                return 1.0 / choice.pipe_spacing, min(throttled, output)
            part = (need - before) / (output - before)
            return part / choice.pipe_spacing + (1.0 - part) / wider.pipe_spacing, need
        wider, before = choice, output
    return 1.0 / choices[-1].pipe_spacing, before


@lru_cache(maxsize=256)
def _floor(pipe: Pipe, covering: Covering, covering_resistance: float, use: Use) -> _Floor:
    build_up = BuildUp(
        "floor",
        *_INSULATED,
        screed_cover=SCREED_COVER,
        covering=covering,
        covering_resistance=covering_resistance,
    )
    room = DesignRoom("room", "floor")
    if use == "bathroom":
        room = DesignRoom("room", "floor", use="bathroom", room_temperature=BATHROOM_TEMPERATURE)
    section = Floor(
        0.0,
        pipe,
        SCREED_COVER,
        build_up.resistance_below,
        build_up.screed_conductivity,
        covering_resistance,
    )
    excess = surface_limit(room, build_up) - room.room_temperature
    return _Floor(room.room_temperature, floor_choices(section, _spacings(pipe, use), excess, None))


def _spacings(pipe: Pipe, use: Use) -> tuple[float, ...]:
    """Those that the pipe bends to, the widest first; close ones in a bathroom."""
    offered = sorted(_LIMITS.pipe_spacings, reverse=True)
    laid = [each for each in offered if bends_fit(pipe.bend_radius, each, "counterflow")] or offered[:1]
    if use == "bathroom":
        laid = [each for each in laid if each <= BATHROOM_SPACING] or laid[-1:]
    return tuple(laid)
