"""Plots in plain text: a dot or a bar in each row of a table."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from ._tables import Column

__all__ = ["with_bars", "with_changes", "with_dots"]

Rows = Sequence[Mapping[str, Any]]
Prepare = Callable[[Rows, Mapping[str, Any]], Rows]

_DOTS, _BAR = 18, 8
"""Characters of a row of dots, and of the longest bar to either side."""


def with_dots(path: str, instead: str = "") -> Prepare:
    """Adds ``plot``: a dot in each row where its value lies between the least and the most, or the value ``instead``
    where every row has that."""

    def prepared(rows: Rows, _: Mapping[str, Any]) -> Rows:
        column = Column.of(instead or path)
        if any(column.value(row) is None for row in rows):
            column = Column.of(path)
        known = [value for value in map(column.value, rows) if value is not None]
        low, high = min(known, default=0.0), max(known, default=0.0)
        return [{**row, "plot": _dot(column.value(row), low, high)} for row in rows]

    return prepared


def _dot(value: float | None, low: float, high: float) -> str:
    if value is None:
        return ""
    place = round(_DOTS * (value - low) / (high - low)) if high > low else 0
    return "." * place + "o" + "." * (_DOTS - place)


def with_bars(name: str) -> Prepare:
    """Adds ``plot``: a bar in each row, to the left where its value is negative."""

    def prepared(rows: Rows, _: Mapping[str, Any]) -> Rows:
        most = max((abs(row[name]) for row in rows), default=0.0)
        return [{**row, "plot": _bar(row[name] / most if most else 0.0)} for row in rows]

    return prepared


def _bar(share: float) -> str:
    length = round(_BAR * abs(share))
    bar, empty = "#" * length, "." * (_BAR - length)
    other = "." * _BAR
    return f"{empty}{bar}|{other}" if share < 0.0 else f"{other}|{bar}{empty}"


def with_changes(rows: Rows, _: Mapping[str, Any]) -> Rows:
    """Tolerances with the findings that change just above them, in words."""
    return [
        {**row, "name": _who(row), "changed": "; ".join(_told(row["changes"])) or _nothing(row)}
        for row in rows
    ]


def _who(row: Mapping[str, Any]) -> str:
    return str(row["name"] or row["room"] or "all together")


def _nothing(row: Mapping[str, Any]) -> str:
    return (
        "no house can be computed beyond"
        if row["tolerable_rise"] is not None
        else "nothing up to twice the heat"
    )


def _told(changes: Rows) -> Iterator[str]:
    found: dict[str, list[str]] = {}
    for each in changes:
        found.setdefault(f"{each['code'].replace('_', ' ')} is {each['change']}", []).append(each["subject"])
    for what, subjects in found.items():
        yield f"{what} for {', '.join(subjects)}" if any(subjects) else what
