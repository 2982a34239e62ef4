"""The curing plan as a calendar file, against RFC 5545."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import icalendar
import msgspec
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations.curing_plan import CURING_PLAN
from tepidarium_api.calculations.designs import DESIGNS
from tepidarium_api.problems import Problem
from tepidarium_api.renderings.calendar import curing_calendar
from tepidarium_engine.curing_plan import CuringPlanInputs, calculate

INPUTS = CuringPlanInputs(
    binder="cement",
    thickness=0.065,
    pour_date=date(2025, 3, 3),
    maximum_supply_temperature=45.0,
    covering="timber",
    rule_set="cautious",
    maturity_heating=True,
    room_areas=(31.5, 14.2),
)
RESULT = calculate(INPUTS)
TEXT = curing_calendar(INPUTS, RESULT)


def unfolded(content: bytes) -> list[str]:
    """Content lines by RFC 5545, 3.1, without the library: CRLF SPACE is a fold."""
    return content.replace(b"\r\n ", b"").decode().removesuffix("\r\n").split("\r\n")


def events(content: bytes) -> list[dict[str, str]]:
    found: list[dict[str, str]] = []
    for line in unfolded(content):
        name, _, value = line.partition(":")
        if line == "BEGIN:VEVENT":
            found.append({})
        elif found:
            found[-1].setdefault(name, value)
    return found


def test_lines_end_and_fold_as_in_rfc_5545_section_3_1() -> None:
    assert TEXT.endswith(b"\r\n")
    lines = TEXT.removesuffix(b"\r\n").split(b"\r\n")
    for line in lines:
        assert len(line) <= 75  # octets without the line break
        assert b"\r" not in line
        assert b"\n" not in line
        line.decode()  # no fold inside a character
    for line in unfolded(TEXT):
        assert re.fullmatch(r"[A-Z][A-Z-]*(;[A-Z-]+=[A-Z-]+)*:[^\x00-\x08\x0a-\x1f\x7f]*", line)


def test_text_values_escape_as_in_section_3_3_11() -> None:
    for event in events(TEXT):
        for name in ("SUMMARY", "DESCRIPTION"):
            assert not re.search(r"(?<!\\)[;,]", event[name])
            assert re.fullmatch(r"(?:[^\\]|\\[\\;,nN])*", event[name])


def test_components_and_required_properties_of_sections_3_4_and_3_6_1() -> None:
    lines = unfolded(TEXT)
    assert (lines[0], lines[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR")
    assert lines.count("VERSION:2.0") == 1
    assert sum(line.startswith("PRODID:") for line in lines) == 1
    assert not any(line.startswith("METHOD") for line in lines)
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") == len(events(TEXT))
    for event in events(TEXT):
        assert {"UID", "DTSTAMP", "DTSTART;VALUE=DATE", "DTEND;VALUE=DATE", "SUMMARY"} <= event.keys()
        assert event["DTSTAMP"] == "20250303T000000Z"
        assert event["DTEND;VALUE=DATE"] > event["DTSTART;VALUE=DATE"]
    identifiers = [event["UID"] for event in events(TEXT)]
    assert len(set(identifiers)) == len(identifiers)


def test_events_are_the_stages_and_the_changes_of_the_supply_temperature() -> None:
    spans = {
        (event["SUMMARY"], event["DTSTART;VALUE=DATE"], event["DTEND;VALUE=DATE"]) for event in events(TEXT)
    }
    # cautious, by hand: heating from day 28, 25 degC for 3 days, 5 K a day, 45 degC for 7 days
    assert ("Supply 25 °C", "20250331", "20250403") in spans
    assert ("Supply 30 °C", "20250403", "20250404") in spans
    assert ("Supply 45 °C", "20250406", "20250413") in spans
    assert ("Pour the screed", "20250303", "20250304") in spans
    starts = {date.fromisoformat(start) for _, start, _ in spans}
    assert {stage.start_date for stage in RESULT.stages} <= starts
    days = sum(
        (date.fromisoformat(end) - date.fromisoformat(start)).days
        for name, start, end in spans
        if name.startswith("Supply ")
    )
    assert days == len(RESULT.daily_programme)


def test_the_library_reads_back_what_was_written() -> None:
    calendar: Any = icalendar.Calendar.from_ical(TEXT)
    assert not calendar.errors
    parsed = calendar.walk("VEVENT")
    assert not any(event.errors for event in parsed)
    by_name = {str(event["summary"]): event for event in parsed}
    pour = by_name["Pour the screed"]
    assert pour.decoded("dtstart") == date(2025, 3, 3)
    assert pour.decoded("dtend") == date(2025, 3, 3) + timedelta(1)
    said = " ".join(str(event["description"]) for event in parsed)
    assert [said.count(caution.message) for caution in RESULT.cautions] == [1] * len(RESULT.cautions)
    at = {caution.code: caution.message for caution in RESULT.cautions}
    assert at["pressure_test_before_pour"] in str(pour["description"])
    assert at["first_heating_supervised"] in str(by_name["First heat-up"]["description"])
    assert at["no_drilling"] in str(by_name["Moisture test"]["description"])
    assert "65 mm" in str(pour["description"])
    assert "1.8 CM-%" in str(by_name["Moisture test"]["description"])


def test_same_plan_same_bytes_in_another_process_and_another_plan_other_identifiers() -> None:
    script = (
        "import sys, msgspec; from tepidarium_api.calculations.curing_plan import CURING_PLAN as c\n"
        "i = msgspec.convert(dict(c.example), c.inputs); "
        "sys.stdout.buffer.write(c.renderings['text/calendar'](i, c.calculate(i)))"
    )
    runs = {
        subprocess.run(
            [sys.executable, "-c", script],
            check=True,
            capture_output=True,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(runs) == 1
    later = replace(INPUTS, pour_date=date(2025, 3, 4))
    other = curing_calendar(later, calculate(later))
    assert not {event["UID"] for event in events(other)} & {event["UID"] for event in events(TEXT)}


@pytest.mark.parametrize("media_type", ["text/calendar"])
def test_the_registry_offers_it(media_type: str) -> None:
    assert CURING_PLAN.renderings[media_type] is curing_calendar


def test_the_example_file_is_the_registry_example() -> None:
    stored = Path(__file__).parents[2] / "examples" / "curing-plan.json"
    assert json.loads(stored.read_text()) == CURING_PLAN.example


def test_a_house_has_one_calendar_with_the_plans_of_all_its_build_ups() -> None:
    house = json.loads((Path(__file__).parents[2] / "examples" / "house.json").read_text())
    body = msgspec.json.encode({**house, "doorways": []})  # dates do not depend on the drawing
    made = answer(DESIGNS, body, "text/calendar")
    assert isinstance(made, Answer)
    assert made == answer(DESIGNS, body, "text/calendar")
    calendar = icalendar.Calendar.from_ical(made.content)
    events = calendar.walk("VEVENT")
    uids = [str(event["uid"]) for event in events]
    assert len(set(uids)) == len(uids)
    pours = [str(event["summary"]) for event in events if str(event["summary"]).startswith("Pour")]
    assert pours == ["Pour the screed"]
    stages = [(str(event["summary"]), event["dtstart"].dt) for event in events]
    assert len(set(stages)) == len(stages), "one event for one stage and date"
    (pour,) = (event for event in events if str(event["summary"]).startswith("Pour"))
    assert "tile" in str(pour["description"]) and "timber" in str(pour["description"])
    supplies = [re.search(r"Supply (\S+) °C", summary) for summary, _ in stages]
    set_to = [float(found[1]) for found in supplies if found]
    assert set_to and all(value == int(value) for value in set_to)


def test_an_event_says_what_holds_for_several_screeds_once() -> None:
    """Screeds alike share a paragraph, wherever they stand in the request, and cautions hold for all."""
    house = json.loads((Path(__file__).parents[2] / "examples" / "house.json").read_text())
    stone = {**house["build_ups"][0], "id": "stone"}
    rooms = [{**house["rooms"][1], "id": name, "build_up": name} for name in ("tile", "timber", "stone")]
    asked = {**house, "rooms": rooms, "build_ups": [*house["build_ups"], stone], "doorways": []}
    made = answer(DESIGNS, msgspec.json.encode({**asked, "manifold": {}}), "text/calendar")
    assert isinstance(made, Answer), made
    events = icalendar.Calendar.from_ical(made.content).walk("VEVENT")
    assert events
    for event in events:
        paragraphs = str(event["description"]).split("\n\n")
        assert len(set(paragraphs)) == len(paragraphs)
    (pour,) = (str(event["description"]) for event in events if str(event["summary"]).startswith("Pour"))
    assert pour.startswith("tile, timber, stone: Pour ") and "\n\ntimber: Note: " in pour
    assert pour.split("\n\n")[-1].startswith("Caution: ")


def test_a_house_without_screed_has_no_calendar() -> None:
    refused = answer(DESIGNS, msgspec.json.encode({**DESIGNS.example, "screed": None}), "text/calendar")
    assert isinstance(refused, Problem)
    assert [error.pointer for error in refused.errors or ()] == ["/screed"]
