"""Who may compute: so many at a time, a short queue behind them, and no client with more than its share of both."""

from __future__ import annotations

import asyncio
import random
from collections import Counter
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import NoReturn

from .problems import Refusal, problem
from .settings import Settings

__all__ = ["Places", "retry_later"]


_LONGEST_WAIT = 1.0
_MOST_REMEMBERED = 10_000


@dataclass(slots=True, eq=False)
class _Waiting:
    client: str
    turn: asyncio.Future[None]


class Places:
    """Places to compute and to wait. Whoever has the fewest calculations running is next, of equals the first."""

    def __init__(self, settings: Settings) -> None:
        self._queue_length = settings.queue_length
        self._queue_timeout = settings.queue_timeout
        self._share = max(1, int(settings.client_share * (settings.processes + settings.queue_length)))
        self._held: Counter[str] = Counter()
        self._working: Counter[str] = Counter()
        self._queue: list[_Waiting] = []
        self._come_back: dict[str, float] = {}
        self.free = settings.processes

    @property
    def waiting(self) -> int:
        return len(self._queue)

    @asynccontextmanager
    async def place(self, client: str) -> AsyncIterator[None]:
        """A place to compute while the block runs; ``Refusal`` when there is none in time."""
        if not self.free and len(self._queue) >= self._queue_length:
            await self._refuse(client, "overloaded", "no process is free and the queue is full")
        if self._held[client] >= self._share:
            text = f"{self._share} requests of this client compute or wait"
            await self._refuse(client, "too-many-requests", text)
        with _counted(self._held, client):
            await self._turn(client)
            try:
                with _counted(self._working, client):
                    yield
            finally:
                self._leave()

    async def _refuse(self, client: str, slug: str, detail: str) -> NoReturn:
        """At once; but who comes back before it was told to waits a while, so that it costs the others little."""
        refusal = retry_later(slug, detail)
        now = asyncio.get_running_loop().time()
        early = self._come_back.pop(client, 0.0) - now
        self._come_back[client] = now + float(refusal.headers["Retry-After"])
        if len(self._come_back) > _MOST_REMEMBERED:
            del self._come_back[next(iter(self._come_back))]
        if early > 0.0:
            await asyncio.sleep(min(early, _LONGEST_WAIT))
        raise refusal

    async def _turn(self, client: str) -> None:
        if self.free:
            self.free -= 1
            return
        waiting = _Waiting(client, asyncio.get_running_loop().create_future())
        self._queue.append(waiting)
        try:
            async with asyncio.timeout(self._queue_timeout):
                await waiting.turn
        except BaseException as error:
            if waiting in self._queue:
                self._queue.remove(waiting)
            elif not waiting.turn.cancelled():  # it had its turn at the same moment
                self._leave()
            if isinstance(error, TimeoutError):
                raise retry_later("overloaded", "no process became free in time") from None
            raise

    def _leave(self) -> None:
        present = [waiting for waiting in self._queue if not waiting.turn.done()]
        if not present:
            self.free += 1
            return
        following = min(present, key=lambda waiting: self._working[waiting.client])
        self._queue.remove(following)
        following.turn.set_result(None)


class _counted:  # noqa: N801 - used like a function
    """Count a client while the block runs; those that have nothing left are forgotten."""

    __slots__ = ("_client", "_counter")

    def __init__(self, counter: Counter[str], client: str) -> None:
        self._counter, self._client = counter, client

    def __enter__(self) -> None:
        self._counter[self._client] += 1

    def __exit__(self, *_: object) -> None:
        self._counter[self._client] -= 1
        if not self._counter[self._client]:
            del self._counter[self._client]


def retry_later(slug: str, detail: str) -> Refusal:
    """A refusal that says when to come back: spread, so that those refused together do not come back together."""
    return Refusal(problem(slug, detail), {"Retry-After": str(random.randint(1, 5))})
