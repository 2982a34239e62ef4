"""How many requests a client has under way: none is lost to a service that takes only a few at a time."""

from __future__ import annotations

import asyncio
import random
import threading
import time
from collections.abc import AsyncIterator, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import asynccontextmanager, contextmanager
from typing import Any

import httpx
import pytest
from tepidarium_client import Answer, AsyncClient, Client, InvalidInput, TransportError

from tests.clients.asking import REQUEST, URL, problem

GOOD = httpx.Response(200, json={})


class Narrow:
    """A service that takes ``places`` requests at a time and refuses the others."""

    def __init__(self, places: int, takes: float = 0.002) -> None:
        self.places, self.takes = places, takes
        self.present = self.most = self.refused = 0
        self.lock = threading.Lock()

    def comes(self) -> bool:
        with self.lock:
            if self.present >= self.places:
                self.refused += 1
                return False
            self.present += 1
            self.most = max(self.most, self.present)
            return True

    def goes(self) -> None:
        with self.lock:
            self.present -= 1

    def wait(self, _: httpx.Request) -> httpx.Response:
        if not self.comes():
            return problem(503, {"Retry-After": "1"})
        time.sleep(self.takes)
        self.goes()
        return httpx.Response(200, json={})

    async def turn(self, _: httpx.Request) -> httpx.Response:
        if not self.comes():
            return problem(503, {"Retry-After": "1"})
        await asyncio.sleep(self.takes)
        self.goes()
        return httpx.Response(200, json={})


async def shorter(pause: float) -> None:
    await asyncio.sleep(pause / 100.0)


@asynccontextmanager
async def awaits(service: Narrow, **options: Any) -> AsyncIterator[AsyncClient]:
    transport = httpx.MockTransport(service.turn)
    async with AsyncClient(URL, transport=transport, sleep=shorter, **options) as client:
        yield client


@contextmanager
def waits(service: Narrow, **options: Any) -> Iterator[Client]:
    transport = httpx.MockTransport(service.wait)
    with Client(URL, transport=transport, sleep=lambda s: time.sleep(s / 100.0), **options) as client:
        yield client


@pytest.mark.parametrize("places", [1, 2, 3, 7, 18, 100])
def test_a_thousand_at_once_lose_none(places: int) -> None:
    async def ask() -> list[Any]:
        async with awaits(service) as client:
            calls = (client.answer("loop-length", REQUEST) for _ in range(1000))
            return await asyncio.gather(*calls, return_exceptions=True)

    service = Narrow(places)
    outcomes = asyncio.run(ask())
    assert all(isinstance(outcome, Answer) for outcome in outcomes)
    assert len(outcomes) == 1000
    assert service.refused <= 100
    assert service.most >= min(places, 64) * 3 // 4


def test_threads_that_share_a_client_lose_none() -> None:
    service = Narrow(3)
    with waits(service) as client, ThreadPoolExecutor(40) as pool:
        outcomes = list(pool.map(lambda _: client.answer("loop-length", REQUEST), range(400)))
    assert len(outcomes) == 400
    assert service.refused <= 60


@pytest.mark.parametrize("concurrency", [1, 5])
def test_the_callers_own_limit_holds(concurrency: int) -> None:
    async def ask() -> None:
        async with awaits(service, concurrency=concurrency) as client:
            await asyncio.gather(*(client.answer("loop-length", REQUEST) for _ in range(60)))

    service = Narrow(100)
    asyncio.run(ask())
    assert (service.most, service.refused) == (concurrency, 0)


def test_a_limit_below_one_is_refused() -> None:
    with pytest.raises(ValueError, match="concurrency"):
        Client(concurrency=0)


def test_calls_that_were_given_up_leave_their_places() -> None:
    async def ask() -> int:
        async with awaits(service, concurrency=2) as client:
            calls = [asyncio.ensure_future(client.answer("loop-length", REQUEST)) for _ in range(20)]
            await asyncio.sleep(0.005)
            for call in calls[::2]:
                call.cancel()
            outcomes = await asyncio.gather(*calls, return_exceptions=True)
            await client.answer("loop-length", REQUEST)
            return sum(isinstance(outcome, Answer) for outcome in outcomes)

    service = Narrow(2, takes=0.02)
    assert asyncio.run(asyncio.wait_for(ask(), 10.0)) == 10


def test_while_the_service_is_away_one_asks_for_all() -> None:
    """The others wait and spend none of their attempts."""
    seen: list[str] = []

    async def starts_late(request: httpx.Request) -> httpx.Response:
        seen.append(request.headers["X-Request-Id"])
        return GOOD if len(seen) > 9 else problem(503, {"Retry-After": "2"})

    async def ask() -> list[Any]:
        transport = httpx.MockTransport(starts_late)
        async with AsyncClient(URL, transport=transport, sleep=shorter) as client:
            return await asyncio.gather(
                *(client.answer("loop-length", REQUEST) for _ in range(300)), return_exceptions=True
            )

    outcomes = asyncio.run(ask())
    assert sum(not isinstance(outcome, Answer) for outcome in outcomes) <= 2
    assert len(set(seen[:9])) <= 4


def test_questions_about_the_service_do_not_queue() -> None:
    async def ask() -> bool:
        async with awaits(service, concurrency=1) as client:
            slow = asyncio.ensure_future(client.answer("loop-length", REQUEST))
            await asyncio.sleep(0.01)
            ready = await asyncio.wait_for(client.ready(), 0.2)
            slow.cancel()
            return ready

    service = Narrow(2, takes=0.05)
    assert asyncio.run(ask()) is True


def answers_by_number(request: httpx.Request) -> httpx.Response:
    """Slow now and then; every seventh is refused for its content."""
    number = int(request.content.partition(b":")[2].strip(b"}"))
    time.sleep(random.Random(number).choice((0.0, 0.0, 0.005)))
    return problem(422) if number % 7 == 3 else httpx.Response(200, json={})


@pytest.mark.parametrize("in_order", [True, False])
@pytest.mark.parametrize("kind", ["waits", "awaits"])
def test_many_houses(kind: str, in_order: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tepidarium_client._operations.Calculations.designs", AskAny())
    houses, started = 700, 0

    def requests() -> Iterator[dict[str, int]]:
        nonlocal started
        for number in range(houses):
            started += 1
            yield {"n": number}

    async def ask() -> list[Any]:
        async def service(request: httpx.Request) -> httpx.Response:
            return answers_by_number(request)

        async with AsyncClient(URL, transport=httpx.MockTransport(service)) as client:
            return [each async for each in client.designs_many(requests(), in_order=in_order)]

    if kind == "waits":
        with Client(URL, transport=httpx.MockTransport(answers_by_number)) as client:
            answers = client.designs_many(requests(), in_order=in_order)
            first = next(answers)
            assert started <= 600
            outcomes = [first, *answers]
    else:
        outcomes = asyncio.run(ask())
    numbers = [outcome.number for outcome in outcomes]
    assert sorted(numbers) == list(range(houses))
    assert (numbers == sorted(numbers)) or not in_order
    for outcome in outcomes:
        assert outcome.request == {"n": outcome.number}
        assert isinstance(outcome.error, InvalidInput) == (outcome.number % 7 == 3)
        assert (outcome.design is None) == (outcome.error is not None)


def test_many_houses_can_be_left_early(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tepidarium_client._operations.Calculations.designs", AskAny())

    async def ask() -> int:
        async with awaits(Narrow(100), retries=0) as client:
            async for each in client.designs_many({"n": n} for n in range(10**9)):
                return each.number
        raise AssertionError

    assert asyncio.run(asyncio.wait_for(ask(), 10.0)) == 0


def test_many_houses_without_a_service() -> None:
    with Client("http://127.0.0.1:9", retries=0) as client:
        outcomes = list(client.designs_many([{}, {}]))
    assert [type(outcome.error) for outcome in outcomes] == [TransportError, TransportError]


class AskAny:
    """Stands for ``designs`` where the answer does not matter."""

    def __get__(self, client: Any, owner: type) -> Any:
        return lambda request: client.answer("designs", request)
