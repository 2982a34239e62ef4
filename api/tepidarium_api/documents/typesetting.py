"""Data and drawings set as PDF. What users wrote reaches the typesetter as data and is never read as markup."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import msgspec

from ..renderings.sheets import DrawnSheet
from ..renderings.svg_sheets import svg_of
from .fonts import fonts_for, note_on

__all__ = ["drawing_page", "pdf_of", "printed"]

_TEMPLATE = Path(__file__).with_name("document.typ")


def printed(sheets: list[DrawnSheet]) -> bytes:
    """The sheets as ``application/pdf``, each a page of its own size; they measure right when printed as they are."""
    return pdf_of(
        {"title": sheets[0].title, "cover": None, "parts": [drawing_page(sheet) for sheet in sheets]}
    )


def drawing_page(sheet: DrawnSheet) -> dict[str, Any]:
    """A part of a document: one sheet as a page."""
    width, height = sheet.size
    return {"kind": "sheet", "svg": svg_of([sheet]).decode(), "width": width, "height": height}


def pdf_of(document: dict[str, Any]) -> bytes:
    """A document as the template reads it. The same data give the same bytes on every machine, as long as the shipped
    fonts have all characters; where no font has one, each page says so."""
    import typst  # noqa: PLC0415 - most starts need not spend the time

    fonts, missing = fonts_for(msgspec.json.encode(document).decode())
    data = msgspec.json.encode({**document, "note": note_on(missing)}).decode()
    made = typst.compile(
        _template(),
        sys_inputs={"data": data},
        font_paths=fonts,
        ignore_system_fonts=True,
        timestamp=0,
        pdf_tags=False,
    )
    return bytes(made)


@cache
def _template() -> bytes:
    return _TEMPLATE.read_bytes()
