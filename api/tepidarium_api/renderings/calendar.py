"""A curing plan as iCalendar (RFC 5545): an all-day event for each stage and each supply temperature."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, time, timedelta
from itertools import chain, groupby
from typing import TYPE_CHECKING, NamedTuple

from tepidarium_engine.curing_plan import CuringPlanInputs, CuringPlanResult, CuringStage, ProgrammeDay
from tepidarium_engine.designs import DesignsInputs, DesignsResult
from tepidarium_engine.errors import Fault, InputError
from tepidarium_engine.findings import STAGES
from tepidarium_engine.results import Caution, Finding, FindingPlace

from .stages import STAGE_TITLES, settable

if TYPE_CHECKING:
    from icalendar import Event

__all__ = ["curing_calendar", "house_calendar"]

_CAUTIONS = {
    "pour": (
        "local_codes_decide",
        "pressure_test_before_pour",
        "curing_temperature",
        "alkaline_screed",
        "keep_screed_dry",
        "heavy_load",
        "frost_and_antifreeze",
        "glycol",
    ),
    "first_heat_up": (
        "no_forced_drying",
        "first_heating_supervised",
        "temperature_limiter",
        "surface_temperature",
        "electrical_work",
    ),
    "moisture_test": ("no_drilling",),
}
"""Stage -> codes of the cautions that people need then, each once."""
_SCREED = (*STAGES["screed"], *STAGES["dates"])
"""Findings of a design that concern the plans of its screeds."""
_BINDERS = {
    "cement": "Cement screed (CT)",
    "calcium_sulphate": "Calcium sulphate screed (CA)",
    "calcium_sulphate_flowing": "Flowing calcium sulphate screed (CAF)",
}
_NAMESPACE = uuid.UUID("8b0e2a54-5c0f-5d7e-9a8e-6f0c4d1b7a39")


class _Entry(NamedTuple):
    """An all-day event until the day before ``end``; a moment in the plan takes its whole day. ``cautions`` hold for
    the whole event."""

    summary: str
    start: date
    end: date
    paragraphs: tuple[str, ...]
    cautions: tuple[str, ...] = ()


class _Plan(NamedTuple):
    """A curing plan; ``label`` tells it from others in the same calendar."""

    label: str
    inputs: CuringPlanInputs
    result: CuringPlanResult
    findings: tuple[str, ...]
    cautions: tuple[Caution, ...]


def curing_calendar(inputs: CuringPlanInputs, result: CuringPlanResult) -> bytes:
    """The plan as ``text/calendar``. The same plan gives the same bytes: time stamps are those of the pour
    and the identifiers follow from the inputs."""
    findings = tuple(_sentence(finding, finding.places) for finding in result.findings)
    return _calendar((_Plan("", inputs, result, findings, result.cautions),))


def house_calendar(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    """The plans of all build-ups in one ``text/calendar``; needs the screed of the request."""
    if not result.curing_plans:
        raise InputError(Fault("/screed", "missing", "a calendar needs the screed and the day of its pour"))
    names = {build_up.id: build_up.name or build_up.id for build_up in inputs.build_ups}
    return _calendar(
        tuple(
            _Plan(
                names[each.build_up],
                each.plan_inputs,
                each.plan,
                tuple(_findings_of(names[each.build_up], result.findings)),
                () if number else result.cautions,
            )
            for number, each in enumerate(result.curing_plans)
        )
    )


def _findings_of(label: str, findings: tuple[Finding, ...]) -> Iterator[str]:
    """Those about the screed of one build-up, out of all of a design."""
    for finding in findings:
        places = [place for place in finding.places if place.subject in ("", label)]
        if finding.code in _SCREED and places:
            yield _sentence(finding, places)


def _sentence(finding: Finding, places: Sequence[FindingPlace]) -> str:
    numbers = "; ".join(place.message for place in places if place.message)
    return f"{finding.severity.capitalize()}: {finding.message}" + (f" ({numbers})" if numbers else "")


def _calendar(plans: tuple[_Plan, ...]) -> bytes:
    from icalendar import Calendar  # noqa: PLC0415 - a tenth of a second that most starts need not spend

    pour_date = plans[0].inputs.pour_date
    calendar = Calendar()
    calendar.add("prodid", "-//Tepidarium//Curing plan//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("name", f"Heated screed poured on {pour_date.isoformat()}")
    for entry in _joined(plans):
        calendar.add_component(_event(entry, plans))
    return bytes(calendar.to_ical())


def _joined(plans: tuple[_Plan, ...]) -> Iterator[_Entry]:
    """One event for what happens on the same days, however many screeds it is for."""
    found: dict[tuple[str, date, date], list[tuple[str, _Entry]]] = {}
    for plan in plans:
        for entry in chain(_stages(plan), _supply_temperatures(plan.result)):
            found.setdefault(entry[:3], []).append((plan.label, entry))
    for key, own in found.items():
        cautions = dict.fromkeys(chain.from_iterable(entry.cautions for _, entry in own))
        yield _Entry(*key, tuple(_paragraphs(own)), tuple(cautions))


def _paragraphs(entries: Sequence[tuple[str, _Entry]]) -> Iterator[str]:
    """Each once, after the labels of those that it holds for; all of them are named in the first alone."""
    found: dict[str, list[str]] = {}
    for label, entry in entries:
        for text in entry.paragraphs:
            found.setdefault(text, []).append(label)
    everyone = [label for label, _ in entries]
    for number, (text, labels) in enumerate(found.items()):
        named = ", ".join(filter(None, labels)) if number == 0 or labels != everyone else ""
        yield f"{named}: {text}" if named else text


def _event(entry: _Entry, plans: tuple[_Plan, ...]) -> Event:
    from icalendar import Event  # noqa: PLC0415

    identity = "\n".join((*(repr(plan.inputs) for plan in plans), entry.summary, entry.start.isoformat()))
    event = Event()
    event.add("uid", str(uuid.uuid5(_NAMESPACE, identity)))
    event.add("dtstamp", datetime.combine(plans[0].inputs.pour_date, time(), UTC))
    event.add("dtstart", entry.start)
    event.add("dtend", entry.end)
    event.add("summary", entry.summary)
    event.add("description", "\n\n".join((*entry.paragraphs, *filter(None, ["\n".join(entry.cautions)]))))
    event.add("transp", "TRANSPARENT")
    return event


def _stages(plan: _Plan) -> Iterator[_Entry]:
    for stage in plan.result.stages:
        paragraphs = (stage.description, *_particulars(stage, plan))
        codes = _CAUTIONS.get(stage.stage, ())
        cautions = tuple(f"Caution: {caution.message}" for caution in plan.cautions if caution.code in codes)
        last = max(stage.end_date, stage.start_date + timedelta(1))
        yield _Entry(STAGE_TITLES[stage.stage], stage.start_date, last, paragraphs, cautions)


def _particulars(stage: CuringStage, plan: _Plan) -> Iterator[str]:
    """What the stage needs from the rest of the result, in the units of the trade."""
    inputs, result = plan.inputs, plan.result
    if stage.stage == "pour":
        yield (
            f"{_BINDERS[inputs.binder]} of class {inputs.flexural_class}, {_millimetres(inputs.thickness)} "
            f"thick, {_millimetres(result.screed_cover)} of it over the pipe. At least "
            f"{_millimetres(result.minimum_thickness)} are needed."
        )
        yield from plan.findings
    elif stage.stage == "first_heat_up":
        yield f"Never above {settable(result.highest_supply_temperature)} °C supply."
    elif stage.stage == "moisture_test":
        limit = result.moisture_limit
        yield (
            f"Limit: {limit.carbide_moisture * 100.0:.2g} CM-% (carbide method) or "
            f"{limit.relative_humidity * 100.0:.3g} % equilibrium relative humidity."
        )
        if result.test_points:
            yield f"Test points: {sum(result.test_points)} in {len(result.test_points)} rooms."


def _supply_temperatures(result: CuringPlanResult) -> Iterator[_Entry]:
    days = groupby(result.daily_programme, key=lambda day: (day.stage, settable(day.supply_temperature)))
    for (stage, temperature), group in days:
        run: list[ProgrammeDay] = list(group)
        yield _Entry(
            f"Supply {temperature} °C",
            run[0].date,
            run[-1].date + timedelta(1),
            (
                f"{STAGE_TITLES[stage]}: supply temperature {temperature} °C, day {run[0].day} to {run[-1].day} "
                "after the pour. Day and night, without setback; write it into the log.",
            ),
        )


def _millimetres(length: float) -> str:
    return f"{length * 1000.0:.4g} mm"
