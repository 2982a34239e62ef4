"""How wide words are on paper, so that columns keep apart and lines break where they are full."""

from __future__ import annotations

from functools import lru_cache
from unicodedata import east_asian_width

__all__ = ["EM", "shortened", "text_width", "wrapped"]

EM = 1.4
"""Size of the letters over the height of their capitals."""
_FIRST = 32
_REGULAR = (
    "277 277 354 556 556 889 666 190 333 333 389 583 277 333 277 277 556 556 556 556 556 556 556 556 556 556 277 277 "
    "583 583 583 556 1015 666 666 722 722 666 610 777 722 277 500 666 556 833 722 777 666 777 722 666 610 722 666 943 "
    "666 666 610 277 277 277 469 556 333 556 556 500 556 556 277 556 556 222 222 500 222 833 556 556 556 556 333 500 "
    "277 556 500 722 500 500 500 333 259 333 583"
)
_BOLD = (
    "277 333 474 556 556 889 722 237 333 333 389 583 277 333 277 277 556 556 556 556 556 556 556 556 556 556 333 333 "
    "583 583 583 610 975 722 722 722 722 666 610 777 722 277 556 722 610 833 722 777 666 777 722 666 610 722 666 943 "
    "666 666 610 333 277 333 583 556 333 556 610 556 610 556 333 610 610 277 277 556 277 889 610 610 610 610 389 556 "
    "333 610 556 777 556 556 500 389 279 389 583"
)
_TABLES = {bold: [int(width) for width in text.split()] for bold, text in ((False, _REGULAR), (True, _BOLD))}
"""Advance widths of ASCII from the space on, in thousandths of the size (font tables of Liberation Sans 2.1.5)."""
_OTHER, _WIDE = 667, 1000


@lru_cache(maxsize=4096)
def _units(text: str, bold: bool) -> int:
    table = _TABLES[bold]
    return sum(
        table[ord(sign) - _FIRST]
        if 0 <= ord(sign) - _FIRST < len(table)
        else _WIDE
        if east_asian_width(sign) in "WF"
        else _OTHER
        for sign in text
    )


def text_width(text: str, height: float, bold: bool = False) -> float:
    """Width [mm] of words whose capitals are ``height`` [mm] high."""
    return _units(text, bold) * height * EM / 1000.0


def shortened(text: str, height: float, room: float, bold: bool = False) -> str:
    """The words, or their beginning with an ellipsis, so that they take no more than ``room`` [mm]."""
    if text_width(text, height, bold) <= room:
        return text
    kept = text
    while kept and text_width(kept + "…", height, bold) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def wrapped(text: str, height: float, room: float, bold: bool = False) -> list[str]:
    """Lines no wider than ``room`` [mm]; a word that is wider by itself is divided."""
    lines, line = [], ""
    for word in text.split():
        tried = f"{line} {word}" if line else word
        if text_width(tried, height, bold) <= room:
            line = tried
            continue
        if line:
            lines.append(line)
        line = word
        while text_width(line, height, bold) > room:
            count = next(
                n for n in range(len(line) - 1, 0, -1) if n == 1 or text_width(line[:n], height, bold) <= room
            )
            lines.append(line[:count])
            line = line[count:]
    return [*lines, line] if line else lines
