"""The OpenAPI 3.1 document: Litestar's routes, msgspec's schemas, the registry's bodies and examples.

``python -m tepidarium_api.write_document`` writes it to a file.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import msgspec
from litestar import Litestar
from litestar.handlers import HTTPRouteHandler
from litestar.routes import ASGIRoute, BaseRoute, HTTPRoute
from tepidarium_engine import __version__ as engine_version

from .calculations import CALENDAR, CSV, FORMS, SVG, Calculation, FileReading
from .files import READING_KEY
from .negotiation import JSON
from .problems import MEDIA_TYPE, PROBLEM_TYPES, Problem
from .routes import CALCULATION_KEY, FORM_KEY
from .schemas import options_type, request_type, response_type

__all__ = ["ANSWER_KEY", "encoded_document", "openapi_document"]

ANSWER_KEY = "answer"
"""Key under which a route carries the type of its answer where its handler does not return it as it is."""

_REFERENCE = "#/components/schemas/{name}"
_CALCULATION_PROBLEMS = (
    "unreadable-body",
    "not-acceptable",
    "body-timeout",
    "body-too-large",
    "unsupported-media-type",
    "key-needed",
    "invalid-input",
    "memory-exceeded",
    "too-many-requests",
    "internal-error",
    "calculation-lost",
    "deadline-exceeded",
    "overloaded",
)
_TEXTS = frozenset({SVG, CALENDAR, CSV})
"""Media types whose answers are texts; all others are bytes."""
_QUERY_PROBLEMS = (
    "not-acceptable",
    "invalid-input",
    "internal-error",
    "calculation-lost",
    "deadline-exceeded",
    "overloaded",
)
_CACHE_HEADERS = {
    "ETag": {"description": "Stands for engine version and request", "schema": {"type": "string"}},
    "Cache-Control": {"description": "How long caches may keep the answer", "schema": {"type": "string"}},
}
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
_KEYWORDS = {"default": "x-default"}
_REQUEST_ID_HEADER = {"X-Request-Id": {"$ref": "#/components/headers/request-id"}}
_RETRY_AFTER = {
    "description": "Time to wait before the request is sent again [s]",
    "required": True,
    "schema": {"type": "integer", "minimum": 0, "x-unit": "s"},
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


@dataclass(frozen=True, slots=True)
class _Used:
    """What the operations refer to."""

    types: list[Any] = field(default_factory=lambda: [Problem])
    problems: set[tuple[str, ...]] = field(default_factory=set)


def openapi_document(app: Litestar) -> dict[str, Any]:
    """The document of an application, as JSON-like objects in a fixed order."""
    used = _Used()
    paths: dict[str, Any] = {}
    for route in sorted(app.routes, key=lambda route: route.path_format):
        if operations := dict(_operations(route, used)):
            paths[route.path_format] = operations
    _, schemas = msgspec.json.schema_components(used.types, ref_template=_REFERENCE)
    return {
        "openapi": "3.1.0",
        "info": _INFO,
        "servers": [{"url": "/", "description": "The service that this document came from"}],
        "security": [{}],
        "tags": _TAGS,
        "paths": paths,
        "components": {
            "schemas": {name: _for_generators(schemas[name]) for name in sorted(schemas)},
            "responses": {_name_of(slugs): _problem_response(slugs) for slugs in sorted(used.problems)},
            "parameters": {"request-id": _REQUEST_ID},
            "headers": {
                "request-id": {
                    "description": "Id of the request",
                    "schema": {"type": "string", "format": "uuid"},
                },
                "retry-after": _RETRY_AFTER,
            },
        },
    }


def encoded_document(app: Litestar) -> bytes:
    """The document as indented JSON text."""
    return msgspec.json.format(msgspec.json.encode(openapi_document(app)), indent=2) + b"\n"


def _for_generators(schema: Any) -> Any:
    """msgspec's schema as generators of clients, linters and viewers take it.

    The members of a pair are also given as ``items``, which many read alone; msgspec says ``false`` there, and the
    length stands in ``maxItems``. A default goes by the name ``x-default``: a field with ``default`` is taken for
    one that is always present, although it is there to be left out; the description tells it as well. Words to
    choose from are ``string``.
    """
    if isinstance(schema, list):
        return [_for_generators(member) for member in schema]
    if not isinstance(schema, dict):
        return schema
    mended = {_KEYWORDS.get(key, key): _for_generators(value) for key, value in schema.items()}
    if "properties" in schema:  # fields may have the names of keywords
        mended["properties"] = {
            name: _for_generators(member) for name, member in schema["properties"].items()
        }
    if isinstance(mended.get("x-default"), bool | int | float | str):
        mended["description"] = _with_default(mended["description"], mended["x-default"])
    if "enum" in mended and all(isinstance(word, str) for word in mended["enum"]):
        mended["type"] = "string"
    if "prefixItems" in mended:
        mended["items"] = mended["prefixItems"][0]
    return mended


def _with_default(description: str, default: Any) -> str:
    """The description with the default, before the unit at its end."""
    text, bracket, unit = description.rpartition(" [") if description.endswith("]") else (description, "", "")
    word = default if isinstance(default, str) else msgspec.json.encode(default).decode()
    return f"{text} (default {word}){bracket}{unit}" if word else description


def _operations(route: BaseRoute, used: _Used) -> Iterator[tuple[str, dict[str, Any]]]:
    """Method and operation of what a route documents; what they refer to is added to ``used``."""
    if isinstance(route, ASGIRoute) and CALCULATION_KEY in route.route_handler.opt:
        calculation, form = (route.route_handler.opt[key] for key in (CALCULATION_KEY, FORM_KEY))
        yield "post", _calculation(calculation, used) if form is None else _form(calculation, form, used)
        if calculation.readable and form is None:
            yield "get", _query(calculation, used)
    elif isinstance(route, ASGIRoute) and READING_KEY in route.route_handler.opt:
        yield "post", _file_reading(route.route_handler.opt[READING_KEY], used)
    elif isinstance(route, HTTPRoute):
        for method, (handler, _) in route.route_handler_map.items():
            if handler.resolve_include_in_schema() and method != "OPTIONS":
                yield method.lower(), _reading(handler, used)


def _described(operation_id: Any, summary: str | None, description: Any, tag: str) -> dict[str, Any]:
    return {
        "operationId": operation_id,
        "summary": summary,
        "description": description,
        "tags": [tag],
        "parameters": [{"$ref": "#/components/parameters/request-id"}],
    }


def _calculation(calculation: Calculation, used: _Used) -> dict[str, Any]:
    response = response_type(calculation.inputs, calculation.result)
    used.types.append(response)
    forms = (f"`Accept: {kind}` gives the answer of `{path}`." for path, kind in calculation.forms.items())
    description = "\n\n".join((calculation.description, *forms))
    return {
        **_described(calculation.operation_id, calculation.summary, description, "calculations"),
        "requestBody": _request_body(calculation, used),
        "responses": _responses("The result", JSON, _reference(response), _CALCULATION_PROBLEMS, used),
    }


def _form(calculation: Calculation, media_type: str, used: _Used) -> dict[str, Any]:
    name = FORMS[media_type]
    text = {"type": "string"} if media_type in _TEXTS else {"type": "string", "format": "binary"}
    operation_id = f"{calculation.operation_id}_{name.replace('-', '_')}"
    summary = f"{name.replace('-', ' ').capitalize()} for {calculation.name}"
    description = f"Takes the request of `{calculation.path}` and answers with its {name} as `{media_type}`."
    return {
        **_described(operation_id, summary, description, "calculations"),
        "requestBody": _request_body(calculation, used),
        "responses": _responses(f"The {name}", media_type, text, _CALCULATION_PROBLEMS, used),
    }


def _file_reading(reading: FileReading, used: _Used) -> dict[str, Any]:
    response = response_type(reading.options, reading.result)
    used.types.append(response)
    operation = _described(reading.operation_id, reading.summary, reading.description, "calculations")
    (schema,) = msgspec.json.schema_components([options_type(reading.options)])[1].values()
    for name, member in _for_generators(schema)["properties"].items():
        text = member.pop("description")
        # an option is left out, never null
        kept: dict[str, Any] = next((arm for arm in member.pop("anyOf", ()) if arm.get("type") != "null"), {})
        rest = {key: value for key, value in member.items() if value is not None}
        operation["parameters"].append(
            {"name": name, "in": "query", "required": False, "description": text, "schema": kept | rest}
        )
    file = {"schema": {"type": "string", "format": "binary"}}
    operation["requestBody"] = {"required": True, "content": dict.fromkeys(reading.formats, file)}
    problems = (*_CALCULATION_PROBLEMS, "bad-request", "unreadable-file")
    operation["responses"] = _responses("The result", JSON, _reference(response), problems, used)
    return operation


def _query(calculation: Calculation, used: _Used) -> dict[str, Any]:
    """The request as parameters, texts and numbers as they are, everything else as JSON."""
    request, response = (
        request_type(calculation.inputs),
        response_type(calculation.inputs, calculation.result),
    )
    summary = f"{calculation.summary}, by a query string"
    description = (
        f"Answers what a POST to `{calculation.path}` with the same members answers, and caches may keep it: the "
        "`ETag` stands for engine version and request. Members that are not plain numbers, words or yes-or-no are JSON."
    )
    operation_id = f"{calculation.operation_id}_by_query"
    operation = _described(operation_id, summary, description, "calculations")
    members = msgspec.json.schema_components((request,), ref_template=_REFERENCE)[1][request.__name__]
    for name, member in members["properties"].items():
        place = {"name": name, "in": "query", "required": False}
        schema = _for_generators(member)
        plain = _is_plain(schema)
        operation["parameters"].append(
            place | ({"schema": schema} if plain else {"content": {JSON: {"schema": schema}}})
        )
    success = _responses("The result", JSON, _reference(response), _QUERY_PROBLEMS, used)
    success["200"]["headers"] = success["200"]["headers"] | _CACHE_HEADERS
    return {**operation, "responses": success | {"304": {"description": "The caller has the answer already"}}}


def _is_plain(schema: dict[str, Any]) -> bool:
    """Whether a value is written in a query as it is."""
    arms = schema.get("anyOf", [schema])
    return all(arm.get("type") in {"number", "integer", "string", "boolean", "null"} for arm in arms)


def _request_body(calculation: Calculation, used: _Used) -> dict[str, Any]:
    request = request_type(calculation.inputs)
    used.types.append(request)
    example = {"summary": calculation.summary, "value": msgspec.to_builtins(calculation.example)}
    content = {"schema": _reference(request), "examples": {calculation.name: example}}
    return {"required": True, "content": {JSON: content}}


def _reading(handler: HTTPRouteHandler, used: _Used) -> dict[str, Any]:
    answer = handler.opt.get(ANSWER_KEY) or handler.parsed_fn_signature.return_type.annotation
    used.types.append(answer)
    (tag,) = handler.tags or ()
    operation = _described(handler.operation_id, handler.summary, handler.description, tag)
    for name, values in handler.opt.get("path_values", {}).items():
        schema = {"type": "string", "enum": list(values)}
        operation["parameters"].append({"name": name, "in": "path", "required": True, "schema": schema})
    problems = (*handler.opt.get("problems", ()), "internal-error")
    responses = _responses("The answer", JSON, _reference(answer), problems, used)
    if handler.opt.get("cached"):
        responses["200"]["headers"] = responses["200"]["headers"] | _CACHE_HEADERS
        responses["304"] = {"description": "The caller has the answer already"}
    operation["responses"] = responses
    return operation


def _responses(
    description: str, media_type: str, schema: dict[str, str], problems: tuple[str, ...], used: _Used
) -> dict[str, Any]:
    content = {media_type: {"schema": schema}}
    success = {"200": {"description": description, "headers": _REQUEST_ID_HEADER, "content": content}}
    by_status: dict[int, tuple[str, ...]] = {}
    for slug in problems:
        status = PROBLEM_TYPES[slug].status
        by_status[status] = (*by_status.get(status, ()), slug)
    used.problems.update(by_status.values())
    failures = {
        str(status): {"$ref": f"#/components/responses/{_name_of(slugs)}"}
        for status, slugs in sorted(by_status.items())
    }
    return success | failures


def _problem_response(slugs: tuple[str, ...]) -> dict[str, Any]:
    """One status may stand for several types of problem."""
    kinds = [PROBLEM_TYPES[slug] for slug in slugs]
    retry = {"Retry-After": {"$ref": "#/components/headers/retry-after"}} if kinds[0].status == 503 else {}
    return {
        "description": "\n\n".join(f"{kind.title}. {kind.explanation}" for kind in kinds),
        "headers": _REQUEST_ID_HEADER | retry,
        "content": {MEDIA_TYPE: {"schema": _reference(Problem)}},
    }


def _name_of(slugs: tuple[str, ...]) -> str:
    return "-or-".join(slugs)


def _reference(struct: type) -> dict[str, str]:
    return {"$ref": _REFERENCE.format(name=struct.__name__)}
