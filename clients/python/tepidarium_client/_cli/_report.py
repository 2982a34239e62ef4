"""An answer as a report for people: values in the trade's units, tables, findings and cautions."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ._layouts import JOINED, LAYOUTS, NESTED, TITLES
from ._tables import Column, columns_of, is_record, is_record_list, table, values
from ._units import label

__all__ = ["WIDTH", "report", "violations"]

WIDTH = 120
"""Of a report that goes to a file or another program [characters]."""

INDENT = 11
SPECIAL = {"inputs", "findings", "cautions", "workings", "engine_version"}


def report(command: str, answer: Mapping[str, Any], width: int = WIDTH) -> str:
    """The whole report of an answer, wrapped to ``width`` [characters] where it can be."""
    blocks = [
        *_blocks(command, answer, width),
        _block("Findings", _findings(answer, width)),
        _block("Workings (SI units)", _workings(answer.get("workings"), width)),
        _block("Cautions", _cautions(answer, width)),
        [f"Engine version {answer['engine_version']}"],
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def violations(answer: Mapping[str, Any]) -> int:
    """How many findings say that this should not be built."""
    return sum(finding["severity"] == "violation" for finding in answer["findings"])


def _blocks(command: str, answer: Mapping[str, Any], width: int) -> Iterator[list[str]]:
    """The plain values first, then each record and each table."""
    shown = {name: value for name, value in answer.items() if name not in SPECIAL}
    yield _block(command.replace("-", " ").capitalize(), values(shown))
    for name, joined in JOINED.get(command, {}).items():
        shown[name] = joined.rows(answer)
    for name, path in NESTED.get(command, {}).items():
        shown[name] = Column.of(path).value(answer)
    for name, value in shown.items():
        title = TITLES.get((command, name), label(name).capitalize())
        if is_record(value):
            yield _block(title, values(value))
        elif is_record_list(value):
            yield _block(title, _rows(command, name, value, width))


def _rows(command: str, name: str, rows: Sequence[Mapping[str, Any]], width: int) -> list[str]:
    return table(rows, LAYOUTS.get((command, name)) or columns_of(rows), width)


def _block(title: str, lines: list[str]) -> list[str]:
    return [title, "=" * len(title), *lines] if lines else []


def _findings(answer: Mapping[str, Any], width: int) -> list[str]:
    """In the order of the answer, each with its places; the service writes numbers in the trade's units."""
    lines = []
    for finding in answer["findings"]:
        lines += _hanging(f"{finding['severity']:<{INDENT}}", finding["message"] + _source(finding), width)
        for place in finding["places"]:
            words = ": ".join(part for part in (place["subject"], place["message"]) if part)
            lines += _hanging(" " * INDENT + "- ", words, width) if words else []
    return lines or ["None."]


def _hanging(lead: str, text: str, width: int) -> list[str]:
    return textwrap.wrap(text, width, initial_indent=lead, subsequent_indent=" " * len(lead))


def _source(finding: Mapping[str, Any]) -> str:
    return f" ({finding['source']})" if finding.get("source") else ""


def _workings(steps: Sequence[Mapping[str, Any]] | None, width: int) -> list[str]:
    names = ("symbol", "name", "number", "unit", "formula", "source")
    rows = [{**step, "number": f"{step['value']:.6g}"} for step in steps or ()]
    return table(rows, [Column((name,), "value" if name == "number" else name) for name in names], width)


def _cautions(answer: Mapping[str, Any], width: int) -> list[str]:
    return [line for caution in answer["cautions"] for line in _hanging("! ", caution["message"], width)]
