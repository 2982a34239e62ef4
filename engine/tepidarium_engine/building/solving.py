"""Spacings, supply, circuits, flows, lengths and the heat of tails, solved for each other round by round.

Each round takes the heat of tails as the drawing of the round before has it off the demand of the rooms that they
cross, and solves all else for that. What a round does not change is not laid again.
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from .circuits import DividedRoom, divide_and_balance
from .drawn_house import Draughtsman, DrawnHouse
from .floors import OperatingPoint, RoomToHeat
from .house import House, HouseState
from .house_water import HouseWater
from .outcome import DesignConvergence
from .serving import nearest_manifolds, served_by, ways_to_manifolds
from .supply import CommonSupply, choose_supply, operate_rooms
from .tail_heat import heat_of_tails
from .warm_tails import HouseTails

__all__ = ["SolvedHouse", "solve_house"]

_TOLERANCE = 1.0
"""No heat of a room or circuit may differ by more from round to round [W]."""
_MOST_ROUNDS = 8


class SolvedHouse(NamedTuple):
    """Everything at one supply temperature; ``drawn`` is ``None`` where no storey is drawn."""

    supply: CommonSupply
    state: HouseState
    divided: tuple[DividedRoom, ...]
    water: HouseWater
    drawn: DrawnHouse | None
    convergence: DesignConvergence


def solve_house(house: House) -> SolvedHouse:
    """Raises ``InputError`` for a supply no warmer than a room and for tails that use up a circuit."""
    supply, state, points = _state(house, house.rooms, None, HouseTails())
    divided, water = divide_and_balance(state, points)
    shared = served_by(house, ways_to_manifolds(house), [len(room.loops.circuits) for room in divided])
    if shared != state.served:
        state = replace(state, served=shared)
        divided, water = divide_and_balance(state, points)
    if not house.sites:
        return SolvedHouse(supply, state, divided, water, None, DesignConvergence(1, 0.0, _TOLERANCE, True))
    draughtsman = Draughtsman(house)
    for number in range(1, _MOST_ROUNDS + 1):
        drawn = draughtsman.draw(state, divided)
        tails = heat_of_tails(house.inputs, drawn, supply.temperature)
        residual = state.tails.difference(tails)
        if residual <= _TOLERANCE or number == _MOST_ROUNDS:
            break
        rooms = tuple(_with_tails(room, drawn, tails) for room in house.rooms)
        supply, state, points = _state(house, rooms, shared, tails)
        divided, _ = divide_and_balance(state, points)
    convergence = DesignConvergence(number, residual, _TOLERANCE, residual <= _TOLERANCE)
    return SolvedHouse(supply, state, drawn.divided, drawn.water, drawn, convergence)


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


def _with_tails(room: RoomToHeat, drawn: DrawnHouse, tails: HouseTails) -> RoomToHeat:
    """A room with the tails of others in it and the heat that its own flows lose before they reach it."""
    divided = drawn.divided[room.index]
    output = divided.point.heat_output + divided.point.downward_heat_loss
    lost = sum(tails.circuit(circuit).flow for circuit in divided.circuit_ids)
    field = divided.heated.field_area * output
    return replace(room, tails=tails.room(room.index), cooling=divided.point.temperature_drop * lost / field)
