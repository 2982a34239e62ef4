"""Probes: the process lives; the process can compute."""

from __future__ import annotations

from typing import Annotated

import msgspec
from litestar import get
from litestar.handlers import HTTPRouteHandler
from msgspec import Meta

from .problems import Refusal, problem
from .workers import Workers

__all__ = ["Health", "health_routes"]


class Health(msgspec.Struct, frozen=True):
    """State of the service."""

    status: Annotated[str, Meta(description="live or ready")]


def health_routes(workers: Workers) -> list[HTTPRouteHandler]:
    @get(
        "/health/live",
        operation_id="health_live",
        summary="Whether the process lives",
        description="Answers as long as the process runs its event loop.",
        tags=["health"],
    )
    async def live() -> Health:
        return Health("live")

    @get(
        "/health/ready",
        operation_id="health_ready",
        summary="Whether the service can compute",
        description="503 while the worker processes start and when none of them can take a job.",
        tags=["health"],
        opt={"problems": ("not-ready",)},
    )
    async def ready() -> Health:
        if not workers.ready():
            raise Refusal(problem("not-ready", "no worker process can take a job"), {"Retry-After": "1"})
        return Health("ready")

    return [live, ready]
