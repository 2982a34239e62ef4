"""Many requests from an iterable: a bounded number started, answers in the order of the requests or as they come."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable, Coroutine, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, ThreadPoolExecutor, wait
from dataclasses import dataclass
from typing import Any, Generic, Protocol, TypeVar

from . import _models as models
from ._errors import TepidariumError

__all__ = ["Designed", "as_awaited", "in_threads"]

HELD = 512
"""So far may requests be ahead of the oldest one without an answer, when the order is kept."""

A = TypeVar("A")
B = TypeVar("B")
C_co = TypeVar("C_co", covariant=True)


@dataclass(frozen=True, slots=True)
class Designed:
    """What became of one of many houses: ``number`` counts the requests from 0. Either ``design`` or ``error``."""

    number: int
    request: models.DesignsRequest | Any
    design: models.DesignsResponse | None = None
    error: TepidariumError | None = None


class Future(Protocol[C_co]):
    def result(self) -> C_co: ...


class _Window(Generic[A, B]):
    """The requests under way. ``start`` begins one and gives something to wait for."""

    def __init__(self, start: Callable[[A], Any], requests: Iterable[A], most: int, in_order: bool) -> None:
        self._start = start
        self._requests = iter(requests)
        self._most = most
        self._in_order = in_order
        self._numbers: dict[Any, int] = {}
        self._early: dict[int, B] = {}
        self._started = 0
        self._given = 0

    def fill(self) -> set[Any]:
        """Start as many as there is room for; those under way, none when all is done."""
        while len(self._numbers) < self._most and self._started - self._given < HELD:
            try:
                request = next(self._requests)
            except StopIteration:
                break
            self._numbers[self._start(request)] = self._started
            self._started += 1
        return set(self._numbers)

    def take(self, done: Iterable[Future[B]]) -> Iterator[B]:
        """The answers that may be given out now."""
        for future in done:
            number = self._numbers.pop(future)
            if self._in_order:
                self._early[number] = future.result()
            else:
                self._given += 1
                yield future.result()
        while self._given in self._early:
            answer = self._early.pop(self._given)
            self._given += 1
            yield answer


def in_threads(ask: Callable[[A], B], requests: Iterable[A], most: int, in_order: bool) -> Iterator[B]:
    """Answers of ``ask``, which blocks; at most ``most`` at a time."""
    pool = ThreadPoolExecutor(most, "tepidarium")
    window: _Window[A, B] = _Window(lambda one: pool.submit(ask, one), requests, most, in_order)
    try:
        while under_way := window.fill():
            yield from window.take(wait(under_way, return_when=FIRST_COMPLETED).done)
    finally:
        pool.shutdown(cancel_futures=True)


async def as_awaited(
    ask: Callable[[A], Coroutine[Any, Any, B]], requests: Iterable[A], most: int, in_order: bool
) -> AsyncIterator[B]:
    """Answers of ``ask``, which is awaited; at most ``most`` at a time."""
    window: _Window[A, B] = _Window(lambda one: asyncio.ensure_future(ask(one)), requests, most, in_order)
    under_way: set[Any] = set()
    try:
        while under_way := window.fill():
            done, _ = await asyncio.wait(under_way, return_when=asyncio.FIRST_COMPLETED)
            for answer in window.take(done):
                yield answer
    finally:
        for task in under_way:
            task.cancel()
        await asyncio.gather(*under_way, return_exceptions=True)
