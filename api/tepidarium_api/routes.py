"""One POST route for each calculation of the registry.

The routes are plain ASGI: body, answer and headers are bytes already, and the framework's requests and
responses would cost more than most calculations.
"""

from __future__ import annotations

from typing import Any

from litestar import asgi
from litestar.exceptions import MethodNotAllowedException
from litestar.handlers import ASGIRouteHandler
from litestar.types import Receive, Scope, Send

from .answer import Answer, answer
from .calculations import Calculation
from .intake import read_body
from .problems import Problem, Refusal
from .settings import Settings
from .workers import Workers

__all__ = ["CALCULATION_KEY", "calculation_route"]

CALCULATION_KEY = "calculation"
"""Key under which a route carries its calculation."""

_ALLOW = "OPTIONS, POST"


def calculation_route(calculation: Calculation, settings: Settings, workers: Workers) -> ASGIRouteHandler:
    fixed = [(b"cache-control", b"no-store")]
    if calculation.renderings:
        fixed.append((b"vary", b"accept"))

    async def outcome_of(scope: Any, receive: Receive) -> Answer:
        body, accept = await read_body(scope, receive, settings)
        outcome: Answer | Problem
        if calculation.heavy or len(body) > settings.inline_body_limit:
            outcome = await workers.answer(calculation, body, accept)
        else:
            outcome = answer(calculation, body, accept)
        if isinstance(outcome, Problem):
            raise Refusal(outcome)
        return outcome

    @asgi(calculation.path, opt={CALCULATION_KEY: calculation}, copy_scope=False)
    async def calculate(scope: Scope, receive: Receive, send: Send) -> None:
        match scope.get("method"):
            case "POST":
                outcome = await outcome_of(scope, receive)
                await _send(
                    send, 200, outcome.content, [*fixed, (b"content-type", outcome.media_type.encode())]
                )
            case "OPTIONS":
                await _send(send, 204, b"", [(b"allow", _ALLOW.encode())])
            case _:
                raise MethodNotAllowedException(headers={"Allow": _ALLOW})

    return calculate


async def _send(send: Send, status: int, content: bytes, headers: list[tuple[bytes, bytes]]) -> None:
    if content:
        headers.append((b"content-length", str(len(content)).encode()))
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": content, "more_body": False})
