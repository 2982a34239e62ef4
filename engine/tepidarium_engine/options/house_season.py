"""The year of a house that was designed, by area or drawn."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..building.season_records import HeatingSeasonInputs, HeatingSeasonResult, SeasonBin, SeasonRoom
from ..building.solving import FirstDivision, SolvedHouse
from ..cautions import FLOOR, once
from ..errors import FaultList
from ..gathering import gathered
from ..results import Finding
from .asked_options import check_efficiency
from .season import design_rooms, heating_curve, is_heated, rooms_in_bin, season_bin, season_room

__all__ = ["check_season", "season_of"]

_LACKING = 0.01
"""Share of its heat that a room may lack over the year (common practice, no source)."""
_YEAR = 8784.0
"""Hours of a leap year."""


def check_season(inputs: HeatingSeasonInputs) -> None:
    """What does not fit together, beyond the ranges of the numbers."""
    faults = FaultList()
    coldest = min(room.room_temperature for room in inputs.design.rooms)
    faults.require(
        inputs.outside_temperature < coldest,
        "/outside_temperature",
        "not_colder",
        "must be colder than every room: heat flows from warm to cold",
        coldest,
    )
    hours = math.fsum(each.hours for each in inputs.climate)
    faults.require(
        hours <= _YEAR, "/climate", "too_many_hours", f"has {hours:g} hours, more than a year", _YEAR
    )
    check_efficiency(inputs.efficiency, "/efficiency", faults)
    faults.raise_if_any()


def season_of(inputs: HeatingSeasonInputs, division: FirstDivision | SolvedHouse) -> HeatingSeasonResult:
    """The year of a house that was designed, by area or drawn."""
    curve, design = heating_curve(inputs, division), design_rooms(division)
    most = inputs.design.source.maximum_supply_temperature
    operated = [
        rooms_in_bin(design, curve, each.outside_temperature, most)
        if is_heated(inputs, curve, each.outside_temperature)
        else ()
        for each in inputs.climate
    ]
    water = division.water.whole
    bins = tuple(
        season_bin(inputs, curve, each, design, rooms, water=water)
        for each, rooms in zip(inputs.climate, operated, strict=True)
    )
    heated = [(rooms, each.hours) for each, rooms in zip(inputs.climate, operated, strict=True) if rooms]
    coldest = rooms_in_bin(design, curve, inputs.outside_temperature, most)
    rooms = tuple(
        season_room(room, coldest[place], [(in_bin[place], hours) for in_bin, hours in heated])
        for place, room in enumerate(design)
    )
    hours, heat = math.fsum(each for _, each in heated), math.fsum(each.heat for each in bins)
    electricity = _electricity(bins)
    return HeatingSeasonResult(
        curve=curve,
        bins=bins,
        rooms=rooms,
        heating_hours=hours,
        heat=heat,
        mean_supply_temperature=_mean([(each.supply_temperature or 0.0, each.hours) for each in bins], hours),
        mean_flow_share=_mean([(each.flow_share, each.hours) for each in bins], hours),
        pump_energy=math.fsum(each.pump_power * each.hours for each in bins) / 1000.0,
        electricity=electricity,
        seasonal_performance=heat / electricity if electricity else None,
        findings=gathered(_findings(inputs, bins, rooms), inputs),
        cautions=once(FLOOR),
    )


def _mean(values: list[tuple[float, float]], hours: float) -> float | None:
    """Over the hours that are heated; None where there are none."""
    return math.fsum(value * own for value, own in values) / hours if hours else None


def _electricity(bins: tuple[SeasonBin, ...]) -> float | None:
    """Of the year [kWh]; None where it is not known for every bin that is heated."""
    heated = [each for each in bins if each.supply_temperature is not None]
    known = [each.electricity for each in heated if each.electricity is not None]
    return math.fsum(known) if heated and len(known) == len(heated) else None


def _findings(
    inputs: HeatingSeasonInputs, bins: tuple[SeasonBin, ...], rooms: tuple[SeasonRoom, ...]
) -> Iterator[Finding]:
    for place, room in enumerate(rooms):
        if room.heat_lacking > _LACKING * (room.heat + room.heat_lacking):
            yield Finding.at(
                "curve_too_low",
                f"/design/rooms/{place}/heat_demand",
                value=room.heat_lacking,
                limit=_LACKING * (room.heat + room.heat_lacking),
                quantity="heat_lacking",
            )
    for place, each in enumerate(bins):
        if inputs.efficiency and each.supply_temperature is not None and each.electricity is None:
            yield Finding.at(
                "efficiency_not_known",
                f"/bins/{place}/supply_temperature",
                value=each.supply_temperature,
                limit=min(
                    (inputs.efficiency[0].supply_temperature, inputs.efficiency[-1].supply_temperature),
                    key=lambda end: abs(end - (each.supply_temperature or 0.0)),
                ),
                quantity="supply_temperature",
                where_in="answer",
            )
