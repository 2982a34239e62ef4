"""Coverings that an objective chose, in the answer and in all that is made of it, read by general libraries."""

from __future__ import annotations

import io
import json
import zipfile
from functools import cache
from typing import Any

import icalendar
import openpyxl
import pypdf
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations.designs import DESIGNS
from tepidarium_client._cli._report import report

from tests.findings.answered import finding_faults, wording_faults

REQUEST: dict[str, Any] = {
    **DESIGNS.example,
    "build_ups": [
        {**floor, "insulation": {"below": "heated_room", "layers": [{"thermal_resistance": 0.5}]}}
        for floor in DESIGNS.example["build_ups"]
    ],
    "objective": {
        "least": "supply_temperature",
        "coverings": [{"covering": "carpet", "covering_resistance": 0.04, "rooms": ["parlour"]}],
    },
    "solve_sections": True,
    "sensitivity": {},
}
NAME = "oak (carpet 0.04 m²K/W)"


@cache
def _made(accept: str, *, objective: bool = True) -> bytes:
    request = REQUEST if objective else {**REQUEST, "objective": None}
    found = answer(DESIGNS, json.dumps(request).encode(), accept)
    assert isinstance(found, Answer), found
    return found.content


def _result() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(_made("application/json"))
    return found


def test_the_answer_names_floor_and_rooms_and_its_findings_lead_there() -> None:
    result = _result()
    (floor,) = result["chosen_floors"]
    assert (floor["like"], floor["covering_option"], floor["rooms"]) == ("oak", 0, ["parlour"])
    assert floor["build_up"]["name"] == NAME
    assert finding_faults(result) == wording_faults(result) == []
    places = [place for finding in result["findings"] for place in finding["places"]]
    assert any(
        (place["where_in"], place["where"], place["subject"])
        == ("answer", "/chosen_floors/0/build_up/screed_cover", NAME)
        for place in places
    )
    assert (
        result["inputs"]["build_ups"]
        == json.loads(_made("application/json", objective=False))["inputs"]["build_ups"]
    )


def test_the_calendar_is_that_of_the_chosen_floor() -> None:
    calendar = icalendar.Calendar.from_ical(_made("text/calendar"))
    pour, *_ = calendar.walk("VEVENT")
    assert str(pour["DESCRIPTION"]).startswith(f"stone, {NAME}: ")


def test_pack_workbook_and_report_name_the_covering() -> None:
    pages = " ".join(
        " ".join((page.extract_text() or "").split())
        for page in pypdf.PdfReader(io.BytesIO(_made("application/pdf"))).pages
    )
    assert "Coverings that were chosen" in pages
    assert f"Floor {NAME}" in pages
    assert "Floor covering natural stone, carpet" in pages
    with zipfile.ZipFile(io.BytesIO(_made("application/zip"))) as archive:
        book = openpyxl.load_workbook(io.BytesIO(archive.read("tables.xlsx")))
    sheet = book["Coverings that were chosen"]
    assert [cell.value for cell in sheet[2]][:4] == ["Parlour", NAME, "oak", "carpet"]
    words = report("designs", _result())
    assert "Coverings that were chosen" in words
    assert NAME in words


def test_an_answer_is_a_former_one_with_its_floors() -> None:
    result = _result()
    request = {**REQUEST, "objective": None, "former": result}
    found = answer(DESIGNS, json.dumps(request).encode(), "application/json")
    assert isinstance(found, Answer), found
    again = json.loads(found.content)
    assert again["comparison"]["asked"] == again["comparison"]["decisions"] == []
    assert again["rooms"] == result["rooms"]
    assert again["chosen_floors"] == [{**floor, "covering_option": None} for floor in result["chosen_floors"]]
    assert not [fault for fault in finding_faults(again) if ": /former" not in fault]


@pytest.mark.parametrize("member", ["rooms", "like"])
def test_floors_of_a_former_answer_that_lead_nowhere_are_left_out(member: str) -> None:
    result = _result()
    result["chosen_floors"][0][member] = ["attic"] if member == "rooms" else "attic"
    request = {**REQUEST, "objective": None, "former": result}
    found = answer(DESIGNS, json.dumps(request).encode(), "application/json")
    assert isinstance(found, Answer), found
    assert json.loads(found.content)["chosen_floors"] == []
