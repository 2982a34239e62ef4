"""Documents of a design, read again with libraries of their formats: DXF, PDF, XLSX, CSV, ZIP."""

from __future__ import annotations

import cmath
import csv
import io
import json
import math
import re
import unicodedata
import zipfile
from dataclasses import replace
from datetime import timedelta
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import ezdxf
import ezdxf.document
import icalendar
import msgspec
import openpyxl
import pypdf
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.calculations.designs import DESIGNS
from tepidarium_api.calculations.materials import MATERIALS
from tepidarium_api.documents.csv_text import csv_of
from tepidarium_api.documents.dates import PlanOf, stage_table
from tepidarium_api.documents.design_files import DESIGN_FILES, design_cad, design_schedule, design_workbook
from tepidarium_api.documents.laying_pages import AXIS, axes, placed
from tepidarium_api.documents.order_tables import coil_table, to_buy_table
from tepidarium_api.documents.pack import decisions_chapter, handover_pack
from tepidarium_api.documents.parts import Chapter, Column, Listed, Table, page_data
from tepidarium_api.documents.record_forms import balancing_table, flushing_table
from tepidarium_api.documents.typesetting import pdf_of, printed
from tepidarium_api.documents.workbook import workbook_of
from tepidarium_api.problems import Problem
from tepidarium_api.renderings.calendar import house_calendar
from tepidarium_api.renderings.dxf_sheets import dxf_of
from tepidarium_api.renderings.route_drawing import route_sheets
from tepidarium_api.renderings.sheet import extent, sheets_for
from tepidarium_api.renderings.storey_drawing import storey_sheets
from tepidarium_engine.building.beside_records import ClimateBin, SeasonQuestions, SensitivityQuestions
from tepidarium_engine.building.outcome import Remedy
from tepidarium_engine.coil_plan import CircuitToCut, CoilInStock, CoilPlanInputs
from tepidarium_engine.coil_plan import calculate as coil_plan
from tepidarium_engine.designs import DesignsInputs, DesignsResult, DrawingSheet, calculate
from tepidarium_engine.routes import RoutesInputs
from tepidarium_engine.water.inputs import Fluid

POINT = 72.0 / 25.4
"""Points of a PDF in a millimetre."""
HOUSE = Path(__file__).parents[2] / "examples" / "two-storeys.json"
SHEET = DrawingSheet(project="Mill & Söhne <1>", author="A. Fitter", revision="B", north=30.0)
PLOTS = {"options.svg", "sensitivity.svg", "heating-curve.svg"}
"""Files of what is asked beside a design."""
NASTY = "#panic() *x* $y$ <b>&\"' \\u{41} %%u ^J =1+1 日本 \u202e\x07"


@cache
def design() -> tuple[DesignsInputs, DesignsResult]:
    inputs = replace(
        msgspec.convert(json.loads(HOUSE.read_text()), DesignsInputs), laying_sheets=True, drawing=SHEET
    )
    return inputs, calculate(inputs)


@cache
def renamed() -> tuple[DesignsInputs, DesignsResult]:
    """The same with names that every format could take for its own markup."""
    inputs, _ = design()
    rooms = tuple(replace(room, name=f"{NASTY} {number}") for number, room in enumerate(inputs.rooms))
    changed = replace(
        inputs,
        rooms=rooms,
        drawing=replace(SHEET, project=NASTY, author="=cmd()"),
        sensitivity=SensitivityQuestions(),
        season=SeasonQuestions((ClimateBin(0.0, 1000.0),)),
    )
    return changed, calculate(changed)


@cache
def pack() -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(handover_pack(*design())))


@cache
def pack_text() -> str:
    return " ".join("\n".join(page.extract_text() for page in pack().pages).split())


@cache
def cad() -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(design_cad(*design()).decode()))


def polyline_length(entity: Any) -> float:
    """Straights and arcs of an LWPOLYLINE. Its bulge is the tangent of a quarter of the arc's angle (DXF reference)."""
    length = 0.0
    corners = list(entity.get_points("xyb"))
    for (ax, ay, bulge), (bx, by, _) in pairwise(corners):
        chord = math.dist((ax, ay), (bx, by))
        angle = 4.0 * math.atan(abs(bulge))
        length += chord if bulge == 0.0 else chord / 2.0 / math.sin(angle / 2.0) * angle
    return length


def test_pipe_in_the_cad_file_is_as_long_as_in_the_design() -> None:
    _, result = design()
    assert result.layout is not None
    assert cad().header["$INSUNITS"] == 4  # millimetres (DXF reference)
    assert not cad().audit().errors
    drawn = sorted(
        sum(polyline_length(one) for one in group if one.dxf.layer in ("Pipe flow", "Pipe return"))
        for name, group in cad().groups
        if name.startswith("circuit-")
    )
    wanted = sorted(circuit.length * 1000.0 for circuit in result.layout.drawn_circuits)
    assert drawn == pytest.approx(wanted, abs=1.0)
    arcs = sum(
        bulge != 0.0
        for one in cad().modelspace().query("LWPOLYLINE")
        if one.dxf.layer in ("Pipe flow", "Pipe return")
        for _, _, bulge in one.get_points("xyb")
    )
    given = sum(piece.kind == "arc" for own in result.layout.drawn_circuits for piece in own.pieces)
    assert given <= arcs <= given + len(drawn)


def test_walls_in_the_cad_file_stand_where_they_were_given() -> None:
    inputs, _ = design()
    walls = {
        tuple((round(x), round(y)) for x, y, *_ in one.get_points())
        for one in cad().modelspace().query("LWPOLYLINE")
        if one.dxf.layer == "Walls"
    }
    for room in inputs.rooms:
        if room.storey == inputs.storeys[0].id:
            assert tuple((round(x * 1e3), round(y * 1e3)) for x, y in room.outline or ()) in walls


def test_each_sheet_is_a_layout_of_the_cad_file_to_scale() -> None:
    sheets = storey_sheets(*design())
    names = [name for name in cad().layouts.names() if name != "Model"]
    assert len(names) == len(sheets)
    for name, sheet in zip(names, sheets, strict=True):
        views = [view for view in cad().layouts.get(name).query("VIEWPORT") if view.dxf.id > 1]
        assert len(views) == (sheet.sheet is not None)
        for view in views:
            assert sheet.sheet is not None
            assert view.dxf.view_height / view.dxf.height == pytest.approx(sheet.sheet.scale)


def test_what_would_give_missing_heat_stands_in_the_pack_and_in_the_workbook() -> None:
    """The finding sends people to this list. A change that gives two rooms the same stands once."""
    inputs, result = design()
    shared = Remedy("lighter_covering", "Another covering.", 500.0, 0.0)
    own = Remedy("other_emitter", "Another heater.", 480.4, 19.6)
    remedies = [(shared, own), (shared,), *[()] * (len(result.rooms) - 2)]
    rooms = tuple(replace(room, remedies=has) for room, has in zip(result.rooms, remedies, strict=True))
    short = replace(result, rooms=rooms, layout=None, laying_sheets=())
    first, second = (room.name or room.id for room in rooms[:2])
    wanted = [(f"{first}, {second}", "Another covering.", 500, 0), (first, "Another heater.", 480, 20)]
    book = openpyxl.load_workbook(io.BytesIO(design_workbook(inputs, short)))
    assert list(book["Remedies"].iter_rows(min_row=2, values_only=True)) == wanted
    pages = pypdf.PdfReader(io.BytesIO(handover_pack(inputs, short))).pages
    text = " ".join("".join(page.extract_text() for page in pages[:4]).split())
    for line in wanted:
        assert " ".join(map(str, line)) in text
    assert "Remedies" not in openpyxl.load_workbook(io.BytesIO(design_workbook(inputs, result))).sheetnames


@pytest.mark.parametrize("turned", [0.0, 33.0])
def test_arrows_of_a_laying_sheet_show_where_its_places_count(turned: float) -> None:
    """The first step lies at (x, y) along the arrows that are drawn, at the scale that is written below."""
    _, result = design()
    sheet = result.laying_sheets[0]
    turn = cmath.exp(1j * math.radians(turned))

    def at(point: tuple[float, float]) -> tuple[float, float]:
        where = complex(*point) * turn
        return where.real, where.imag

    steps = tuple(replace(step, start=at(step.start), end=at(step.end)) for step in sheet.steps)
    sheet = replace(
        sheet,
        datum=at(sheet.datum),
        datum_direction=at(sheet.datum_direction),
        steps=steps,
        wall_distances=(),
    )
    plan = placed(sheet)
    (_, ring, x), (_, _, y) = axes(plan, sheet)
    unit = [complex(tip[0] - ring[0], tip[1] - ring[1]) / AXIS for tip in (x, y)]
    along, across = steps[0].from_datum
    reached = complex(*ring) + (along * unit[0] + across * unit[1]) * 1000.0 / plan.scale
    assert abs(reached - complex(*plan.at(steps[0].start))) < 0.01


def test_forms_of_a_house_name_the_manifold_of_each_port() -> None:
    """Ports are numbered anew at each manifold, so a port alone leads to several circuits."""
    _, result = design()
    site = result.commissioning
    assert site is not None
    for table in (flushing_table(site), balancing_table(site)):
        heads = [column.heading for column in table.columns]
        ends = [(row[heads.index("Manifold")], row[heads.index("Port")]) for row in table.rows]
        assert len({port for _, port in ends}) < len(ends) == len(set(ends))


def test_paper_and_calendar_name_the_same_last_day_of_a_stage() -> None:
    """In the calendar an all-day event ends on the day after its last (RFC 5545, 3.6.1)."""
    inputs, result = design()
    plans = [PlanOf(own.build_up, own.plan) for own in result.curing_plans]
    events = icalendar.Calendar.from_ical(house_calendar(inputs, result)).walk("VEVENT")
    planned = {
        (str(event["SUMMARY"]), event["DTSTART"].dt, event["DTEND"].dt - timedelta(1)) for event in events
    }
    rows = stage_table(plans).rows
    assert len(rows) > 3
    assert {(title, first, last) for first, last, _, title, *_ in rows} <= planned
    for first, last, days, *_ in rows:
        assert (last - first).days + 1 == max(days, 1)  # type: ignore[operator, union-attr]


def test_ordered_quantities_are_numbers_in_the_workbook_and_have_their_unit() -> None:
    inputs, result = design()
    assert result.materials is not None
    sheet = openpyxl.load_workbook(io.BytesIO(design_workbook(inputs, result)))["What to order"]
    heads = [cell.value for cell in sheet[1]]
    for row, line in zip(sheet.iter_rows(min_row=2), result.materials.quantities, strict=True):
        for heading, wanted in (("Needed", line.net_quantity), ("To order", line.order_quantity)):
            cell = row[heads.index(heading)]
            litres = cell.number_format.endswith('" l"')
            assert cell.value == pytest.approx(wanted * (1000.0 if litres else 1.0))
            unit = {"1": "", "m2": "m²", "m3": "l" if litres else "m³"}.get(line.unit, line.unit)
            assert re.fullmatch(r'0(\.0+)?(?: "?([^"]*)"?)?', cell.number_format.replace('" ', ' "')), (
                cell.number_format
            )
            assert cell.number_format.partition('"')[2].strip(' "') == unit


def test_the_basis_of_design_names_the_mixture() -> None:
    inputs, result = design()
    mixed = replace(inputs, fluid=Fluid("ethylene_glycol", 0.4, "mass"))
    short = replace(result, layout=None, laying_sheets=())
    pages = pypdf.PdfReader(io.BytesIO(handover_pack(mixed, short))).pages
    assert any("ethylene glycol, 40 % by mass" in page.extract_text() for page in pages[:5])


def test_the_pack_holds_every_part() -> None:
    for title in (
        "What to decide first",
        "Basis of design",
        "Schedules",
        "Laying sheet",
        "Material list",
        "Plan of coils",
        "Curing and first heat-up",
        "Record: leak test",
        "Record: balancing",
        "Instructions for the people who live here",
        "Cautions",
        "Mill & Söhne <1>",
        "Revision B",
    ):
        assert title in pack_text(), title


def test_the_figures_of_the_pack_are_those_of_the_design() -> None:
    _, result = design()
    text = pack_text()
    for circuit in result.circuits:
        row = rf"{re.escape(circuit.id)} .{{1,60}} {circuit.total_length:.1f}\b"
        assert re.search(row, text), circuit.id
        assert f"{circuit.valve_kv:.3f}" in text
    assert result.materials is not None and result.commissioning is not None
    for line in result.materials.quantities:
        assert line.name in text
    for coil in result.materials.coil_plan.coils:
        for cut in coil.cuts:
            assert f"{cut.start_mark:.2f} {cut.end_mark:.2f}" in text
    for caution in result.cautions:
        assert caution.message.split(". ")[0] in text
    plan = result.commissioning.leak_test
    assert f"Test pressure [bar] {plan.test_pressure * 1e-5:.2f}" in text
    for own in result.curing_plans:
        assert own.plan.earliest_covering.isoformat() in text
    for sheet in result.laying_sheets:
        for step in sheet.steps:
            assert f"{step.number} {step.mark:.2f}" in text


def test_a_printed_drawing_measures_right() -> None:
    """The lines of the scale bar, found in the page's own drawing operations, and the size of the page."""
    inputs, result = design()
    sheets = storey_sheets(inputs, result)
    document = pypdf.PdfReader(io.BytesIO(printed(sheets)))
    assert len(document.pages) == len(sheets)
    for page, sheet in zip(document.pages, sheets, strict=True):
        assert float(page.mediabox.width) == pytest.approx(sheet.size[0] * POINT, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(sheet.size[1] * POINT, abs=0.01)
        if sheet.sheet is not None:
            metre = 1000.0 / sheet.sheet.scale
            assert any(abs(width - metre / 2.0) < 0.01 or abs(width - metre) < 0.01 for width in widths(page))


def widths(page: pypdf.PageObject) -> list[float]:
    """Widths on paper [mm] of the rectangles that the page and its forms draw."""
    found: list[float] = []

    def walk(content: Any, resources: Any, matrix: list[float]) -> None:
        stream = pypdf.generic.ContentStream(content, page.pdf)
        stack, points = [], []
        for operands, operator in stream.operations:
            values = [float(one) for one in operands if isinstance(one, int | float)]
            if operator == b"q":
                stack.append(matrix)
            elif operator == b"Q":
                matrix = stack.pop()
            elif operator == b"cm":
                a, b, c, d, e, f = matrix
                p, q, r, s, t, u = values
                matrix = [
                    p * a + q * c,
                    p * b + q * d,
                    r * a + s * c,
                    r * b + s * d,
                    t * a + u * c + e,
                    t * b + u * d + f,
                ]
            elif operator in (b"m", b"l"):
                points = [*(points if operator == b"l" else []), values[0] * matrix[0]]
            elif operator == b"h" and len(points) >= 4:
                found.append((max(points) - min(points)) / POINT)
            elif operator == b"re":
                found.append(abs(values[2] * matrix[0]) / POINT)
            elif operator == b"Do":
                form = resources["/XObject"][operands[0]].get_object()
                if form["/Subtype"] == "/Form":
                    a, b, c, d, e, f = matrix
                    p, q, r, s, t, u = map(float, form.get("/Matrix", [1, 0, 0, 1, 0, 0]))
                    inner = [
                        p * a + q * c,
                        p * b + q * d,
                        r * a + s * c,
                        r * b + s * d,
                        t * a + u * c + e,
                        t * b + u * d + f,
                    ]
                    walk(form, form.get("/Resources", resources), inner)

    walk(page.get_contents(), page["/Resources"], [1.0, 0.0, 0.0, 1.0, 0.0, 0.0])
    return found


def test_the_workbook_holds_numbers_as_numbers() -> None:
    _, result = design()
    book = openpyxl.load_workbook(io.BytesIO(design_workbook(*design())))
    assert {"Rooms", "Circuits", "What to order", "Plan of coils", "Laying steps", "Balancing"} <= set(
        book.sheetnames
    )
    rows = list(book["Circuits"].iter_rows(values_only=True))
    length = rows[0].index("Pipe m")
    assert [row[length] for row in rows[1:]] == pytest.approx([own.total_length for own in result.circuits])
    steps = sum(len(sheet.steps) for sheet in result.laying_sheets)
    assert book["Laying steps"].max_row == steps + 1


def test_the_schedule_reads_as_csv() -> None:
    inputs, result = design()
    rows = list(csv.DictReader(io.StringIO(design_schedule(inputs, result).decode("utf-8-sig"))))
    names = {room.id: room.name for room in inputs.rooms}
    assert [(row["Circuit"], row["Room"]) for row in rows] == [
        (own.id, names[own.room]) for own in result.circuits
    ]
    assert result.materials is not None
    cuts = {own.circuit: own for own in result.materials.circuits}
    for row in rows:
        assert float(row["From mark m"]) == pytest.approx(cuts[row["Circuit"]].start_mark, abs=0.005)
        assert row["Pattern"] in ("counterflow", "serpentine")
        assert float(row["Spacing mm"]) in (100.0, 150.0, 200.0)


def test_a_saved_csv_says_that_it_is_utf_8() -> None:
    """Unicode Standard, 23.8: EF BB BF is the signature of UTF-8. No column is named with it (WHATWG Encoding, UTF-8
    decode)."""
    data = csv_of(Table("", (Column("Küche"),), (("Flur",),)))
    assert data == b"\xef\xbb\xbfK\xc3\xbcche\r\nFlur\r\n"
    assert next(csv.reader(io.StringIO(data.decode("utf-8-sig")))) == ["Küche"]


def test_records_print_the_project_of_the_drawing() -> None:
    _, result = design()
    assert result.commissioning is not None and SHEET.project
    heads = [form.fields[0] for form in result.commissioning.forms]
    assert {(head.label, head.design_text) for head in heads} == {("Project", SHEET.project)}


def test_lengths_of_coils_are_not_rounded() -> None:
    asked = CoilPlanInputs((CircuitToCut("a", 70.0),), (91.44,), (CoilInStock(77.5),))
    plan = coil_plan(asked)
    lengths = {row[1] for row in csv.reader(io.StringIO(csv_of(coil_table(plan)).decode("utf-8-sig")))}
    assert lengths == {"Coil m", "77.50"}
    (_, (bought, _)) = csv.reader(
        io.StringIO(csv_of(to_buy_table(coil_plan(replace(asked, stock=())))).decode("utf-8-sig"))
    )
    assert bought == "91.44"


@pytest.mark.parametrize(
    ("changes", "remark"),
    [
        ({}, ""),
        ({"stock": [{"length": 200.0}]}, "the rest: see the plan of coils"),
        ({"coil_lengths": [60.0]}, "the rest: see the plan of coils"),
    ],
)
def test_pipe_that_is_not_ordered_is_remarked(changes: dict[str, Any], remark: str) -> None:
    """What is on the van, and what no coil is long enough for: a list with less than is needed says why."""
    example = MATERIALS.example
    body = msgspec.json.encode({**example, "ordering": {**example["ordering"], **changes}})
    made = answer(MATERIALS, body, "text/csv")
    assert isinstance(made, Answer)
    pipe, *others = csv.DictReader(io.StringIO(made.content.decode("utf-8-sig")))
    assert pipe["Item"].startswith("Pipe") and pipe["Remark"] == remark
    assert not any("coils" in row["Remark"] for row in others)


def test_ids_by_which_items_are_priced_stand_in_the_order() -> None:
    inputs, result = design()
    assert result.materials is not None
    ids = [line.item for line in result.materials.quantities]
    sheet = openpyxl.load_workbook(io.BytesIO(design_workbook(inputs, result)))["What to order"]
    column = next(cell.column for cell in sheet[1] if cell.value == "Id")
    assert [row[column - 1].value for row in sheet.iter_rows(min_row=2)] == ids
    text = re.sub(r"\s", "", pack_text())
    assert all(item in text for item in ids)


def test_a_number_stays_behind_a_name_from_right_to_left_in_cad_and_workbook() -> None:
    """Unicode Standard Annex 9, isolates: without them "name 4" is shown as "4 name"."""
    name, shown = "\u05d7\u05d3\u05e8 4", "\u2067\u05d7\u05d3\u05e8\u2069 4"
    table = Table("", (Column("Room"),), ((name,),))
    cell = openpyxl.load_workbook(io.BytesIO(workbook_of([table]))).worksheets[0]["A2"]
    assert cell.value == shown
    inputs, result = design()
    rooms = tuple(replace(room, name=name) for room in inputs.rooms)
    drawing = ezdxf.read(io.StringIO(design_cad(replace(inputs, rooms=rooms), result).decode()))
    written = [text.dxf.text for text in drawing.modelspace().query("TEXT") if "\u05d7" in text.dxf.text]
    assert written and all(words.startswith(shown) for words in written)


def test_no_text_becomes_a_formula() -> None:
    table = Table("=T[1]", (Column("=head"), Column("n", 1)), (("=1+1", -1.0), ("@x", 2.0), ("-2", 3.0)))
    rows = list(csv.reader(io.StringIO(csv_of(table).decode("utf-8-sig"))))
    assert [row[0] for row in rows[1:]] == ["'=1+1", "'@x", "'-2"]
    assert [row[1] for row in rows[1:]] == ["-1.0", "2.0", "3.0"]
    sheet = openpyxl.load_workbook(io.BytesIO(workbook_of([table, table]))).worksheets[0]
    assert [cell.data_type for cell in sheet["A"]] == ["s"] * 4
    assert [cell.value for cell in sheet["A"]][1:] == ["=1+1", "@x", "-2"]


def test_names_that_look_like_markup_stay_names() -> None:
    inputs, result = renamed()
    for name, make in DESIGN_FILES.items():
        if name == "options.svg":  # of an objective, without names
            continue
        made = make(inputs, result)
        assert made == make(inputs, result), name
    text = " ".join(
        "\n".join(
            page.extract_text() for page in pypdf.PdfReader(io.BytesIO(handover_pack(inputs, result))).pages
        ).split()
    )
    assert "#panic() *x* $y$ <b>&\"'" in text
    drawing = ezdxf.read(io.StringIO(design_cad(inputs, result).decode()))
    assert not drawing.audit().errors
    written = {one.dxf.text for layout in drawing.layouts for one in layout.query("TEXT")}
    assert any("%%%%%%u ^ J" in words for words in written)
    assert not any(re.search(r"(?<!%)%%(?!%)", words) for words in written)


def test_every_form_of_every_example_can_be_made_and_is_the_same_again() -> None:
    for calculation in CALCULATIONS:
        body = msgspec.json.encode(calculation.example)
        for media_type in calculation.media_types:
            first = answer(calculation, body, media_type)
            assert isinstance(first, Answer) and first.media_type == media_type
            assert first == answer(calculation, body, media_type), (calculation.name, media_type)


def test_all_files_come_in_one_answer() -> None:
    made = answer(DESIGNS, msgspec.json.encode(DESIGNS.example), "application/zip")
    assert isinstance(made, Answer)
    with zipfile.ZipFile(io.BytesIO(made.content)) as archive:
        assert set(archive.namelist()) == {"result.json", *DESIGN_FILES} - PLOTS
        result = json.loads(archive.read("result.json"))
    assert result["circuits"] and result["laying_sheets"]
    undrawn = answer(
        DESIGNS, msgspec.json.encode({**DESIGNS.example, "doorways": [], "screed": None}), "application/zip"
    )
    assert isinstance(undrawn, Answer)
    with zipfile.ZipFile(io.BytesIO(undrawn.content)) as archive:
        missing = {"drawings.svg", "drawings.pdf", "drawings.dxf", "calendar.ics"}
        assert set(archive.namelist()) == {"result.json", *DESIGN_FILES} - PLOTS - missing


@pytest.mark.parametrize("wanted", [{"storey": "attic"}, {"room": "cellar"}])
def test_what_is_not_drawn_cannot_be_asked_for(wanted: dict[str, str]) -> None:
    body = msgspec.json.encode({**DESIGNS.example, "drawing": wanted})
    refused = answer(DESIGNS, body, "image/svg+xml")
    assert isinstance(refused, Problem)
    assert [error.pointer for error in refused.errors or ()] == [f"/drawing/{next(iter(wanted))}"]


@pytest.mark.parametrize("wanted", [{"paper": "A6"}, {"scale": 0}, {"orientation": "round"}, {"scale": 20.5}])
def test_an_unknown_sheet_is_refused(wanted: dict[str, Any]) -> None:
    refused = answer(DESIGNS, msgspec.json.encode({**DESIGNS.example, "drawing": wanted}), "image/svg+xml")
    assert isinstance(refused, Problem)
    assert [error.pointer for error in refused.errors or ()] == [f"/drawing/{next(iter(wanted))}"]


def test_a_plan_too_large_for_its_sheet_is_tiled_without_gaps() -> None:
    corners = extent([(0.0, 0.0), (30.0, 22.0)])
    tiles = sheets_for(corners, DrawingSheet(paper="A4", scale=50))
    columns, rows = tiles[0].tiles
    assert len(tiles) == columns * rows > 4
    for x in range(31):
        for y in range(23):
            assert any(tile.area.holds(tile.at((float(x), float(y)))) for tile in tiles), (x, y)
    inputs, result = design()
    small = replace(inputs, drawing=DrawingSheet(paper="A4", scale=20))
    text = " ".join(
        page.extract_text()
        for page in pypdf.PdfReader(io.BytesIO(printed(storey_sheets(small, result)))).pages
    )
    assert "Match line 1-2, continued on sheet 2" in text
    assert "Match line 1-2, continued on sheet 1" in text


@pytest.mark.parametrize("scale", [None, 20])
def test_sheets_are_numbered_through_the_document(scale: Any) -> None:
    """Title blocks of ISO 7200 hold the number of the sheet in its document and how many sheets that has."""
    inputs, result = design()
    chosen = replace(inputs, drawing=replace(SHEET, paper="A4" if scale else None, scale=scale))
    sheets = storey_sheets(chosen, result)
    assert len(sheets) > 1
    numbers = [f"{number} of {len(sheets)}" for number in range(1, len(sheets) + 1)]
    pages = pypdf.PdfReader(io.BytesIO(printed(sheets))).pages
    assert all(number in page.extract_text() for number, page in zip(numbers, pages, strict=True))
    layouts = ezdxf.read(io.StringIO(dxf_of(sheets).decode())).layouts
    names = [name for name in layouts.names_in_taborder() if name != "Model"]
    texts = [{text.dxf.text for text in layouts.get(name).query("TEXT")} for name in names]
    for number, (written, words) in enumerate(zip(numbers, texts, strict=True), start=1):
        assert written in words
        for line in (word for word in words if word.startswith("Match line")):
            pair, other = re.fullmatch(r"Match line (\d+-\d+), continued on sheet (\d+)", line).groups()  # type: ignore[union-attr]
            assert set(map(int, pair.split("-"))) == {number, int(other)}
            back = f"Match line {pair}, continued on sheet {number}"
            assert back in texts[int(other) - 1]


@pytest.mark.parametrize("paper", ["A4", "A3", "A2", "A1", "A0"])
@pytest.mark.parametrize("orientation", ["landscape", "portrait"])
def test_nothing_leaves_the_sheet_and_no_rows_of_text_collide(paper: Any, orientation: Any) -> None:
    inputs, result = design()
    chosen = replace(inputs, drawing=replace(SHEET, paper=paper, orientation=orientation))
    for sheet in storey_sheets(chosen, result):
        assert (sheet.size[0] > sheet.size[1]) is (orientation == "landscape")
        (column,) = (group for group in sheet.paper if group.name == "column")
        boxes = []
        for mark in column.marks:
            if type(mark).__name__ != "Words":
                continue
            (x, y), width = mark.place, mark.width  # type: ignore[union-attr]
            left = x - width if mark.anchor == "end" else x - width / 2.0 if mark.anchor == "middle" else x  # type: ignore[union-attr]
            assert left >= 20.0 and left + width <= sheet.size[0] - 10.0
            assert y - mark.height > 10.0 and y <= sheet.size[1] - 10.0  # type: ignore[union-attr]
            boxes.append((left, y - mark.height, left + width, y))  # type: ignore[union-attr]
        boxes.sort(key=lambda box: box[1])
        for number, (a, b, c, d) in enumerate(boxes):
            for p, q, r, _ in boxes[number + 1 :]:
                if q >= d:
                    break
                assert p >= c or r <= a, (a, b, c, d, p, q, r)


def test_a_brought_route_is_a_cad_drawing_too() -> None:
    example = next(one for one in CALCULATIONS if one.name == "routes")
    inputs = msgspec.convert(example.example, RoutesInputs)
    result = example.calculate(inputs)
    drawing = ezdxf.read(io.StringIO(dxf_of(route_sheets(inputs, result)).decode()))
    (group,) = (group for name, group in drawing.groups if name == "circuit-1")
    length = sum(
        polyline_length(one)
        for one in group
        if one.dxf.layer in ("Pipe flow", "Pipe return") and len(one) > 2
    )
    assert length == pytest.approx(result.circuits[0].length * 1000.0, abs=1.0)


def test_what_there_is_to_decide_stands_apart_from_its_places() -> None:
    """Many places have lines of their own, in their order; a finding without a place has no brackets."""
    findings = design()[1].findings
    (listed,) = decisions_chapter(findings, "").parts
    assert isinstance(listed, Listed)
    for finding, (_, words, *lines) in zip(findings, listed.items, strict=True):
        assert words.startswith(finding.message) and "()" not in words
        subjects = list(dict.fromkeys(place.subject for place in finding.places if place.subject))
        told = "\n".join([words, *lines])
        assert all(subject in told for subject in subjects)
        assert len(lines) == 0 or len(lines) > 3
    assert any(lines for _, _, *lines in listed.items)


@pytest.mark.parametrize("word", ["W" * 60, "a_very_long_name_of_a_room_in_a_house", "e\u0301" * 30])
def test_a_word_that_no_line_holds_is_divided_and_stays_the_same(word: str) -> None:
    chapter = Chapter("", (Listed("", (("-", "words", word),)), Table("", (Column("Room"),), ((word,),))))
    listed, table = page_data(chapter)["parts"]
    for shown in (listed["items"][0][2][0], table["rows"][0][0]):
        pieces = shown.split("\u200b")
        assert "".join(pieces) == word
        assert max(map(len, pieces)) <= 16
        assert not any(unicodedata.combining(piece[0]) for piece in pieces)


def test_units_of_lists_stay_with_their_number() -> None:
    lines = tuple(("-", "words", f"{'x' * count} at least 0.25 m/s") for count in range(10, 60))
    chapter = page_data(Chapter("", (Listed("", lines),)))
    pages = pypdf.PdfReader(io.BytesIO(pdf_of({"title": "", "cover": None, "parts": [chapter]}))).pages
    assert sum(page.extract_text().count("0.25 m/s") for page in pages) == len(lines)
