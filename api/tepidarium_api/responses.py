"""Every error as a problem document, whoever raises it."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from litestar import Litestar, Request, Response
from litestar.exceptions import HTTPException

from .event_log import EventLog
from .failures import describe
from .middleware import state_of
from .problems import MEDIA_TYPE, Problem, Refusal, encode, problem
from .workers import WorkerFailure

__all__ = ["exception_handlers", "problem_response"]

_SLUG_BY_STATUS = {404: "not-found", 405: "method-not-allowed", 413: "body-too-large", 500: "internal-error"}
_KEPT_HEADERS = frozenset({"allow"})

LONGEST_MISTAKE = 100
"""A longer path is not compared with those that exist [characters]."""

AnyRequest = Request[Any, Any, Any]


def problem_response(
    request: AnyRequest, document: Problem, headers: Mapping[str, str] | None = None
) -> Response[bytes]:
    """The document as application/problem+json, with the request id as its instance."""
    state = state_of(request.scope)
    state.problem = document.type.rpartition("/")[2]
    return Response(
        encode(document, state.request_id),
        status_code=document.status,
        media_type=MEDIA_TYPE,
        headers={"Cache-Control": "no-store", **(headers or {})},
    )


def exception_handlers(log: EventLog) -> dict[Any, Any]:
    """Handlers for what the service refuses, what Litestar refuses and what should never happen."""

    def refused(request: AnyRequest, refusal: Refusal) -> Response[bytes]:
        return problem_response(request, refusal.document, refusal.headers)

    def refused_by_framework(request: AnyRequest, error: HTTPException) -> Response[bytes]:
        slug = _SLUG_BY_STATUS.get(error.status_code, "bad-request")
        kept = {name: value for name, value in (error.headers or {}).items() if name.lower() in _KEPT_HEADERS}
        return problem_response(request, problem(slug, _detail(request, slug, kept)), kept)

    def failed(request: AnyRequest, error: Exception) -> Response[bytes]:
        log.failure(error.failure if isinstance(error, WorkerFailure) else describe(error))
        return problem_response(request, problem("internal-error", "the service failed"))

    return {Refusal: refused, HTTPException: refused_by_framework, Exception: failed}


def _detail(request: AnyRequest, slug: str, headers: Mapping[str, str]) -> str:
    match slug:
        case "not-found":
            near = _nearest(request.app, request.scope["path"])
            meant = f"Did you mean {near}? " if near else ""
            return f"{meant}/v1/calculations lists the calculations, /docs shows how to ask for them"
        case "method-not-allowed" if "POST" in ",".join(headers.values()):
            return "Send POST with the request as a JSON body to this path; /docs shows an example"
        case "method-not-allowed":
            return "Send GET to this path"
    return "the type of this problem explains it"


def _nearest(app: Litestar, path: str) -> str | None:
    """The path of the service that is most like one that does not exist."""
    if len(path) > LONGEST_MISTAKE:
        return None
    paths = sorted(route.path_format for route in app.routes if "{" not in route.path_format)
    return next(iter(get_close_matches(path.lower(), paths, 1)), None)
