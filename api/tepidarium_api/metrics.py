"""Figures for those who run the service, in the text format of Prometheus, on a port of their own.

Labels are route templates, statuses and types of problems: nothing that a client sends becomes one.
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress

from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram, start_http_server

from .workers import Workers

__all__ = ["Metrics"]

_SECONDS = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.1, 0.25, 1.0, 2.5, 5.0, 10.0, 30.0, 60.0)
_TRY_AGAIN = 1.0
"""After so long the port is tried again [s]: while the server is renewed, the old process still has it."""


class Metrics:
    """What is counted in one server process."""

    def __init__(self, workers: Workers) -> None:
        self.registry = CollectorRegistry()
        self._requests = Counter(
            "tepidarium_requests", "Requests answered", ("route", "status"), registry=self.registry
        )
        self._seconds = Histogram(
            "tepidarium_request_seconds",
            "Time from the request to the end of its answer",
            ("route",),
            buckets=_SECONDS,
            registry=self.registry,
        )
        self._problems = Counter(
            "tepidarium_problems",
            "Requests refused, by type of problem",
            ("problem",),
            registry=self.registry,
        )
        self._of_answers: dict[tuple[str, int], tuple[Counter, Histogram]] = {}
        for name, text, value in (
            ("tepidarium_queue_length", "Requests that wait for a process", lambda: workers.places.waiting),
            ("tepidarium_free_places", "Calculations that could start at once", lambda: workers.places.free),
            ("tepidarium_mother_deaths", "Ends of the process that forks", lambda: workers.deaths),
        ):
            Gauge(name, text, registry=self.registry).set_function(value)

    def answered(self, route: str, status: int, seconds: float, problem: str | None) -> None:
        figures = self._of_answers.get((route, status))
        if figures is None:  # to look a label up takes longer than to count
            figures = self._requests.labels(route, status), self._seconds.labels(route)
            self._of_answers[route, status] = figures
        requests, times = figures
        requests.inc()
        times.observe(seconds)
        if problem is not None:
            self._problems.labels(problem).inc()

    @asynccontextmanager
    async def served(self, host: str, port: int) -> AsyncIterator[None]:
        """Answer scrapes while the block runs; port 0: not at all."""
        serving = asyncio.create_task(self._serve(host, port)) if port else None
        try:
            yield
        finally:
            if serving is not None:
                serving.cancel()
                with suppress(asyncio.CancelledError):
                    await serving

    async def _serve(self, host: str, port: int) -> None:
        while True:
            try:
                server, _ = start_http_server(port, host, self.registry)
                break
            except OSError:
                await asyncio.sleep(_TRY_AGAIN)
        try:
            await asyncio.Event().wait()
        finally:
            await asyncio.shield(asyncio.to_thread(server.shutdown))
            server.server_close()
