"""From the pour to the covering: thickness, dates and the first heat-up."""

from __future__ import annotations

from tepidarium_engine.curing_plan import CuringPlanInputs, CuringPlanResult, calculate, workings

from ..documents.part_documents import curing_csv, curing_pdf
from ..renderings.calendar import curing_calendar
from ._base import CALENDAR, CSV, PDF, Calculation

__all__ = ["CURING_PLAN"]


def _effort(inputs: CuringPlanInputs) -> float:
    return 2e-3 + 1e-6 * len(inputs.room_areas)


CURING_PLAN = Calculation(
    name="curing-plan",
    operation_id="curing_plan",
    summary="Dates of a heated screed: curing, first heat-up, drying, covering",
    description=(
        "Plans a heated screed from its pour to its covering. `thickness` is the whole screed, pipe "
        "included; it is compared with the least thickness for binder, class and load. The first heat-up "
        "follows EN 1264-4 (`rule_set` standard), a longer wait with small steps (cautious) or the screed "
        "maker's sheet (maker, with `maker_rules`). Days count from the pour, which is day 0, and are full "
        "24 hours: a stage is over on its `end_date`, on which the next begins. Heating never shortens the "
        "drying, so no wish of the site brings a date forward. `earliest_covering` is for planning; only a "
        "moisture measurement releases the floor. Ask for `text/calendar` to get the plan into a calendar "
        "program."
    ),
    inputs=CuringPlanInputs,
    result=CuringPlanResult,
    calculate=calculate,
    workings=workings,
    effort=_effort,
    renderings={CALENDAR: curing_calendar, PDF: curing_pdf, CSV: curing_csv},
    example={
        "binder": "cement",
        "thickness": 0.065,
        "pour_date": "2025-03-03",
        "maximum_supply_temperature": 42.0,
        "covering": "timber",
        "flexural_class": "F4",
        "pipe_outside_diameter": 0.016,
        "imposed_load": 2000.0,
        "lowest_air_temperature": 8.0,
        "room_areas": [31.5, 14.2, 9.8, 6.1],
    },
)
