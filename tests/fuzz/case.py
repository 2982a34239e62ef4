"""A request as it is sent, and what became of it."""

from __future__ import annotations

import json
import signal
import time
import traceback
from dataclasses import dataclass
from types import FrameType
from typing import Any

from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS

__all__ = ["Case", "Outcome", "outcome"]

_BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
_DEADLINE = 60.0
"""[s] of processor; the service gives up after less."""
_NEVER = frozenset({"geometry_failed"})
"""Refusals by which the engine says that its geometry failed: as good as a fault of the service."""


@dataclass(frozen=True)
class Case:
    """``drawn``: the answer is asked for as a drawing."""

    name: str
    calculation: str
    body: dict[str, Any]
    drawn: bool = False


@dataclass(frozen=True)
class Outcome:
    """``fault`` tells faults of the service apart, "" for none: the exception and where it came out. ``codes`` are
    those of a refusal, ``took`` is in seconds of processor."""

    fault: str
    codes: tuple[str, ...]
    took: float
    trace: str = ""

    @property
    def answered(self) -> bool:
        return not self.fault and not self.codes


class _LateError(Exception):
    """Not done in time."""


def outcome(case: Case) -> Outcome:
    """Send the case to the answering layer of the service, as the web server would."""
    body = json.dumps(case.body).encode()
    accept = "image/svg+xml" if case.drawn else "application/json"
    started = time.process_time()
    signal.signal(signal.SIGVTALRM, _late)
    signal.setitimer(signal.ITIMER_VIRTUAL, _DEADLINE)
    try:
        found = answer(_BY_NAME[case.calculation], body, accept)
    except _LateError:
        return Outcome("not done in time", (), time.process_time() - started)
    except Exception as error:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
        took = time.process_time() - started
        return Outcome(_named(error), (), took, traceback.format_exc(limit=-8))
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
    took = time.process_time() - started
    if isinstance(found, Answer):
        left = b"geometry_failed" in found.content
        return Outcome("geometry_failed in the answer" if left else "", (), took)
    codes = tuple(error.code for error in found.errors)
    failed = sorted(_NEVER.intersection(codes))
    return Outcome(failed[0] if failed else "", codes, took)


def _late(_signal: int, _frame: FrameType | None) -> None:
    raise _LateError


def _named(error: Exception) -> str:
    frame = traceback.extract_tb(error.__traceback__)[-1]
    own = [each for each in traceback.extract_tb(error.__traceback__) if "tepidarium" in each.filename]
    where = own[-1] if own else frame
    return f"{type(error).__name__} in {where.filename.rsplit('tepidarium_', 1)[-1]}:{where.name}"
