"""The record of measured moisture, read again with libraries of its formats."""

from __future__ import annotations

import csv
import io
from typing import Any

import msgspec
import openpyxl
import pypdf
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CSV, Calculation
from tepidarium_api.calculations._base import PDF, WORKBOOK
from tepidarium_api.calculations.moisture_reading import MOISTURE_READING

READINGS = [
    {"point": "by the door", "carbide_moisture": 0.0165},
    {"point": "=by the oven", "carbide_moisture": 0.0195},
    {"relative_humidity": 0.64},
]
"""1.65 and 1.95 CM-% on a heated cement screed, for which interface guides of the trades and DIN 18560-1 allow 1.8 CM-%
and SIA 253 1.5 CM-%, and 64 % r.h. under timber, for which BS 8201 allows 65 %."""
WANTED = [(1.65, 1.8, "dry enough"), (1.95, 1.8, "too moist"), (64.0, 65.0, "dry enough")]


def made(media_type: str, calculation: Calculation = MOISTURE_READING, **changes: Any) -> bytes:
    body = {"binder": "cement", "covering": "timber", "area": 28.9, "readings": READINGS, **changes}
    found = answer(calculation, msgspec.json.encode(body), media_type)
    assert isinstance(found, Answer)
    return found.content


def paper(**changes: Any) -> str:
    reader = pypdf.PdfReader(io.BytesIO(made(PDF, **changes)))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def test_the_record_says_what_was_measured_by_which_limit_and_where_to_sign() -> None:
    text = paper()
    for words in (
        "Screed cement, heated",
        "Covering timber",
        "Area [m²] 28.90",
        "Points measured, and needed 3, 2",
        "Do not cover: 1 of 3 points too moist",
        "1 by the door carbide 1.65 CM-% 1.80 CM-% timber dry enough",
        "2 =by the oven carbide 1.95 CM-% 1.80 CM-% timber too moist",
        "64.00 % r.h. 65.00 % r.h. timber dry enough",
        "1.50 CM-% no SIA 253",
        "name and signature",
        "Place and date",
        "The carbide test sets free acetylene, which explodes.",
        "The screed is too moist for the covering",
    ):
        assert words in text, words


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        (
            {"readings": [{"carbide_moisture": 0.012}], "area": None},
            "Judgement Dry enough to be covered Measured",
        ),
        ({"readings": READINGS[:1]}, "Do not cover: points are missing"),
        (
            {"readings": READINGS[:2], "area": 60.0},
            "Do not cover: 1 of 2 points too moist, points are missing",
        ),
        (
            {"readings": READINGS[2:] * 2, "heating_off_days": 1},
            "Dry enough to be covered, but see the findings",
        ),
    ],
)
def test_nothing_is_released_that_is_moist_or_not_measured(changes: dict[str, Any], words: str) -> None:
    """Two points to 50 m2 and three above, by interface guides; BS 8203 asks for four days without heating."""
    assert words in paper(**changes)


def test_readings_as_tables() -> None:
    rows = list(csv.DictReader(io.StringIO(made(CSV).decode("utf-8-sig"))))
    sheet, limits = openpyxl.load_workbook(io.BytesIO(made(WORKBOOK))).worksheets
    found = list(sheet.iter_rows(min_row=2, values_only=True))
    heads = [cell.value for cell in sheet[1]]
    for row, cells, (reading, highest, judgement) in zip(rows, found, WANTED, strict=True):
        cell = dict(zip(heads, cells, strict=True))
        assert (cell["Reading"], cell["At most"]) == pytest.approx((reading, highest))
        assert (float(row["Reading"].split()[0]), float(row["At most"].split()[0])) == (reading, highest)
        assert cell["Judgement"] == row["Judgement"] == judgement
    assert (rows[1]["Point"], found[1][heads.index("Point")]) == ("'=by the oven", "=by the oven")
    assert [row[2] for row in limits.iter_rows(min_row=2, values_only=True)] == ["yes", "no", "no", "yes"]
