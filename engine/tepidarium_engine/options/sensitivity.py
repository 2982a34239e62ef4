"""A house designed again with one change each, and how much more heat its rooms may need."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from ..building.circuits import DividedRoom
from ..building.floors import RoomToHeat, surface_limit
from ..building.house import House
from ..building.sensitivity_records import (
    ChangeKind,
    DesignSensitivityInputs,
    RoomEffect,
    RoomSensitivity,
    RoomTolerance,
    SensitivityLine,
)
from ..building.solving import FirstDivision, first_division
from ..errors import InputError

__all__ = ["HouseFigures", "Sensitivity", "figures", "sensitivity", "tolerances"]

_SAME = 1e-9


class HouseFigures(NamedTuple):
    """Of a house by area: supply [degC], missing heat [W], pipe [m], circuits and pump power [W]."""

    supply: float
    missing: float
    pipe: float
    circuits: int
    power: float


class _Change(NamedTuple):
    kind: ChangeKind
    room: RoomToHeat | None
    house: House
    message: str


def figures(division: FirstDivision) -> HouseFigures:
    divided = division.divided
    return HouseFigures(
        division.supply.temperature,
        math.fsum(room.heat_missing for room in divided),
        math.fsum(room.loops.pipe_length for room in divided),
        sum(len(room.loops.circuits) for room in divided),
        division.water.whole.pump.hydraulic_power,
    )


class Sensitivity(NamedTuple):
    """``lines`` with the greatest effect first, the ``rooms`` with theirs, and the messages of changes with which no
    house can be computed."""

    lines: tuple[SensitivityLine, ...]
    rooms: tuple[RoomSensitivity, ...]
    impossible: tuple[str, ...]


def sensitivity(inputs: DesignSensitivityInputs, house: House, before: FirstDivision) -> Sensitivity:
    """Every change computed."""
    found: list[tuple[_Change, FirstDivision]] = []
    impossible: list[str] = []
    for change in (*_of_house(inputs, house), *_of_rooms(inputs, house)):
        now = _changed(change)
        if now is None:
            impossible.append(change.message)
        else:
            found.append((change, now))
    own = figures(before)
    lines = sorted((_line(change, own, figures(now)) for change, now in found), key=_effect)
    rooms = tuple(_room(place, before, found) for place in range(len(house.rooms)))
    return Sensitivity(tuple(lines), rooms, tuple(impossible))


def _effect(line: SensitivityLine) -> tuple[float, ...]:
    return (
        -round(abs(line.missing_difference), 3),
        -round(abs(line.supply_difference), 6),
        -round(abs(line.pipe_difference), 6),
        -round(abs(line.power_difference), 6),
    )


def _changed(change: _Change) -> FirstDivision | None:
    """None where the changed house cannot be computed, or the floor of the room that is changed would have to be as
    cold as the room."""
    room = change.room
    if room is not None and room.surface_limit <= room.room.room_temperature:
        return None
    try:
        return first_division(change.house)
    except InputError:
        return None


def _line(change: _Change, before: HouseFigures, now: HouseFigures) -> SensitivityLine:
    return SensitivityLine(
        kind=change.kind,
        room="" if change.room is None else change.room.room.id,
        supply_temperature=now.supply,
        supply_difference=now.supply - before.supply,
        missing_difference=now.missing - before.missing,
        pipe_difference=now.pipe - before.pipe,
        circuit_difference=now.circuits - before.circuits,
        power_difference=now.power - before.power,
        message=change.message,
    )


def _room(
    place: int, before: FirstDivision, found: Sequence[tuple[_Change, FirstDivision]]
) -> RoomSensitivity:
    """What its own changes and those of the house do to a room."""
    room = before.divided[place].heated.room
    effects = [
        _room_effect(change, before, now, place)
        for change, now in found
        if change.room is None or change.room.index == place
    ]
    return RoomSensitivity(room.id, room.name, tuple(sorted(effects, key=_on_room)))


def _room_effect(change: _Change, before: FirstDivision, now: FirstDivision, place: int) -> RoomEffect:
    was, own = before.divided[place], now.divided[place]
    return RoomEffect(
        kind=change.kind,
        of_house=change.room is None,
        pipe_spacing=own.point.choice.pipe_spacing,
        supply_difference=now.supply.temperature - before.supply.temperature,
        missing_difference=own.heat_missing - was.heat_missing,
        pipe_difference=own.loops.pipe_length - was.loops.pipe_length,
        circuit_difference=len(own.loops.circuits) - len(was.loops.circuits),
        message=change.message,
    )


def _on_room(effect: RoomEffect) -> tuple[float, ...]:
    return (
        -round(abs(effect.missing_difference), 3),
        -round(abs(effect.supply_difference), 6),
        -round(abs(effect.pipe_difference), 6),
    )


def _of_house(inputs: DesignSensitivityInputs, house: House) -> Iterator[_Change]:
    rise, screed, limit = inputs.demand_rise, inputs.added_screed, inputs.supply_limit
    rooms = tuple(_asking_more(room, 1.0 + rise) for room in house.rooms)
    yield _Change(
        "demand", None, replace(house, rooms=rooms), f"All rooms need {100.0 * rise:g} % more heat."
    )
    rooms = tuple(
        replace(room, build_up=replace(room.build_up, screed_cover=room.build_up.screed_cover + screed))
        for room in house.rooms
    )
    message = f"The screed is {screed * 1000.0:.0f} mm thicker everywhere."
    yield _Change("screed", None, replace(house, rooms=rooms), message)
    if limit is not None:
        own = house.inputs.source
        source = replace(own, maximum_supply_temperature=min(limit, own.maximum_supply_temperature))
        limited = replace(house, inputs=replace(house.inputs, source=source))
        yield _Change("supply_limit", None, limited, f"The supply is limited to {limit:g} °C.")


def _of_rooms(inputs: DesignSensitivityInputs, house: House) -> Iterator[_Change]:
    rise, warmer, carpet = inputs.demand_rise, inputs.warmer_by, inputs.covering_resistance
    for room in house.rooms:
        name, inside = room.label, room.room.room_temperature
        yield _with(
            house, "demand", _asking_more(room, 1.0 + rise), f"{name} needs {100.0 * rise:g} % more heat."
        )
        grown = (inside + warmer - inputs.outside_temperature) / (inside - inputs.outside_temperature)
        warm = replace(room.room, room_temperature=inside + warmer)
        limit = surface_limit(warm, room.build_up)
        warmed = replace(_asking_more(room, grown), room=warm, surface_limit=limit)
        yield _with(house, "room_temperature", warmed, f"{name} is kept {warmer:g} K warmer.")
        if room.build_up.covering_resistance < carpet:
            build_up = replace(room.build_up, covering="carpet", covering_resistance=carpet)
            covered = replace(room, build_up=build_up, surface_limit=surface_limit(room.room, build_up))
            yield _with(house, "covering", covered, f"{name} gets a carpet of {carpet:g} m2.K/W.")


def _with(house: House, kind: ChangeKind, room: RoomToHeat, message: str) -> _Change:
    rooms = tuple(room if own.index == room.index else own for own in house.rooms)
    return _Change(kind, room, replace(house, rooms=rooms), message)


def _asking_more(room: RoomToHeat, factor: float) -> RoomToHeat:
    return replace(room, heat_demand=room.heat_demand * factor)


def tolerances(house: House, division: FirstDivision) -> list[RoomTolerance]:
    """In the order of the rooms."""
    return [_tolerance(house, room, division.supply.temperature) for room in division.divided]


def _tolerance(house: House, room: DividedRoom, supply: float) -> RoomTolerance:
    heated, choice, source = room.heated, room.point.choice, house.inputs.source
    warmest = max(supply, source.maximum_supply_temperature)
    on_supply, at_most = (
        heated.given(heated.most_heat_output(choice, water, source.temperature_drop)) / heated.heat_demand
        - 1.0
        for water in (supply, warmest)
    )
    surface = heated.given(choice.limit_heat_output) / heated.heat_demand - 1.0
    return RoomTolerance(
        id=heated.room.id,
        name=heated.room.name,
        pipe_spacing=choice.pipe_spacing,
        heat_demand=heated.heat_demand,
        tolerance_on_supply=on_supply if abs(on_supply) > _SAME else 0.0,
        tolerance_at_most=at_most if abs(at_most) > _SAME else 0.0,
        limited_by="surface" if at_most >= surface - _SAME else "supply",
    )
