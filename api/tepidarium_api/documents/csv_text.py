"""A table as CSV (RFC 4180) for spreadsheets and programs.

A saved file has lost the header that names its charset, so that it begins with the signature of UTF-8 (Unicode
Standard, 23.8; RFC 3629, section 6): spreadsheets take it for the system's charset otherwise. What decodes UTF-8 by the
standard of the web (WHATWG Encoding), as the W3C's model for tabular data asks, skips the signature; in Python that is
``utf-8-sig``.
"""

from __future__ import annotations

import csv
import io

from .parts import Table, Value, shown

__all__ = ["csv_of"]

_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""A text that begins so would be computed by a spreadsheet; an apostrophe before it keeps it a text."""


def csv_of(table: Table) -> bytes:
    """The table as ``text/csv`` in UTF-8 with its signature."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow([column.heading for column in table.columns])
    decimals = [column.decimals for column in table.columns]
    writer.writerows(list(map(_cell, row, decimals)) for row in table.rows)
    return text.getvalue().encode("utf-8-sig")


def _cell(value: Value, decimals: int | None) -> str:
    text = shown(value, decimals)
    return f"'{text}" if isinstance(value, str) and text.startswith(_STARTS) else text
