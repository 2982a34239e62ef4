"""The choices of each room on a supply: spacing, covering, circuits and manifold, with what each comes to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from ..building.circuits import DividedRoom, circuit_request, divided_room, in_circuits
from ..building.floors import OperatingPoint, RoomToHeat
from ..building.house import House
from ..building.house_water import manifold_request
from ..building.warm_tails import NO_CIRCUIT_TAILS
from ..glossary import number
from ..hydraulics import HydraulicsInputs
from ..water.fluid import fluid_model
from ..water.manifold import design_flows

__all__ = ["ChoiceTables", "RoomChoice"]

_MOST_DIVISIONS = 8
"""Circuits beyond those that the length asks for, until the pressure holds: as many as a design tries."""
_GREATEST_DROP = number("temperature_drop").maximum
"""Of a circuit that can be computed [K]."""


@dataclass(frozen=True, slots=True)
class RoomChoice:
    """A room as it may be: ``divided``, with the number of its ``covering`` among those that it may have, the
    ``volume_flow`` [m3/s] of all its circuits, and the ``pressure`` [Pa] at the pump that they need with open valves.
    ``within``: whether they keep the pressure drop that the limits allow a circuit."""

    divided: DividedRoom
    covering: int
    volume_flow: float
    pressure: float
    within: bool

    @property
    def circuits(self) -> int:
        return len(self.divided.loops.circuits)

    @property
    def pipe_length(self) -> float:
        return self.divided.loops.pipe_length


@dataclass
class ChoiceTables:
    """``variants``: each room of the house with every covering that it may have. What does not change with the supply
    is remembered."""

    house: House
    variants: Sequence[Sequence[RoomToHeat]]
    additional_circuits: int
    _divisions: dict[tuple[int, float, int, int], DividedRoom] = field(default_factory=dict)

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
            every = [
                choice
                for covering, one in enumerate(room)
                for point in self._points(one, supply)
                for manifold in self.house.choices(one)
                for choice in self._divided(one, covering, point, manifold, requests[manifold])
            ]
            if not every:
                return None
            found.append([choice for choice in every if choice.within] or every)
        return found

    def rated(self, divided: DividedRoom, supply: float) -> RoomChoice:
        """A room that was divided elsewhere, in its own covering."""
        return self._rated(divided, 0, manifold_request(self.house.inputs, divided.manifold, (), supply))

    def _points(self, room: RoomToHeat, supply: float) -> Iterator[OperatingPoint]:
        source, limits = self.house.inputs.source, self.house.inputs.limits
        most = max(source.temperature_drop, limits.maximum_temperature_drop)
        for choice in room.choices:
            point = room.operate(choice, supply, source.temperature_drop, most)
            if point.temperature_drop <= _GREATEST_DROP:
                yield point

    def _divided(
        self, room: RoomToHeat, covering: int, point: OperatingPoint, manifold: int, request: HydraulicsInputs
    ) -> Iterator[RoomChoice]:
        more: int | None = None
        for further in range(_MOST_DIVISIONS + self.additional_circuits + 1):
            divided = self._in_circuits(room, point, manifold, further)._replace(heated=room, point=point)
            choice = self._rated(divided, covering, request)
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
        key = (room.index, point.choice.pipe_spacing, manifold, further)
        if key not in self._divisions:
            if further:
                fewest = self._in_circuits(room, point, manifold, 0)
                self._divisions[key] = in_circuits(fewest, len(fewest.loops.circuits) + further)
            else:
                self._divisions[key] = divided_room(self.house, room, point, manifold)
        return self._divisions[key]

    def _rated(self, divided: DividedRoom, covering: int, request: HydraulicsInputs) -> RoomChoice:
        """All circuits of a room are alike: one is computed."""
        circuit = circuit_request(divided, 0, divided.loops.circuits[0], NO_CIRCUIT_TAILS)
        one = replace(request, circuits=(circuit,))
        flow = design_flows(one, fluid_model(request.fluid))[0]
        return RoomChoice(
            divided,
            covering,
            flow.volume_flow * len(divided.loops.circuits),
            flow.upper_whole_drop + request.mains_pressure_drop,
            flow.upper_whole_drop <= self.house.inputs.limits.maximum_pressure_drop,
        )
