"""Marks in the text: what stands between them is written by this package, everything else by hand.

A block begins with ``<!-- block: NAME WORDS -->`` and ends with ``<!-- end -->``, each on a line of its own. A figure
stands in a line: ``<!-- = WORDS -->12.3 m<!-- . -->``, and never begins it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

__all__ = ["filled", "hand_written"]

_BLOCK = re.compile(
    r"^(<!-- block: (?P<name>\S+)(?P<words>[^\n]*?) -->\n)(?P<old>.*?)^(?P<end><!-- end -->)$", re.M | re.S
)
_FIGURE = re.compile(r"(<!-- = (?P<words>.*?) -->)(?P<old>[^\n]*?)(<!-- \. -->)")
_STRAY = re.compile(r"^<!-- = ", re.M)


def filled(text: str, blocks: Mapping[str, Callable[..., str]], figure: Callable[[str], str]) -> str:
    """The text with everything between marks written anew."""
    if _STRAY.search(text):
        raise ValueError("a figure begins a line: Markdown would take the line for HTML")
    if text.count("<!-- block: ") != len(_BLOCK.findall(text)) or text.count("<!-- = ") != len(
        _FIGURE.findall(text)
    ):
        raise ValueError("a mark is not closed")

    def block(found: re.Match[str]) -> str:
        made = blocks[found["name"]](*found["words"].split())
        return f"{found[1]}\n{made}\n\n{found['end']}"

    text = _BLOCK.sub(block, text)
    return _FIGURE.sub(lambda found: f"{found[1]}{figure(found['words'])}{found[4]}", text)


def hand_written(text: str) -> str:
    """The text without what stands between marks."""
    return _FIGURE.sub("", _BLOCK.sub("", text))
