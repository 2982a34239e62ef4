"""The chapter of dates: when to pour, heat, test and cover, and the supply of each day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby
from typing import NamedTuple

from tepidarium_engine.curing_plan import CuringPlanResult, ProgrammeDay

from ..renderings.stages import STAGE_TITLES, settable
from .parts import Chapter, Column, Fields, Table

__all__ = ["PlanOf", "dates_chapter", "programme_table", "stage_table"]


class PlanOf(NamedTuple):
    """A curing plan and what it is of."""

    name: str
    plan: CuringPlanResult


def dates_chapter(plans: Sequence[PlanOf]) -> Chapter:
    limits = (
        (
            f"Screed {own.name}".strip(),
            f"supply at most {own.plan.highest_supply_temperature:.0f} °C; dry at "
            f"{own.plan.moisture_limit.carbide_moisture * 100.0:.2g} CM-% or "
            f"{own.plan.moisture_limit.relative_humidity * 100.0:.0f} % relative humidity; heating from "
            f"{own.plan.earliest_heating.isoformat()}, covering from {own.plan.earliest_covering.isoformat()}",
        )
        for own in plans
    )
    return Chapter(
        "Curing and first heat-up", (Fields("", tuple(limits)), stage_table(plans), programme_table(plans))
    )


def stage_table(plans: Sequence[PlanOf]) -> Table:
    """Each stage once, with the screeds that it is the same for. ``To`` is its last day, as in the calendar and in the
    programme of supply temperatures."""
    columns = (
        Column("From", width=1.0),
        Column("To", width=1.0),
        Column("Days", 0, 0.5),
        Column("Stage", width=1.6),
        Column("Screed", width=1.3),
        Column("What it means", width=4.0),
    )
    found: dict[tuple[date, date, int, str, str], list[str]] = {}
    for name, plan in plans:
        for stage in plan.stages:
            last = max(stage.start_date, stage.end_date - timedelta(1))
            key = (stage.start_date, last, stage.days, STAGE_TITLES[stage.stage], stage.description)
            found.setdefault(key, []).append(name)
    rows = ((*key[:4], ", ".join(filter(None, names)), key[4]) for key, names in sorted(found.items()))
    return Table("Stages", columns, tuple(rows))


def programme_table(plans: Sequence[PlanOf]) -> Table:
    """The supply to set on each day, days alike in one row."""
    columns = (
        Column("From", width=1.2),
        Column("To", width=1.2),
        Column("Supply °C", 0),
        Column("Stage", width=2.0),
        Column("Screed", width=2.0),
    )
    found: dict[tuple[date, date, int, str], list[str]] = {}
    for name, plan in plans:
        for key in _runs(plan.daily_programme):
            found.setdefault(key, []).append(name)
    rows = ((*key, ", ".join(filter(None, names))) for key, names in sorted(found.items()))
    return Table("Supply temperature day by day", columns, tuple(rows))


def _runs(days: Sequence[ProgrammeDay]) -> Iterator[tuple[date, date, int, str]]:
    for (stage, supply), group in groupby(
        days, key=lambda day: (day.stage, settable(day.supply_temperature))
    ):
        run = list(group)
        yield run[0].date, run[-1].date, supply, STAGE_TITLES[stage]
