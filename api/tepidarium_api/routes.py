"""One POST route for each calculation of the registry."""

from __future__ import annotations

from typing import Any

from litestar import Request, post
from litestar.handlers import HTTPRouteHandler
from litestar.response.base import ASGIResponse

from .answer import Answer, answer
from .calculations import Calculation
from .intake import read_body
from .problems import Problem, Refusal
from .settings import Settings
from .workers import Workers

__all__ = ["CALCULATION_KEY", "calculation_route"]

CALCULATION_KEY = "calculation"
"""Key under which a route carries its calculation."""


def calculation_route(calculation: Calculation, settings: Settings, workers: Workers) -> HTTPRouteHandler:
    headers = [("cache-control", "no-store")]
    if calculation.renderings:
        headers.append(("vary", "accept"))

    @post(
        calculation.path,
        status_code=200,
        operation_id=calculation.operation_id,
        summary=calculation.summary,
        description=calculation.description,
        tags=["calculations"],
        opt={CALCULATION_KEY: calculation},
    )
    async def calculate(request: Request[Any, Any, Any]) -> ASGIResponse:
        body, accept = await read_body(request.scope, request.receive, settings)
        outcome: Answer | Problem
        if calculation.heavy or len(body) > settings.inline_body_limit:
            outcome = await workers.answer(calculation, body, accept)
        else:
            outcome = answer(calculation, body, accept)
        if isinstance(outcome, Problem):
            raise Refusal(outcome)
        return ASGIResponse(body=outcome.content, media_type=outcome.media_type, headers=headers)

    return calculate
