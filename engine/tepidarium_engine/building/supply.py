"""The common supply temperature and the spacing of each room (EN 1264-3, dimensioning)."""

from __future__ import annotations

from typing import NamedTuple

from ..errors import FaultList
from .floors import FloorChoice, OperatingPoint, RoomToHeat
from .records import DesignLimits, HeatSource

__all__ = ["LEAST_EXCESS", "CommonSupply", "choose_supply", "operate_rooms", "supply_pointer"]

_SAME = 1e-9
LEAST_EXCESS = 1.0
"""Of the supply over every room [K]."""


class CommonSupply(NamedTuple):
    """``wanted`` is what the governing room asks for, ``temperature`` what the source then gives [degC]; ``for_all``
    [degC] would serve the rooms too that were ``left_out`` of the choice and ask for more."""

    governing: RoomToHeat
    wanted: float
    temperature: float
    for_all: float
    left_out: tuple[RoomToHeat, ...]


def choose_supply(rooms: tuple[RoomToHeat, ...], source: HeatSource) -> CommonSupply:
    """The lowest supply temperature at which every room that counts can be given its heat.

    Each room is taken at the spacing that asks for the least among those that keep the surface limit. A room that
    no spacing can serve within that limit asks for what its limit permits. The room that asks for most governs. Where
    no room counts, all do; rooms that tails alone heat never govern. A warmer supply that is kept stays. EN 1264-3,
    governing room.
    """
    asked = [(_least_supply(room, source.temperature_drop), room) for room in rooms if room.own_circuits]
    counted = [pair for pair in asked if pair[1].counts_for_supply] or asked
    wanted, governing = max(counted, key=lambda pair: (pair[0], -pair[1].index))
    more = tuple(pair for pair in asked if pair not in counted and pair[0] > wanted * (1.0 + _SAME))
    kept = [room.kept.supply for room in rooms if room.kept is not None and room.kept.supply is not None]
    supply = max([wanted, *kept]) if source.supply_temperature is None else source.supply_temperature
    supply = min(supply, source.maximum_supply_temperature)
    _check_warm_enough(rooms, source, supply)
    for_all = max([wanted, *(least for least, _ in more)])
    return CommonSupply(governing, wanted, supply, for_all, tuple(room for _, room in more))


def _check_warm_enough(rooms: tuple[RoomToHeat, ...], source: HeatSource, supply: float) -> None:
    """The supply must be warmer than every room: reported at the source and at the rooms that are too warm for it."""
    faults = FaultList()
    warm = [room for room in rooms if supply < room.room.room_temperature + LEAST_EXCESS]
    if warm:
        warmest = max(room.room.room_temperature for room in warm)
        faults.add(
            supply_pointer(source),
            "supply_below_room",
            f"the supply must be at least {LEAST_EXCESS:g} K above the warmest room",
            warmest + LEAST_EXCESS,
        )
        for room in warm:
            faults.add(
                f"{room.pointer}/room_temperature",
                "supply_below_room",
                f"must be at least {LEAST_EXCESS:g} K below the supply of {supply:.1f} degC",
                supply - LEAST_EXCESS,
            )
    faults.raise_if_any()


def supply_pointer(source: HeatSource) -> str:
    """What decides the supply temperature, where it is at fault: as given, or the most that the source gives."""
    given = source.supply_temperature is not None
    return f"/source/{'supply_temperature' if given else 'maximum_supply_temperature'}"


def _least_supply(room: RoomToHeat, temperature_drop: float) -> float:
    needed = room.required_heat_output
    within = [
        room.required_supply(choice, needed, temperature_drop)
        for choice in room.choices
        if needed <= choice.limit_heat_output
    ]
    if within:
        return min(within)
    best = max(room.choices, key=lambda choice: (choice.limit_heat_output, choice.pipe_spacing))
    return room.required_supply(best, best.limit_heat_output, temperature_drop)


def operate_rooms(
    rooms: tuple[RoomToHeat, ...], supply: float, source: HeatSource, limits: DesignLimits
) -> tuple[OperatingPoint, ...]:
    """Each room at the widest spacing that gives its heat on the supply, or at the one that gives most; at the spacing
    that it keeps, if that does."""
    least = source.temperature_drop
    most = max(least, limits.maximum_temperature_drop)
    return tuple(room.operate(_choose_spacing(room, supply, least), supply, least, most) for room in rooms)


def _choose_spacing(room: RoomToHeat, supply: float, temperature_drop: float) -> FloorChoice:
    enough = room.required_heat_output * (1.0 - _SAME)
    outputs = []
    for choice in room.choices_in_turn:
        output = room.most_heat_output(choice, supply, temperature_drop)
        if output >= enough:
            return choice
        outputs.append((choice, output))
    best = max(output for _, output in outputs)
    return next(choice for choice, output in outputs if output >= best * (1.0 - _SAME))
