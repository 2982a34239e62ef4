"""The result files of a design: for programs, spreadsheets, calendars and people."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from .._answers import Answer, unreadable
from .._client import Client
from .._wire import FILES, JSON
from ._report import report

__all__ = ["FileAccessError", "offers", "unpacked", "write_files"]

RESULT = "result.json"


class FileAccessError(Exception):
    """A file cannot be read or written."""


def offers(client: Client, command: str, media_type: str) -> bool:
    """Whether this service makes such an answer of a calculation."""
    entries = client.calculations().calculations
    return any(entry.name == command and media_type in entry.media_types for entry in entries)


def unpacked(answer: Answer) -> tuple[Answer, dict[str, bytes]]:
    """The answer as JSON, and all files by name; the JSON alone from a service that makes no documents."""
    if answer.media_type != FILES:
        return answer, {RESULT: answer.content}
    try:
        with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
            files = {Path(name).name: archive.read(name) for name in archive.namelist()}
    except zipfile.BadZipFile as fault:
        raise unreadable(answer, fault) from fault
    if RESULT not in files:
        raise unreadable(answer, f"{RESULT} is missing")
    return Answer(files[RESULT], JSON, answer.request_id), files


def write_files(folder: Path, files: Mapping[str, bytes], result: Mapping[str, Any]) -> list[Path]:
    """Write the files into a folder, which is made when missing, with ``report.txt`` and, for a design that is drawn,
    ``routes.json`` (lines and arcs of every pipe)."""
    folder.mkdir(parents=True, exist_ok=True)
    written = {**files, "report.txt": report("designs", result).encode("utf-8")}
    if result.get("layout"):
        written["routes.json"] = json.dumps(result["layout"], indent=1).encode("utf-8")
    for name, content in written.items():
        (folder / name).write_bytes(content)
    return [folder / name for name in written]
