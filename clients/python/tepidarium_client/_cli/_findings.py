"""Findings and cautions of an answer as lines for people. The service writes their numbers in trade units."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from typing import Any

__all__ = ["cautions", "decisions", "notes", "violations"]

URGENT = {"violation": "Do not build it like this:", "warning": "Have a second look:"}
FEW = 4
"""Places that are all shown with their numbers."""
NAMED = 4
"""Further places that are named; all stand in the answer as JSON."""


def violations(answer: Mapping[str, Any]) -> int:
    """How many findings say that this should not be built."""
    return sum(finding["severity"] == "violation" for finding in answer["findings"])


def decisions(answer: Mapping[str, Any], width: int) -> list[str]:
    """What to decide before anything is built, the most urgent first."""
    lines: list[str] = []
    for severity, title in URGENT.items():
        found = _of(severity, answer, width, sourced=severity == "violation" or "workings" in answer)
        lines += [title, *found] if found else []
    return lines or ["Nothing: no violation and no warning."]


def notes(answer: Mapping[str, Any], width: int) -> list[str]:
    """What else is worth knowing."""
    return _of("note", answer, width, sourced="workings" in answer)


def cautions(answer: Mapping[str, Any], width: int) -> list[str]:
    return [line for caution in answer["cautions"] for line in _hanging("! ", caution["message"], width)]


def _of(severity: str, answer: Mapping[str, Any], width: int, *, sourced: bool) -> list[str]:
    """The words of each finding, and below them its places."""
    lines: list[str] = []
    for finding in answer["findings"]:
        if finding["severity"] == severity:
            source = f" ({finding['source']})" if sourced and finding["source"] else ""
            lines += _hanging("- ", finding["message"] + source, width)
            lines += _hanging("  ", _places(finding["places"]), width)
    return lines


def _places(places: Sequence[Mapping[str, Any]]) -> str:
    """All of a few places; of many the first, which is the worst, and the others by their names."""
    whole = places if len(places) <= FEW else places[:1]
    words = "; ".join(filter(None, (_place(place) for place in whole)))
    named = {place["subject"]: None for place in places[len(whole) :]}
    names = [name for name in named if name and name != places[0]["subject"]]
    if not names:
        return words
    more = f"; and {len(names) - NAMED} more" if len(names) > NAMED else ""
    return f"{words.removesuffix('.')}. Also {'; '.join(names[:NAMED])}{more}"


def _place(place: Mapping[str, Any]) -> str:
    return ": ".join(part for part in (place["subject"], place["message"]) if part)


def _hanging(lead: str, text: str, width: int) -> list[str]:
    return textwrap.wrap(
        text,
        width,
        initial_indent=lead,
        subsequent_indent=" " * len(lead),
        break_long_words=False,
        break_on_hyphens=False,
    )
