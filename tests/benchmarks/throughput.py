"""What HTTP costs the light calculations: the service against a bare endpoint of the same framework under the same
server, and against the engine alone, by the processor's time of an answer.

Rates on a machine that does other things say little: what is compared is what the processes spend.
"""

from __future__ import annotations

import asyncio
import os
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import msgspec
from tepidarium_api.app import create_app as service_app
from tepidarium_api.calculations import CALCULATIONS, Calculation
from tepidarium_api.schemas import request_type

from tests.drills.served import Served

from .bare import create_app as bare_app
from .load import answers_per_second
from .ratio import Ratio
from .servers import server

__all__ = ["ratios"]

ROUNDS = 5
SECONDS = 0.7
RUNS = 100
LEAST = 0.8
"""Of a bare endpoint's throughput."""
HTTP_MAY_ADD = 120.0
"""[us], and a tenth of the engine's time."""


def ratios() -> Iterator[Ratio]:
    """For each light calculation, all measured in turns, the least of several rounds.

    What HTTP adds is what the application spends beside the engine, called without a server, and what the server spends
    beside the bare application: an engine that is called alone, with all in the caches of the processor, would be too
    quick to compare a served answer with.
    """
    log = Path(os.devnull).open("wb")  # noqa: SIM115 - until the end
    apps = service_app(log_stream=log), bare_app()
    with (
        server("tepidarium_api.app:create_app") as service,
        server("tests.benchmarks.bare:create_app") as bare,
    ):
        for item in (one for one in CALCULATIONS if not one.heavy):
            rounds = [
                (
                    _served(service, item),
                    _served(bare, item),
                    *(asyncio.run(_called(app, item)) for app in apps),
                    _engine(item),
                )
                for _ in range(ROUNDS)
            ]
            whole, plain, ours, bare_alone, engine = (min(times) for times in zip(*rounds, strict=True))
            name = f"{item.path} / bare endpoint ({plain:.0f} us)"
            yield Ratio(name, plain / whole, LEAST, at_least=True)
            own, others = ours - engine, plain - bare_alone
            name = f"HTTP [us]: {own:.0f} and {others:.0f} of the server, engine {engine:.0f}"
            yield Ratio(name, own + others, HTTP_MAY_ADD + engine / 10.0, at_least=False)


def _served(to: Served, item: Calculation) -> float:
    """The processor's time of an answer, all processes of the service [us]."""
    body = msgspec.json.encode(item.example)
    before, began = to.processor_time(), time.perf_counter()
    rate = answers_per_second(to.port, item.path, body, SECONDS)
    count = rate * (time.perf_counter() - began)
    return 1e6 * (to.processor_time() - before) / count


async def _called(app: Any, item: Calculation) -> float:
    """The processor's time of an answer of the application without a server [us]."""
    body = msgspec.json.encode(item.example)
    headers = [
        (b"host", b"127.0.0.1"),
        (b"content-type", b"application/json"),
        (b"content-length", str(len(body)).encode()),
    ]
    sent: list[Any] = []

    async def receive() -> Any:
        return {"type": "http.request", "body": body, "more_body": False}

    async def send(message: Any) -> None:
        sent.append(message)

    began = time.process_time()
    for _ in range(RUNS):
        scope = {"type": "http", "http_version": "1.1", "method": "POST", "scheme": "http", "path": item.path}
        scope |= {"raw_path": item.path.encode(), "query_string": b"", "root_path": "", "headers": headers}
        scope |= {
            "client": ("127.0.0.1", 50000),
            "server": ("127.0.0.1", 8000),
            "state": {},
            "extensions": {},
        }
        await app(scope, receive, send)
    spent = time.process_time() - began
    assert {one["status"] for one in sent if "status" in one} == {200}
    return 1e6 * spent / RUNS


def _engine(item: Calculation) -> float:
    """The processor's time of the calculation alone [us]."""
    request = msgspec.convert(item.example, request_type(item.inputs))
    inputs = msgspec.convert(request, item.inputs, from_attributes=True)
    began = time.process_time()
    for _ in range(RUNS):
        item.calculate(inputs)
    return 1e6 * (time.process_time() - began) / RUNS
