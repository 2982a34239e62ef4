"""The two clients. They differ in how they wait; what is sent, repeated and read is decided in one place."""

from __future__ import annotations

import asyncio
import time
from collections.abc import AsyncIterator, Awaitable, Callable, Iterable, Iterator, Mapping
from ipaddress import ip_address
from typing import Any, Self, TypeVar

import httpx

from . import _models as models
from ._answers import Answer
from ._errors import TepidariumError
from ._many import Designed, as_awaited, in_threads
from ._operations import Body, Calculations, as_it_came, calculation_call
from ._pace import Gate
from ._retry import service_took
from ._version import __version__
from ._wire import JSON, Call, Exchange

__all__ = ["DEFAULT_TIMEOUT", "DEFAULT_URL", "AsyncClient", "Client", "service_url"]

DEFAULT_URL = "http://127.0.0.1:8000"
DEFAULT_TIMEOUT = httpx.Timeout(60.0, connect=5.0)
DEFAULT_RETRIES = 3
DEFAULT_CONCURRENCY = 64

T = TypeVar("T")


def service_url(base_url: str) -> httpx.URL:
    """The address of a service; ``ValueError`` unless it is one of http or https with a host."""
    try:
        url = httpx.URL(base_url)
    except httpx.InvalidURL as error:
        raise ValueError(f"{base_url!r} is not an address: {error}") from error
    if url.scheme not in ("http", "https") or not url.host:
        raise ValueError(f"{base_url!r} is not an http or https address, such as {DEFAULT_URL}")
    return url


def _options(base_url: str, timeout: float | httpx.Timeout, retries: int, concurrency: int) -> dict[str, Any]:
    """What both kinds of HTTP client share. A service on this computer is never asked through a proxy."""
    url = service_url(base_url)
    if retries < 0:
        raise ValueError("retries must be 0 or more")
    return {
        "base_url": url,
        "timeout": timeout,
        "limits": httpx.Limits(max_connections=None, max_keepalive_connections=concurrency),
        "headers": {"User-Agent": f"tepidarium-client/{__version__}"},
        "trust_env": not _is_loopback(url.host),
    }


def _is_loopback(host: str) -> bool:
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"


class Client(Calculations):
    """Calls the service and waits for the answer. A context manager; safe to share between threads.

    ``timeout`` [s] applies to each attempt, ``retries`` is the number of attempts after the first. However many
    calls are made at once, no more requests are under way than the service takes, and ``concurrency`` at most.
    ``transport`` and ``sleep`` can be replaced, for tests or for a service in the same process.
    """

    def __init__(
        self,
        base_url: str = DEFAULT_URL,
        *,
        timeout: float | httpx.Timeout = DEFAULT_TIMEOUT,
        retries: int = DEFAULT_RETRIES,
        concurrency: int = DEFAULT_CONCURRENCY,
        transport: httpx.BaseTransport | None = None,
        sleep: Callable[[float], object] = time.sleep,
    ) -> None:
        self._http = httpx.Client(transport=transport, **_options(base_url, timeout, retries, concurrency))
        self._gate = Gate(concurrency)
        self.concurrency = concurrency
        self._retries = retries
        self._sleep = sleep

    def answer(self, name: str, request: Body, accept: str = JSON) -> Answer:
        """The answer of the calculation ``name`` as it came, in the media type ``accept``."""
        return self._perform(calculation_call(name, request, as_it_came, accept))

    def designs_many(
        self, requests: Iterable[models.DesignsRequest | Mapping[str, Any]], *, in_order: bool = True
    ) -> Iterator[Designed]:
        """The designs of many houses, a bounded number at a time: memory stays flat. A house that fails is one
        with its ``error``. ``in_order`` False gives each as it comes."""

        def ask(numbered: tuple[int, Any]) -> Designed:
            number, request = numbered
            try:
                return Designed(number, request, design=self.designs(request))
            except TepidariumError as error:
                return Designed(number, request, error=error)

        return in_threads(ask, enumerate(requests), self.concurrency, in_order)

    def _perform(self, call: Call[T]) -> T:
        exchange = Exchange(call, self._http, self._retries)
        gate = self._gate if call.content else Gate(1)  # questions about the service do not queue
        with gate.place() as place:
            for pause in exchange.pauses():
                self._sleep(pause)
                gate.wait(place)
                with exchange.attempt():
                    exchange.outcome = self._http.send(exchange.request)
                gate.settle(place, taken=service_took(exchange.outcome))
        return exchange.result()

    def close(self) -> None:
        """Close all connections."""
        self._http.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *exception: object) -> None:
        self.close()


class AsyncClient(Calculations):
    """Calls the service without blocking the event loop: every method is awaited. An asynchronous context
    manager. Parameters as of ``Client``."""

    def __init__(
        self,
        base_url: str = DEFAULT_URL,
        *,
        timeout: float | httpx.Timeout = DEFAULT_TIMEOUT,
        retries: int = DEFAULT_RETRIES,
        concurrency: int = DEFAULT_CONCURRENCY,
        transport: httpx.AsyncBaseTransport | None = None,
        sleep: Callable[[float], Awaitable[object]] = asyncio.sleep,
    ) -> None:
        self._http = httpx.AsyncClient(
            transport=transport, **_options(base_url, timeout, retries, concurrency)
        )
        self._gate = Gate(concurrency)
        self.concurrency = concurrency
        self._retries = retries
        self._sleep = sleep

    async def answer(self, name: str, request: Body, accept: str = JSON) -> Answer:
        """The answer of the calculation ``name`` as it came, in the media type ``accept``."""
        return await self._perform(calculation_call(name, request, as_it_came, accept))

    def designs_many(
        self, requests: Iterable[models.DesignsRequest | Mapping[str, Any]], *, in_order: bool = True
    ) -> AsyncIterator[Designed]:
        """As of ``Client``, for ``async for``."""

        async def ask(numbered: tuple[int, Any]) -> Designed:
            number, request = numbered
            try:
                return Designed(number, request, design=await self.designs(request))
            except TepidariumError as error:
                return Designed(number, request, error=error)

        return as_awaited(ask, enumerate(requests), self.concurrency, in_order)

    async def _perform(self, call: Call[T]) -> T:
        exchange = Exchange(call, self._http, self._retries)
        gate = self._gate if call.content else Gate(1)  # questions about the service do not queue
        with gate.place() as place:
            for pause in exchange.pauses():
                await self._sleep(pause)
                await gate.turn(place)
                with exchange.attempt():
                    exchange.outcome = await self._http.send(exchange.request)
                gate.settle(place, taken=service_took(exchange.outcome))
        return exchange.result()

    async def aclose(self) -> None:
        """Close all connections."""
        await self._http.aclose()

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(self, *exception: object) -> None:
        await self.aclose()
