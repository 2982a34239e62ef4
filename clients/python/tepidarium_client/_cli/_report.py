"""An answer as a report for people: what to decide first, values in trade units, tables, notes and cautions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any

from ._findings import cautions, decisions, notes
from ._layouts import HIDDEN, JOINED, LAYOUTS, NESTED, ONLY_SEVERAL, SUMMARIES, TITLES
from ._plots import with_bars, with_changes, with_dots
from ._tables import Column, cell, columns_of, is_record, is_record_list, table, values
from ._units import label

__all__ = ["WIDTH", "report"]

WIDTH = 120
"""Of a report that goes to a file or another program [characters]."""

Rows = Sequence[Mapping[str, Any]]

SPECIAL = {"inputs", "findings", "cautions", "workings", "engine_version"}


def report(command: str, answer: Mapping[str, Any], width: int = WIDTH) -> str:
    """The whole report of an answer, wrapped to ``width`` [characters] where it can be."""
    blocks = [
        _block(command.replace("-", " ").capitalize(), _summary(command, answer)),
        _block("Decide first", decisions(answer, width)),
        *_tables(command, answer, width),
        _block("Notes", notes(answer, width)),
        _block("Workings (SI units)", _workings(answer.get("workings"), width)),
        _block("Cautions", cautions(answer, width)),
        [f"Engine version {answer['engine_version']}"],
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _summary(command: str, answer: Mapping[str, Any]) -> list[str]:
    """The plain values of an answer, or those that matter most."""
    plain = {name: value for name, value in answer.items() if name not in SPECIAL}
    return values(plain, SUMMARIES.get(command, ()))


def _tables(command: str, answer: Mapping[str, Any], width: int) -> Iterator[list[str]]:
    """Each record and each table."""
    shown = {
        name: value for name, value in answer.items() if name not in SPECIAL | HIDDEN.get(command, set())
    }
    joined = JOINED.get(command, {})
    shown = {name: part.rows(answer) for name, part in joined.items() if part.first} | shown
    shown |= {name: part.rows(answer) for name, part in joined.items() if not part.first}
    for name, path in NESTED.get(command, {}).items():
        shown[name] = Column.of(path).value(answer)
    for name, value in shown.items():
        title = TITLES.get((command, name), label(name).capitalize())
        if is_record(value):
            yield _block(title, values(value))
        elif is_record_list(value) and (len(value) > 1 or (command, name) not in ONLY_SEVERAL):
            yield _block(title, _rows(command, name, value, answer, width))


def _rows(command: str, name: str, rows: Rows, answer: Mapping[str, Any], width: int) -> list[str]:
    prepare = PREPARED.get((command, name))
    shown = rows if prepare is None else prepare(rows, answer)
    return table(shown, LAYOUTS.get((command, name)) or columns_of(shown), width)


def _with_names(rows: Rows, answer: Mapping[str, Any]) -> Rows:
    """Rows with the names of their rooms in place of the ids."""
    names = {room["id"]: room["name"] or room["id"] for room in answer["rooms"]}
    return [{**row, "room": names[row["room"]]} for row in rows]


def _with_supplies(rows: Rows, answer: Mapping[str, Any]) -> Rows:
    """Stages of build-ups with the supply temperatures of their days."""
    plans = {one["build_up"]: one["plan"]["daily_programme"] for one in answer["curing_plans"]}
    return [
        {
            **row,
            "supply": _supplies(
                day["supply_temperature"]
                for day in next(
                    days for name, days in plans.items() if f"{row['build_up']},".startswith(f"{name},")
                )
                if day["stage"] == row["stage"]
            ),
        }
        for row in rows
    ]


def _of_the_house(rows: Rows, _: Mapping[str, Any]) -> Rows:
    """Figures of the house, its order and its dates: those of rooms and circuits stand in the other tables."""
    return [row for row in rows if not row["where"].startswith(("/rooms/", "/circuits/"))]


def _supplies(temperatures: Iterable[float]) -> str:
    """``25.0 °C for 3 days, 40.0 °C for 4 days``."""
    runs = [
        (shown, len(list(run)))
        for shown, run in groupby(cell("supply_temperature", one) for one in temperatures)
    ]
    return ", ".join(f"{shown} °C for {days} day{'s' if days > 1 else ''}" for shown, days in runs)


PREPARED: dict[tuple[str, str], Callable[[Rows, Mapping[str, Any]], Rows]] = {
    ("designs", "circuits"): _with_names,
    ("designs", "dates"): _with_supplies,
    ("designs", "figures"): _of_the_house,
    ("designs", "front"): with_dots("pipe_length", "material_cost"),
    ("design-options", "options"): with_dots("pipe_length", "material_cost"),
    ("designs", "reactions"): with_bars("supply_difference"),
    ("design-sensitivity", "lines"): with_bars("supply_difference"),
    ("designs", "reserves"): with_changes,
    ("design-sensitivity", "finding_tolerances"): with_changes,
    ("designs", "year"): with_dots("supply_temperature"),
    ("heating-season", "bins"): with_dots("supply_temperature"),
}
"""Command and table -> what its rows are made into before they are shown."""


def _block(title: str, lines: list[str]) -> list[str]:
    return [title, "=" * len(title), *lines] if lines else []


def _workings(steps: Sequence[Mapping[str, Any]] | None, width: int) -> list[str]:
    names = ("symbol", "name", "number", "unit", "formula", "source")
    rows = [{**step, "number": f"{step['value']:.6g}"} for step in steps or ()]
    return table(rows, [Column((name,), "value" if name == "number" else name) for name in names], width)
