"""The blocks that pages ask for by name."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from typing import Any

import msgspec
from tepidarium_engine.findings import FINDINGS
from tepidarium_engine.trade_units import in_trade_units

from ..calculations import CALCULATIONS, FILE_READINGS, FORMS, Calculation, FileReading
from .answers import answered, calculation_of, request_of
from .field_tables import record_names, record_table, request_tables, response_table
from .figures import figure_of
from .names import client_names, engine_names, paths, problem_types, settings, typescript_names
from .term_sketches import TERMS
from .wording import cell, number, table, unit

__all__ = ["BLOCKS", "terms"]

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
    """Every finding that the calculation can report, in the order in which to deal with them."""
    given = {each["code"] for each in answered(name)["findings"]}
    rows = [
        (f"`{code}`", " or ".join(kind.severities), *map(cell, (kind.meaning, kind.cause, kind.remedy)))
        for code, kind in FINDINGS.items()
        if name in kind.calculations and not kind.guard
    ]
    here = ", ".join(f"`{code}`" for code in FINDINGS if code in given)
    ends = f"The example reports {here}." if here else "The example has no findings."
    head = ("finding", "severity", "what happens, why it matters", "what it comes from", "what to do")
    return f"{table(head, rows)}\n\n{ends}"


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


_SPACINGS = (0.1, 0.15, 0.2, 0.25, 0.3)
_OUTPUTS = (30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0)


def _supply_table(resistance: str) -> str:
    """Supply temperature by heat output and spacing under a covering, of the example's floor."""
    rows = []
    for output in _OUTPUTS:
        found = _options(output, float(resistance))
        cells = (f"{each.supply_temperature:.0f} °C" if each.within_limits else "–" for each in found)
        rows.append((in_trade_units("heat_output", output).replace("m2", "m²"), *cells))
    head = ("heat output", *(in_trade_units("pipe_spacing", spacing) for spacing in _SPACINGS))
    return f"Covering resistance {resistance} m²·K/W.\n\n" + table(head, rows)


def _options(output: float, resistance: float) -> Iterator[Any]:
    calculation = calculation_of("supply-temperature")
    for spacing in _SPACINGS:
        asked = request_of("supply-temperature") | {
            "required_heat_output": output,
            "covering_resistance": resistance,
            "pipe_spacing": spacing,
            "pipe_spacings": [spacing],
            "other_rooms": [],
        }
        yield calculation.calculate(msgspec.convert(asked, calculation.inputs)).options[0]


def _rooms(example: str) -> str:
    """The rooms of a design with what their floors do."""
    rows = [
        (
            cell(room["name"]),
            *(
                "–" if room[key] is None else figure_of(key, room[key])
                for key in ("pipe_spacing", "heat_demand", "heat_given", "mean_surface_temperature")
            ),
        )
        for room in answered(example)["rooms"]
    ]
    return table(("room", "spacing", "heat it needs", "heat it gets", "surface"), rows)


def terms(folder: str = "") -> str:
    """The terms of geometry, each with its sketch."""
    rows = [
        (
            f"![{term.name}]({folder}pictures/{term.picture}.svg)",
            f"**{term.name.capitalize()}**. {term.meaning}",
        )
        for term in TERMS
    ]
    return table(("sketch", "term"), rows)


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
    "rooms": _rooms,
    "settings": settings,
    "engine-names": engine_names,
    "client-names": client_names,
    "typescript-names": typescript_names,
    "paths": paths,
    "problem-types": problem_types,
    "supply-table": _supply_table,
    "calculations": _calculations,
    "terms": terms,
}
