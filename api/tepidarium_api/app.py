"""Assembly of the application; nothing is decided here."""

from __future__ import annotations

from typing import BinaryIO

from litestar import Litestar

from .answer import prepare
from .calculations import CALCULATIONS, Calculation
from .catalogue import catalogue_routes
from .docs import docs_routes
from .event_log import EventLog
from .health import health_routes
from .middleware import RequestFrame
from .responses import exception_handlers
from .routes import calculation_routes
from .settings import Settings
from .workers import Workers

__all__ = ["create_app"]


def create_app(
    settings: Settings | None = None,
    calculations: tuple[Calculation, ...] = CALCULATIONS,
    log_stream: BinaryIO | None = None,
) -> Litestar:
    """The service as an ASGI application.

    Without ``settings`` the environment decides; without ``log_stream`` the log goes to the standard output.
    """
    settings = settings or Settings.from_environment()
    log = EventLog(log_stream)
    workers = Workers(settings, calculations, log)
    for calculation in calculations:
        prepare(calculation)
    app = Litestar(
        route_handlers=[
            *calculation_routes(calculations, settings, workers),
            *catalogue_routes(calculations, settings),
            *health_routes(workers),
            *docs_routes(),
        ],
        exception_handlers=exception_handlers(log),
        lifespan=[lambda _: workers.running()],
        openapi_config=None,
        logging_config=None,
        debug=settings.debug,
    )
    app.asgi_handler = RequestFrame(app.asgi_handler, log if settings.request_log else None)
    return app
