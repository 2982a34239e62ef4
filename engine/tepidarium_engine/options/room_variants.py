"""Coverings, patterns and strips of closer pipe that each room may have beside its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..building.floors import RoomToHeat, surface_limit
from ..building.house import House
from ..building.objective_records import PatternOption
from ..building.option_records import DesignOptionsInputs
from ..building.room_strips import check_strip, heated_strip
from ..errors import FaultList
from .room_choices import RoomVariant

__all__ = ["room_variants"]

_SAME = 1e-9


def room_variants(inputs: DesignOptionsInputs, house: House) -> list[list[RoomVariant]]:
    """Each room as it is, and with what it may have of the request, every combination of it.

    Raises ``InputError`` for coverings that must stay colder than the room, and for what cannot be a strip of it.
    """
    faults = FaultList()
    variants = [_of_room(inputs, house, room, faults) for room in house.rooms]
    faults.raise_if_any()
    return variants


def _of_room(
    inputs: DesignOptionsInputs, house: House, room: RoomToHeat, faults: FaultList
) -> list[RoomVariant]:
    covered = [RoomVariant(room), *_covered(inputs, room, faults)]
    laid: list[RoomVariant] = []
    for one in covered:
        twin = len(laid)
        laid += [one, *(other._replace(twin=twin) for other in _laid(inputs.patterns, one))]
    return [*laid, *_with_strips(inputs, house, laid, faults)]


def _covered(inputs: DesignOptionsInputs, room: RoomToHeat, faults: FaultList) -> Iterator[RoomVariant]:
    for place, option in enumerate(inputs.coverings):
        if option.rooms and room.room.id not in option.rooms:
            continue
        build_up = replace(
            room.build_up, covering=option.covering, covering_resistance=option.covering_resistance
        )
        limit = surface_limit(room.room, build_up)
        faults.require(
            limit > room.room.room_temperature,
            f"/coverings/{place}/covering",
            "below_room",
            f"bears {limit:g} degC at most, and {room.label} is as warm: name other rooms",
            limit,
        )
        yield RoomVariant(
            replace(room, build_up=build_up, surface_limit=limit), covering=place, price=option.price
        )


def _laid(patterns: tuple[PatternOption, ...], variant: RoomVariant) -> Iterator[RoomVariant]:
    """In other patterns; a strip of the room needs its counterflow."""
    heated = variant.heated
    for place, option in enumerate(patterns):
        other = option.pattern != heated.room.pattern and heated.room.peripheral is None
        if other and (not option.rooms or heated.room.id in option.rooms):
            patterned = replace(heated, room=replace(heated.room, pattern=option.pattern))
            yield variant._replace(heated=patterned, pattern=place, price=variant.price + option.price)


def _with_strips(
    inputs: DesignOptionsInputs, house: House, variants: list[RoomVariant], faults: FaultList
) -> Iterator[RoomVariant]:
    """With each strip of the request, at the spacings that are wider than it."""
    for place, option in enumerate(inputs.strips):
        own = [variant for variant in variants if variant.heated.room.id == option.room]
        fitting = [variant for variant in own if variant.heated.room.pattern == "counterflow"]
        for variant in fitting or own:
            heated = variant.heated
            room = replace(heated.room, peripheral=option.strip)
            where, known = f"/strips/{place}/strip", len(faults.faults)
            check_strip(room, house.inputs.pipe, (heated.outline, heated.area), where, faults)
            if len(faults.faults) > known:
                break
            wider = tuple(
                spacing
                for spacing in heated.pipe_spacings
                if spacing > option.strip.pipe_spacing * (1.0 + _SAME)
            )
            strip = heated_strip(room, heated.outline, heated.area)
            if wider:
                with_strip = replace(heated, room=room, strip=strip, pipe_spacings=wider)
                yield variant._replace(heated=with_strip, strip=place, twin=None)
