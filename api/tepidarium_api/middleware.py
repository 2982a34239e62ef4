"""Round every request: a request id, the headers that every response carries, and one line in the log.

HEAD is answered as GET without the body. Before a refusal is sent, the rest of the request's body is read.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable
from datetime import UTC, datetime
from time import perf_counter
from typing import Any

from litestar.types import ASGIApp, Message, Receive, Send
from structlog.contextvars import bind_contextvars

from .access import Keys, Rates
from .compression import encoded
from .cross_origin import CrossOrigin
from .event_log import Answered, EventLog
from .incoming import Fields, Incoming, fields_of
from .metrics import Metrics
from .open_requests import OpenRequests
from .problems import MEDIA_TYPE, encode, problem
from .settings import Settings
from .tracing import Tracing

__all__ = ["KNOWN_METHODS", "RequestFrame", "client_of", "state_of"]

_UUID = re.compile(rb"[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}")
_SILENT_ROUTES = ("/health", "/docs", "/openapi.json")
PIECE = 16 * 1024
KNOWN_METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT"})


class RequestState:
    """What the layers of one request tell each other."""

    __slots__ = ("fields", "problem", "received", "request_id")

    def __init__(self, request_id: str, fields: Fields) -> None:
        self.request_id = request_id
        self.fields = fields
        self.received = 0
        self.problem: str | None = None


def state_of(scope: Any) -> RequestState:
    state: RequestState = scope["state"]["request"]
    return state


class RequestFrame:
    """ASGI layer outside of routing, so that refused requests are framed as well."""

    def __init__(
        self,
        app: ASGIApp,
        log: EventLog | None,
        settings: Settings,
        metrics: Metrics,
        tracing: Tracing,
    ) -> None:
        self._app = app
        self._log = log
        self._metrics = metrics
        self._tracing = tracing
        self._over_tls = _strict_transport(settings.hsts_seconds)
        self._keys = Keys(settings.api_keys)
        self._rates = Rates(settings.client_rate)
        self._cross_origin = CrossOrigin(settings.cors_origins)
        self._open = OpenRequests(settings.client_requests)

    async def __call__(self, scope: Any, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        began, method = perf_counter(), scope["method"]
        fields = fields_of(scope["headers"])
        request_id = _request_id(fields.get(b"x-request-id", b""))
        state = scope["state"]["request"] = RequestState(request_id, fields)
        bind_contextvars(request_id=request_id)
        incoming = Incoming(fields, receive)
        response = _Response(
            fields,
            request_id,
            incoming,
            send,
            method=method,
            cross_origin=self._cross_origin,
            more=self._over_tls if scope.get("scheme") == "https" else (),
        )
        if method == "HEAD":
            scope["method"] = "GET"
        if scope["path"] == "*":  # OPTIONS * asks the service as a whole: the top answers for it
            scope["path"] = "/"
        try:
            with self._tracing.request(scope, response, state):
                await self._admitted(scope, state, incoming, response)
        finally:
            route = scope.get("path_template") or "unmatched"
            if not route.startswith("/health"):
                self._metrics.answered(route, response.status, perf_counter() - began, state.problem)
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

    async def _admitted(
        self, scope: Any, state: RequestState, incoming: Incoming, response: _Response
    ) -> None:
        """Let a request in whose sender may ask, and not too often."""
        if scope["path"].startswith("/health"):
            await self._app(scope, incoming.receive, response.send)
            return
        if self._keys.wanted and scope["method"] != "OPTIONS" and _computes(scope["path"]):
            holder = self._keys.holder(state.fields.get(b"x-api-key", b""))
            if holder is None:
                challenge = (b"www-authenticate", b'ApiKey realm="X-API-Key"')
                await _refuse("key-needed", "X-API-Key holds no known key", state, response, challenge)
                return
            scope["client"] = (f"key {holder}", 0)
        client, again = client_of(scope), (b"retry-after", b"1")
        if not self._rates.allows(client):
            await _refuse("too-many-requests", "too many in a second", state, response, again)
            return
        if not self._open.begin(client):
            text = f"{self._open.most} requests of this client are open"
            await _refuse("too-many-requests", text, state, response, again)
            return
        try:
            await self._app(scope, incoming.receive, response.send)
        finally:
            self._open.end(client)


async def _refuse(
    slug: str, detail: str, state: RequestState, response: _Response, *more: tuple[bytes, bytes]
) -> None:
    document = problem(slug, detail)
    state.problem = slug
    headers = [(b"content-type", MEDIA_TYPE.encode()), (b"cache-control", b"no-store"), *more]
    start: Any = {"type": "http.response.start", "status": document.status, "headers": headers}
    await response.send(start)
    content = encode(document, state.request_id)
    body: Any = {"type": "http.response.body", "body": content, "more_body": False}
    await response.send(body)


_TOLD = ("/v1/calculations", "/v1/limits", "/v1/findings")


def _computes(path: str) -> bool:
    return path.startswith("/v1/") and not path.startswith(_TOLD)


def client_of(scope: Any) -> str:
    """Whom a request comes from: the address, without the port."""
    client = scope.get("client")
    return client[0] if client else ""


class _Response:
    """The messages of one response on their way out."""

    __slots__ = (
        "_added",
        "_asked",
        "_cross_origin",
        "_incoming",
        "_method",
        "_send",
        "_start",
        "sent",
        "status",
    )

    def __init__(
        self,
        asked: Fields,
        request_id: str,
        incoming: Incoming,
        send: Send,
        *,
        method: str,
        cross_origin: CrossOrigin,
        more: Iterable[tuple[bytes, bytes]],
    ) -> None:
        self._asked = asked
        self._method = method
        self._cross_origin = cross_origin
        self._added = (
            (b"x-request-id", request_id.encode()),
            (b"x-content-type-options", b"nosniff"),
            (b"referrer-policy", b"no-referrer"),
            (b"server", b""),  # without it the server names itself
            *more,
        )
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
            if self._method == "HEAD":
                message["body"] = b""
            await self._pieces(message)
        else:
            await self._send(message)

    async def _pieces(self, message: Any) -> None:
        """Large bodies go piece by piece, each when the one before it is on its way: who does not read costs little."""
        body, more = message.get("body", b""), message.get("more_body", False)
        last = max(0, len(body) - 1) // PIECE * PIECE
        for start in range(0, last, PIECE):
            self.sent += PIECE
            piece: Any = {**message, "body": body[start : start + PIECE], "more_body": True}
            await self._send(piece)
        self.sent += len(body) - last
        piece = {**message, "body": body[last:], "more_body": more}
        await self._send(piece)

    async def _begin(self, first: Any) -> None:
        start, self._start = self._start, None
        headers = [
            (name, _with_head(value) if name == b"allow" else value) for name, value in start["headers"]
        ]
        if not first.get("more_body", False):
            headers, first["body"] = await encoded(self._asked, headers, first.get("body", b""))
        if self._incoming.pending:
            await self._incoming.drain()
        if self._incoming.pending and b"connection" not in fields_of(headers):
            headers.append((b"connection", b"close"))
        headers = self._cross_origin.added(self._asked, headers, self._method)
        start["headers"] = [*headers, *self._added]
        await self._send(start)


def _strict_transport(seconds: int) -> tuple[tuple[bytes, bytes], ...]:
    """For so long browsers ask by TLS only (RFC 6797); sent over TLS only, as the RFC has it."""
    return ((b"strict-transport-security", f"max-age={seconds}".encode()),) if seconds else ()


def _with_head(allow: bytes) -> bytes:
    """The methods of an Allow header, with HEAD where there is GET."""
    methods = {method.strip() for method in allow.split(b",")}
    return b", ".join(sorted(methods | ({b"HEAD"} if b"GET" in methods else set())))


def _request_id(given: bytes) -> str:
    """The caller's X-Request-Id when it is a UUID, else a new one."""
    return given.decode().lower() if _UUID.fullmatch(given) else _random_uuid()


def _random_uuid() -> str:
    """A UUID of version 4 (RFC 9562), in a third of the time that the standard library takes."""
    digits = os.urandom(16).hex()
    variant = "89ab"[int(digits[16], 16) & 3]
    return f"{digits[:8]}-{digits[8:12]}-4{digits[13:16]}-{variant}{digits[17:20]}-{digits[20:]}"
