"""Light calculations in the event loop: so much at a time that everything else gets its turn."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from time import perf_counter
from typing import TypeVar

__all__ = ["Turns"]

T = TypeVar("T")


class Turns:
    """Runs calculations one after the other; those beyond so many seconds wait for the next round of the loop.

    In one round the loop runs all that is ready: many clients at once would delay the probes by the sum of their work.
    """

    def __init__(self, seconds: float) -> None:
        self._seconds = seconds
        self._spent = 0.0

    async def run(self, work: Callable[[], T]) -> T:
        while self._spent > self._seconds:
            await asyncio.sleep(0)
        if not self._spent:
            asyncio.get_running_loop().call_soon(self._next_round)
        began = perf_counter()
        try:
            return work()
        finally:
            self._spent += perf_counter() - began

    def _next_round(self) -> None:
        self._spent = 0.0
