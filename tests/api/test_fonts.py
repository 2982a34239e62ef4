"""Printed documents in scripts that the shipped fonts do not have: a font of the machine, or a note on each page."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

import msgspec
import pypdf
import pytest
import typst
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from tepidarium_api.calculations import PDF
from tepidarium_api.calculations.coil_plan import COIL_PLAN
from tepidarium_api.calculations.designs import DESIGNS
from tepidarium_api.documents import fonts
from tepidarium_api.documents.parts import Chapter, Column, Fields, Listed, Table, page_data
from tepidarium_api.documents.typesetting import pdf_of
from tepidarium_api.renderings import svg
from tepidarium_api.renderings.marks import isolated

SHIPPED = Path(fonts.__file__).parents[1] / "renderings" / "fonts"
BEDROOM = "\u5bdd\u5ba4"


def page_texts(name: str) -> list[str]:
    example = dict(COIL_PLAN.example)
    circuits = [{**circuit, "id": f"{name} {circuit['id']}"} for circuit in example["circuits"]]
    inputs = msgspec.convert({**example, "circuits": circuits}, COIL_PLAN.inputs)
    made = COIL_PLAN.renderings[PDF](inputs, COIL_PLAN.calculate(inputs))
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made)).pages]


def font_with(signs: str, folder: Path) -> Any:
    """The shipped fonts and one of our own, whose glyphs are squares."""
    pen = TTGlyphPen(None)
    pen.moveTo((100, 0))
    for corner in ((100, 700), (800, 700), (800, 0)):
        pen.lineTo(corner)
    pen.closePath()
    square = pen.glyph()
    glyphs = [".notdef", *(f"sign{number}" for number in range(len(signs)))]
    font = FontBuilder(1000, isTTF=True)
    font.setupGlyphOrder(glyphs)
    font.setupCharacterMap({ord(sign): f"sign{number}" for number, sign in enumerate(signs)})
    font.setupGlyf(dict.fromkeys(glyphs, square))
    font.setupHorizontalMetrics(dict.fromkeys(glyphs, (1000, 0)))
    font.setupHorizontalHeader(ascent=800, descent=-200)
    font.setupNameTable({"familyName": "Signs", "styleName": "Regular", "psName": "Signs-Regular"})
    font.setupOS2()
    font.setupPost()
    font.save(folder / "signs.ttf")
    paths = [str(SHIPPED), str(folder)]
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=paths)


def test_every_page_says_which_characters_cannot_be_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fonts, "machine_fonts", fonts.shipped_fonts)
    for text in page_texts(BEDROOM):
        assert "U+5BA4, U+5BDD. Install a font" in " ".join(text.split())


def test_a_font_of_the_machine_shows_them(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    own = font_with(BEDROOM, tmp_path)
    monkeypatch.setattr(fonts, "machine_fonts", lambda: own)
    pages = page_texts(BEDROOM)
    assert BEDROOM in pages[0]
    assert not any("U+" in text for text in pages)
    assert "U+4E00. Install" in " ".join("".join(page_texts(BEDROOM + "\u4e00")).split())


@pytest.mark.parametrize(
    "name", ["Schlafzimmer ÄÖÜß", "Спальня", "Κρεβατοκάμαρα", "שינה", "Ložnice", "m² · ≥"]
)
def test_the_shipped_fonts_need_no_help(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fonts, "machine_fonts", lambda: pytest.fail("the machine's fonts were asked for"))
    assert not any("Install a font" in text for text in page_texts(name))


def test_a_drawing_says_it_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fonts, "machine_fonts", fonts.shipped_fonts)
    room = {"id": "one", "name": BEDROOM, "heat_demand": 400.0}
    outline = {"outline": [[0.0, 0.0], [3.0, 0.0], [3.0, 4.0], [0.0, 4.0]]}
    example = dict(DESIGNS.example)
    build_up = example["build_ups"][0]["id"]
    rooms = [{**room, **outline, "build_up": build_up}]
    asked = {key: example[key] for key in ("build_ups", "pipe") if key in example}
    inputs = msgspec.convert({**asked, "rooms": rooms}, DESIGNS.inputs)
    made = DESIGNS.renderings[PDF](inputs, DESIGNS.calculate(inputs))
    pages = pypdf.PdfReader(io.BytesIO(made)).pages
    assert all("U+5BA4, U+5BDD" in " ".join(page.extract_text().split()) for page in pages)


def test_what_a_note_says() -> None:
    assert fonts.note_on("") == ""
    assert "U+4E00, U+4E01, " in fonts.note_on("".join(chr(0x4E00 + number) for number in range(20)))
    assert "and 8 more" in fonts.note_on("".join(chr(0x4E00 + number) for number in range(20)))


def test_a_number_stays_behind_a_name_that_runs_from_right_to_left() -> None:
    """Unicode Standard Annex 9: a number takes the direction of the letters before it (rules W2 and W7), so that
    "name: 395 W" is shown as "395 :name W" without an isolate (rules X5a to X6a)."""
    name = "\u05d7\u05d3\u05e8 \u05e9\u05d9\u05e0\u05d4"
    chapter = Chapter(
        f"{name} 21",
        (
            Listed("", (("-", f"{name}: 395 W are missing", f"{name}, {name}: 38.7 at least"),)),
            Fields("", (("Room", f"{name} 27 \u00b0C; {name} 33 \u00b0C"),)),
            Table("", (Column("Room"), Column("Circuit")), ((name, f"{name} 4.2"),)),
        ),
    )
    made = pdf_of({"title": "", "cover": None, "parts": [page_data(chapter)]})
    (page,) = pypdf.PdfReader(io.BytesIO(made)).pages
    text = re.sub(r"[\s\u2067\u2069]", "", page.extract_text())
    for behind in ("21", ":395W", ":38.7at", "27\u00b0C;", "33\u00b0C", "4.2"):
        assert re.search(f"[\u0590-\u05ff]{behind}", text), (behind, text)


@pytest.mark.parametrize(
    ("words", "shown"),
    [
        ("Bad 21.8", "Bad 21.8"),
        ("\u062d\u0645\u0627\u0645", "\u062d\u0645\u0627\u0645"),
        ("\u062d \u062d 2", "\u2067\u062d \u062d\u2069 2"),
        ("\u062d, \u05d0: 2", "\u2067\u062d\u2069, \u2067\u05d0\u2069: 2"),
    ],
)
def test_only_words_from_right_to_left_are_set_apart(words: str, shown: str) -> None:
    assert isolated(words) == shown
    assert f">{escape(shown)}<" in svg.text((0.0, 0.0), words)
