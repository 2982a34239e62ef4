"""Houses at every supply that matters, each the best of its kind: what the front is taken from.

A spacing of a room becomes possible at the supply that its heat asks for. Between two of these supplies nothing
changes but flows, so that only they have to be looked at.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import scipy

from ..building.house import House
from ..building.option_records import DesignOptionsInputs, PumpStage
from ..building.solving import FirstDivision
from ..building.supply import LEAST_EXCESS, operate_rooms
from .coil_stock import CoilStock, Cuts
from .coils_bought import cuts_for, stock_of
from .room_choices import ChoiceTables, RoomChoice, RoomVariant, surface_range
from .selection import Candidate, Coils, Selection, SelectionTask, best_selection
from .supplies import asked_supplies, coarse_first, thinned

__all__ = ["FrontSearch", "HouseOption"]

_MOST_SEARCHES, _MOST_COLUMNS = 250, 3_000_000
"""Programmes given to HiGHS, and columns of all of them; supplies that are left over then are left out."""
_SAME = 1e-9
_HEAT, _LENGTH, _MONEY, _FLOW = 10.0, 1000.0, 100.0, 1e9
"""Whole numbers of 0.1 W, 1 mm, 0.01 of the currency and 1 mm3/s."""
_HALF = 0.5
"""Share of the pressure that a circuit may lose which is tried as a smaller pump."""


class HouseOption(NamedTuple):
    """A choice for each room at a supply [degC] with the drop [K] of the source. ``gap``: see ``DesignOption``."""

    drop: float
    supply: float
    choices: tuple[RoomChoice, ...]
    proven: bool
    gap: float


def cuts_of(choice: RoomChoice) -> Cuts:
    """What is cut from coils for the circuits of a room, which are alike."""
    length = choice.divided.loops.circuits[0].total_length if choice.circuits else 0.0
    return cuts_for(length, choice.circuits)


class _Aim(NamedTuple):
    """What is weighed first after the heat, and what the pump allows."""

    least_flow: bool
    stage: PumpStage | None


@dataclass
class FrontSearch:
    """All supplies and drops of a request. ``searches`` counts the programmes, ``columns`` what they choose from,
    ``supplies`` those that were looked at; ``too_few_ports`` and ``pump_too_small`` are found on the way."""

    inputs: DesignOptionsInputs
    house: House
    variants: Sequence[Sequence[RoomVariant]]
    searches: int = 0
    columns: int = 0
    supplies: int = 0
    supplies_left_out: int = 0
    too_few_ports: bool = False
    pump_too_small: bool = False

    @cached_property
    def priced(self) -> bool:
        return self.inputs.prices is not None or any(one.price for room in self.variants for one in room)

    @property
    def solver(self) -> str:
        """What solved the programmes; empty where there were none."""
        return f"HiGHS in scipy {scipy.__version__}" if self.searches else ""

    def by_rule(self, division: FirstDivision) -> HouseOption:
        """The house as designs does it."""
        tables = self._tables(self.house)
        choices = tuple(tables.rated(room, division.supply.temperature) for room in division.divided)
        drop = self.house.inputs.source.temperature_drop
        return HouseOption(drop, division.supply.temperature, choices, proven=True, gap=0.0)

    def options(self, division: FirstDivision) -> list[HouseOption]:
        """What is best in some respect: heat first, then material or flow, for each stage of the pump."""
        found: list[HouseOption] = []
        for stages, ports in ((True, True), (False, True), (True, False), (False, False)):
            if not found and (stages or self.inputs.pump_stages):
                self.pump_too_small, self.too_few_ports = not stages, not ports
                found = list(self._all(division, self._aims(stages=stages)))
        ruled = self.by_rule(division)
        return [*found, ruled] if not found or self._may_be_offered(ruled) else found

    def _may_be_offered(self, option: HouseOption) -> bool:
        """Whether the house by the rule is one of those that were asked for, has its ports and even floors."""
        inputs = self.inputs
        asked = (
            not inputs.pump_stages
            and not inputs.supply_temperatures
            and (not inputs.temperature_drops or option.drop in inputs.temperature_drops)
        )
        most = self.house.inputs.limits.maximum_circuits
        circuits = Counter(
            choice.divided.manifold for choice in option.choices for _ in range(choice.circuits)
        )
        even = all(surface_range(choice.divided) <= self._surface_range for choice in option.choices)
        return asked and even and all(count <= most for count in circuits.values())

    @property
    def _surface_range(self) -> float:
        most = self.inputs.maximum_surface_range
        return math.inf if most is None else most

    def _aims(self, *, stages: bool) -> list[_Aim]:
        if stages and self.inputs.pump_stages:
            return [_Aim(flow, stage) for stage in self.inputs.pump_stages for flow in (False, True)]
        mains = max(manifold.mains_pressure_drop for manifold in self.house.manifolds)
        half = PumpStage(_HALF * self.house.inputs.limits.maximum_pressure_drop + mains)
        return [_Aim(False, None), _Aim(False, half), _Aim(True, None)]

    def _all(self, division: FirstDivision, aims: Sequence[_Aim]) -> Iterator[HouseOption]:
        source = self.house.inputs.source
        lacking = sum(round(_HEAT * room.heat_missing) for room in division.divided)
        permitted = lacking + round(_HEAT * self.inputs.permitted_heat_missing)
        for drop in self.inputs.temperature_drops or (source.temperature_drop,):
            inputs = replace(self.house.inputs, source=replace(source, temperature_drop=drop))
            house = replace(self.house, inputs=inputs)
            tables = self._tables(house)
            for supply in coarse_first(self._supplies(house, division.supply.temperature)):
                if self.searches > _MOST_SEARCHES or self.columns > _MOST_COLUMNS:
                    self.supplies_left_out += 1
                    continue
                self.supplies += 1
                choices = tables.on_supply(supply)
                if choices is not None:
                    yield from _OnSupply(self, house, supply, choices, division.state.served).options(
                        aims, permitted
                    )

    def _tables(self, house: House) -> ChoiceTables:
        return ChoiceTables(house, self.variants, self.inputs.additional_circuits, self._surface_range)

    def _supplies(self, house: House, by_rule: float) -> list[float]:
        """From the warmest to the coldest [degC]."""
        source = house.inputs.source
        if source.supply_temperature is not None:
            return [by_rule]
        if self.inputs.supply_temperatures:
            return sorted(set(self.inputs.supply_temperatures), reverse=True)
        least = max(room.room.room_temperature for room in house.rooms) + LEAST_EXCESS
        asked = asked_supplies(self.variants, source.temperature_drop)
        found = sorted(
            {by_rule, *(supply for supply in asked if least <= supply <= source.maximum_supply_temperature)},
            reverse=True,
        )
        kept = thinned(found, by_rule)
        self.supplies_left_out += len(found) - len(kept)
        return kept

    def candidates(self, choice: RoomChoice, place: int) -> tuple[Candidate, Candidate]:
        """A choice of room ``place`` as it is weighed by material first, and by flow first."""
        flow = round(_FLOW * choice.volume_flow)
        pipe = round(_LENGTH * choice.pipe_length)
        material = round(_MONEY * self.price(choice, place)) if self.priced else pipe
        missing = round(_HEAT * choice.divided.heat_missing)
        weighed: tuple[tuple[int, ...], tuple[int, ...]] = (
            (missing, material, pipe, flow),
            (missing, flow, material, pipe),
        )
        cut = Cuts(0, 0)
        if self.stock is not None:
            weighed, cut = (weighed[0][:2], weighed[1][:3]), cuts_of(choice)
        manifold, ports = choice.divided.manifold, choice.circuits
        by_material, by_flow = (Candidate(own, manifold, ports, flow, cut) for own in weighed)
        return by_material, by_flow

    @cached_property
    def stock(self) -> CoilStock | None:
        """The coils that are bought, where they have prices."""
        return stock_of(self.inputs.prices)

    def price(self, choice: RoomChoice, place: int) -> float:
        """Of the material of room ``place``, in the currency of the prices."""
        prices, total = self.inputs.prices, 0.0
        if prices is not None:
            total += prices.pipe * choice.pipe_length + prices.circuit * choice.circuits
        variant = self.variants[place][choice.variant]
        return total + variant.price * variant.heated.area


class _Weighed(NamedTuple):
    """A choice with what it is weighed as."""

    choice: RoomChoice
    by_material: Candidate
    by_flow: Candidate


@dataclass
class _OnSupply:
    """The house on one supply [degC]; ``served``: the manifold of each room by the rule of designs."""

    search: FrontSearch
    house: House
    supply: float
    choices: Sequence[Sequence[RoomChoice]]
    served: Sequence[int]

    def options(self, aims: Sequence[_Aim], permitted: int) -> Iterator[HouseOption]:
        """One for each aim that can be met, unless the house must lack more than ``permitted`` [0.1 W] here."""
        limits = self.house.inputs.limits
        every = (limits.maximum_circuits,) * len(self.house.manifolds)
        ports = None if self.search.too_few_ports else every
        unlimited = _Aim(False, None)
        best = self._best(unlimited, ports)
        if best is None or _missing(best.choices) > permitted:
            return
        for aim in aims:
            found = best if aim == unlimited else self._best(aim, ports)
            if found is not None and _missing(found.choices) <= permitted:
                yield found

    @cached_property
    def _candidates(self) -> list[list[_Weighed]]:
        return [
            [_Weighed(choice, *self.search.candidates(choice, place)) for choice in room]
            for place, room in enumerate(self.choices)
        ]

    def _best(self, aim: _Aim, ports: tuple[int, ...] | None) -> HouseOption | None:
        stage = aim.stage
        weighed = [
            [own for own in room if stage is None or own.choice.pressure <= stage.pressure * (1.0 + _SAME)]
            for room in self._candidates
        ]
        stock = self.search.stock
        if stock is not None:
            weighed = [
                [own for own in room if own.by_material.cut.length <= stock.longest] or room
                for room in weighed
            ]
        if not all(weighed):
            return None
        within = [[own.choice for own in room] for room in weighed]
        most = None if stage is None else stage.maximum_volume_flow
        task = SelectionTask(
            tuple(
                tuple(own.by_flow if aim.least_flow else own.by_material for own in room) for room in weighed
            ),
            ports,
            None if most is None else round(_FLOW * most),
            self.search.inputs.nodes,
            None if stock is None else Coils(stock, 1 + aim.least_flow),
        )
        found = best_selection(task, self._by_rule(within))
        if found is None:
            return None
        self.search.searches += found.programmes
        self.search.columns += found.programmes * sum(map(len, within))
        choices = tuple(room[number] for room, number in zip(within, found.taken, strict=True))
        return HouseOption(
            self.house.inputs.source.temperature_drop,
            self.supply,
            choices,
            found.proven(task),
            _gap(task, found),
        )

    def _by_rule(self, within: Sequence[Sequence[RoomChoice]]) -> tuple[int, ...] | None:
        """The choices that designs would take on this supply, where all of them are there."""
        inputs = self.house.inputs
        points = operate_rooms(self.house.rooms, self.supply, inputs.source, inputs.limits)
        taken = []
        for room, point, manifold in zip(within, points, self.served, strict=True):
            own = (0, point.choice.pipe_spacing, manifold)
            place = next(
                (
                    number
                    for number, each in enumerate(room)
                    if (each.variant, each.divided.point.choice.pipe_spacing, each.divided.manifold) == own
                ),
                None,
            )
            if place is None:
                return None
            taken.append(place)
        return tuple(taken)


def _missing(choices: Sequence[RoomChoice]) -> int:
    """Heat that the house lacks [0.1 W]."""
    return sum(round(_HEAT * choice.divided.heat_missing) for choice in choices)


def _gap(task: SelectionTask, found: Selection) -> float:
    """Share by which the first measure that is not proven may be better."""
    for place, bound in enumerate(found.bounds):
        value = task.measure(found.taken, place)
        if value > bound:
            return (value - bound) / value
    return 0.0 if found.proven(task) else 1.0
