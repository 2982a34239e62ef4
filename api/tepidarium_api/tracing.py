"""Traces of OpenTelemetry, for operators who set where they go: a span for each request, and below it one for the wait
for a place and one for the computing, in whichever process that happens.

The context comes with the request (W3C traceparent and tracestate) and goes on to the spans below. Needs the extra
``tracing``; without the setting nothing of it is loaded. Names and attributes come from routes and problems only:
nothing else of a request gets into a trace.
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Iterator
from contextlib import AbstractContextManager, asynccontextmanager, contextmanager, nullcontext
from importlib.util import find_spec
from time import time_ns
from typing import TYPE_CHECKING, Any

from .settings import SettingsError

if TYPE_CHECKING:
    from opentelemetry.trace import Tracer

__all__ = ["Tracing"]

_CONTEXT = (b"traceparent", b"tracestate")
_NO_SPAN = nullcontext()


class Tracing:
    """The spans of one server process; without an address there are none."""

    def __init__(self, address: str) -> None:
        if address and not _installed():
            raise SettingsError(
                "TEPIDARIUM_TRACES_URL needs the extra tracing: pip install 'tepidarium[tracing]'"
            )
        self._address = address
        self._tracer: Tracer | None = None

    @asynccontextmanager
    async def running(self) -> AsyncIterator[None]:
        """Send the spans while the block runs, and the last ones at its end. Sending has a thread of its own, so this
        comes after everything that forks."""
        if not self._address:
            yield
            return
        from opentelemetry.exporter.otlp.proto.http.trace_exporter import OTLPSpanExporter  # noqa: PLC0415
        from opentelemetry.sdk.resources import Resource  # noqa: PLC0415
        from opentelemetry.sdk.trace import TracerProvider  # noqa: PLC0415
        from opentelemetry.sdk.trace.export import BatchSpanProcessor  # noqa: PLC0415

        provider = TracerProvider(resource=Resource.create({"service.name": "tepidarium"}))
        provider.add_span_processor(BatchSpanProcessor(OTLPSpanExporter(endpoint=self._address)))
        self._tracer = provider.get_tracer("tepidarium_api")
        try:
            yield
        finally:
            self._tracer = None
            await asyncio.shield(asyncio.to_thread(provider.shutdown))

    def request(self, scope: Any, response: Any, state: Any) -> AbstractContextManager[None]:
        """The span of a request: named by its route, with status and problem when it ends."""
        return _NO_SPAN if self._tracer is None else self._span(self._tracer, scope, response, state)

    @contextmanager
    def _span(self, tracer: Tracer, scope: Any, response: Any, state: Any) -> Iterator[None]:
        from opentelemetry.trace import SpanKind, Status, StatusCode, use_span  # noqa: PLC0415
        from opentelemetry.trace.propagation.tracecontext import (  # noqa: PLC0415
            TraceContextTextMapPropagator,
        )

        sent = {name.decode(): state.fields.get(name, b"").decode("latin-1") for name in _CONTEXT}
        context = TraceContextTextMapPropagator().extract(sent)
        span = tracer.start_span(scope["method"], context, SpanKind.SERVER)
        try:
            with use_span(span, record_exception=False, set_status_on_exception=False):
                yield
        finally:
            route = scope.get("path_template") or "unmatched"
            span.update_name(f"{scope['method']} {route}")
            span.set_attribute("http.request.method", scope["method"])
            span.set_attribute("http.route", route)
            span.set_attribute("http.response.status_code", response.status)
            span.set_attribute("tepidarium.request_id", state.request_id)
            if state.problem is not None:
                span.set_attribute("error.type", state.problem)
            if response.status >= 500:
                span.set_status(Status(StatusCode.ERROR))
            span.end()

    def done(self, name: str, began: int, ended: int | None = None, **attributes: str | int) -> None:
        """A span below that of the request, for work that is over: ``began`` and ``ended`` [ns of ``time_ns``], now
        where it is left out."""
        if self._tracer is not None:
            span = self._tracer.start_span(name, start_time=began, attributes=attributes)
            span.end(time_ns() if ended is None else ended)


def _installed() -> bool:
    try:
        return find_spec("opentelemetry.exporter.otlp.proto.http") is not None
    except ModuleNotFoundError:
        return False
