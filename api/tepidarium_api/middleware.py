"""Round every request: a request id, the headers that every response carries, and one line in the log."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from time import perf_counter
from typing import Any
from uuid import uuid4

from litestar.types import ASGIApp, Message, Receive, Send
from structlog.contextvars import bind_contextvars

from .event_log import Answered, EventLog

__all__ = ["KNOWN_METHODS", "RequestFrame", "state_of"]

_UUID = re.compile(rb"[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}")
_SILENT_ROUTES = ("/health", "/docs", "/openapi.json")
KNOWN_METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT"})


class RequestState:
    """What the layers of one request tell each other."""

    __slots__ = ("problem", "received", "request_id")

    def __init__(self, request_id: str) -> None:
        self.request_id = request_id
        self.received = 0
        self.problem: str | None = None


def state_of(scope: Any) -> RequestState:
    state: RequestState = scope["state"]["request"]
    return state


class RequestFrame:
    """ASGI layer outside of routing, so that refused requests are framed as well."""

    def __init__(self, app: ASGIApp, log: EventLog | None) -> None:
        self._app = app
        self._log = log

    async def __call__(self, scope: Any, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        began = perf_counter()
        request_id = _request_id(scope["headers"])
        state = scope["state"]["request"] = RequestState(request_id)
        bind_contextvars(request_id=request_id)
        added = ((b"x-request-id", request_id.encode()), (b"x-content-type-options", b"nosniff"))
        status = sent = 0

        async def framed_send(message: Message) -> None:
            nonlocal status, sent
            if message["type"] == "http.response.start":
                status = message["status"]
                message["headers"] = [*message["headers"], *added]
            elif message["type"] == "http.response.body":
                sent += len(message.get("body", b""))
            await send(message)

        try:
            await self._app(scope, receive, framed_send)
        finally:
            route = scope.get("path_template") or "unmatched"
            if self._log is not None and not route.startswith(_SILENT_ROUTES):
                self._log.request(
                    Answered(
                        request_id=request_id,
                        method=scope["method"] if scope["method"] in KNOWN_METHODS else "other",
                        route=route,
                        status=status,
                        bytes_received=state.received,
                        bytes_sent=sent,
                        seconds=round(perf_counter() - began, 6),
                        problem=state.problem,
                        timestamp=datetime.now(UTC),
                    )
                )


def _request_id(headers: Any) -> str:
    """The caller's X-Request-Id when it is a UUID, else a new one."""
    for name, value in headers:
        if name == b"x-request-id" and _UUID.fullmatch(value):
            text: str = value.decode().lower()
            return text
    return str(uuid4())
