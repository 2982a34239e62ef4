"""Plain text tables: aligned, without control characters, as narrow as their content allows."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ._units import label, trade_unit, with_row_unit

__all__ = ["Column", "cell", "columns_of", "is_record", "is_record_list", "table", "values"]

GAP = "  "
EMPTY: tuple[Any, ...] = (None, "", [])
WORDS = {
    "beyond",
    "fluid",
    "governing_rule",
    "least",
    "method",
    "regime",
    "rule",
    "severity",
    "stage",
    "status",
}
"""Fields whose values are stable words with underscores."""

NARROWEST_TEXT = 20
"""The least width a wrapped column keeps [characters]."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: the path of its value in a row, and a heading where the field name is not the best one. A
    ``distinctive`` column is left out where several rows have all the same, one ``instead_of`` another value where
    every row has that. ``unit_in`` names the field of the row that holds the unit, where it differs from row to row."""

    path: tuple[str, ...]
    heading: str = ""
    distinctive: bool = False
    instead_of: str = ""
    unit_in: str = ""

    @classmethod
    def of(
        cls,
        path: str,
        heading: str = "",
        *,
        distinctive: bool = False,
        instead_of: str = "",
        unit_in: str = "",
    ) -> Column:
        return cls(tuple(path.split(".")), heading, distinctive, instead_of, unit_in)

    @property
    def name(self) -> str:
        return self.path[-1]

    def value(self, row: Mapping[str, Any]) -> Any:
        """The value in a row, None where a part of the path is missing."""
        found: Any = row
        for step in self.path:
            found = found.get(step) if isinstance(found, Mapping) else None
        return found

    def text(self, row: Mapping[str, Any]) -> str:
        """The value as people read it."""
        value = self.value(row)
        if self.unit_in and isinstance(value, int | float):
            return with_row_unit(value, str(row.get(self.unit_in, "")))
        return cell(self.name, value)

    def heading_lines(self) -> list[str]:
        """The heading word by word, the unit last: keeps columns of numbers narrow."""
        words = textwrap.wrap(self.heading or label(self.name), 11, break_long_words=False)
        unit = "" if self.unit_in else trade_unit(self.name).name
        return [*words, f"[{unit}]"] if unit else words


def cell(name: str, value: Any) -> str:
    """A value as people read it."""
    if value in EMPTY:
        return "-"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        whole = isinstance(value, int) and not trade_unit(name).name
        return str(value) if whole else trade_unit(name).show(value)
    if isinstance(value, list):
        return ", ".join(cell(name, member) for member in value)
    return label(str(value)) if name in WORDS else str(value)


def columns_of(rows: Sequence[Mapping[str, Any]]) -> tuple[Column, ...]:
    """A column for every plain value of the rows, in their order."""
    names = dict.fromkeys(
        name for row in rows for name, value in row.items() if not isinstance(value, dict | list)
    )
    return tuple(Column((name,)) for name in names)


def table(rows: Sequence[Mapping[str, Any]], columns: Sequence[Column], width: int) -> list[str]:
    """The lines of a table. Columns without any value are left out; columns of text are wrapped so that the
    table keeps to its ``width`` where it can."""
    used = [column for column in columns if _tells(column, rows)]
    if not used:
        return []
    texts = [[column.text(row) for column in used] for row in rows]
    headings = [column.heading_lines() for column in used]
    numeric = [
        all(_is_number(column.value(row)) for row in rows if column.value(row) not in EMPTY)
        for column in used
    ]
    widths = [
        max(len(text) for text in [*heading, *(line[index] for line in texts)])
        for index, heading in enumerate(headings)
    ]
    _fit(widths, numeric, width)
    lines = [*_stacked(headings, widths, numeric, at_bottom=True), GAP.join("-" * each for each in widths)]
    for line in texts:
        lines += _wrapped(line, widths, numeric)
    return lines


def _tells(column: Column, rows: Sequence[Mapping[str, Any]]) -> bool:
    found = [column.value(row) for row in rows]
    if column.distinctive and len(rows) > 1 and found.count(found[0]) == len(found):
        return False
    if column.instead_of and all(row.get(column.instead_of) not in EMPTY for row in rows):
        return False
    return any(value not in EMPTY for value in found)


def values(record: Mapping[str, Any], columns: Sequence[Column] = ()) -> list[str]:
    """One line for each plain value of a record, or for each of ``columns`` that is not 0."""
    chosen = columns or [Column((name,)) for name in record]
    lines = [(column.heading or label(column.name), column.name, column.value(record)) for column in chosen]
    plain = [
        (called, name, value) for called, name, value in lines if _is_plain(value) and (value or not columns)
    ]
    width = max((len(called) for called, _, _ in plain), default=0)
    return [f"{called:<{width}}  {_with_unit(name, value)}" for called, name, value in plain]


def _with_unit(name: str, value: Any) -> str:
    unit = trade_unit(name).name if _is_number(value) else ""
    return f"{cell(name, value)} {unit}".rstrip()


def is_record(value: Any) -> bool:
    return isinstance(value, dict)


def is_record_list(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(map(is_record, value))


def _is_plain(value: Any) -> bool:
    if isinstance(value, list):
        return bool(value) and not any(isinstance(member, dict | list) for member in value)
    return value not in EMPTY and not isinstance(value, dict)


def _is_number(value: Any) -> bool:
    members = value if isinstance(value, list) else [value]
    return bool(members) and all(
        isinstance(one, int | float) and not isinstance(one, bool) for one in members
    )


def _fit(widths: list[int], numeric: list[bool], width: int) -> None:
    """Take from the widest column of text, again and again, until the table keeps to its width or no column of
    text can be narrower."""
    spare = width - len(GAP) * (len(widths) - 1)
    while sum(widths) > spare:
        texts = [i for i, is_number in enumerate(numeric) if not is_number and widths[i] > NARROWEST_TEXT]
        if not texts:
            return
        widths[max(texts, key=lambda index: widths[index])] -= 1


def _wrapped(texts: list[str], widths: list[int], numeric: list[bool]) -> list[str]:
    parts = [textwrap.wrap(text, each) or [""] for text, each in zip(texts, widths, strict=True)]
    return _stacked(parts, widths, numeric)


def _stacked(
    parts: list[list[str]], widths: list[int], numeric: list[bool], at_bottom: bool = False
) -> list[str]:
    """Cells of several lines side by side."""
    height = max(map(len, parts))
    padded = [
        [""] * (height - len(part)) + part if at_bottom else part + [""] * (height - len(part))
        for part in parts
    ]
    return [_line(list(texts), widths, numeric) for texts in zip(*padded, strict=True)]


def _line(texts: list[str], widths: list[int], numeric: list[bool]) -> str:
    cells = (
        f"{text:>{each}}" if is_number else f"{text:<{each}}"
        for text, each, is_number in zip(texts, widths, numeric, strict=True)
    )
    return GAP.join(cells).rstrip()
