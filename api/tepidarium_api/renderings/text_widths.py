"""How wide words are on paper, so that columns keep apart and lines break where they are full."""

from __future__ import annotations

from functools import cache, lru_cache
from pathlib import Path
from struct import unpack_from
from unicodedata import category, east_asian_width

__all__ = ["EM", "shortened", "text_width", "wrapped"]

EM = 1.4
"""Size of the letters over the height of their capitals."""
_FONTS = Path(__file__).with_name("fonts")
_OTHER, _WIDE = 0.667, 1.0
"""Widths over the size of characters that the shipped font does not have: most scripts, those of East Asia."""
_UNSEEN = ("Mn", "Me", "Cf")
"""Categories of Unicode: marks over other characters, and characters without a glyph."""


@cache
def _advances(bold: bool) -> dict[int, float]:
    """Width over the size of each character of the shipped font, from its tables ``hmtx`` and ``cmap`` (OpenType 1.9,
    subtable format 4)."""
    data = (_FONTS / f"LiberationSans-{'Bold' if bold else 'Regular'}.ttf").read_bytes()
    records = (unpack_from(">4sxxxxI", data, 12 + 16 * n) for n in range(*unpack_from(">H", data, 4)))
    at = {name.decode(): start for name, start in records}
    (size,) = unpack_from(">H", data, at["head"] + 18)
    (known,) = unpack_from(">H", data, at["hhea"] + 34)
    (offset,) = unpack_from(">I", data, at["cmap"] + 8)
    table = at["cmap"] + offset
    count = unpack_from(">H", data, table + 6)[0] // 2
    places = (table + 14, *(table + 16 + 2 * count * n for n in (1, 2, 3)))
    ends, starts, deltas, ranges = (unpack_from(f">{count}H", data, place) for place in places)
    found = {}
    for n in range(count - 1):
        for sign in range(starts[n], ends[n] + 1):
            glyph = sign
            if ranges[n]:
                (glyph,) = unpack_from(">H", data, places[3] + 2 * n + ranges[n] + 2 * (sign - starts[n]))
            glyph = min((glyph + deltas[n]) & 0xFFFF, known - 1)
            found[sign] = unpack_from(">H", data, at["hmtx"] + 4 * glyph)[0] / size
    return found


@lru_cache(maxsize=4096)
def _ems(text: str, bold: bool) -> float:
    known = _advances(bold)
    return sum(known[ord(sign)] if ord(sign) in known else _guessed(sign) for sign in text)


def _guessed(sign: str) -> float:
    if category(sign) in _UNSEEN:
        return 0.0
    return _WIDE if east_asian_width(sign) in "WF" else _OTHER


def text_width(text: str, height: float, bold: bool = False) -> float:
    """Width [mm] of words whose capitals are ``height`` [mm] high."""
    return _ems(text, bold) * height * EM


def shortened(text: str, height: float, room: float, bold: bool = False) -> str:
    """The words, or their beginning with an ellipsis, so that they take no more than ``room`` [mm]."""
    if text_width(text, height, bold) <= room:
        return text
    kept = text
    while kept and text_width(kept + "…", height, bold) > room:
        kept = kept[: _divisible(kept, len(kept) - 1)]
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
        while len(line) > 1 and text_width(line, height, bold) > room:
            count = next(
                n for n in range(len(line) - 1, 0, -1) if n == 1 or text_width(line[:n], height, bold) <= room
            )
            count = _divisible(line, count) or count
            lines.append(line[:count])
            line = line[count:]
    return [*lines, line] if line else lines


def _divisible(text: str, count: int) -> int:
    """So many characters or fewer, so that what follows begins with no mark of the last of them."""
    while 0 < count < len(text) and (category(text[count]) in _UNSEEN or text[count - 1] == "\u200d"):
        count -= 1
    return count
