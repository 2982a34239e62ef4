"""An answer as a report for people: what to decide first, values in trade units, tables, notes and cautions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ._findings import cautions, decisions, notes
from ._layouts import BY_ROOM, HIDDEN, JOINED, LAYOUTS, MERGED, NESTED, ONLY_SEVERAL, SUMMARIES, TITLES
from ._tables import Column, columns_of, is_record, is_record_list, table, values
from ._units import label

__all__ = ["WIDTH", "report"]

WIDTH = 120
"""Of a report that goes to a file or another program [characters]."""

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


def _rows(
    command: str, name: str, rows: Sequence[Mapping[str, Any]], answer: Mapping[str, Any], width: int
) -> list[str]:
    rows = _with_names(rows, answer) if (command, name) in BY_ROOM else rows
    merged = MERGED.get((command, name))
    if merged is not None:
        rows = merged.rows(rows)
    return table(rows, LAYOUTS.get((command, name)) or columns_of(rows), width)


def _with_names(rows: Sequence[Mapping[str, Any]], answer: Mapping[str, Any]) -> Sequence[Mapping[str, Any]]:
    """Rows with the names of their rooms in place of the ids."""
    names = {room["id"]: room["name"] or room["id"] for room in answer["rooms"]}
    return [{**row, "room": names[row["room"]]} for row in rows]


def _block(title: str, lines: list[str]) -> list[str]:
    return [title, "=" * len(title), *lines] if lines else []


def _workings(steps: Sequence[Mapping[str, Any]] | None, width: int) -> list[str]:
    names = ("symbol", "name", "number", "unit", "formula", "source")
    rows = [{**step, "number": f"{step['value']:.6g}"} for step in steps or ()]
    return table(rows, [Column((name,), "value" if name == "number" else name) for name in names], width)
