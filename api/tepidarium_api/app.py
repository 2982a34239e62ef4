"""Assembly of the application; nothing is decided here."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import BinaryIO

from granian.utils.proxies import wrap_asgi_with_proxy_headers
from litestar import Litestar

from .answer import prepare
from .calculations import CALCULATIONS, FILE_READINGS, Calculation, FileReading
from .catalogue import catalogue_routes
from .code_catalogue import code_routes
from .docs import docs_routes
from .event_log import EventLog
from .files import file_routes
from .handbook_pages import handbook_routes
from .health import health_routes
from .metrics import Metrics
from .middleware import RequestFrame
from .responses import exception_handlers
from .routes import calculation_routes
from .settings import Settings
from .tracing import Tracing
from .workers import Workers

__all__ = ["create_app"]


def create_app(
    settings: Settings | None = None,
    calculations: tuple[Calculation, ...] = CALCULATIONS,
    log_stream: BinaryIO | None = None,
    readings: tuple[FileReading, ...] = FILE_READINGS,
) -> Litestar:
    """The service as an ASGI application.

    Without ``settings`` the environment decides; without ``log_stream`` the log goes to the standard output.
    """
    settings = settings or Settings.from_environment()
    log = EventLog(log_stream)
    tracing = Tracing(settings.traces_url)
    workers = Workers(settings, calculations, log, tracing)
    metrics = Metrics(workers)

    @asynccontextmanager
    async def running(_: Litestar) -> AsyncIterator[None]:
        log.started(settings)
        async with (
            workers.running(),
            tracing.running(),
            metrics.served(settings.metrics_host, settings.metrics_port),
        ):
            yield

    for calculation in calculations:
        prepare(calculation)
    app = Litestar(
        route_handlers=[
            *calculation_routes(calculations, settings, workers, tracing),
            *file_routes(readings, settings, workers),
            *catalogue_routes(calculations, readings, settings),
            *code_routes(),
            *health_routes(workers),
            *docs_routes(),
            *handbook_routes(),
        ],
        exception_handlers=exception_handlers(log),
        lifespan=[running],
        openapi_config=None,
        logging_config=None,
        debug=settings.debug,
    )
    frame = RequestFrame(app.asgi_handler, log if settings.request_log else None, settings, metrics, tracing)
    app.asgi_handler = frame.__call__
    if settings.trusted_proxies:
        app.asgi_handler = wrap_asgi_with_proxy_headers(app.asgi_handler, list(settings.trusted_proxies))
    return app
