"""The result files of a design: for programs, spreadsheets, calendars and people."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from .._client import Client
from .._wire import CALENDAR, DRAWING
from ._layouts import SCHEDULE
from ._report import report
from ._tables import Column, cell

__all__ = ["write_files"]


def write_files(
    folder: Path, client: Client, request: Mapping[str, Any], content: bytes, result: Mapping[str, Any]
) -> list[Path]:
    """Write ``result.json``, ``schedule.csv`` and ``report.txt`` into a folder, which is made when missing;
    ``storey.svg`` and ``routes.json`` (lines and arcs of every pipe) for a design that is drawn, and
    ``calendar.ics`` for one with dates, if the service makes them."""
    folder.mkdir(parents=True, exist_ok=True)
    files = {
        "result.json": content,
        "schedule.csv": _csv(_schedule(result), SCHEDULE).encode("utf-8"),
        "report.txt": report("designs", result).encode("utf-8"),
    }
    if result.get("layout"):
        files["routes.json"] = json.dumps(result["layout"], indent=1).encode("utf-8")
        if _offers(client, DRAWING):
            files["storey.svg"] = client.answer("designs", request, DRAWING).content
    if result["curing_plans"] and _offers(client, CALENDAR):
        files["calendar.ics"] = client.answer("designs", _undrawn(request, result), CALENDAR).content
    for name, text in files.items():
        (folder / name).write_bytes(text)
    return [folder / name for name in files]


def _schedule(result: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The circuits, each with what its room says about all of its circuits."""
    patterns = {room["id"]: room["pattern"] for room in result["inputs"]["rooms"]}
    laid = {
        room["id"]: {
            "room_name": room["name"],
            "pipe_spacing": room["pipe_spacing"],
            "pattern": patterns[room["id"]],
        }
        for room in result["rooms"]
    }
    return [{**circuit, **laid[circuit["room"]]} for circuit in result["circuits"]]


def _undrawn(request: Mapping[str, Any], result: Mapping[str, Any]) -> dict[str, Any]:
    """The same on the same supply: dates do not depend on the drawing, which takes long."""
    source = {**(request.get("source") or {}), "supply_temperature": result["supply_temperature"]}
    undrawn: dict[str, Any] = {
        "doorways": [],
        "ordering": None,
        "commissioning": None,
        "laying_sheets": False,
    }
    return {**request, **undrawn, "source": source}


def _offers(client: Client, media_type: str) -> bool:
    entries = client.calculations().calculations
    return any(entry.name == "designs" and media_type in entry.media_types for entry in entries)


def _csv(rows: Sequence[Mapping[str, Any]], columns: Sequence[Column]) -> str:
    """A table as RFC 4180 text, in the trade's units, with the unit in the heading."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow([" ".join(column.heading_lines()) for column in columns])
    writer.writerows([_csv_cell(column, row) for column in columns] for row in rows)
    return text.getvalue()


def _csv_cell(column: Column, row: Mapping[str, Any]) -> str:
    value = column.value(row)
    return "" if value is None else cell(column.name, value)
