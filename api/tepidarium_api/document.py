"""The OpenAPI 3.1 document: Litestar's routes, msgspec's schemas, the registry's bodies and examples.

``python -m tepidarium_api.document [file]`` writes it, to ``api/openapi.json`` unless told otherwise.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import msgspec
from litestar import Litestar
from litestar.handlers import HTTPRouteHandler
from litestar.routes import ASGIRoute, BaseRoute, HTTPRoute
from tepidarium_engine import __version__ as engine_version

from .calculations import Calculation
from .negotiation import JSON
from .problems import MEDIA_TYPE, PROBLEM_TYPES, Problem
from .routes import CALCULATION_KEY
from .schemas import request_type, response_type

__all__ = ["encoded_document", "openapi_document"]

_REFERENCE = "#/components/schemas/{name}"
_CALCULATION_PROBLEMS = (
    "unreadable-body",
    "not-acceptable",
    "body-timeout",
    "body-too-large",
    "unsupported-media-type",
    "invalid-input",
    "internal-error",
    "overloaded",
)
_INFO = {
    "title": "Tepidarium",
    "version": engine_version,
    "summary": "Calculations for water-based underfloor heating in screed",
    "description": (
        "Every calculation is a POST of JSON that changes nothing on the server: it may be repeated, and the same "
        "request to the same engine_version gives the same bytes. Numbers are SI; each carries its unit in x-unit "
        "and in its description. Requests are closed, answers open: new fields may appear in answers. If a name is "
        "given twice in one JSON object, the last one counts. Errors are problem documents (RFC 9457). Results do "
        "not replace local codes and licensed practice."
    ),
    "license": {"name": "MIT", "identifier": "MIT"},
}
_TAGS = [
    {"name": "calculations", "description": "The calculations"},
    {"name": "catalogue", "description": "The calculations offered and their limits"},
    {"name": "health", "description": "Probes for the machine that runs the service"},
]
_REQUEST_ID = {
    "name": "X-Request-Id",
    "in": "header",
    "required": False,
    "description": "A UUID by which the caller knows the request; it comes back with the response. "
    "Anything else is ignored and replaced",
    "schema": {"type": "string"},
}


def openapi_document(app: Litestar) -> dict[str, Any]:
    """The document of an application, as JSON-like objects in a fixed order."""
    types: list[Any] = [Problem]
    paths: dict[str, Any] = {}
    for route in sorted(app.routes, key=lambda route: route.path_format):
        if operations := dict(_operations(route, types)):
            paths[route.path_format] = operations
    _, schemas = msgspec.json.schema_components(types, ref_template=_REFERENCE)
    return {
        "openapi": "3.1.0",
        "info": _INFO,
        "servers": [{"url": "/", "description": "The service that this document came from"}],
        "security": [{}],
        "tags": _TAGS,
        "paths": paths,
        "components": {
            "schemas": dict(sorted(schemas.items())),
            "responses": {slug: _problem_response(slug) for slug in PROBLEM_TYPES},
            "parameters": {"request-id": _REQUEST_ID},
            "headers": {
                "request-id": {
                    "description": "Id of the request",
                    "schema": {"type": "string", "format": "uuid"},
                }
            },
        },
    }


def encoded_document(app: Litestar) -> bytes:
    """The document as indented JSON text."""
    return msgspec.json.format(msgspec.json.encode(openapi_document(app)), indent=2) + b"\n"


def _operations(route: BaseRoute, types: list[Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Method and operation of what a route documents; the types it speaks of are added to ``types``."""
    if isinstance(route, ASGIRoute) and CALCULATION_KEY in route.route_handler.opt:
        yield "post", _calculation(route.route_handler.opt[CALCULATION_KEY], types)
    elif isinstance(route, HTTPRoute):
        for method, (handler, _) in route.route_handler_map.items():
            if handler.resolve_include_in_schema() and method != "OPTIONS":
                yield method.lower(), _reading(handler, types)


def _described(operation_id: Any, summary: str | None, description: Any, tag: str) -> dict[str, Any]:
    return {
        "operationId": operation_id,
        "summary": summary,
        "description": description,
        "tags": [tag],
        "parameters": [{"$ref": "#/components/parameters/request-id"}],
    }


def _calculation(calculation: Calculation, types: list[Any]) -> dict[str, Any]:
    request, response = (
        request_type(calculation.inputs),
        response_type(calculation.inputs, calculation.result),
    )
    types += [request, response]
    example = {"summary": calculation.summary, "value": msgspec.to_builtins(calculation.example)}
    content: dict[str, Any] = {JSON: {"schema": _reference(response)}}
    content.update({media_type: {"schema": {"type": "string"}} for media_type in calculation.renderings})
    return {
        **_described(calculation.operation_id, calculation.summary, calculation.description, "calculations"),
        "requestBody": {
            "required": True,
            "content": {JSON: {"schema": _reference(request), "examples": {calculation.name: example}}},
        },
        "responses": _responses("The result", content, _CALCULATION_PROBLEMS),
    }


def _reading(handler: HTTPRouteHandler, types: list[Any]) -> dict[str, Any]:
    answer = handler.parsed_fn_signature.return_type.annotation
    types.append(answer)
    (tag,) = handler.tags or ()
    operation = _described(handler.operation_id, handler.summary, handler.description, tag)
    for name, values in handler.opt.get("path_values", {}).items():
        schema = {"type": "string", "enum": list(values)}
        operation["parameters"].append({"name": name, "in": "path", "required": True, "schema": schema})
    problems = (*handler.opt.get("problems", ()), "internal-error")
    operation["responses"] = _responses("The answer", {JSON: {"schema": _reference(answer)}}, problems)
    return operation


def _responses(description: str, content: dict[str, Any], problems: tuple[str, ...]) -> dict[str, Any]:
    headers = {"X-Request-Id": {"$ref": "#/components/headers/request-id"}}
    success = {"200": {"description": description, "headers": headers, "content": content}}
    by_status = {str(PROBLEM_TYPES[slug].status): slug for slug in problems}
    failures = {
        status: {"$ref": f"#/components/responses/{slug}"} for status, slug in sorted(by_status.items())
    }
    return success | failures


def _problem_response(slug: str) -> dict[str, Any]:
    kind = PROBLEM_TYPES[slug]
    return {
        "description": f"{kind.title}. {kind.explanation}",
        "headers": {"X-Request-Id": {"$ref": "#/components/headers/request-id"}},
        "content": {MEDIA_TYPE: {"schema": _reference(Problem)}},
    }


def _reference(struct: type) -> dict[str, str]:
    return {"$ref": _REFERENCE.format(name=struct.__name__)}


def main() -> None:
    from .app import create_app  # noqa: PLC0415 - the application needs this module

    target = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parents[1] / "openapi.json"
    target.write_bytes(encoded_document(create_app()))


if __name__ == "__main__":
    main()
