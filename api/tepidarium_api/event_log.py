"""The log: one JSON line an event, made only of the fields named here.

Bodies, addresses, header values and the words of exceptions never reach it.
"""

from __future__ import annotations

import sys
from dataclasses import asdict
from datetime import datetime
from typing import Any, BinaryIO

import msgspec
import structlog
from tepidarium_engine import __version__ as engine_version

from .failures import Failure
from .settings import Settings

__all__ = ["Answered", "EventLog"]


class Answered(msgspec.Struct, frozen=True, kw_only=True, tag_field="event", tag="request"):
    """All that is noted of a request. ``route`` is the template, the bytes are those of the bodies."""

    request_id: str
    method: str
    route: str
    status: int
    bytes_received: int
    bytes_sent: int
    seconds: float
    problem: str | None
    timestamp: datetime
    level: str = "info"
    engine_version: str = engine_version


class EventLog:
    """Writes events as JSON lines to a binary stream, the standard output by default."""

    def __init__(self, stream: BinaryIO | None = None) -> None:
        self._encode = msgspec.json.Encoder().encode
        self._lines = structlog.BytesLogger(stream or sys.stdout.buffer)
        self._log: Any = structlog.wrap_logger(
            self._lines,
            processors=[
                structlog.contextvars.merge_contextvars,
                structlog.processors.add_log_level,
                structlog.processors.TimeStamper(fmt="iso"),
                structlog.processors.JSONRenderer(serializer=lambda event, **_: self._encode(event)),
            ],
            wrapper_class=structlog.make_filtering_bound_logger("info"),
            context_class=dict,
            cache_logger_on_first_use=True,
        ).bind(engine_version=engine_version)

    def request(self, answered: Answered) -> None:
        """One request was answered. Past the chain of processors, which costs as much as a calculation."""
        self._lines.info(self._encode(answered))

    def started(self, settings: Settings) -> None:
        """The service starts, with these settings."""
        self._log.info("started", settings=asdict(settings))

    def failure(self, failure: Failure) -> None:
        """Something broke that is not the sender's fault."""
        self._log.error("failure", kind=failure.kind, frames=failure.frames)
