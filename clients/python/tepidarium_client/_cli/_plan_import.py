"""The command ``import``: a plan becomes the request of a design, and people read what was taken and guessed."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

import msgspec

from .._client import Client
from ._files import FileAccessError

__all__ = ["IMPORT", "add_import", "import_plan"]

IMPORT = "import"
_TEXT = "The plan of an architect as the request of a design: a gbXML file or a DXF drawing."
_MOST_LINES = 12
"""Of each list; all of them stand in the answer that --json prints."""
_NUMBERS = {
    "external-temperature": "design temperature of the outside air [°C]: with it the heat loss is computed",
    "annual-mean-temperature": "mean temperature of the outside air over a year [°C]",
    "snap-tolerance": "gaps of the drawing that are closed [m] (0.02)",
    "thickest-wall": "rooms that face each other over no more have a wall in common [m] (0.5)",
    "doorway-width": "width of doorways that the file does not tell [m] (0.8)",
}
_LAYERS = {
    "room-layer": "layer of a DXF with the outlines of rooms",
    "name-layer": "layer of a DXF with the names of rooms",
    "doorway-layer": "layer of a DXF with the doorways",
}


def add_import(commands: Any, service: argparse.ArgumentParser) -> None:
    """The command with its options."""
    one = commands.add_parser(IMPORT, parents=[service], help=_TEXT, description=_TEXT, allow_abbrev=False)
    one.add_argument("plan", metavar="FILE", help="the file; - for standard input")
    one.add_argument(
        "--length-unit", metavar="UNIT", help="in place of the file's own: m, cm, mm, ft, in ..."
    )
    for name, text in _NUMBERS.items():
        one.add_argument(f"--{name}", type=float, metavar="X", help=text)
    for name, text in _LAYERS.items():
        one.add_argument(f"--{name}", metavar="LAYER", help=text)
    one.add_argument("--storeys", action="append", metavar="ID", help="take this storey; may be given again")
    one.add_argument(
        "--no-doorways", action="store_true", help="make no doorways beside those that the file has"
    )


def import_plan(client: Client, options: argparse.Namespace) -> int:
    """Print the request to standard output and the report to standard error."""
    names = ("length-unit", *_NUMBERS, *_LAYERS)
    given = {name.replace("-", "_"): getattr(options, name.replace("-", "_")) for name in names}
    given["storeys"] = options.storeys
    given["find_doorways"] = False if options.no_doorways else None
    content = _read(options.plan)
    answer = client.plan_answer(content, given)
    if options.json:
        _print(answer.content)
        return 0
    found = msgspec.json.decode(answer.content)
    _print(msgspec.json.format(msgspec.json.encode(_sparse(found["request"])), indent=2))
    sys.stderr.write(_report(found))
    return 0


def _read(source: str) -> bytes:
    try:
        return sys.stdin.buffer.read() if source == "-" else Path(source).read_bytes()
    except OSError as error:
        raise FileAccessError(f"{source}: {error.strerror or error}") from error


def _print(content: bytes) -> None:
    sys.stdout.flush()
    sys.stdout.buffer.write(content + b"\n")
    sys.stdout.buffer.flush()


def _sparse(value: Any) -> Any:
    """Without members that say nothing: null stands for what is left out."""
    if isinstance(value, dict):
        return {key: _sparse(member) for key, member in value.items() if member is not None and member != []}
    return [_sparse(member) for member in value] if isinstance(value, list) else value


def _report(found: dict[str, Any]) -> str:
    states = [room["state"] for room in found["rooms_found"]]
    lines = [
        f"{states.count('taken')} of {len(states)} rooms taken, {len(found['request']['doorways'])} doorways, "
        f"lengths in {found['length_unit']}"
    ]
    for title, key in (("Missing", "missing"), ("Guessed", "guessed")):
        parts = found[key]
        if parts:
            lines += ["", f"{title} ({len(parts)})"]
            lines += [
                f"  {part['where'] or '/'}: {part['message']}{_place(part)}" for part in parts[:_MOST_LINES]
            ]
            if len(parts) > _MOST_LINES:
                lines.append(f"  and {len(parts) - _MOST_LINES} more: --json lists all")
    for finding in found["findings"]:
        lines += ["", f"{finding['severity'].capitalize()}: {finding['message']}"]
        lines += [
            "  " + ": ".join(text for text in (place["subject"], place["message"]) if text)
            for place in finding["places"][:_MOST_LINES]
        ]
        if len(finding["places"]) > _MOST_LINES:
            lines.append(f"  and {len(finding['places']) - _MOST_LINES} more: --json lists all")
    lines += ["", *(f"Caution: {caution['message']}" for caution in found["cautions"])]
    return "\n".join(lines) + "\n"


def _place(part: dict[str, Any]) -> str:
    line = "" if part["file_line"] is None else f", line {part['file_line']}"
    return f" ({part['element']}{line})" if part["element"] else ""
