"""An answer as a report for people: values in the trade's units, tables, findings and cautions."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ._layouts import JOINED, LAYOUTS, NESTED, TITLES
from ._messages import in_words
from ._tables import Column, columns_of, is_record, is_record_list, table, values
from ._units import label

__all__ = ["WIDTH", "report", "violations"]

WIDTH = 120
"""Of a report that goes to a file or another program [characters]."""

INDENT = 11
SEVERITIES = ("violation", "warning", "note")
SPECIAL = {"inputs", "findings", "cautions", "workings", "engine_version"}


def report(command: str, answer: Mapping[str, Any], width: int = WIDTH) -> str:
    """The whole report of an answer, wrapped to ``width`` [characters] where it can be."""
    blocks = [
        *_blocks(command, answer, width),
        _block("Findings (numbers in SI units)", _findings(answer, width)),
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
    """Worst first, each text once with all the places it holds for. The numbers are in SI units: the quantity of
    a finding need not be that of the field it points to."""
    rank = {severity: place for place, severity in enumerate(SEVERITIES)}
    places: dict[tuple[str, str], list[str]] = {}
    for finding in sorted(answer["findings"], key=lambda one: rank.get(one["severity"], len(rank))):
        places.setdefault((finding["severity"], finding["message"] + _source(finding)), []).append(
            in_words(finding["where"], _document(finding, answer)) + _numbers(finding)
        )
    lines = []
    for (severity, text), where in places.items():
        lines += _hanging(f"{severity:<{INDENT}}", text, width)
        for place in where:
            lines += _hanging(" " * INDENT + "- ", place, width)
    return lines or ["None."]


def _hanging(lead: str, text: str, width: int) -> list[str]:
    return textwrap.wrap(text, width, initial_indent=lead, subsequent_indent=" " * len(lead))


def _document(finding: Mapping[str, Any], answer: Mapping[str, Any]) -> Any:
    """What the pointer of a finding points into: the result if it begins so, else the inputs."""
    return {"result": answer} if finding["where"].startswith("/result") else answer["inputs"]


def _numbers(finding: Mapping[str, Any]) -> str:
    value, limit = finding.get("value"), finding.get("limit")
    parts = [] if value is None else [f"{value:.6g}"]
    parts += [] if limit is None else [f"limit {limit:.6g}"]
    return f": {', '.join(parts)}" if parts else ""


def _source(finding: Mapping[str, Any]) -> str:
    return f" ({finding['source']})" if finding.get("source") else ""


def _workings(steps: Sequence[Mapping[str, Any]] | None, width: int) -> list[str]:
    names = ("symbol", "name", "number", "unit", "formula", "source")
    rows = [{**step, "number": f"{step['value']:.6g}"} for step in steps or ()]
    return table(rows, [Column((name,), "value" if name == "number" else name) for name in names], width)


def _cautions(answer: Mapping[str, Any], width: int) -> list[str]:
    return [line for caution in answer["cautions"] for line in _hanging("! ", caution["message"], width)]
