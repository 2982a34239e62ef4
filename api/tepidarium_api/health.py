"""Probes: the process lives; the process can compute."""

from __future__ import annotations

from typing import Annotated

import msgspec
from litestar import get, route
from litestar.handlers import HTTPRouteHandler
from litestar.response.base import ASGIResponse
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

    @route("/health/live", http_method="HEAD", include_in_schema=False)
    async def live_head() -> ASGIResponse:
        return ASGIResponse(is_head_response=True)

    @get(
        "/health/ready",
        operation_id="health_ready",
        summary="Whether the service can compute",
        description="503 while the worker processes start and when none of them can take a job.",
        tags=["health"],
        opt={"problems": ("not-ready",)},
    )
    async def ready() -> Health:
        await _require_ready(workers)
        return Health("ready")

    @route("/health/ready", http_method="HEAD", include_in_schema=False)
    async def ready_head() -> ASGIResponse:
        await _require_ready(workers)
        return ASGIResponse(is_head_response=True)

    return [live, live_head, ready, ready_head]


async def _require_ready(workers: Workers) -> None:
    if not await workers.ready():
        raise Refusal(problem("not-ready", "no worker process can take a job"), {"Retry-After": "1"})
