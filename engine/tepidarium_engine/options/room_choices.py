"""The choices of each room on a supply: spacing, covering, circuits and manifold, with what each comes to."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from operator import le
from typing import NamedTuple

from ..building.circuits import DividedRoom, circuit_request, divided_room, in_circuits
from ..building.floors import OperatingPoint, RoomToHeat
from ..building.house import House
from ..building.house_water import manifold_request
from ..building.tails import estimated_tail
from ..building.warm_tails import NO_CIRCUIT_TAILS
from ..glossary import number
from ..hydraulics import HydraulicsInputs
from ..thermal.characteristic import mean_surface_temperature
from ..water.fluid import fluid_model
from ..water.manifold import design_flows

__all__ = ["ChoiceTables", "RoomChoice", "RoomVariant", "surface_range"]

_MOST_DIVISIONS = 8
"""Circuits beyond those that the length asks for, until the pressure holds: as many as a design tries."""
_GREATEST_DROP = number("temperature_drop").maximum
"""Of a circuit that can be computed [K]."""


class RoomVariant(NamedTuple):
    """A room with a covering, a pattern and a strip, its own where their numbers in the request are None; ``price`` per
    m2 above what is its own. By area it is like its ``twin``, the variant of this number, in all but evenness."""

    heated: RoomToHeat
    covering: int | None = None
    pattern: int | None = None
    strip: int | None = None
    price: float = 0.0
    twin: int | None = None

    @property
    def beside_own(self) -> bool:
        """Whether it has another covering, pattern or strip than the room itself."""
        return any(number is not None for number in (self.covering, self.pattern, self.strip))


@dataclass(frozen=True, slots=True)
class RoomChoice:
    """A room as it may be: ``divided``, with the number of its ``variant`` among those that it may have, the
    ``volume_flow`` [m3/s] of all its circuits, and the ``pressure`` [Pa] at the pump that they need with open valves.
    ``within``: whether they keep the pressure drop that the limits allow a circuit."""

    divided: DividedRoom
    variant: int
    volume_flow: float
    pressure: float
    within: bool

    @property
    def circuits(self) -> int:
        return len(self.divided.loops.circuits)

    @property
    def pipe_length(self) -> float:
        return self.divided.loops.pipe_length


def surface_range(room: DividedRoom) -> float:
    """How much warmer the surface is [K] where the water comes in than where it leaves: of a serpentine, whose water
    cools across the room, by the output at either end; none of a counterflow, where flow and return lie side by side.
    EN 1264-2, basic characteristic curve."""
    point, inside = room.point, room.heated.room.room_temperature
    if room.heated.room.pattern == "counterflow" or not room.heated.own_circuits:
        return 0.0
    slope = point.choice.heat_transmittance
    first, last = (
        float(mean_surface_temperature(max(slope * (water - inside), 0.0), inside))
        for water in (point.field_supply, point.field_supply - point.temperature_drop)
    )
    return first - last


def _respects(variant: RoomVariant, choice: RoomChoice) -> tuple[float, ...]:
    """All that a choice is weighed by; less is better."""
    return (
        choice.divided.heat_missing,
        choice.pipe_length,
        choice.volume_flow,
        choice.pressure,
        float(choice.circuits),
        variant.price,
    )


@dataclass
class ChoiceTables:
    """``variants``: each room of the house with every covering, pattern and strip that it may have. What does not
    change with the supply is remembered."""

    house: House
    variants: Sequence[Sequence[RoomVariant]]
    additional_circuits: int
    surface_range: float = math.inf
    _divisions: dict[tuple[object, ...], DividedRoom] = field(default_factory=dict)
    _manifolds: dict[int, list[tuple[int, int]]] = field(default_factory=dict)

    def on_supply(self, supply: float) -> list[list[RoomChoice]] | None:
        """What each room may be on the supply [degC]; None where a room cannot be computed on it.

        A room at one spacing on one manifold comes in the fewest circuits that keep the pressure, and in more of
        them. What keeps it in no number is left out, unless the room has nothing else.
        """
        requests = [
            manifold_request(self.house.inputs, place, (), supply)
            for place in range(len(self.house.manifolds))
        ]
        found = []
        for room in self.variants:
            every = [choice for own in self._of_variants(room, supply, requests) for choice in own]
            if not every:
                return None
            every = [choice for choice in every if choice.within] or every
            even = [choice for choice in every if surface_range(choice.divided) <= self.surface_range]
            found.append(self._worth_weighing(room, even or every))
        return found

    def _of_variants(
        self, room: Sequence[RoomVariant], supply: float, requests: Sequence[HydraulicsInputs]
    ) -> list[list[RoomChoice]]:
        """The choices of each variant."""
        found: list[list[RoomChoice]] = []
        for place, one in enumerate(room):
            if one.twin is None:
                own = [
                    choice
                    for point in self._points(one.heated, supply)
                    for choice in self._on_manifolds(one.heated, place, point, requests)
                ]
            else:
                own = [
                    replace(choice, variant=place, divided=choice.divided._replace(heated=one.heated))
                    for choice in found[one.twin]
                ]
            found.append(own)
        return found

    def _on_manifolds(
        self, room: RoomToHeat, variant: int, point: OperatingPoint, requests: Sequence[HydraulicsInputs]
    ) -> Iterator[RoomChoice]:
        """On each manifold that may serve the room; manifolds that are alike for it give the same."""
        known: dict[int, list[RoomChoice]] = {}
        for manifold, like in self._alike(room):
            if like not in known:
                known[like] = list(self._divided(room, variant, point, manifold, requests[manifold]))
                yield from known[like]
                continue
            for choice in known[like]:
                yield replace(choice, divided=choice.divided._replace(manifold=manifold))

    def _alike(self, room: RoomToHeat) -> list[tuple[int, int]]:
        """The manifolds that may serve a room, each with the first that is as far away and has the same valves."""
        if room.index not in self._manifolds:
            served = self.house.choices(room)
            every = [self.house.manifolds[manifold] for manifold in served]
            plain = [
                (replace(each, id="", storey=None, position=None), estimated_tail(room, each))
                for each in every
            ]
            self._manifolds[room.index] = [
                (manifold, served[plain.index(own)]) for manifold, own in zip(served, plain, strict=True)
            ]
        return self._manifolds[room.index]

    @staticmethod
    def _worth_weighing(room: Sequence[RoomVariant], choices: list[RoomChoice]) -> list[RoomChoice]:
        """Without coverings, patterns and strips in place of which another choice does as well in every respect."""
        kept: list[RoomChoice] = []
        costs: dict[int, list[tuple[float, ...]]] = {}
        for choice in sorted(choices, key=lambda one: room[one.variant].beside_own):
            cost = _respects(room[choice.variant], choice)
            others = costs.setdefault(choice.divided.manifold, [])
            if room[choice.variant].beside_own and any(all(map(le, least, cost)) for least in others):
                continue
            kept.append(choice)
            others.append(cost)
        return kept

    def rated(self, divided: DividedRoom, supply: float) -> RoomChoice:
        """A room that was divided elsewhere, in its own covering."""
        return self._rated(divided, 0, manifold_request(self.house.inputs, divided.manifold, (), supply))

    def _points(self, room: RoomToHeat, supply: float) -> Iterator[OperatingPoint]:
        source, limits = self.house.inputs.source, self.house.inputs.limits
        most = max(source.temperature_drop, limits.maximum_temperature_drop)
        for choice in room.choices:
            point = room.operate(choice, supply, source.temperature_drop, most)
            gives = point.heat_output + point.downward_heat_loss
            if point.temperature_drop <= _GREATEST_DROP and gives > 0.0:
                yield point

    def _divided(
        self, room: RoomToHeat, variant: int, point: OperatingPoint, manifold: int, request: HydraulicsInputs
    ) -> Iterator[RoomChoice]:
        more: int | None = None
        for further in range(_MOST_DIVISIONS + self.additional_circuits + 1):
            divided = self._in_circuits(room, point, manifold, further)._replace(heated=room, point=point)
            choice = self._rated(divided, variant, request)
            if more is None and (choice.within or further == _MOST_DIVISIONS):
                more = self.additional_circuits
            if more is None:
                continue
            yield choice
            if not more:
                return
            more -= 1

    def _in_circuits(
        self, room: RoomToHeat, point: OperatingPoint, manifold: int, further: int
    ) -> DividedRoom:
        key = (room.index, room.strip, point.choice.pipe_spacing, manifold, further)
        if key not in self._divisions:
            if further:
                fewest = self._in_circuits(room, point, manifold, 0)
                self._divisions[key] = in_circuits(fewest, len(fewest.loops.circuits) + further)
            else:
                self._divisions[key] = divided_room(self.house, room, point, manifold)
        return self._divisions[key]

    def _rated(self, divided: DividedRoom, variant: int, request: HydraulicsInputs) -> RoomChoice:
        """All circuits of a room are alike: one is computed."""
        circuit = circuit_request(divided, 0, divided.loops.circuits[0], NO_CIRCUIT_TAILS)
        one = replace(request, circuits=(circuit,))
        flow = design_flows(one, fluid_model(request.fluid))[0]
        return RoomChoice(
            divided,
            variant,
            flow.volume_flow * len(divided.loops.circuits),
            flow.upper_whole_drop + request.mains_pressure_drop,
            flow.upper_whole_drop <= self.house.inputs.limits.maximum_pressure_drop,
        )
