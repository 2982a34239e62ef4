"""The command ``tepidarium``: calculations from files, for people and for scripts.

Exit codes, the same for every command:

====  ==========================================================================================
0     a result
1     a result with a finding of severity "violation", if ``--strict`` was given; ``ready``: no
2     wrong use: unknown option, unreadable file, full disk, no service installed for ``--local``
3     invalid input: not JSON, or fields that cannot be computed; the message names the fields. ``batch``: some
      lines have a problem for a result
4     the service cannot be reached, or did not answer in time
5     the service is busy or failed
130   interrupted from the keyboard
====  ==========================================================================================

Results go to standard output, everything else to standard error. With ``--json`` a problem document of the
service goes to standard error as it is.
"""

from __future__ import annotations

import io
import os
import sys
from typing import Any

import msgspec

from .._batch import BatchError
from .._errors import InvalidInput, TepidariumError, TransportError
from .._local import LocalServiceError
from ._arguments import parse
from ._commands import FileAccessError, NotJsonError, read_request, run
from ._messages import explain

__all__ = ["main"]

WRONG_USE, INVALID_INPUT, NOT_REACHED, SERVICE_FAILED, INTERRUPTED = 2, 3, 4, 5, 130

_CODES: tuple[tuple[type[Exception], int], ...] = (
    (InvalidInput, INVALID_INPUT),
    (NotJsonError, INVALID_INPUT),
    (TransportError, NOT_REACHED),
    (TepidariumError, SERVICE_FAILED),
    (FileAccessError, WRONG_USE),
    (BatchError, WRONG_USE),
    (LocalServiceError, WRONG_USE),
)


def main(arguments: list[str] | None = None) -> int:
    """Run the command line; returns the exit code."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")  # a terminal without a degree sign still gets its report
    options = parse(arguments)
    request: dict[str, Any] | None = None
    try:
        if "request" in options:
            request = read_request(options.request)
        return run(options, request)
    except tuple(kind for kind, _ in _CODES) as error:
        sys.stderr.write(f"{_text(error, request, options.json)}\n")
        return next(code for kind, code in _CODES if isinstance(error, kind))
    except BrokenPipeError:  # the reader of the output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        return INTERRUPTED


def _text(error: Exception, request: Any, as_json: bool) -> str:
    if not isinstance(error, TepidariumError):
        return str(error)
    if as_json and error.problem:
        return msgspec.json.encode(error.problem).decode()
    return explain(error, request)
