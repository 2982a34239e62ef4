"""The log: one JSON line an event, made only of what the allow-list below names.

Bodies, addresses, header values and the words of exceptions never reach it.
"""

from __future__ import annotations

import sys
from typing import Any, BinaryIO

import msgspec
import structlog
from tepidarium_engine import __version__ as engine_version

from .failures import Failure

__all__ = ["Answered", "EventLog"]


class Answered(msgspec.Struct, frozen=True, kw_only=True):
    """All that is noted of a request. ``route`` is the template, the bytes are those of the bodies."""

    method: str
    route: str
    status: int
    bytes_received: int
    bytes_sent: int
    seconds: float
    problem: str | None


class EventLog:
    """Writes events as JSON lines to a binary stream, the standard output by default."""

    def __init__(self, stream: BinaryIO | None = None) -> None:
        encoder = msgspec.json.Encoder()
        self._log: Any = structlog.wrap_logger(
            structlog.BytesLogger(stream or sys.stdout.buffer),
            processors=[
                structlog.contextvars.merge_contextvars,
                structlog.processors.add_log_level,
                structlog.processors.TimeStamper(fmt="iso"),
                structlog.processors.JSONRenderer(serializer=lambda event, **_: encoder.encode(event)),
            ],
            wrapper_class=structlog.make_filtering_bound_logger("info"),
            context_class=dict,
            cache_logger_on_first_use=True,
        ).bind(engine_version=engine_version)

    def request(self, answered: Answered) -> None:
        """One request was answered."""
        self._log.info("request", **msgspec.structs.asdict(answered))

    def failure(self, failure: Failure) -> None:
        """Something broke that is not the sender's fault."""
        self._log.error("failure", kind=failure.kind, frames=failure.frames)
