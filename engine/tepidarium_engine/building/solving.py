"""Spacings, supply, circuits, flows, lengths and the heat of tails, solved for each other round by round.

Each round takes the heat of tails as the drawing of the round before has it off the demand of the rooms that they
cross, and solves all else for that. What a round does not change is not laid again.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import NamedTuple

from .circuits import DividedRoom, balance, divided_rooms
from .drawn_house import Draughtsman, DrawnHouse
from .floors import OperatingPoint, RoomToHeat
from .house import House, HouseState
from .house_water import HouseWater
from .outcome import DesignConvergence
from .serving import nearest_manifolds, served_by, ways_to_manifolds
from .supply import CommonSupply, choose_supply, operate_rooms
from .tail_heat import heat_of_tails
from .warm_tails import HouseTails

__all__ = ["FirstDivision", "SolvedHouse", "division_to_draw", "first_division", "solve_house"]

_TOLERANCE = 1.0
"""No heat of a room or circuit may differ by more from round to round [W]."""
_MOST_ROUNDS = 8
_LEAST_STEP = 0.5
_SKETCHES = 4
"""Rounds at first in which only tails are drawn, at most; fewer where no heat moves by more than ``_SKETCHED`` [W]."""
_SKETCHED = 20.0
_FREE_ROUNDS = 4
"""After which no room changes its spacing any more: one whose spacing swings keeps the closer one."""


class SolvedHouse(NamedTuple):
    """Everything at one supply temperature; ``drawn`` is ``None`` where no storey is drawn. ``kept`` are the wider
    spacings [m], by index of the room, that would have been chosen in turn with those that are; ``lacking`` is the heat
    [W] without circuits of their own of rooms that tails would heat enough as they are."""

    supply: CommonSupply
    state: HouseState
    divided: tuple[DividedRoom, ...]
    water: HouseWater
    drawn: DrawnHouse | None
    convergence: DesignConvergence
    kept: Mapping[int, float] = MappingProxyType({})
    lacking: Mapping[int, float] = MappingProxyType({})


class FirstDivision(NamedTuple):
    supply: CommonSupply
    state: HouseState
    points: tuple[OperatingPoint, ...]
    divided: tuple[DividedRoom, ...]
    water: HouseWater


def solve_house(house: House, draughtsman: Draughtsman, before: DrawnHouse | None = None) -> SolvedHouse:
    """The house, drawn by a draughtsman of it who may have drawn before.

    At first only the tails are drawn, which takes little time, until spacings have found their places. They are close
    to these at once where the same rooms were drawn ``before``, with a slight change of the request.

    Raises ``InputError`` for a supply no warmer than a room and for tails that use up a circuit.
    """
    if not house.sites:
        supply, state, _, divided, water = first_division(house)
        return SolvedHouse(supply, state, divided, water, None, DesignConvergence(1, 0.0, _TOLERANCE, True))
    rounds = _sketched(house, draughtsman, before)
    number, last = 0, _MOST_ROUNDS
    while True:
        number += 1
        found = rounds.found(draughtsman.draw(rounds.state, rounds.divided))
        settled = found.residual <= _TOLERANCE and not found.joined
        if settled or number >= last:
            more = rounds.alone.given_up(rounds.state) or draughtsman.divides_more(found.drawn)
            if not more and not draughtsman.fills():
                break
            rounds.alone.filled = draughtsman.filling
            last = number + _MOST_ROUNDS
        rounds.go_on(found, rounds.step.share(found.change))
    drawn, convergence = found.drawn, DesignConvergence(number, found.residual, _TOLERANCE, settled)
    return SolvedHouse(
        rounds.supply,
        rounds.state,
        drawn.divided,
        drawn.water,
        drawn,
        convergence,
        rounds.spacings.kept,
        rounds.alone.barred,
    )


def division_to_draw(house: House, draughtsman: Draughtsman) -> tuple[DividedRoom, ...]:
    """The circuits of all rooms of a house that are drawn first: those that go with the heat of their tails."""
    return _sketched(house, draughtsman).divided


def _sketched(house: House, draughtsman: Draughtsman, before: DrawnHouse | None = None) -> _Rounds:
    """The rounds in which only tails are drawn."""
    supply, state, points, divided, _ = first_division(house)
    rounds = _Rounds(house, supply, state, divided, _Spacings(points), _Step(), _HeatedByTails())
    if before is not None:
        rounds.go_on(rounds.found(before), 1.0)
    for _ in range(_SKETCHES):
        found = rounds.found(draughtsman.sketch(rounds.state, rounds.divided))
        rounds.go_on(found, 1.0)
        if found.residual <= _SKETCHED and not found.joined:
            break
    return rounds


class _Found(NamedTuple):
    """What a round drew, the heat of its tails, by how much that differs from what the round was for [W], and whether
    rooms ``joined`` those that tails heat enough."""

    drawn: DrawnHouse
    tails: HouseTails
    change: dict[str, float]
    joined: bool

    @property
    def residual(self) -> float:
        return max(map(abs, self.change.values()), default=0.0)


@dataclass
class _Rounds:
    """What goes from round to round."""

    house: House
    supply: CommonSupply
    state: HouseState
    divided: tuple[DividedRoom, ...]
    spacings: _Spacings
    step: _Step
    alone: _HeatedByTails
    number: int = 0

    def found(self, drawn: DrawnHouse) -> _Found:
        tails = heat_of_tails(self.house.inputs, drawn, self.supply.temperature)
        change = self.state.tails.change(tails)
        return _Found(drawn, tails, change, self.alone.found(self.state, tails, drawn))

    def go_on(self, found: _Found, share: float) -> None:
        """Solve all else for what a round found, or for a share of the way there."""
        self.number += 1
        limits, source = self.house.inputs.limits, self.house.inputs.source
        most_drop = max(limits.maximum_temperature_drop, source.temperature_drop)
        tails = self.state.tails.towards(found.tails, share)
        rooms = tuple(
            _heated_by_tails(room, tails)
            if room.index in self.alone.rooms
            else _with_tails(room, found.drawn, tails, most_drop)
            for room in self.spacings.rooms(self.house, self.number)
        )
        self.supply, self.state, points = _state(self.house, rooms, self.state.served, tails)
        self.divided = divided_rooms(self.state, points)
        self.spacings.chosen(points)


def first_division(house: House) -> FirstDivision:
    """Supply, manifolds and circuits before anything is drawn, with tails as they are estimated."""
    supply, state, points = _state(house, house.rooms, None, HouseTails())
    divided = divided_rooms(state, points)
    shared = served_by(house, ways_to_manifolds(house), [len(room.loops.circuits) for room in divided])
    if shared != state.served:
        state = replace(state, served=shared)
        divided = divided_rooms(state, points)
    return FirstDivision(supply, state, points, divided, balance(state, divided))


@dataclass
class _Spacings:
    """The spacings of the rooms in the last two rounds: where tails of a closer spacing ask for the wider one and the
    other way round, the closer one is kept."""

    points: tuple[OperatingPoint, ...]
    before: tuple[OperatingPoint, ...] = ()
    kept: dict[int, float] = field(default_factory=dict)
    closest: tuple[float, ...] = ()

    def chosen(self, points: tuple[OperatingPoint, ...]) -> None:
        self.before, self.points = self.points, points

    def rooms(self, house: House, number: int) -> tuple[RoomToHeat, ...]:
        """The rooms for the round after round ``number``."""
        if number < _FREE_ROUNDS:
            return house.rooms
        if not self.closest:
            pairs = [
                sorted((one.choice.pipe_spacing, other.choice.pipe_spacing))
                for one, other in zip(self.points, self.before, strict=True)
            ]
            self.closest = tuple(closer for closer, _ in pairs)
            self.kept = {index: wider for index, (closer, wider) in enumerate(pairs) if closer < wider}
        return tuple(
            replace(room, pipe_spacings=(spacing,))
            for room, spacing in zip(house.rooms, self.closest, strict=True)
        )


@dataclass
class _HeatedByTails:
    """The ``rooms`` that get no circuits, as tails of others give them all that they need and lie all over their floor,
    by index.

    A room joins them in any round. It leaves them for good when all else has come to rest and it lacks more than a
    little heat: it is ``barred`` then, with the heat [W] that it would lack. So none goes to and fro. It does not leave
    where tails are known to take all its floor, ``full``: it would only have a circuit that cannot be laid.
    """

    rooms: set[int] = field(default_factory=set)
    barred: dict[int, float] = field(default_factory=dict)
    full: set[int] = field(default_factory=set)
    filled: bool = False

    def found(self, state: HouseState, tails: HouseTails, drawn: DrawnHouse) -> bool:
        """Whether rooms joined them."""
        self.full |= drawn.full_rooms
        known = {*self.rooms, *self.barred}
        more = {
            room.index
            for room in state.rooms
            if not self.filled
            and room.index not in known
            and tails.room(room.index).heat >= room.heat_demand
            and (room.index in self.full or drawn.covers(room))
        }
        self.rooms |= more
        return bool(more)

    def given_up(self, state: HouseState) -> bool:
        """Whether rooms left them."""
        lacking = {
            room.index: room.heat_demand - room.tails.heat
            for room in state.rooms
            if not (room.own_circuits or room.enough_by_tails or room.index in self.full)
        }
        self.rooms -= lacking.keys()
        self.barred |= lacking
        return bool(lacking)


@dataclass
class _Step:
    """How far to go towards what a round finds, learnt from the round before (Irons and Tuck 1969, the vector form of
    Aitken's method): warmer supply makes warmer tails, which ask for less supply, so that whole steps swing."""

    last: dict[str, float] = field(default_factory=dict)
    size: float = 1.0

    def share(self, change: dict[str, float]) -> float:
        names = sorted({*self.last, *change})
        before = [self.last.get(name, 0.0) for name in names]
        turned = [change.get(name, 0.0) - old for name, old in zip(names, before, strict=True)]
        squares = math.fsum(each * each for each in turned)
        if self.last and squares > 0.0:
            along = math.fsum(old * each for old, each in zip(before, turned, strict=True))
            self.size = min(max(-self.size * along / squares, _LEAST_STEP), 1.0)
        self.last = change
        return self.size


def _state(
    house: House, rooms: tuple[RoomToHeat, ...], served: tuple[int, ...] | None, tails: HouseTails
) -> tuple[CommonSupply, HouseState, tuple[OperatingPoint, ...]]:
    """Supply and operating points for rooms with the tails that they hold."""
    inputs = house.inputs
    supply = choose_supply(rooms, inputs.source)
    if served is None:
        served = nearest_manifolds(ways_to_manifolds(house))
    points = operate_rooms(rooms, supply.temperature, inputs.source, inputs.limits)
    return supply, HouseState(house, rooms, served, tails, supply.temperature), points


def _heated_by_tails(room: RoomToHeat, tails: HouseTails) -> RoomToHeat:
    """A room without circuits of its own: what covers its floor may be loops of others."""
    return replace(room, tails=tails.room(room.index), own_circuits=False)


def _with_tails(room: RoomToHeat, drawn: DrawnHouse, tails: HouseTails, most: float) -> RoomToHeat:
    """A room with the tails of others in it and the share of heat that its own flows lose before they reach it.

    Its circuits cool the water by no more than the limit from port to port: what their tails lose in rooms of others
    is part of it, and so more water flows.
    """
    divided = drawn.divided[room.index]
    output = divided.point.heat_output + divided.point.downward_heat_loss
    fields = {
        circuit: divided.circuit_area(number) * output for number, circuit in enumerate(divided.circuit_ids)
    }
    if not math.fsum(fields.values()):
        return replace(room, tails=tails.room(room.index))
    lost = math.fsum(tails.circuit(circuit).flow for circuit in fields)
    return replace(
        room,
        tails=tails.room(room.index),
        lost_share=lost / math.fsum(fields.values()),
        greatest_drop=min(
            most / _whole_over_field(tails.circuit(circuit).heat, fields[circuit]) for circuit in fields
        ),
    )


def _whole_over_field(heat: float, field: float) -> float:
    """Heat of a circuit over that of its field [W], with what its tails may still gain in the last round."""
    return 1.0 + (heat + _TOLERANCE) / field if heat else 1.0
