"""Elements of an SVG 1.1 drawing as text. Lengths are millimetres on paper, y pointing down."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from xml.sax.saxutils import escape, quoteattr

from .marks import isolated

__all__ = ["Paper", "document", "element", "group", "number", "points", "polygon", "text"]

Paper = tuple[float, float]
"""A place on the sheet [mm]."""


def number(value: float) -> str:
    """In thousandths of a millimetre, without a negative zero: the same value gives the same text."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")


def element(name: str, content: str = "", **attributes: str | float) -> str:
    """An element; underscores in attribute names stand for hyphens, a trailing one is dropped."""
    named = " ".join(
        f"{key.rstrip('_').replace('_', '-')}={quoteattr(value if isinstance(value, str) else number(value))}"
        for key, value in attributes.items()
    )
    opened = f"<{name} {named}" if named else f"<{name}"
    return f"{opened}>{content}</{name}>" if content else f"{opened}/>"


def group(content: Iterable[str], **attributes: str | float) -> str:
    return element("g", "\n" + "\n".join(content) + "\n", **attributes)


def text(place: Paper, words: str, height: float = 2.5, **attributes: str | float) -> str:
    """Text whose capitals are about ``height`` [mm] high, with its baseline at the place."""
    x, y = place
    return element("text", escape(isolated(words)), x=x, y=y, font_size=height * 1.4, **attributes)


def points(places: Iterable[Paper]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in places)


def polygon(rings: Iterable[Sequence[Paper]]) -> str:
    """Path data of closed rings."""
    return " ".join(f"M {points(ring).replace(' ', ' L ')} Z" for ring in rings)


def document(size: Paper, title: str, content: Iterable[str], style: Mapping[str, str]) -> bytes:
    """The whole drawing, to scale when printed without fitting to the page."""
    width, height = map(number, size)
    rules = "\n".join(f".{name} {{ {rule} }}" for name, rule in style.items())
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">'
    )
    body = "\n".join(content)
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n{head}\n<title>{escape(title)}</title>\n'
        f"<style>\n{rules}\n</style>\n{body}\n</svg>\n"
    ).encode()
