"""The stages of a curing plan on the calendar."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Literal

from .heat_up import HEATING_OFF_DAYS, HeatUpRule, maturity_rule, supply_programme
from .screed import Binder

__all__ = ["CuringStage", "ProgrammeDay", "Schedule", "Stage", "schedule"]

Stage = Literal[
    "pour",
    "curing",
    "waiting",
    "first_heat_up",
    "maturity_heating",
    "drying",
    "heating_off",
    "moisture_test",
    "covering",
]

_DESCRIPTIONS: dict[Stage, str] = {
    "pour": "Pour only on loops that have passed the leak test; keep them filled and under pressure. Keep screed and "
    "room at 5 °C or more.",
    "curing": "Keep screed and room at 5 °C or more. Protect it from draught, sun, rain and loads; do not dry it.",
    "waiting": "Heating stays off while the screed gains strength. Ventilate without draught.",
    "first_heat_up": "Run the supply temperatures of the daily programme day and night, without setback. Log them "
    "and the state of the loops and sign the log: it proves that the floor heats, not that it is dry.",
    "maturity_heating": "Heat at a constant supply without setback, ventilate evenly and do not cover the floor. The "
    "covering does not come earlier by it.",
    "drying": "Heat the floor no more than the building needs, and ventilate evenly. More heat does not shorten the "
    "drying.",
    "heating_off": "Keep the heating off until the moisture has been measured, and the building free of frost.",
    "moisture_test": "Measure the residual moisture at the marked points, at least 100 mm from any pipe. Only this "
    "measurement releases the floor; if it fails, wait and measure again.",
    "covering": "Earliest day to lay the covering, if the moisture test was passed. Keep the floor at 15 to 18 °C "
    "while laying, then raise it by at most 5 K a day.",
}


@dataclass(frozen=True, slots=True)
class CuringStage:
    """A stage from ``start_date`` until ``end_date``, on which the next one begins; ``days`` of 24 hours.

    The pour and the covering are moments: they start and end on the same day.
    """

    stage: Stage
    start_date: datetime.date
    end_date: datetime.date
    days: int
    description: str


@dataclass(frozen=True, slots=True)
class ProgrammeDay:
    """The supply temperature [degC] of one heating day; ``day`` counts from the pour, which is day 0."""

    date: datetime.date
    day: int
    supply_temperature: float
    stage: Stage


@dataclass(frozen=True, slots=True)
class Schedule:
    stages: tuple[CuringStage, ...]
    daily_programme: tuple[ProgrammeDay, ...]


class _Timeline:
    """Lays stages end to end, in days since the pour."""

    def __init__(self, pour_date: datetime.date) -> None:
        self.pour_date = pour_date
        self.day = 0
        self.stages: list[CuringStage] = []
        self.programme: list[ProgrammeDay] = []

    def add_until(self, stage: Stage, day: int) -> None:
        """A stage that lasts until ``day``; none if that day has come."""
        if day > self.day:
            self.add(stage, day - self.day)

    def add(self, stage: Stage, days: int) -> None:
        start = self.pour_date + datetime.timedelta(self.day)
        self.day += days
        end = self.pour_date + datetime.timedelta(self.day)
        self.stages.append(CuringStage(stage, start, end, days, _DESCRIPTIONS[stage]))

    def heat(self, stage: Stage, temperatures: tuple[float, ...]) -> None:
        first = self.pour_date.toordinal()
        for day, temperature in enumerate(temperatures, self.day):
            self.programme.append(
                ProgrammeDay(datetime.date.fromordinal(first + day), day, temperature, stage)
            )
        self.add(stage, len(temperatures))


def schedule(
    *,
    binder: Binder,
    thickness: float,
    pour_date: datetime.date,
    rule: HeatUpRule,
    heating_day: int,
    start_temperature: float,
    highest_supply_temperature: float,
    drying_days: int,
    maturity_heating: bool,
) -> Schedule:
    """Stages and daily programme of a pour; ``heating_day`` is counted from the pour.

    Drying counts from the end of curing and goes on under all later stages; the stage of that name is what is
    left of it after the heating and before the days without heating.
    """
    line = _Timeline(pour_date)
    line.add("pour", 0)
    line.add("curing", rule.curing_days)
    line.add_until("waiting", heating_day)
    hold = rule.hold(thickness)
    temperatures = supply_programme(rule, start_temperature, highest_supply_temperature, hold)
    line.heat("first_heat_up", temperatures)
    if maturity_heating:
        second = maturity_rule(rule, binder, thickness, highest_supply_temperature)
        _mature(line, second, start_temperature, highest_supply_temperature)
    line.add_until("drying", rule.curing_days + drying_days - HEATING_OFF_DAYS)
    line.add("heating_off", HEATING_OFF_DAYS)
    line.add("moisture_test", 1)
    line.add("covering", 0)
    return Schedule(tuple(line.stages), tuple(line.programme))


def _mature(line: _Timeline, rule: HeatUpRule, start_temperature: float, highest: float) -> None:
    """The second heating period; straight after the first it goes on from the temperature reached."""
    if line.day >= rule.earliest_heating_days:
        start_temperature, start_days = line.programme[-1].supply_temperature, 0
    else:
        line.add_until("waiting", rule.earliest_heating_days)
        start_days = rule.start_days
    temperatures = supply_programme(rule, start_temperature, highest, rule.hold_days, start_days)
    line.heat("maturity_heating", temperatures)
