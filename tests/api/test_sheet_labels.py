"""Words on sheets keep apart, whatever the names, the script, the scale and the paper: geometry of their boxes.

Boxes and pipe are built anew here, by a general geometry library and the font's own tables.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from itertools import count, pairwise, product
from math import cos, inf, sin
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import msgspec
import pytest
from fontTools.ttLib import TTFont
from shapely import LineString, Polygon, STRtree, affinity, box
from tepidarium_api.calculations.designs import DESIGNS
from tepidarium_api.calculations.routes import ROUTES
from tepidarium_api.documents import laying_pages
from tepidarium_api.documents.laying_pages import laying_chapter
from tepidarium_api.documents.parts import Table
from tepidarium_api.renderings import text_widths
from tepidarium_api.renderings.flow import flowed, paragraph
from tepidarium_api.renderings.free_floor import FreeFloor
from tepidarium_api.renderings.marks import Box, Line, Mark, Piece, Way, Words
from tepidarium_api.renderings.route_drawing import route_sheets
from tepidarium_api.renderings.sheet import extent, sheets_for
from tepidarium_api.renderings.sheets import DrawnPlan, DrawnSheet, drawn_sheets
from tepidarium_api.renderings.storey_drawing import storey_sheets
from tepidarium_api.renderings.storey_marks import storey_groups
from tepidarium_api.renderings.storey_names import storey_names
from tepidarium_api.renderings.storey_plans import StoreyPlan
from tepidarium_api.renderings.svg_sheets import svg_of
from tepidarium_api.renderings.title_block import TitleBlock
from tepidarium_engine.designs import DesignsInputs, DesignsResult, DrawingSheet, DrawnCircuit, calculate
from tepidarium_engine.laying_sheets import LayingRoom
from tepidarium_engine.routes import PathPiece, RoutesInputs, RoutesResult
from tepidarium_engine.routes import calculate as calculate_routes

NAMES = {
    "short": ("WC",),
    "long": (
        "Bathroom of the guests beside the staircase to the cellar with shower and laundry",
        "Schlafzimmer der Großeltern mit Ankleide und Balkon zum Garten (Süd-Südwest) EG 12",
        "Ванная комната для гостей рядом с лестницей в подвал, душевая и прачечная, 1 этаж",
    ),
    "no spaces": (
        "主卧室与步入式衣帽间及独立卫生间" * 5,
        "Donaudampfschifffahrtskapitänswitwenrenten" * 2,
        "W" * 80,
    ),
    "right to left": ("غرفة نوم رئيسية مع حمام خاص وشرفة تطل على الحديقة الجنوبية في الطابق الأرضي",),
    "unseen": ("\u202e\u200b",),
}
SHEETS = [(None, None), ("A4", 20), ("A4", 50), ("A3", 100), ("A1", 20), ("A0", 100)]


def rectangle(left: float, bottom: float, right: float, top: float) -> list[list[float]]:
    return [[left, bottom], [right, bottom], [right, top], [left, top]]


@cache
def baths() -> tuple[DesignsInputs, DesignsResult]:
    """Four bathrooms of 4 m2 along a hall."""
    example: dict[str, Any] = dict(DESIGNS.example)
    common = {"build_up": example["build_ups"][0]["id"]}
    rooms = [
        {
            "id": "hall",
            "outline": rectangle(0.0, 0.0, 8.36, 1.4),
            "room_temperature": 18.0,
            "heat_demand": 400.0,
        },
        *(
            {
                "id": f"bath {number}",
                "outline": rectangle(2.12 * number, 1.52, 2.12 * number + 2.0, 3.52),
                "room_temperature": 22.0,
                "heat_demand": 200.0,
            }
            for number in range(4)
        ),
    ]
    request = {
        key: example[key] for key in ("build_ups", "pipe", "source", "expansion", "limits") if key in example
    } | {
        "rooms": [room | common for room in rooms],
        "manifold": {"position": [0.0, 0.7]},
        "doorways": [
            {"rooms": ["hall", f"bath {number}"], "place": [2.12 * number + 1.0, 1.46], "width": 0.8}
            for number in range(4)
        ],
    }
    inputs = msgspec.convert(request | {"laying_sheets": True}, DesignsInputs)
    return inputs, calculate(inputs)


def named(names: Sequence[str], paper: Any, scale: int | None) -> list[DrawnSheet]:
    inputs, result = baths()
    assert result.layout is not None and not result.layout.unplaced
    rooms = tuple(replace(room, name=names[number % len(names)]) for number, room in enumerate(inputs.rooms))
    return storey_sheets(replace(inputs, rooms=rooms, drawing=DrawingSheet(paper, scale=scale)), result)


def crowded(names: Sequence[str], paper: Any, scale: int | None, pitch: float) -> list[DrawnSheet]:
    """Thirty rooms of 2 m by 2 m, full of straight pipe."""
    inputs, _ = baths()
    rooms, circuits = [], []
    for number in range(30):
        left, bottom = 2.12 * (number % 6), 2.12 * (number // 6)
        outline = tuple(map(tuple, rectangle(left, bottom, left + 2.0, bottom + 2.0)))
        rooms.append(
            replace(inputs.rooms[0], id=f"{number}", name=names[number % len(names)], outline=outline)
        )
        heights = [bottom + 0.1 + pitch * count for count in range(int(1.8 / pitch))]
        ends = [
            (left + (0.1 if side else 1.9), y)
            for count, y in enumerate(heights)
            for side in (count % 2, not count % 2)
        ]
        pieces = tuple(PathPiece("line", start, end) for start, end in pairwise(ends))
        circuits.append(DrawnCircuit(f"{number}", number + 1, f"{number}", 1.0, 1.0, pieces, "none"))
    plan = StoreyPlan(
        title="",
        rooms=tuple(enumerate(rooms)),
        areas=(4.0,) * 30,
        label_places=tuple(
            (room.outline[0][0] + 1.0, room.outline[0][1] + 1.0) for room in rooms if room.outline
        ),
        circuits=tuple(circuits),
        manifolds=(),
        doorways=(),
        joints=(),
        sleeves=(),
        unplaced=(),
        labels={circuit.id: str(circuit.port) for circuit in circuits},
        cores={},
    )
    wanted = DrawingSheet(paper, scale=scale)
    tiles = sheets_for(extent(plan.corners), wanted)
    groups = storey_groups(plan, tiles)
    names_of = storey_names(plan, tiles, groups)
    return drawn_sheets([DrawnPlan(tiles, [*groups, names_of.group], [], TitleBlock("", ""))], wanted)


def area_of(words: Words) -> Polygon:
    """Capitals, and below the line what g and y take; numbers of ports have none of it."""
    left = {"start": 0.0, "middle": -words.width / 2.0, "end": -words.width}[words.anchor]
    depth = 0.0 if words.kind == "port" else 0.3 * words.height
    upright = box(left, -words.height, left + words.width, depth)
    (c, s), (x, y) = words.along, words.place
    return affinity.affine_transform(upright, [c, -s, s, c, x, y])


def pipe_lines(sheet: DrawnSheet) -> list[LineString]:
    return [
        LineString(list(places(piece)))
        for group in sheet.plan
        for mark in group.marks
        if isinstance(mark, Way)
        for piece in mark.pieces
        if piece.start != piece.end
    ]


def places(piece: Piece) -> Iterator[tuple[float, float]]:
    """Points of a straight or an arc, by school geometry."""
    yield piece.start
    if piece.centre is not None:
        (x, y), (a, b) = piece.centre, piece.start
        for share in range(1, 16):
            c, s = cos(piece.sweep * share / 16.0), sin(piece.sweep * share / 16.0)
            yield x + c * (a - x) - s * (b - y), y + s * (a - x) + c * (b - y)
    yield piece.end


def faults(sheets: Sequence[DrawnSheet]) -> Iterator[str]:
    drawn = [sheet for sheet in sheets if sheet.sheet is not None]
    for sheet in drawn:
        yield from _faults_of(sheet)
    names = [mark for group in drawn[0].plan if group.name == "names" for mark in group.marks]
    pipe, leaders = STRtree(pipe_lines(drawn[0])), [mark for mark in names if isinstance(mark, Line)]
    for words in (mark for mark in names if isinstance(mark, Words)):
        area = area_of(words)
        if len(pipe.query(area, "dwithin", 0.25)):  # half of the width of the pipe's line
            yield f"{words.text} lies over pipe"
        if any(LineString(line.points).intersection(area).length > 0.01 for line in leaders):
            yield f"a leader line runs over {words.text}"


def _faults_of(sheet: DrawnSheet) -> Iterator[str]:
    window, size = box(*sheet.window), box(0.0, 0.0, *sheet.size).buffer(-4.0)
    found: list[tuple[Words, Polygon]] = []
    lines = [
        LineString(mark.points)
        for group in sheet.paper
        if group.name == "match-lines"
        for mark in group.marks
        if isinstance(mark, Line)
    ]
    for words in _words(mark for group in sheet.paper for mark in group.marks):
        found.append((words, area_of(words)))
        if not size.covers(found[-1][1]):
            yield f"{words.text} is not on the paper"
    for group in sheet.plan:
        for words in _words(group.marks):
            area = affinity.translate(area_of(words), *sheet.offset)
            if not area.intersects(window):
                continue
            found.append((words, area))
            if group.name in ("names", "dimensions") and not window.covers(area):
                yield f"{words.text} is cut off"
            if group.name in ("names", "dimensions") and any(area.intersects(line) for line in lines):
                yield f"a match line runs over {words.text}"
    areas = [area for _, area in found]
    for one, other in zip(*STRtree(areas).query(areas, "intersects"), strict=True):
        if one < other and areas[one].intersection(areas[other]).area > 1e-3:
            yield f"{found[one][0].text} lies over {found[other][0].text}"


def _words(marks: Iterator[Mark] | Sequence[Mark]) -> Iterator[Words]:
    return (mark for mark in marks if isinstance(mark, Words))


@pytest.mark.parametrize("script", NAMES)
@pytest.mark.parametrize(("paper", "scale"), SHEETS)
def test_words_keep_apart_and_off_the_pipe(script: str, paper: str | None, scale: int | None) -> None:
    assert not list(faults(named(NAMES[script], paper, scale)))


@pytest.mark.parametrize("room", ["hall", "bath 2"])
@pytest.mark.parametrize("scale", [20, 50])
def test_figures_of_a_single_room_keep_apart(room: str, scale: int) -> None:
    inputs, result = baths()
    alone = replace(inputs, drawing=DrawingSheet("A4", scale=scale, room=room))
    assert not list(faults(storey_sheets(alone, result)))


@cache
def large_room() -> tuple[RoutesInputs, RoutesResult]:
    inputs = replace(
        msgspec.convert(ROUTES.example, RoutesInputs),
        outline=((0.0, 0.0), (9.0, 0.0), (9.0, 8.0), (0.0, 8.0)),
        voids=(),
        entry=(2.0, 0.0),
        pipe_spacing=0.3,
        quick=True,
    )
    return inputs, calculate_routes(inputs)


@pytest.mark.parametrize("scale", [20, 50])
def test_figures_of_routes_keep_clear_of_match_lines(scale: int) -> None:
    inputs, result = large_room()
    tiled = replace(inputs, drawing=DrawingSheet("A4", scale=scale))
    drawn = [sheet for sheet in route_sheets(tiled, result) if sheet.sheet is not None]
    assert len(drawn) > 1
    for sheet in drawn:
        assert not [fault for fault in _faults_of(sheet) if "cut off" in fault or "match line" in fault]


@pytest.mark.parametrize(
    ("script", "paper", "scale"),
    [
        ("short", None, None),
        ("long", None, None),
        ("no spaces", "A4", 20),
        ("long", "A4", 50),
        ("long", "A4", 100),
    ],
)
def test_words_keep_apart_on_many_small_rooms(script: str, paper: str | None, scale: int | None) -> None:
    """Pipe at 300 mm leaves room for a number on every floor, at 1:50 and larger; at 1:100 and 100 mm none does."""
    sheets = crowded(NAMES[script], paper, scale, 0.3 if scale != 100 else 0.1)
    found = list(faults(sheets))
    assert not [fault for fault in found if "over pipe" not in fault]
    if scale != 100:
        assert not found


@pytest.mark.parametrize("script", ["short", "long", "no spaces", "unseen"])
@pytest.mark.parametrize("scale", [20, 50, 100])
def test_every_name_can_be_read(script: str, scale: int) -> None:
    """Each whole on the plan, or by its number in the list beside it."""
    sheets = named(NAMES[script], "A4", scale)
    plan = [words for group in sheets[0].plan if group.name == "names" for words in _words(group.marks)]
    column = [words.text for sheet in sheets for group in sheet.paper for words in _words(group.marks)]
    on_plan, in_list = "".join(words.text for words in plan), "".join(column)
    for number, room in enumerate(baths()[0].rooms):
        name = NAMES[script][number % len(NAMES[script])]
        wanted = (name if name.isprintable() else room.id).replace(" ", "")
        numbered = f"R{number + 1}" in on_plan and f"R{number + 1}" in column
        assert wanted in on_plan.replace(" ", "") or (numbered and wanted in in_list.replace(" ", ""))


@pytest.mark.parametrize(
    ("scale", "shown"), [(50, {str(port) for port in range(1, 6)}), (100, {"Port 1", "Port 5"})]
)
def test_ports_can_be_read_at_every_scale(scale: int, shown: set[str]) -> None:
    """ISO 3098-1: lettering of 1.8 mm and more; on the box of the manifold 1.2 mm, between pipes 60 mm apart."""
    (sheet, *_) = named(NAMES["short"], "A3", scale)
    found = {
        words.text: words.height
        for group in sheet.plan
        if group.name in ("manifold", "names")
        for words in _words(group.marks)
        if words.kind == "port" or words.text.startswith("Port")
    }
    assert set(found) == shown
    assert min(found.values()) >= 1.2


def test_metre_marks_are_read_at_the_straight_that_they_belong_to() -> None:
    """On laying sheets: the step nearest to a number begins at that mark, and no line runs through the words."""
    inputs, result = baths()
    assert result.layout is not None
    drawn = {circuit.id: circuit.pieces for circuit in result.layout.drawn_circuits}
    rooms = [LayingRoom(room.id, room.outline, room.voids) for room in inputs.rooms if room.outline]
    count = 0
    for sheet in result.laying_sheets:
        svg = ElementTree.fromstring(laying_chapter(sheet, rooms, drawn[sheet.circuit]).parts[1].svg)  # type: ignore[union-attr]
        groups = {one.get("id"): one for one in svg.iter("{http://www.w3.org/2000/svg}g")}
        plan = laying_pages.placed(sheet)
        steps = [LineString([plan.at(step.start), plan.at(step.end)]) for step in sheet.steps]
        walls = [LineString([plan.at(own.on_wall), plan.at(own.on_pipe)]) for own in sheet.wall_distances]
        for text in groups["metre-marks"].iter("{http://www.w3.org/2000/svg}text"):
            matrix = text.get("transform")
            numbers = [float(value) for value in matrix[7:-1].split()] if matrix else []
            (x, y), along = (
                ((numbers[4], numbers[5]), (numbers[0], numbers[1]))
                if numbers
                else ((float(text.attrib["x"]), float(text.attrib["y"])), (1.0, 0.0))
            )
            words = Words(
                (x, y),
                text.text or "",
                laying_pages.SMALL,
                "middle",
                text.get("class") == "strong",
                along,
                "port",
            )
            area = area_of(words)
            assert not any(line.intersects(area) for line in (*steps, *walls)), words.text
            if words.bold:
                count += 1
                nearest = min(range(len(steps)), key=lambda number: steps[number].distance(area.centroid))
                assert words.text == f"{sheet.steps[nearest].mark:.1f}"
    assert count > 10


def test_long_names_take_one_line_of_the_table_of_steps() -> None:
    inputs, result = baths()
    names = {room.id: NAMES["long"][number % 3] for number, room in enumerate(inputs.rooms)}
    rooms = [LayingRoom(room.id, room.outline, name=names[room.id]) for room in inputs.rooms if room.outline]
    assert result.layout is not None
    drawn = {circuit.id: circuit.pieces for circuit in result.layout.drawn_circuits}
    passed = set()
    for sheet in result.laying_sheets:
        *_, table = laying_chapter(sheet, rooms, drawn[sheet.circuit]).parts
        assert isinstance(table, Table)
        column = [one.heading for one in table.columns].index("Room")
        shown = {str(row[column]): step.room for row, step in zip(table.rows, sheet.steps, strict=True)}
        assert len(shown) == len({step.room for step in sheet.steps})
        # 8 pt letters in 1.8 of 10.2 parts of 178 mm, with 12 pt of inset
        assert all(text_widths.text_width(name, 8.0 * 0.3528 / text_widths.EM) < 27.2 for name in shown)
        passed |= set(shown)
    # the hall and the third bath have the same name
    assert {"hall", "bath 2", "doorway"} < passed and any(name.endswith("…") for name in passed)


def test_match_lines_are_named_outside_of_the_frame() -> None:
    sheets = [sheet for sheet in named(NAMES["short"], "A4", 20) if sheet.sheet is not None]
    assert len(sheets) > 2
    seen = [
        (words, area_of(words), sheet)
        for sheet in sheets
        for group in sheet.paper
        if group.name == "match-lines"
        for words in _words(group.marks)
    ]
    assert len(seen) >= 2 * (len(sheets) - 1)
    assert not any(area.intersects(box(*sheet.window)) for _, area, sheet in seen)


@pytest.mark.parametrize("bold", [False, True])
def test_widths_are_those_of_the_font(bold: bool) -> None:
    """Advances read by a general font library."""
    file = (
        Path(text_widths.__file__).with_name("fonts") / f"LiberationSans-{'Bold' if bold else 'Regular'}.ttf"
    )
    font = TTFont(file)
    size, advances = font["head"].unitsPerEm, font["hmtx"]
    for sign, glyph in font.getBestCmap().items():
        expected = advances[glyph][0] / size * text_widths.EM
        assert text_widths.text_width(chr(sign), 1.0, bold) == pytest.approx(expected, abs=1e-9)


def test_words_are_as_wide_in_any_font() -> None:
    """``textLength`` of SVG 1.1 holds them to the width that the sheet was laid out for, by a general font library."""
    (sheet,) = named(NAMES["short"], None, None)
    marks = ElementTree.fromstring(svg_of([sheet])).iter()
    texts = [each for each in marks if each.tag.endswith("}text") and each.text]
    fonts = {
        bold: TTFont(Path(text_widths.__file__).with_name("fonts") / f"LiberationSans-{kind}.ttf")
        for bold, kind in ((False, "Regular"), (True, "Bold"))
    }
    assert len(texts) > 50
    for each in texts:
        font = fonts[each.get("class") == "strong"]
        size, advances, glyphs = font["head"].unitsPerEm, font["hmtx"], font.getBestCmap()
        width = sum(advances[glyphs[ord(sign)]][0] for sign in each.text or "" if ord(sign) in glyphs) / size
        assert each.get("lengthAdjust") == "spacingAndGlyphs"
        assert float(each.get("textLength", "")) == pytest.approx(
            width * float(each.get("font-size", "")), rel=1e-3
        )


def test_no_mark_is_parted_from_its_letter() -> None:
    text = "e\u0301" * 40
    kept = text_widths.shortened(text, 2.0, 20.0)
    assert kept.endswith("\u0301…") and text_widths.text_width(kept, 2.0) <= 20.0
    lines = text_widths.wrapped(text, 2.0, 20.0)
    assert "".join(lines) == text and all(line.startswith("e") for line in lines)
    assert text_widths.wrapped("WW", 2.0, 1.0) == ["W", "W"]


def test_the_nearest_free_place_is_found() -> None:
    """Against a search of every cell."""
    free = FreeFloor(Box(0.0, 0.0, 12.0, 9.0))
    for left, top in ((2.0, 1.0), (5.0, 4.0), (8.0, 2.0), (0.0, 6.0)):
        free.take_box(Box(left, top, left + 2.0, top + 1.5))
    allowed = free.only(Box(0.0, 0.0, 12.0, 9.0))
    for target, size in product([(3.0, 2.0), (6.0, 5.0), (11.0, 8.0), (-5.0, 4.0)], [(1.0, 0.6), (3.0, 1.0)]):
        found = free.openings(allowed).nearest(size, target)
        assert found is not None
        across, down = int(size[0] / 0.25) + 1, int(size[1] / 0.25) + 1
        least = inf
        for row, column in product(range(len(free.rows) - down + 1), range(free.columns - across + 1)):
            if not any(free.rows[row + n] >> column & ((1 << across) - 1) for n in range(down)):
                aim = [int((target[side] - size[side] / 2.0) / 0.25) for side in (0, 1)]
                least = min(least, (column - aim[0]) ** 2 + (row - aim[1]) ** 2)
        aim = [int((target[side] - size[side] / 2.0) / 0.25) for side in (0, 1)]
        assert ((found.left / 0.25) - aim[0]) ** 2 + ((found.top / 0.25) - aim[1]) ** 2 == pytest.approx(
            least
        )
        assert free.openings(allowed).nearest(size, target, within=0.25 * least**0.5) is None
    assert free.openings([0] * len(free.rows)).nearest((1.0, 1.0), (3.0, 2.0)) is None


def lines_of(rows: int) -> dict[int, list[float]]:
    """Heights of the lines of a text by sheet, in columns of 100 mm."""
    text = [row for number in range(rows) for row in paragraph(f"Line {number}")]
    drawn = flowed(text, lambda: ((number, Box(0.0, 0.0, 124.0, 100.0)) for number in count()))
    return {
        number: sorted(mark.place[1] for mark in marks if isinstance(mark, Words))
        for number, marks in drawn.items()
    }


def test_lines_come_closer_where_that_saves_a_sheet() -> None:
    """Counting: 97 mm take 26 lines 3.6 mm apart and 32 lines 3.0 mm apart, the least for capitals of 1.8 mm (1.5 times
    their height, ISO 3098)."""
    apart = {}
    for rows in (26, 27, 32, 33):
        sheets = lines_of(rows)
        apart[rows] = (len(sheets), round(sheets[0][1] - sheets[0][0], 3))
        assert sum(map(len, sheets.values())) == rows
    assert apart == {26: (1, 3.6), 27: (1, 3.3), 32: (1, 3.0), 33: (2, 3.6)}
