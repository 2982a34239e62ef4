"""Round every request: a request id, the headers that every response carries, and one line in the log.

HEAD is answered as GET without the body. Before a refusal is sent, the rest of the request's body is read.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime
from time import perf_counter
from typing import Any
from uuid import uuid4

from litestar.types import ASGIApp, Message, Receive, Send
from structlog.contextvars import bind_contextvars

from .compression import encoded
from .event_log import Answered, EventLog
from .incoming import Incoming, header

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
        began, method = perf_counter(), scope["method"]
        request_id = _request_id(scope["headers"])
        state = scope["state"]["request"] = RequestState(request_id)
        bind_contextvars(request_id=request_id)
        incoming = Incoming(scope["headers"], receive)
        response = _Response(scope["headers"], method == "HEAD", request_id, incoming, send)
        if method == "HEAD":
            scope["method"] = "GET"
        if scope["path"] == "*":  # OPTIONS * asks the service as a whole: the top answers for it
            scope["path"] = "/"
        try:
            await self._app(scope, incoming.receive, response.send)
        finally:
            route = scope.get("path_template") or "unmatched"
            if self._log is not None and not route.startswith(_SILENT_ROUTES):
                self._log.request(
                    Answered(
                        request_id=request_id,
                        method=method if method in KNOWN_METHODS else "other",
                        route=route,
                        status=response.status,
                        bytes_received=state.received,
                        bytes_sent=response.sent,
                        seconds=round(perf_counter() - began, 6),
                        problem=state.problem,
                        timestamp=datetime.now(UTC),
                    )
                )


class _Response:
    """The messages of one response on their way out."""

    __slots__ = (
        "_added",
        "_headers_only",
        "_incoming",
        "_request_headers",
        "_send",
        "_start",
        "sent",
        "status",
    )

    def __init__(
        self, request_headers: Any, headers_only: bool, request_id: str, incoming: Incoming, send: Send
    ) -> None:
        self._request_headers = request_headers
        self._headers_only = headers_only
        self._added = ((b"x-request-id", request_id.encode()), (b"x-content-type-options", b"nosniff"))
        self._incoming = incoming
        self._send = send
        self._start: Any = None
        self.status = 0
        self.sent = 0

    async def send(self, message: Message) -> None:
        """Pass a message on. The start waits for the first part of the body, which decides over its headers."""
        if message["type"] == "http.response.start":
            self._start, self.status = message, message["status"]
        elif message["type"] == "http.response.body":
            if self._start is not None:
                await self._begin(message)
            if self._headers_only:
                message["body"] = b""
            self.sent += len(message["body"])
            await self._send(message)
        else:
            await self._send(message)

    async def _begin(self, first: Any) -> None:
        start, self._start = self._start, None
        headers = [
            (name, _with_head(value) if name == b"allow" else value) for name, value in start["headers"]
        ]
        if not first.get("more_body", False):
            headers, first["body"] = await encoded(self._request_headers, headers, first.get("body", b""))
        if self._incoming.pending:
            await self._incoming.drain()
        if self._incoming.pending and not header(headers, b"connection"):
            headers.append((b"connection", b"close"))
        start["headers"] = [*headers, *self._added]
        await self._send(start)


def _with_head(allow: bytes) -> bytes:
    """The methods of an Allow header, with HEAD where there is GET."""
    methods = {method.strip() for method in allow.split(b",")}
    return b", ".join(sorted(methods | ({b"HEAD"} if b"GET" in methods else set())))


def _request_id(headers: Any) -> str:
    """The caller's X-Request-Id when it is a UUID, else a new one."""
    for name, value in headers:
        if name == b"x-request-id" and _UUID.fullmatch(value):
            text: str = value.decode().lower()
            return text
    return str(uuid4())
