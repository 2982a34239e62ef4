"""The figures of a release: what it answers to all published cases and all examples, in one file that is committed.

A number of an answer goes by its place in the document without list indices: one number as it is, many as their count
and the sum of their sizes. Of an example all numbers are taken, of a case those at the top of the answer and those that
the case checks. Findings and cautions are words and stay out, and so do the inputs that an answer repeats. Dates count
as days.
"""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import msgspec
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_engine import __version__

__all__ = ["RECORD", "computed", "differences", "is_released", "recorded", "write"]

TOP = Path(__file__).parents[2]
RECORD = Path(__file__).parent / f"{__version__}.json"
CHANGES = TOP / "engine" / "CHANGELOG.md"
DIGITS = 6
SAME = 1e-5
"""Share of a figure by which it may differ: less than any reader sees, more than another library's last bits."""

_WORDS = {"cautions", "findings", "inputs", "plan_inputs", "section_inputs"}
_DATE = re.compile(r"\d{4}-\d\d-\d\d")

Figures = dict[str, Any]
"""By place: a number, or count and sum."""


def computed() -> dict[str, Figures]:
    """The figures of the engine as it stands, by example or published case."""
    calculations = {calculation.name: calculation for calculation in CALCULATIONS}
    found = {}
    for name, calculation, body, checked in _requests():
        one = calculations[calculation]
        result = one.calculate(msgspec.convert(body, one.inputs, strict=True))
        figures = _figures(msgspec.json.decode(msgspec.json.encode(result)))
        found[name] = {
            place: figure
            for place, figure in figures.items()
            if checked is None or "/" not in place or place in checked
        }
    return found


def recorded() -> dict[str, Figures]:
    found: dict[str, Figures] = json.loads(RECORD.read_text(encoding="utf-8"))
    return found


def write() -> None:
    """Write the record of this version again: one line a case, so that a comparison shows which cases changed."""
    lines = [f"{json.dumps(name)}: {json.dumps(figures)}" for name, figures in computed().items()]
    RECORD.write_text("{\n" + ",\n".join(lines) + "\n}\n", encoding="utf-8")


def is_released() -> bool:
    """Whether the list of changes calls this version released: its record is not written again then."""
    heading = re.search(rf"^## {re.escape(__version__)}\b(.*)$", CHANGES.read_text(encoding="utf-8"), re.M)
    return heading is None or "not released" not in heading[1]


def differences(before: dict[str, Figures], now: dict[str, Figures]) -> list[str]:
    """Each figure that is not the same, in words."""
    found = [f"{name}: no figures are recorded" for name in now if name not in before]
    found += [f"{name}: is recorded and not computed any more" for name in before if name not in now]
    for name in (name for name in now if name in before):
        for place in sorted({*before[name], *now[name]}):
            old, new = before[name].get(place), now[name].get(place)
            if not _same(old, new):
                found.append(f"{name}: {place} is {new}, recorded is {old}")
    return found


def _requests() -> Iterator[tuple[str, str, Any, set[str] | None]]:
    """Name, calculation and body of all examples and of all published cases that are answered, and the places that a
    case checks."""
    names = {calculation.name for calculation in CALCULATIONS}
    for path in sorted((TOP / "examples").glob("*.json")):
        calculation = path.stem if path.stem in names else "designs"
        yield f"example {path.stem}", calculation, json.loads(path.read_text(encoding="utf-8")), None
    for path in sorted((TOP / "tests" / "vectors").glob("*.json")):
        vectors = json.loads(path.read_text(encoding="utf-8"))
        for case in vectors.get("cases", ()):
            if "expect" in case:
                checked = {_without_indices(one["pointer"]) for one in case["expect"]}
                yield f"{path.stem}: {case['name']}", vectors["calculation"], case["request"], checked


def _without_indices(pointer: str) -> str:
    return "/".join(step for step in pointer.split("/")[1:] if not step.isdigit())


def _figures(document: Any) -> Figures:
    places: dict[str, list[float]] = {}
    for place, number in _numbers(document, ""):
        places.setdefault(place, []).append(number)
    return {
        place: _rounded(numbers[0]) if len(numbers) == 1 else [len(numbers), _rounded(sum(map(abs, numbers)))]
        for place, numbers in places.items()
    }


def _numbers(value: Any, place: str) -> Iterator[tuple[str, float]]:
    if isinstance(value, dict):
        for name, member in value.items():
            if name not in _WORDS:
                yield from _numbers(member, f"{place}/{name}" if place else name)
    elif isinstance(value, list):
        for member in value:
            yield from _numbers(member, place)
    elif isinstance(value, str) and _DATE.fullmatch(value):
        yield place, float(datetime.date.fromisoformat(value).toordinal())
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield place, float(value)


def _rounded(number: float) -> float:
    return float(f"{number:.{DIGITS}g}")


def _same(old: Any, new: Any) -> bool:
    if old is None or new is None or isinstance(old, list) != isinstance(new, list):
        return old is new
    pairs = zip(old, new, strict=True) if isinstance(old, list) else [(old, new)]
    return all(abs(one - other) <= SAME * max(abs(one), abs(other)) for one, other in pairs)
