"""The blocks that pages ask for by name."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

from ..calculations import CALCULATIONS, FILE_READINGS, FORMS, Calculation, FileReading
from .answers import answered, request_of
from .field_tables import record_names, record_table, request_tables, response_table
from .wording import cell, number, table, unit

__all__ = ["BLOCKS"]

OFFERED_IN_ORDER: tuple[Calculation | FileReading, ...] = (*CALCULATIONS, *FILE_READINGS)
OFFERED: dict[str, Calculation | FileReading] = {each.name: each for each in OFFERED_IN_ORDER}
_LONGEST_REQUEST = 60
"""Lines of a request that are shown on a page; more are left to the file."""
_MOST_WORKINGS = 60


def _head(name: str) -> str:
    """How the calculation is asked for in every way there is."""
    offered = OFFERED[name]
    command = "import" if isinstance(offered, FileReading) else name
    forms = [f"`{media_type}` ({FORMS[media_type]})" for media_type in offered.media_types]
    rows = [
        (
            "over HTTP",
            f"`POST {offered.path}`"
            + (" or `GET` with a query" if getattr(offered, "readable", False) else ""),
        ),
        ("at the command line", f"`tepidarium {command}`"),
        (
            "in Python",
            f"`Client.{offered.operation_id}`, and without a service `tepidarium_engine.{offered.operation_id}`",
        ),
    ]
    if forms:
        rows.append(("other forms of the answer", ", ".join(forms)))
    return f"{offered.summary}.\n\n" + table(("asked", "by"), rows)


def _picture(name: str) -> str:
    return f"![{OFFERED[name].summary}](../pictures/{name}.svg)"


def _inputs(name: str) -> str:
    return request_tables(name, "../")


def _results(name: str) -> str:
    return (
        response_table(name, "../")
        + "\n\nBeside these, [every answer](../reading-an-answer.md) has the same few members."
    )


def _request(name: str) -> str:
    text = json.dumps(request_of(name), indent=2)
    lines = text.splitlines()
    if len(lines) > _LONGEST_REQUEST:
        return f"The request stands in `examples/{name}.json` ({len(lines)} lines)."
    return f"The request, `examples/{name}.json`:\n\n```json\n{text}\n```"


def _workings(name: str) -> str:
    """The chain of intermediate values as the service gives it."""
    found = answered(name)["workings"]
    rows = [_working(each) for each in found[:_MOST_WORKINGS]]
    left_out = len(found) - len(rows)
    more = (
        f"\n\n{left_out} further lines are in the answer, alike for the other rooms, circuits or items."
        if left_out
        else ""
    )
    return table(("symbol", "what it is", "value", "formula", "source"), rows) + more


def _working(line: dict[str, Any]) -> tuple[str, ...]:
    value = f"{number(line['value'])} {unit(line['unit'])}".strip()
    formula = line["formula"].replace("|", "\\|")
    return f"`{line['symbol']}`", cell(line["name"]), value, f"`{formula}`", cell(line["source"])


def _sources(name: str) -> str:
    """Every source that the workings of the example name, each once."""
    named = {part.strip() for line in answered(name)["workings"] for part in line["source"].split(";")}
    not_sources = {
        "Input",
        "inputs",
        "Arithmetic",
        "Geometry",
        "geometry",
        "given",
        "this plan",
        "Definition",
        "definition",
    }
    return "\n".join(f"- {cell(each)}" for each in sorted(named - not_sources))


def _findings(name: str) -> str:
    """What the example is warned about."""
    rows = [
        (f"`{each['code']}`", each["severity"], cell(each["message"]), cell(each["places"][0]["message"]))
        for each in answered(name)["findings"]
    ]
    return (
        table(("finding", "severity", "what happens, why it matters, what to do", "first place"), rows)
        if rows
        else ("The example has no findings.")
    )


def _taken(name: str) -> str:
    """What an import took from the file, and what it guessed."""
    found = answered(name)
    rows = [
        (word, f"`{each['where']}`", cell(each["message"]), cell(each["element"]))
        for word in ("taken", "guessed", "missing")
        for each in found[word]
    ]
    return "The file is `examples/plan-imports.xml`.\n\n" + table(
        ("list", "place in the request", "what", "in the file"), rows
    )


def _cautions(name: str) -> str:
    return "\n".join(f"- {cell(each['message'])}" for each in answered(name)["cautions"])


def _records() -> str:
    return "\n\n".join(f"## {name}\n\n{record_table(name, '../')}" for name in record_names())


def _calculations(page: str = "") -> str:
    rows = [(f"[{name}]({page}calculations/{name}.md)", cell(each.summary)) for name, each in OFFERED.items()]
    return table(("calculation", "what it computes"), rows)


BLOCKS: Mapping[str, Callable[..., str]] = {
    "head": _head,
    "picture": _picture,
    "inputs": _inputs,
    "results": _results,
    "request": _request,
    "workings": _workings,
    "sources": _sources,
    "findings": _findings,
    "taken": _taken,
    "cautions": _cautions,
    "records": _records,
    "calculations": _calculations,
}
