"""The text of the handbook: everything between marks as it comes out now, and by hand nothing that could go stale."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tepidarium_api.calculations import CALCULATIONS, FILE_READINGS
from tepidarium_api.handbook import writing
from tepidarium_api.handbook.marks import filled, hand_written
from tepidarium_api.handbook.pictures import PICTURES

TOP = Path(__file__).parents[2]
PAGES = writing.text_files()
OFFERED = [each.name for each in CALCULATIONS] + [each.name for each in FILE_READINGS]
FORM = [
    "The question",
    "What goes in",
    "The method",
    "Worked example",
    "What comes out",
    "Limits, findings and what to do",
    "What it does not do",
    "Sources",
]
_FORMULA = re.compile(r"\$\$.*?\$\$|\$[^$\n]+\$", re.DOTALL)
_CODE = re.compile(r"^```.*?^```$|`[^`\n]*`", re.DOTALL | re.MULTILINE)
_LINK = re.compile(r"\]\([^)]*\)")
_NAMED = re.compile(
    r"\b(?:EN|ISO|DIN|SIA|BS|NF DTU|JGJ|VDI|IEC|RFC|IAPWS|NREL|Part|Tables?|clause|annex|HTTP/|Python)"
    r"[- ]*[A-Z]*\.?\d[\d.:,-]*(?: (?:to|and) [A-Z]?\.?\d+)*"
    r"|\((?:19|20)\d\d\)|\b(?:Hellström|Gomory|Benders) (?:19|20)\d\d"
)
"""Names that hold digits: standards with edition, clauses, years of papers."""


def _page_id(path: Path) -> str:
    return path.relative_to(writing.TEXT).as_posix()


@pytest.mark.parametrize("path", writing.text_files(), ids=_page_id)
def test_every_figure_is_as_it_comes_out_now(path: Path) -> None:
    assert writing.written(path) == path.read_text(encoding="utf-8"), "run python -m tepidarium_api.handbook"


def test_the_entrance_for_developers_has_the_same_terms() -> None:
    text = writing.DEVELOPERS.read_text(encoding="utf-8")
    assert writing.written(writing.DEVELOPERS) == text, "run python -m tepidarium_api.handbook"
    sketches = re.findall(r"!\[[^\]]*\]\(([^)]*)\)", text)
    assert all((writing.DEVELOPERS.parent / sketch).is_file() for sketch in sketches)


@pytest.mark.parametrize("name", PICTURES)
def test_every_picture_is_as_it_comes_out_now(name: str) -> None:
    assert (writing.TEXT / "pictures" / f"{name}.svg").read_bytes() == PICTURES[name]()


@pytest.mark.parametrize("path", PAGES, ids=_page_id)
def test_no_figure_is_typed(path: Path) -> None:
    """Figures outside marks, formulas and code would go stale: none stands there."""
    text = hand_written(path.read_text(encoding="utf-8"))
    for pattern in (_CODE, _FORMULA, _LINK, _NAMED):
        text = pattern.sub("", text)
    typed = [line for line in text.splitlines() if re.search(r"\d", line)]
    assert typed == []


def _numbers(text: str) -> set[float]:
    text = re.sub(r"[A-Za-z_]+\d+|\^\{?\d+\}?|_\{?\d+\}?", " ", text)
    return {float(found) for found in re.findall(r"\d+(?:\.\d+)?", text)}


def test_every_constant_of_a_formula_stands_in_the_engine() -> None:
    sources = " ".join(
        path.read_text(encoding="utf-8").replace("_000", "000")
        for path in (TOP / "engine" / "tepidarium_engine").rglob("*.py")
    )
    known = _numbers(sources)
    for path in PAGES:
        text = re.sub(r"\^\{?[\d/. ]+\}?", " ", path.read_text(encoding="utf-8"))
        for formula in _FORMULA.findall(_CODE.sub("", hand_written(text))):
            assert _numbers(formula) <= known, f"{path.name}: {formula}"


@pytest.mark.parametrize("name", OFFERED)
def test_every_calculation_has_a_page_of_the_same_form(name: str) -> None:
    text = (writing.TEXT / "calculations" / f"{name}.md").read_text(encoding="utf-8")
    assert re.findall(r"^## (.*)$", text, re.MULTILINE) == FORM
    assert f"pictures/{name}.svg" in text
    outside = hand_written(text)
    for heading in ("The question", "The method", "What it does not do"):
        (part,) = re.findall(rf"^## {heading}\n(.*?)^## ", outside, re.MULTILINE | re.DOTALL)
        assert len(part.split()) > 15, heading
    assert "$$" in outside or name in {"plan-imports"}


def test_marks_are_kept_and_what_they_hold_is_not() -> None:
    text = "<!-- block: two words -->\nold\n<!-- end -->\n\nand <!-- = a /b -->old<!-- . -->.\n"
    made = filled(text, {"two": lambda word: f"new {word}"}, lambda words: words.upper())
    assert (
        made
        == "<!-- block: two words -->\n\nnew words\n\n<!-- end -->\n\nand <!-- = a /b -->A /B<!-- . -->.\n"
    )
    assert filled(made, {"two": lambda word: f"new {word}"}, lambda words: words.upper()) == made
    assert hand_written(made).split() == ["and", "."]


@pytest.mark.parametrize(
    "text", ["<!-- block: two -->\nold\n", "a <!-- = b -->\n", "<!-- = b -->begins<!-- . -->\n"]
)
def test_a_mark_that_is_not_closed_or_begins_a_line_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"closed|begins"):
        filled(text, {}, str)


def test_blocks_without_words_end_where_they_end() -> None:
    text = "<!-- block: one -->\n<!-- end -->\nby hand\n<!-- block: two -->\n<!-- end -->\n"
    made = filled(text, {"one": lambda: "1", "two": lambda: "2"}, str)
    assert hand_written(made).split() == ["by", "hand"]
    assert re.findall(r"^\d$", made, re.MULTILINE) == ["1", "2"]
