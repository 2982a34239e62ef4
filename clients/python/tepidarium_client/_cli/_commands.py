"""The commands: ask the service, print for people or for scripts."""

from __future__ import annotations

import argparse
import json
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, nullcontext
from pathlib import Path
from typing import Any

import msgspec

from .._answers import Answer, unreadable
from .._client import Client
from .._former import former_design
from .._local import local_service
from .._wire import FILES, JSON
from ._arguments import CALCULATIONS
from ._batch import run_batch
from ._files import FileAccessError, offers, unpacked, write_files
from ._findings import violations
from ._plan_import import IMPORT, import_plan
from ._progress import Progress
from ._report import WIDTH, report
from ._tables import columns_of, table

__all__ = ["FileAccessError", "NotJsonError", "read_request", "run"]


class NotJsonError(Exception):
    """The request is not a JSON object."""


def run(options: argparse.Namespace, request: dict[str, Any] | None) -> int:
    """Carry out a command; returns the exit code of a success."""
    if options.command == "batch":
        with _address(options, nullcontext()) as url:
            return run_batch(options, url)
    told = options.command == "designs" or options.local
    step: Callable[[str], Any] = Progress(sys.stderr).step if told else lambda _: nullcontext()
    with _service(options, step) as client:
        former = getattr(options, "former", None)
        if request is not None and former is not None:
            request["former"] = former_design(read_request(former))
        if options.command == IMPORT:
            with step("Reading the plan"):
                return import_plan(client, options)
        if request is None:
            return _ask(client, options)
        with step("Calculating"):
            answer = _calculate(client, options, request)
        return _show(options, answer, step)


@contextmanager
def _service(options: argparse.Namespace, step: Callable[[str], Any]) -> Iterator[Client]:
    """A client of the service asked for; a local one is started and stopped."""
    with (
        _address(options, step("Starting the service")) as url,
        Client(url, timeout=options.timeout, retries=options.retries) as client,
    ):
        yield client


@contextmanager
def _address(options: argparse.Namespace, step: Any) -> Iterator[str]:
    with ExitStack() as stack:
        url: str = options.url
        if options.local:
            with step:
                url = stack.enter_context(local_service())
        yield url


def read_request(source: str) -> dict[str, Any]:
    """The request in a file, or on standard input for ``-``."""
    try:
        text = (sys.stdin.buffer.read() if source == "-" else Path(source).read_bytes()).decode("utf-8-sig")
    except OSError as error:
        raise FileAccessError(f"{source}: {error.strerror or error}") from error
    except UnicodeDecodeError as error:
        raise NotJsonError(f"{source}: not UTF-8 text ({error.reason} at byte {error.start})") from error
    try:
        request = json.loads(text)
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        raise NotJsonError(f"{source}: not JSON, {error.msg[0].lower()}{error.msg[1:]} at {place}") from error
    except RecursionError as error:
        raise NotJsonError(f"{source}: nested too deeply") from error
    if not isinstance(request, dict):
        raise NotJsonError(f"{source}: must hold one JSON object, in braces")
    return request


def _calculate(client: Client, options: argparse.Namespace, request: dict[str, Any]) -> Answer:
    if options.workings:
        request["workings"] = True
    wanted = getattr(options, "form", None) or JSON
    if getattr(options, "output", None) is not None and offers(client, options.command, FILES):
        wanted = FILES
    return client.answer(options.command, request, wanted)


def _show(options: argparse.Namespace, answer: Answer, step: Callable[[str], Any]) -> int:
    output: Path | None = getattr(options, "output", None)
    files: dict[str, bytes] = {}
    if output is not None:
        answer, files = unpacked(answer)
    elif answer.media_type != JSON:
        _print_raw(answer.content)
        return 0
    result = _checked(options.command, answer)
    if output is not None:
        with step(f"Writing the result files into {output}"):
            _write(output, files, result)
    if options.json:
        _print_raw(answer.content + b"\n")
    else:
        sys.stdout.write(report(options.command, result, terminal_width()))
    return 1 if options.strict and violations(result) else 0


def _checked(command: str, answer: Answer) -> dict[str, Any]:
    """The answer with all its fields, after a look at whether it has those that this version needs."""
    try:
        CALCULATIONS[command].read(answer)
        return msgspec.json.decode(answer.content, type=dict[str, Any])
    except msgspec.MsgspecError as fault:
        raise unreadable(answer, fault) from fault


def _write(folder: Path, files: dict[str, bytes], result: dict[str, Any]) -> None:
    try:
        write_files(folder, files, result)
    except OSError as error:
        raise FileAccessError(f"{error.filename or folder}: {error.strerror or error}") from error


_IN_JSON_ONLY = {"stage", "cause", "guard"}
"""Of a list of the service: columns that leave too little room for the others."""


def _ask(client: Client, options: argparse.Namespace) -> int:
    """The commands about the service itself."""
    if options.command == "ready":
        ready = client.ready()
        sys.stdout.write(
            f"{json.dumps({'ready': ready}) if options.json else 'ready' if ready else 'not ready'}\n"
        )
        return 0 if ready else 1
    questions = {"calculations": client.calculations, "findings": client.findings, "limits": client.limits}
    answer: msgspec.Struct = questions[options.command]()
    if options.json:
        _print_raw(msgspec.json.encode(answer) + b"\n")
        return 0
    for title, rows in msgspec.to_builtins(answer).items():
        if isinstance(rows, list) and rows:
            shown = [{name: row[name] for name in row if name not in _IN_JSON_ONLY} for row in rows]
            lines = table(shown, columns_of(shown), terminal_width())
            sys.stdout.write("\n".join([title.capitalize(), "=" * len(title), *lines]) + "\n\n")
    return 0


def _print_raw(content: bytes) -> None:
    """The bytes of an answer, unchanged."""
    sys.stdout.flush()
    sys.stdout.buffer.write(content)
    sys.stdout.buffer.flush()


def terminal_width() -> int:
    """The width of the terminal, or that of reports for files and other programs."""
    return max(40, shutil.get_terminal_size().columns) if sys.stdout.isatty() else WIDTH
