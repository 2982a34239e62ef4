"""The POST routes of a calculation: its own, and one for each other form of its answer.

A form, such as a drawing, also comes from the calculation's own path by the Accept header. With a path of its own
it is an operation of its own, so that in generated clients both answers have their types.

A readable calculation answers a GET whose query string says what the body would, and caches may keep the answer.

The routes are plain ASGI: body, answer and headers are bytes already, and the framework's requests and
responses would cost more than most calculations.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from time import time_ns
from typing import Any

from litestar import asgi
from litestar.exceptions import MethodNotAllowedException
from litestar.handlers import ASGIRouteHandler
from litestar.types import Receive, Scope, Send

from .answer import Answer, answer_within, not_acceptable
from .calculations import Calculation
from .intake import read_body, while_present
from .kept_answers import KeptAnswers
from .middleware import client_of, state_of
from .negotiation import JSON, choose
from .problems import Problem, Refusal
from .queries import CACHED, body_of, etag, is_known
from .settings import Settings
from .tracing import Tracing
from .turns import Turns
from .workers import Workers

__all__ = ["CALCULATION_KEY", "FORM_KEY", "calculation_routes", "send_answer"]

CALCULATION_KEY = "calculation"
"""Key under which a route carries its calculation."""
FORM_KEY = "form"
"""Key under which a route carries the only media type that it answers with; none: all by Accept."""


def calculation_routes(
    calculations: tuple[Calculation, ...], settings: Settings, workers: Workers, tracing: Tracing
) -> Iterator[ASGIRouteHandler]:
    turns = Turns(settings.inline_time)
    for calculation in calculations:
        for path, form in ((calculation.path, None), *calculation.forms.items()):
            yield _route(path, calculation, form, settings, workers=workers, turns=turns, tracing=tracing)


def _route(
    path: str,
    calculation: Calculation,
    form: str | None,
    settings: Settings,
    *,
    workers: Workers,
    turns: Turns,
    tracing: Tracing,
) -> ASGIRouteHandler:
    readable = calculation.readable and form is None
    allow = "GET, HEAD, OPTIONS, POST" if readable else "OPTIONS, POST"
    kept = KeptAnswers()
    fixed = [(b"cache-control", b"no-store")]
    if calculation.media_types and form is None:
        fixed.append((b"vary", b"accept"))

    async def outcome_of(scope: Any, receive: Receive) -> Answer:
        return await computed(scope, receive, *await read_body(scope, receive, settings))

    async def computed(scope: Any, receive: Receive, body: bytes, accept: str) -> Answer:
        if form is not None:
            if choose(accept, (form,)) is None:
                raise Refusal(not_acceptable((form,)))
            accept = form
        outcome: Answer | Problem | None = None
        heavy = calculation.heavy_for(choose(accept, (JSON, *calculation.media_types)))
        if not heavy and len(body) <= settings.inline_body_limit:
            light = partial(answer_within, calculation, body, accept, settings.inline_time)
            began = time_ns()
            outcome = await turns.run(light)
            if outcome is not None:
                tracing.done("compute", began)
        if outcome is None:
            answering = workers.answer(calculation, body, accept, client_of(scope))
            outcome = await while_present(receive, answering)
        if isinstance(outcome, Problem):
            raise Refusal(outcome)
        return outcome

    async def read(scope: Any, receive: Receive, send: Send) -> None:
        """Answer the query string, unless the caller has that answer; what was answered lately was kept."""
        body = body_of(calculation, scope["query_string"])
        asked, tag = state_of(scope).fields, etag(body)
        cached = [(b"cache-control", CACHED), (b"etag", tag)]
        if is_known(tag, asked.get(b"if-none-match", b"")):
            await send_answer(send, 304, b"", cached)
            return
        accept = asked.get(b"accept", b"").decode("latin-1")
        outcome = kept.get(accept, body)
        if outcome is None:
            outcome = await computed(scope, receive, body, accept)
            kept.keep(accept, body, outcome)
        await send_answer(
            send, 200, outcome.content, [*cached, (b"content-type", outcome.media_type.encode())]
        )

    @asgi(path, opt={CALCULATION_KEY: calculation, FORM_KEY: form}, copy_scope=False)
    async def calculate(scope: Scope, receive: Receive, send: Send) -> None:
        match scope.get("method"):
            case "POST":
                outcome = await outcome_of(scope, receive)
                await send_answer(
                    send, 200, outcome.content, [*fixed, (b"content-type", outcome.media_type.encode())]
                )
            case "GET" if readable:
                await read(scope, receive, send)
            case "OPTIONS":
                allowed = [(b"allow", allow.encode()), (b"accept-post", b"application/json")]
                await send_answer(send, 204, b"", allowed)
            case _:
                raise MethodNotAllowedException(headers={"Allow": allow})

    return calculate


async def send_answer(send: Send, status: int, content: bytes, headers: list[tuple[bytes, bytes]]) -> None:
    """A response of bytes that are ready."""
    if content:
        headers.append((b"content-length", str(len(content)).encode()))
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": content, "more_body": False})
