"""The bare counterpart of the service: the same framework, the same bodies, nothing computed."""

from __future__ import annotations

from typing import Any

import msgspec
from litestar import Litestar, post
from litestar.handlers import HTTPRouteHandler
from litestar.params import JSONBody
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS, Calculation
from tepidarium_api.schemas import request_type, response_type

__all__ = ["create_app"]


def _route(calculation: Calculation) -> HTTPRouteHandler:
    outcome = answer(calculation, msgspec.json.encode(calculation.example), "")
    assert isinstance(outcome, Answer)
    response_struct = response_type(calculation.inputs, calculation.result)
    response = msgspec.json.decode(outcome.content, type=response_struct)

    async def handler(data: Any) -> Any:
        return response

    handler.__annotations__ = {
        "data": JSONBody[request_type(calculation.inputs)],  # type: ignore[misc]
        "return": response_struct,
    }
    return post(calculation.path, status_code=200)(handler)


def create_app() -> Litestar:
    """One endpoint for each light calculation that decodes the request and encodes a finished answer."""
    routes = [_route(calculation) for calculation in CALCULATIONS if not calculation.heavy]
    return Litestar(routes, openapi_config=None, logging_config=None)
