"""Options, sensitivity and heating curve in the documents of a design and in their own, read by general libraries."""

from __future__ import annotations

import io
import json
import zipfile
from dataclasses import replace
from functools import cache
from typing import Any
from xml.etree import ElementTree

import msgspec
import openpyxl
import pypdf
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.calculations.design_options import DESIGN_OPTIONS
from tepidarium_api.calculations.heating_season import HEATING_SEASON
from tepidarium_api.renderings.options_drawing import options_sheet
from tepidarium_api.renderings.sensitivity_drawing import sensitivity_sheet, tolerance_in_words
from tepidarium_engine import design_options
from tepidarium_engine.design_sensitivity import (
    DesignSensitivityInputs,
    FindingTolerance,
    ToleranceChange,
    calculate,
)

BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
EXAMPLE = DESIGN_OPTIONS.example
REQUEST: dict[str, Any] = {
    **EXAMPLE["design"],
    "objective": {
        "least": "cost_of_use",
        **{name: EXAMPLE[name] for name in ("prices", "heat_pump", "strips")},
    },
    "sensitivity": {},
    "season": {name: value for name, value in HEATING_SEASON.example.items() if name != "design"},
}
PLOTS = {"options.svg", "sensitivity.svg", "heating-curve.svg"}


def _made(name: str, request: Any, accept: str) -> bytes:
    found = answer(BY_NAME[name], json.dumps(request).encode(), accept)
    assert isinstance(found, Answer)
    return found.content


@cache
def _files() -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(_made("designs", REQUEST, "application/zip"))) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@cache
def _pages(content: bytes) -> list[str]:
    return [
        " ".join((page.extract_text() or "").split()) for page in pypdf.PdfReader(io.BytesIO(content)).pages
    ]


def _chapter(pages: list[str], title: str) -> tuple[str, str]:
    """The page that begins with the title, and the one after it."""
    place = next(number for number, text in enumerate(pages) if text.startswith(title))
    return pages[place], pages[place + 1]


def test_the_pack_has_the_front_with_its_table() -> None:
    result = json.loads(_files()["result.json"])
    table, plot = _chapter(_pages(_files()["handover-pack.pdf"]), "What the house could be instead")
    for option in result["options"]["options"]:
        for page in (table, plot):
            assert f"{option['supply_temperature']:.1f}" in page
            assert f"{option['material_cost']:.0f}" in page
        assert option["beside"] is None or option["beside"]["message"] in table
    assert "Material, EUR" in table
    assert "supply temperature, °C" in plot


def test_the_pack_has_bars_with_their_table_and_what_the_design_bears() -> None:
    result = json.loads(_files()["result.json"])["sensitivity"]
    table, plot = _chapter(_pages(_files()["handover-pack.pdf"]), "How the design reacts")
    for line in result["lines"]:
        assert line["message"] in table
        assert line["message"] in plot
    whole, *rooms = result["finding_tolerances"]
    assert len(rooms) == len(REQUEST["rooms"])
    for change in whole["changes"]:
        assert f"{change['code'].replace('_', ' ')} is {change['change']}" in table
    assert "All rooms together may need" in plot


def test_the_pack_has_the_heating_curve_with_the_year() -> None:
    result = json.loads(_files()["result.json"])["season"]
    table, plot = _chapter(_pages(_files()["handover-pack.pdf"]), "Heating curve and year")
    for page in (table, plot):
        assert f"{result['curve']['design_supply_temperature']:.1f} °C at -12 °C outside" in page
        for own in result["bins"]:
            assert own["supply_temperature"] is None or f"{own['supply_temperature']:.1f}" in page


def test_the_workbook_and_the_files_have_them_too() -> None:
    book = openpyxl.load_workbook(io.BytesIO(_files()["tables.xlsx"]))
    assert {"Options", "Sensitivity", "Tolerances", "Heating curve", "Room controls"} <= set(book.sheetnames)
    result = json.loads(_files()["result.json"])
    lines = list(book["Sensitivity"].iter_rows(min_row=2, values_only=True))
    assert [line[0] for line in lines] == [line["message"] for line in result["sensitivity"]["lines"]]
    assert set(_files()) >= PLOTS
    for name in PLOTS:
        assert ElementTree.fromstring(_files()[name]).tag.endswith("svg")


def test_what_nobody_asked_for_is_not_there() -> None:
    plain = EXAMPLE["design"]
    pages = _pages(_made("designs", plain, "application/pdf"))
    for title in ("What the house could be instead", "How the design reacts", "Heating curve and year"):
        assert not any(page.startswith(title) for page in pages)
    with zipfile.ZipFile(io.BytesIO(_made("designs", plain, "application/zip"))) as archive:
        assert not PLOTS & set(archive.namelist())


@pytest.mark.parametrize("name", ["design-options", "design-sensitivity", "heating-season"])
def test_each_calculation_has_its_own_document(name: str) -> None:
    calculation = BY_NAME[name]
    pages = _pages(_made(name, calculation.example, "application/pdf"))
    result = json.loads(_made(name, calculation.example, "application/json"))
    text = " ".join(pages)
    assert all(finding["message"] in text for finding in result["findings"])
    assert all(caution["message"] in text for caution in result["cautions"])
    (width, height) = (
        pypdf.PdfReader(io.BytesIO(_made(name, calculation.example, "application/pdf"))).pages[1].mediabox[2:]
    )
    assert (float(width), float(height)) == pytest.approx((297.0 * 72.0 / 25.4, 210.0 * 72.0 / 25.4), abs=0.1)


def test_numbers_of_options_keep_apart_from_marks() -> None:
    inputs = msgspec.convert(EXAMPLE, BY_NAME["design-options"].inputs)
    result = design_options.calculate(inputs)
    drawing = ElementTree.fromstring(options_sheet(result, inputs.prices))
    (marks,) = [group for group in drawing.iter() if group.get("id") == "options"]
    numbers = [
        (float(own.get("x", "0")), float(own.get("y", "0"))) for own in marks if own.tag.endswith("text")
    ]
    circles = [
        (float(own.get("cx", "0")), float(own.get("cy", "0"))) for own in marks if own.tag.endswith("circle")
    ]
    assert len(numbers) == len(circles) == len(result.options)
    for place, (x, y) in enumerate(numbers):
        # A digit is about 1.5 mm wide and 2 mm high, its baseline below; a mark has a radius of 1.2 mm.
        assert all(abs(x - a) > 2.5 or abs(y - 1.0 - b) > 2.0 for a, b in circles)
        assert all(abs(x - a) > 3.0 or abs(y - b) > 2.0 for a, b in numbers[:place])


def test_signs_that_no_format_prints_become_spaces() -> None:
    """XML 1.0, section 2.2: control characters are no characters of a document."""
    inputs = msgspec.convert(EXAMPLE, BY_NAME["design-options"].inputs)
    result = design_options.calculate(inputs)
    drawing = ElementTree.fromstring(options_sheet(result, replace(inputs.prices, currency="E\x07R")))
    assert "material, E R" in [own.text for own in drawing.iter() if own.tag.endswith("text")]
    asked = DesignSensitivityInputs(inputs.design)
    rooms = tuple(replace(room, name=f"{room.name}\x07") for room in inputs.design.rooms)
    odd = replace(asked, design=replace(inputs.design, rooms=rooms))
    assert ElementTree.fromstring(sensitivity_sheet(calculate(odd))).tag.endswith("svg")


def test_a_tolerance_in_words_is_never_more_than_there_is() -> None:
    change = ToleranceChange("velocity_low", "new", "note", "Hall", "Water is slow.")
    own = FindingTolerance("", "", 0.0599999, (change, replace(change, subject="Study")))
    words = "All rooms together may need 5.9 % more heat before a finding changes: velocity low is new for Hall, Study."
    assert tolerance_in_words(own) == words
    assert "twice as much" in tolerance_in_words(replace(own, tolerable_rise=None, changes=()))
    assert "no house can be computed" in tolerance_in_words(replace(own, changes=()))
