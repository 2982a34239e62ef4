"""One batch: the houses that have no result yet are sent, and each gets its line."""

from __future__ import annotations

import asyncio
import time
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path

import msgspec

from .._answers import Answer
from .._client import AsyncClient
from .._errors import (
    InvalidInput,
    ServerError,
    TepidariumError,
    Throttled,
    TimedOut,
    TransportError,
    Unavailable,
)
from .._many import as_awaited
from .._operations import as_it_came
from .._retry import OF_THE_REQUEST
from .._wire import Call
from ._houses import House, houses
from ._results import BatchError, Results, result_line

__all__ = ["Batch"]

NAMES = uuid.UUID("5d0c8f5e-5a0b-4d7c-9b0e-3f1c2a6d7e91")
"""Request ids are made of the line, so that the same house has the same result, whenever it is computed."""

PAUSE = 1.0
"""[s] before a house is sent again that a busy or missing service did not take."""

MOST_BREAKS = 3
BREAKS = "The connection broke each time that this house was sent, while others were answered."


class Batch:
    """``patience`` [s]: so long may the service be away or refuse everything before the batch gives up."""

    def __init__(
        self,
        client: AsyncClient,
        calculation: str,
        source: Path,
        results: Results,
        *,
        in_order: bool,
        patience: float,
    ) -> None:
        self._client = client
        self._calculation = calculation
        self._source = source
        self._results = results
        self._in_order = in_order
        self._patience = patience
        self._last_answer = time.monotonic()
        self._longest = 0
        self.done, self.failed, self.lines = results.done, results.failed, 0

    async def prepare(self) -> None:
        """Ask what the service takes, and see that input and results belong together; counts the lines."""
        limits = await self._client.limits()
        self._longest = next(int(limit.value) for limit in limits.service if limit.name == "body")
        earlier = self._results.engine_version
        if earlier not in ("", limits.engine_version):
            raise BatchError(
                f"The results so far are of version {earlier} of the engine, the service has version "
                f"{limits.engine_version}. Name another file for the results."
            )
        last = 0
        for house in self._houses():
            self.lines += 1
            last = house.line
            self._results.has(house)
        if self._results.last_line > last:
            raise BatchError(
                f"{self._source} ends before line {self._results.last_line}, of which there is a result: "
                "the results are of another input. Name another file for them."
            )

    async def run(self, progress: Callable[[int], object]) -> None:
        """Design what is not done yet; ``progress`` is called with each number of new lines."""
        self._last_answer = time.monotonic()
        rest = (house for house in self._houses() if not self._results.has(house))
        async for line, good in as_awaited(self._line, rest, self._client.concurrency, self._in_order):
            self._results.add([line])
            self.done += 1
            self.failed += not good
            progress(1)
        self._results.secure()

    def _houses(self) -> Iterator[House]:
        try:
            yield from houses(self._source, self._calculation, self._longest)
        except OSError as error:
            raise BatchError(f"{self._source}: {error.strerror or error}") from error

    async def _line(self, house: House) -> tuple[bytes, bool]:
        """The line of results, and whether it is a design."""
        key, body = house.key_and_body()
        if house.content is None:
            return result_line(house, key, "problem", _too_long(house, self._longest)), False
        request_id = str(uuid.uuid5(NAMES, f"{house.line} {house.digest}"))
        path = f"/v1/{self._calculation}"
        call: Call[Answer] = Call("POST", path, as_it_came, content=body, request_id=request_id)
        try:
            answer = await self._patiently(call)
        except TepidariumError as error:
            problem = _problem_of_house(error)
            if problem is None:
                raise
            self._last_answer = time.monotonic()
            return result_line(house, key, "problem", problem), False
        self._last_answer = time.monotonic()
        return result_line(house, key, "result", answer.content), True

    async def _patiently(self, call: Call[Answer]) -> Answer:
        breaks, began = 0, time.monotonic()
        while True:
            try:
                return await self._client._perform(call)
            except (Unavailable, Throttled, TransportError) as error:
                waited = time.monotonic() - self._last_answer
                if _problem_of_house(error) is not None or waited > self._patience:
                    raise
                breaks += isinstance(error, TransportError)
                if breaks == MOST_BREAKS and self._last_answer > began:
                    raise ServerError(BREAKS, request_id=error.request_id, status=502) from error
            await asyncio.sleep(PAUSE)


def _problem_of_house(error: TepidariumError) -> bytes | None:
    """The problem document of a house that fails whenever it is sent; None when something else is in the way."""
    if isinstance(error, TimedOut):
        return _problem(
            "No answer in time", 504, "The service did not answer this house within the time-out."
        )
    if isinstance(error, InvalidInput | ServerError) or str(error.problem.get("type")).endswith(
        OF_THE_REQUEST
    ):
        return (
            msgspec.json.encode(error.problem)
            if error.problem
            else _problem("No result", error.status or 500, error.message)
        )
    return None


def _too_long(house: House, longest: int) -> bytes:
    detail = f"The line has {house.length} bytes; the service takes {longest} at most."
    return _problem("Content too large", 413, detail)


def _problem(title: str, status: int, detail: str) -> bytes:
    return msgspec.json.encode({"type": "about:blank", "title": title, "status": status, "detail": detail})
