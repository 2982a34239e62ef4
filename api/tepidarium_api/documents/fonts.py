"""Fonts of printed documents: the shipped ones, and those of the machine where a text has other scripts.

The shipped fonts (Liberation Sans) hold Latin, Greek, Cyrillic and Hebrew. A font with the scripts of East Asia weighs
more than all of this service, so that one comes from the machine. Only such documents depend on the machine.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

__all__ = ["fonts_for", "note_on"]

_SHIPPED = Path(__file__).parents[1] / "renderings" / "fonts"
_LAST_OF_LATIN_1 = "\u00ff"
_MOST_NAMED = 12
"""Characters that a note names."""


def fonts_for(text: str) -> tuple[Any, str]:
    """The fonts of typst that show the text, and the characters, each once, that none of them has."""
    unusual = "".join(sorted(sign for sign in set(text) if sign > _LAST_OF_LATIN_1))
    if not unusual or _shown(unusual, shipped_fonts()):
        return shipped_fonts(), ""
    fonts = machine_fonts()
    missing = "" if _shown(unusual, fonts) else "".join(sign for sign in unusual if not _shown(sign, fonts))
    return fonts, missing


def note_on(missing: str) -> str:
    """What stands at the foot of each page where characters cannot be shown; empty where all can."""
    if not missing:
        return ""
    named = ", ".join(f"U+{ord(sign):04X}" for sign in missing[:_MOST_NAMED])
    more = f" and {len(missing) - _MOST_NAMED} more" if len(missing) > _MOST_NAMED else ""
    return (
        f"Characters that appear as boxes are in no font of the computer that made this document: {named}{more}. "
        "Install a font that has them where the service runs, and make the document again."
    )


def _shown(text: str, fonts: Any) -> bool:
    """Whether there is a glyph for each character; PDF/A (ISO 19005-2) forbids the box that stands for a missing one.

    No character may be of ASCII: it could end the words.
    """
    import typst  # noqa: PLC0415 - most starts need not spend the time

    source = f'#set text(font: "Liberation Sans")\n#text("{" ".join(text)}")'.encode()
    try:
        typst.compile(source, font_paths=fonts, pdf_standards=["a-2b"], timestamp=0, pdf_tags=False)
    except typst.TypstError:
        return False
    return True


@cache
def shipped_fonts() -> Any:
    import typst  # noqa: PLC0415

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(_SHIPPED)])


@cache
def machine_fonts() -> Any:
    """The shipped fonts and all that are installed on the machine."""
    import typst  # noqa: PLC0415

    return typst.Fonts(include_system_fonts=True, include_embedded_fonts=False, font_paths=[str(_SHIPPED)])
