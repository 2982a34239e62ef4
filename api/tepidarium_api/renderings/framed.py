"""A4 sheets with a frame, for pictures that are no plans."""

from __future__ import annotations

from collections.abc import Mapping

from .sheet import BINDING, EDGE
from .svg import document, element, group

__all__ = ["SIZE", "framed"]

SIZE = (297.0, 210.0)
"""A4, landscape (ISO 216) [mm]."""


def framed(title: str, content: tuple[str, ...], style: Mapping[str, str]) -> bytes:
    """The sheet as SVG; ``style`` has a rule for ``sheet`` and for ``frame``."""
    width, height = SIZE
    frame = element(
        "rect", class_="frame", x=BINDING, y=EDGE, width=width - BINDING - EDGE, height=height - 2 * EDGE
    )
    whole = (element("rect", class_="sheet", width=width, height=height), *content, frame)
    return document(
        SIZE, title, [group(whole, font_family="Liberation Sans, Arial, Helvetica, sans-serif")], style
    )
