"""Both clients asked in the same way, with a made-up service behind them."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any

import httpx
from tepidarium_client import AsyncClient, Client

Service = Callable[[httpx.Request], httpx.Response]

REQUEST = {"area": 12.0, "pipe_spacing": 0.15, "tail_length": 4.0}
URL = "http://127.0.0.1:9"


def ask(
    kind: str,
    service: Service,
    question: Callable[[Any], Any] = lambda client: client.answer("loop-length", REQUEST),
    **options: Any,
) -> tuple[Any, list[float]]:
    """The outcome of a question, a value or an exception, and the pauses that the client made."""
    pauses: list[float] = []
    run = _ask_and_wait if kind == "waits" else _ask_and_await
    try:
        outcome = run(service, question, pauses, options)
    except Exception as error:  # the outcome is the subject of the test
        outcome = error
    return outcome, [pause for pause in pauses if pause > 0.0]


def _ask_and_wait(service: Service, question: Any, pauses: list[float], options: dict[str, Any]) -> Any:
    transport = httpx.MockTransport(service)
    with Client(URL, transport=transport, sleep=pauses.append, **options) as client:
        return question(client)


def _ask_and_await(service: Service, question: Any, pauses: list[float], options: dict[str, Any]) -> Any:
    async def sleep(pause: float) -> None:
        pauses.append(pause)

    async def run() -> Any:
        transport = httpx.MockTransport(service)
        async with AsyncClient(URL, transport=transport, sleep=sleep, **options) as client:
            return await question(client)

    return asyncio.run(run())


def answers(*outcomes: httpx.Response | Exception) -> tuple[Service, list[httpx.Request]]:
    """A service that gives one outcome after the other, and the requests that it saw."""
    seen: list[httpx.Request] = []

    def service(request: httpx.Request) -> httpx.Response:
        outcome = outcomes[min(len(seen), len(outcomes) - 1)]
        seen.append(request)
        if isinstance(outcome, Exception):
            raise outcome
        return httpx.Response(outcome.status_code, headers=outcome.headers, content=outcome.content)

    return service, seen


def problem(status: int, headers: dict[str, str] | None = None, **members: Any) -> httpx.Response:
    """A problem document as of RFC 9457."""
    body = {"type": "/problems/made-up", "title": "Made up", "status": status, "detail": "as told", **members}
    kind = {"Content-Type": "application/problem+json"}
    return httpx.Response(status, json=body, headers={**kind, **(headers or {})})
