"""Spacings, supply, circuits, flows and the drawing of a house, solved for each other."""

from __future__ import annotations

from typing import NamedTuple

from .circuits import DividedRoom, divide_and_balance
from .drawn_house import Draughtsman, DrawnHouse
from .house import House
from .house_water import HouseWater
from .serving import nearest_manifolds, served_by, ways_to_manifolds
from .supply import CommonSupply, choose_supply, operate_rooms

__all__ = ["SolvedHouse", "solve_house"]


class SolvedHouse(NamedTuple):
    """Everything at one supply temperature; ``drawn`` is ``None`` where no storey is drawn."""

    supply: CommonSupply
    divided: tuple[DividedRoom, ...]
    water: HouseWater
    drawn: DrawnHouse | None


def solve_house(house: House) -> SolvedHouse:
    inputs = house.inputs
    supply = choose_supply(house.rooms, inputs.source)
    points = operate_rooms(house.rooms, supply.temperature, inputs.source, inputs.limits)
    ways = ways_to_manifolds(house)
    served = nearest_manifolds(ways)
    divided, water = divide_and_balance(house, points, served, supply.temperature)
    shared = served_by(house, ways, [len(room.loops.circuits) for room in divided])
    if shared != served:
        divided, water = divide_and_balance(house, points, shared, supply.temperature)
    if not house.sites:
        return SolvedHouse(supply, divided, water, None)
    drawn = Draughtsman(house, shared).draw(divided, supply.temperature)
    return SolvedHouse(supply, drawn.divided, drawn.water, drawn)
