"""Options as whole houses: balanced, weighed against each other, and compared to their neighbours."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple, Protocol

from ..building.circuits import balance, pressure_with_valve
from ..building.house import House, HouseState
from ..building.house_water import HouseWater
from ..building.option_records import (
    BesideNeighbour,
    DesignOption,
    EnergyOfYear,
    ManifoldPorts,
    OptionCoils,
    OptionRoom,
)
from ..building.warm_tails import HouseTails
from ..errors import faults_at
from ..hydraulics import Pump
from ..thermal.characteristic import mean_surface_temperature
from .coils_bought import coils_of
from .energy import energy_of_year
from .front import FrontSearch, HouseOption, cuts_of
from .pump_stages import stage_for
from .room_choices import RoomChoice, surface_range

__all__ = ["Front", "Weighed", "beside", "best_in", "cost_of_use", "evaluated", "front_of"]

_SAME_SUPPLY, _SAME_HEAT, _SAME_POWER = 0.1, 1.0, 0.5
"""Differences [K, W, W] of supply, heat and pump power for which nobody chooses another house (common practice, no
source)."""
_SAME_SHARE = 0.01
"""The same for material, as a share of it."""


class _Measures(NamedTuple):
    """What an option is weighed by; less is better."""

    supply: float
    missing: float
    material: float
    power: float

    def no_worse_than(self, other: _Measures) -> bool:
        return (
            self.supply <= other.supply + _SAME_SUPPLY
            and self.missing <= other.missing + _SAME_HEAT
            and self.material <= other.material * (1.0 + _SAME_SHARE)
            and self.power <= other.power + _SAME_POWER
        )


class Weighed(Protocol):
    """A house with what it is weighed by."""

    @property
    def supply_temperature(self) -> float: ...
    @property
    def pipe_length(self) -> float: ...
    @property
    def circuit_count(self) -> int: ...
    @property
    def heat_missing(self) -> float: ...
    @property
    def pump(self) -> Pump: ...
    @property
    def material_cost(self) -> float | None: ...
    @property
    def energy(self) -> EnergyOfYear | None: ...


@dataclass(frozen=True)
class Front:
    """``options`` from the warmest supply to the coldest; ``left_out`` more are worth considering."""

    options: tuple[DesignOption, ...]
    left_out: int


def evaluated(search: FrontSearch, option: HouseOption) -> DesignOption:
    """The option as a house: every circuit balanced with all others."""
    source = replace(search.house.inputs.source, temperature_drop=option.drop)
    house = replace(search.house, inputs=replace(search.house.inputs, source=source))
    divided = tuple(choice.divided for choice in option.choices)
    state = HouseState(
        house,
        tuple(room.heated for room in divided),
        tuple(room.manifold for room in divided),
        HouseTails(),
        option.supply,
    )
    with faults_at({}, "/design"):
        water = balance(state, divided)
    coils = _coils(search, option)
    cost = None
    if search.priced:
        cost = math.fsum(search.price(choice, place) for place, choice in enumerate(option.choices))
        cost += 0.0 if coils is None else coils.coils_price
    rooms = tuple(_room(search, place, choice, water) for place, choice in enumerate(option.choices))
    ports = Counter(manifold for room in divided for manifold in room.manifolds)
    return DesignOption(
        number=0,
        supply_temperature=option.supply,
        return_temperature=water.whole.return_temperature,
        design_drop=option.drop,
        rooms=rooms,
        manifolds=_ports(house, ports),
        pipe_length=math.fsum(room.pipe_length for room in rooms),
        circuit_count=sum(room.circuit_count for room in rooms),
        heat_missing=math.fsum(room.heat_missing for room in rooms),
        mass_flow=water.whole.mass_flow,
        pump=water.whole.pump,
        pump_stage=stage_for(search.inputs.pump_stages, water.whole.pump),
        material_cost=cost,
        coils=coils,
        energy=energy_of_year(
            search.inputs.heat_pump, option.supply, math.fsum(room.heat_demand for room in rooms), cost
        ),
        proven=option.proven,
        gap=option.gap,
        breaks=tuple(sorted({finding.code for finding in water.findings if finding.severity == "violation"})),
        beside=None,
    )


def _coils(search: FrontSearch, option: HouseOption) -> OptionCoils | None:
    return None if search.stock is None else coils_of(search.stock, map(cuts_of, option.choices))


def _ports(house: House, ports: Counter[int]) -> tuple[ManifoldPorts, ...]:
    return tuple(
        ManifoldPorts(manifold.id, ports[place])
        for place, manifold in enumerate(house.manifolds)
        if ports[place]
    )


def _room(search: FrontSearch, place: int, choice: RoomChoice, water: HouseWater) -> OptionRoom:
    divided = choice.divided
    heated, point = divided.heated, divided.point
    variant = search.variants[place][choice.variant]
    return OptionRoom(
        id=heated.room.id,
        name=heated.room.name,
        pipe_spacing=point.choice.pipe_spacing,
        covering=heated.build_up.covering,
        covering_resistance=heated.build_up.covering_resistance,
        covering_option=variant.covering,
        pattern=heated.room.pattern,
        pattern_option=variant.pattern,
        peripheral=None if point.choice.strip is None else heated.room.peripheral,
        manifold=search.house.manifolds[divided.manifold].id,
        circuit_count=choice.circuits,
        circuit_length=divided.loops.circuits[0].total_length,
        pipe_length=choice.pipe_length,
        heat_demand=heated.heat_demand,
        heat_given=heated.given(point.heat_output),
        heat_missing=divided.heat_missing,
        temperature_drop=point.temperature_drop,
        return_temperature=point.field_supply - point.temperature_drop,
        mean_surface_temperature=float(
            mean_surface_temperature(point.heat_output, heated.room.room_temperature)
        ),
        surface_range=surface_range(divided),
        pressure_drop_upper=max(pressure_with_valve(water.circuits[each]) for each in divided.circuit_ids),
    )


def _measures(option: DesignOption) -> _Measures:
    material = option.pipe_length if option.material_cost is None else option.material_cost
    return _Measures(option.supply_temperature, option.heat_missing, material, option.pump.hydraulic_power)


def front_of(options: Sequence[DesignOption], by_rule: DesignOption, most: int) -> Front:
    """At most so many options that no other one beats; the best in each respect are among them.

    Those that break a limit which the house by the rule keeps are left out, unless all do.
    """
    sound = [option for option in options if set(option.breaks) <= set(by_rule.breaks)]
    every = sorted(sound or options, key=_measures)
    best = [min(every, key=order) for order in _RESPECTS]
    best += sorted((option for option in every if cost_of_use(option) is not None), key=_use)[:1]
    kept: list[DesignOption] = []
    for option in (*best, *every):
        if not any(_measures(other).no_worse_than(_measures(option)) for other in kept):
            kept.append(option)
    chosen = _spread(kept, sum(option in best for option in kept), most)
    ordered = sorted(chosen, key=lambda option: (-option.supply_temperature, *_measures(option)[1:]))
    return Front(with_neighbours(ordered), len(kept) - len(chosen))


def _material_first(option: DesignOption) -> tuple[float, ...]:
    supply, missing, material, power = _measures(option)
    return material, missing, supply, power


def _power_first(option: DesignOption) -> tuple[float, ...]:
    supply, missing, material, power = _measures(option)
    return power, missing, supply, material


_RESPECTS = (_material_first, _measures, _power_first)


def cost_of_use(option: Weighed) -> float | None:
    """Material and the energy of all years, where both are known."""
    return None if option.energy is None else option.energy.cost_of_use


def _use(option: DesignOption) -> tuple[float, ...]:
    return cost_of_use(option) or 0.0, *_measures(option)


def best_in(options: Sequence[DesignOption]) -> tuple[int, int, int, int | None]:
    """Numbers of the options with the least material, supply, pump power and cost of use."""
    material, supply, power = (min(options, key=order).number for order in _RESPECTS)
    used = [option for option in options if cost_of_use(option) is not None]
    return material, supply, power, min(used, key=_use).number if used else None


def _spread(options: Sequence[DesignOption], pinned: int, most: int) -> list[DesignOption]:
    """The first ``pinned`` of the options, and of the others those that differ most from all that are taken."""
    measures = [_measures(option) for option in options]
    ranges = [max(column) - min(column) for column in zip(*measures, strict=True)]

    def distance(one: int, other: int) -> float:
        parts = zip(measures[one], measures[other], ranges, strict=True)
        return max(abs(a - b) / width if width else 0.0 for a, b, width in parts)

    taken = list(range(pinned))
    while len(taken) < min(most, len(options)):
        left = [number for number in range(len(options)) if number not in taken]
        away = [round(min(distance(number, each) for each in taken), 9) for number in left]
        taken.append(left[away.index(max(away))])
    return [options[number] for number in taken]


def with_neighbours(options: Sequence[DesignOption]) -> tuple[DesignOption, ...]:
    """Each with its number, beside the one before it."""
    return tuple(
        replace(option, number=place + 1, beside=beside(option, options[place - 1]) if place else None)
        for place, option in enumerate(options)
    )


def beside(option: Weighed, other: Weighed) -> BesideNeighbour:
    """What one house takes more or less than another."""
    supply = option.supply_temperature - other.supply_temperature
    pipe = option.pipe_length - other.pipe_length
    circuits = option.circuit_count - other.circuit_count
    missing = option.heat_missing - other.heat_missing
    power = option.pump.hydraulic_power - other.pump.hydraulic_power
    noun = "circuit" if abs(circuits) == 1 else "circuits"
    changes = [
        (supply, f"{abs(supply):.1f} K", "lower supply", "higher supply"),
        (missing, f"{abs(missing):.0f} W", "less heat missing", "more heat missing"),
        (pipe, f"{abs(pipe):.0f} m", "less pipe", "more pipe"),
        (float(circuits), f"{abs(circuits)}", f"{noun} fewer", f"{noun} more"),
        (power, f"{abs(power):.2f} W", "less pump power", "more pump power"),
    ]
    changes = [change for change in changes if float(change[1].split()[0]) > 0.0]
    gains = [f"{size} {less}" for change, size, less, _ in changes if change < 0.0]
    prices = [f"{size} {more}" for change, size, _, more in changes if change > 0.0]
    words = [_listed(part) for part in (gains, prices) if part]
    return BesideNeighbour(
        supply_difference=supply,
        pipe_difference=pipe,
        circuit_difference=circuits,
        missing_difference=missing,
        power_difference=power,
        material_difference=_less(option.material_cost, other.material_cost),
        use_difference=_less(cost_of_use(option), cost_of_use(other)),
        message=f"{' for '.join(words)}." if words else "The same within rounding.",
    )


def _listed(parts: Sequence[str]) -> str:
    return " and ".join([*([", ".join(parts[:-1])] if parts[1:] else []), parts[-1]])


def _less(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one - other
