"""A former answer in a request of designs: taken as it is, refused with a pointer where it is malformed."""

from __future__ import annotations

import io
import json
import zipfile
from functools import cache
from typing import Any

import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations.designs import DESIGNS
from tepidarium_api.problems import Problem

HOUSE: dict[str, Any] = {
    "rooms": [
        {
            "id": "parlour",
            "name": "Parlour",
            "build_up": "floor",
            "heat_demand": 900.0,
            "area": 14.0,
            "tail_length": 5,
        },
        {
            "id": "study",
            "name": "Study",
            "build_up": "floor",
            "heat_demand": 500.0,
            "area": 11.0,
            "tail_length": 7,
        },
    ],
    "build_ups": [{"id": "floor", "resistance_below": 2.5, "temperature_below": 8.0}],
    "screed": {"pour_date": "2027-03-01"},
}


def _asked(body: dict[str, Any], accept: str = "application/json") -> Answer | Problem:
    return answer(DESIGNS, json.dumps(body).encode(), accept)


def _answered(body: dict[str, Any], accept: str = "application/json") -> bytes:
    found = _asked(body, accept)
    assert isinstance(found, Answer), found
    return found.content


@cache
def _first() -> bytes:
    return _answered(HOUSE)


def _changed() -> dict[str, Any]:
    warmer = {**HOUSE["rooms"][1], "heat_demand": 760.0}
    return {**HOUSE, "rooms": [HOUSE["rooms"][0], warmer], "former": json.loads(_first())}


def test_a_whole_answer_is_taken_as_it_is() -> None:
    """With members that are not read, and with those of a later version."""
    former = json.loads(_first()) | {"of_a_later_version": [1, 2]}
    former["rooms"][0]["of_a_later_version"] = None
    found = json.loads(_answered({**HOUSE, "former": former}))
    assert found["comparison"]["decisions"] == []
    assert found["inputs"]["former"] is None


def test_an_answer_with_a_former_one_is_a_former_one_in_turn() -> None:
    second = json.loads(_answered(_changed()))
    third = json.loads(_answered({**_changed(), "former": second}))
    assert third["comparison"]["decisions"] == third["comparison"]["asked"] == []


@pytest.mark.parametrize(
    ("place", "value", "pointer"),
    [
        (("rooms", 0, "pipe_spacing"), "wide", "/former/rooms/0/pipe_spacing"),
        (("rooms", 1, "pipe_spacing"), 150.0, "/former/rooms/1/pipe_spacing"),
        (("rooms", 0, "circuit_ids"), 3, "/former/rooms/0/circuit_ids"),
        (("circuits", 0, "port"), 0, "/former/circuits/0/port"),
        (("inputs", "rooms", 0, "area"), -1.0, "/former/inputs/rooms/0/area"),
        (("inputs", "rooms", 0, "colour"), "red", "/former/inputs/rooms/0/colour"),
        (("findings",), {}, "/former/findings"),
        (("supply_temperature",), 1e300, "/former/supply_temperature"),
        (("inputs",), None, "/former/inputs"),
        (
            ("curing_plans", 0, "plan", "earliest_heating"),
            "soon",
            "/former/curing_plans/0/plan/earliest_heating",
        ),
    ],
)
def test_what_is_malformed_is_pointed_to(place: tuple[str | int, ...], value: Any, pointer: str) -> None:
    former = json.loads(_first())
    here = former
    for step in place[:-1]:
        here = here[step]
    here[place[-1]] = value
    found = _asked({**HOUSE, "former": former})
    assert isinstance(found, Problem)
    assert pointer in [error.pointer for error in found.errors]


@pytest.mark.parametrize("former", [{}, [], "answer", 5, {"rooms": []}])
def test_what_is_no_answer_is_refused(former: Any) -> None:
    found = _asked({**HOUSE, "former": former})
    assert isinstance(found, Problem)
    assert all(error.pointer.startswith("/former") for error in found.errors)


def test_the_workbook_and_the_pack_hold_what_has_changed() -> None:
    book = zipfile.ZipFile(io.BytesIO(_answered(_changed(), DESIGNS_WORKBOOK)))
    sheets = book.read("xl/workbook.xml").decode()
    words = book.read("xl/sharedStrings.xml").decode()
    assert 'name="What has changed"' in sheets
    assert "500 W" in words
    assert "760 W" in words
    without = zipfile.ZipFile(io.BytesIO(_answered(HOUSE, DESIGNS_WORKBOOK)))
    assert "What has changed" not in without.read("xl/workbook.xml").decode()
    pages = [_answered(body, "application/pdf") for body in (HOUSE, _changed())]
    assert all(page.startswith(b"%PDF") for page in pages)
    assert len(pages[1]) > len(pages[0])


DESIGNS_WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
