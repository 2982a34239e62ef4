"""What documents are made of: chapters of tables, fields, lists, text and pictures, whatever file they go into."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Literal

from ..renderings.marks import isolated, printable

__all__ = [
    "Chapter",
    "Column",
    "Fields",
    "Listed",
    "Picture",
    "Quantity",
    "Table",
    "Value",
    "page_data",
    "shown",
]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its own unit and decimals, in a column of several units."""

    value: float
    unit: str
    decimals: int


LONG_WORD, PIECE = 22, 8
"""A word of more characters may be too long for a line of its column; it is then divided after so many."""
_LONG_WORD = re.compile(rf"[^\s\u200b-\u200d\u2060-\u2069]{{{LONG_WORD + 1},}}")

Value = str | float | int | date | Quantity | None


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: ``decimals`` of its numbers, None for text; ``width`` in parts of the page."""

    heading: str
    decimals: int | None = None
    width: float = 1.0


@dataclass(frozen=True, slots=True)
class Table:
    """``title`` names it on paper and in a workbook. ``roomy`` rows can be written in by hand; ``one_line``: every cell
    fits into one line on paper."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[Sequence[Value], ...]
    roomy: bool = False
    one_line: bool = False

    def titled(self, title: str) -> Table:
        return replace(self, title=title)

    def with_columns(self, columns: Iterable[Column]) -> Table:
        """The same with further columns, empty."""
        added = tuple(columns)
        rows = tuple((*row, *(None for _ in added)) for row in self.rows)
        return Table(self.title, (*self.columns, *added), rows, True)


@dataclass(frozen=True, slots=True)
class Fields:
    """Names with their values, or with room to write them."""

    title: str
    rows: tuple[tuple[str, str], ...]
    roomy: bool = False


@dataclass(frozen=True, slots=True)
class Listed:
    """Paragraphs, each after what leads it, some with further lines below; ``marks``: a word that leads, not a sign."""

    title: str
    items: tuple[tuple[str, ...], ...]
    marks: bool = False


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing to scale in the text; ``width`` and ``height`` [mm]."""

    svg: str
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Chapter:
    title: str
    parts: tuple[Table | Fields | Listed | Picture, ...]


def shown(value: Value, decimals: int | None) -> str:
    """A value as people read it."""
    if value is None:
        return ""
    if isinstance(value, Quantity):
        return f"{shown(value.value, value.decimals)} {value.unit}".rstrip()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, str) or decimals is None:
        return printable(str(value))
    text = f"{value:.{decimals}f}"
    return text if float(text) else text.lstrip("-")


def page_data(chapter: Chapter) -> dict[str, Any]:
    """A chapter as the template of printed documents reads it."""
    return {"kind": "chapter", "title": _printed(chapter.title), "parts": list(map(_part, chapter.parts))}


def _part(part: Table | Fields | Listed | Picture) -> dict[str, Any]:
    match part:
        case Table():
            decimals = [column.decimals for column in part.columns]
            return {
                "kind": "table",
                "title": _printed(part.title),
                "roomy": part.roomy,
                "one_line": part.one_line,
                "columns": [_column(column) for column in part.columns],
                "rows": [
                    [_set(shown(*cell)) for cell in zip(row, decimals, strict=True)] for row in part.rows
                ],
            }
        case Fields():
            rows = [[_printed(name), _printed(value)] for name, value in part.rows]
            return {"kind": "fields", "title": part.title, "roomy": part.roomy, "rows": rows}
        case Listed():
            items = [
                [_printed(lead), _printed(words), list(map(_printed, lines))]
                for lead, words, *lines in part.items
            ]
            return {"kind": "list", "title": part.title, "marks": part.marks, "items": items}
        case Picture():
            return {"kind": "picture", "svg": part.svg, "width": part.width, "height": part.height}


def _printed(text: str) -> str:
    return _set(printable(text))


def _set(text: str) -> str:
    """As it is set: words that are too long may go on on the next line."""
    return _LONG_WORD.sub(_pieces, isolated(text)) if len(text) > LONG_WORD else isolated(text)


def _pieces(word: re.Match[str]) -> str:
    """A long word with places to divide it: after a low line, else after so many characters, marks left with theirs."""
    text, at = "", 0
    for sign in word[0]:
        if text and (text[-1] == "_" or at >= PIECE) and not unicodedata.category(sign).startswith("M"):
            text, at = text + "\u200b", 0
        text, at = text + sign, at + 1
    return text


def _column(column: Column) -> dict[str, Any]:
    kind: Literal[True, False] = column.decimals is not None
    return {"heading": printable(column.heading), "width": column.width, "number": kind}
