"""Tables as a workbook: one sheet each, numbers as numbers, no formula whatever a text begins with."""

from __future__ import annotations

import io
from collections.abc import Iterable
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from ..renderings.marks import isolated
from .parts import Quantity, Table, shown

if TYPE_CHECKING:
    from xlsxwriter import Workbook

__all__ = ["workbook_of"]

_CREATED = datetime(1980, 1, 1)
"""The same tables give the same bytes on every day."""
_LONGEST_NAME, _FORBIDDEN = 31, "[]:*?/\\'"
_OPTIONS = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
}
_NARROWEST, _WIDEST = 8, 60


def workbook_of(tables: Iterable[Table]) -> bytes:
    """The tables as XLSX."""
    import xlsxwriter  # noqa: PLC0415 - most starts need not spend the time

    made = io.BytesIO()
    workbook = xlsxwriter.Workbook(made, _OPTIONS)
    workbook.set_properties({"created": _CREATED, "title": "Floor heating"})
    names: set[str] = set()
    for table in tables:
        _write(workbook, table, _name(table.title, names))
    workbook.close()
    return made.getvalue()


def _name(title: str, taken: set[str]) -> str:
    plain = "".join(" " if sign in _FORBIDDEN else sign for sign in title)[:_LONGEST_NAME].strip() or "Sheet"
    name, count = plain, 1
    while name.lower() in taken:
        count += 1
        name = f"{plain[: _LONGEST_NAME - len(str(count)) - 1]} {count}"
    taken.add(name.lower())
    return name


def _write(workbook: Workbook, table: Table, name: str) -> None:
    sheet = workbook.add_worksheet(name)
    head = workbook.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
    day = workbook.add_format({"num_format": "yyyy-mm-dd"})
    for number, column in enumerate(table.columns):
        sheet.write_string(0, number, shown(column.heading, None), head)
        decimals = column.decimals
        pattern = "General" if decimals is None else _pattern(decimals)
        cells = workbook.add_format({"num_format": pattern})
        longest = max((len(shown(row[number], decimals)) for row in table.rows), default=0)
        widest = max(longest, max(map(len, column.heading.split()), default=0)) + 2
        sheet.set_column(number, number, min(_WIDEST, max(_NARROWEST, widest)), cells)
        for line, row in enumerate(table.rows, start=1):
            value = row[number]
            if isinstance(value, Quantity):
                unit = f'" {value.unit}"' if value.unit else ""
                own = workbook.add_format({"num_format": _pattern(value.decimals) + unit})
                sheet.write_number(line, number, value.value, own)
            else:
                _cell(sheet, (line, number), value, day if isinstance(value, date) else cells)
    sheet.freeze_panes(1, 0)
    sheet.set_landscape()
    sheet.set_paper(9)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)


def _pattern(decimals: int) -> str:
    """A number format of ISO/IEC 29500-1, 18.8.31."""
    return "0" + ("." + "0" * decimals if decimals else "")


def _cell(sheet: Any, place: tuple[int, int], value: object, look: Any) -> None:
    line, column = place
    match value:
        case None:
            sheet.write_blank(line, column, None, look)
        case date():
            sheet.write_datetime(line, column, datetime(value.year, value.month, value.day), look)
        case int() | float():
            sheet.write_number(line, column, value, look)
        case _:
            sheet.write_string(line, column, isolated(shown(str(value), None)), look)
