# ruff: noqa: N818 - the names say what happened; all of them are caught as TepidariumError
"""Everything that can go wrong between a caller and the service.

::

    TepidariumError
    ├── TransportError          no answer: the service was not reached, or the connection broke
    │   └── TimedOut            no answer within the time allowed (also a TimeoutError)
    └── ApiError                an answer that is not a result
        ├── InvalidInput        400 413 415 422: the request itself; ``errors`` names every field
        ├── Throttled           429: too many requests; ``retry_after`` if the service said so
        ├── Unavailable         502 503 504: overloaded, starting, or past its deadline
        └── ServerError         any other 5xx, or an answer that cannot be read

Every error carries ``status`` (None without an answer), ``problem`` (the problem document of RFC 9457, as a
mapping, empty without one) and ``request_id``, which the service writes to its log as well. Text and
``request_id`` are enough for a report; no error holds the body that was sent.

``InvalidInput`` has the status None when the client itself refused to send the request, because it holds a
number that JSON cannot carry.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

__all__ = [
    "ApiError",
    "FieldError",
    "InvalidInput",
    "Operation",
    "ServerError",
    "TepidariumError",
    "Throttled",
    "TimedOut",
    "TransportError",
    "Unavailable",
    "error_class",
]


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation of a JSON Patch (RFC 6902) on the request; ``value`` replaces what is at ``path``."""

    op: str
    path: str
    value: Any = None


@dataclass(frozen=True, slots=True)
class FieldError:
    """What is wrong with one field: ``pointer`` is an RFC 6901 JSON pointer into the request, ``code`` a
    stable word, ``limit`` the bound that was missed, in the unit of the field. ``changes``, where there are any,
    mend the request."""

    pointer: str
    detail: str
    code: str = ""
    limit: float | None = None
    changes: tuple[Operation, ...] = ()

    def __str__(self) -> str:
        return f"{self.pointer or '/'}: {self.detail}"


class TepidariumError(Exception):
    """Root of the tree: a call gave no result."""

    def __init__(
        self,
        message: str,
        *,
        request_id: str,
        status: int | None = None,
        problem: Mapping[str, Any] | None = None,
        errors: tuple[FieldError, ...] = (),
        retry_after: float | None = None,
    ) -> None:
        self.message = message
        self.request_id = request_id
        self.status = status
        self.problem: Mapping[str, Any] = problem or {}
        self.errors = errors
        self.retry_after = retry_after
        lines = [message, *(f"  {error}" for error in errors)]
        super().__init__("\n".join(lines) + f" (request id {request_id})")

    def __reduce__(self) -> tuple[Callable[..., TepidariumError], tuple[str]]:
        kept = ("request_id", "status", "problem", "errors", "retry_after")
        return partial(type(self), **{name: getattr(self, name) for name in kept}), (self.message,)


class TransportError(TepidariumError):
    """The service was not reached, or the connection broke before the answer was complete."""


class TimedOut(TransportError, TimeoutError):
    """The service did not answer within the time allowed."""


class ApiError(TepidariumError):
    """The service answered, but not with a result."""


class InvalidInput(ApiError):
    """The request cannot be computed; ``errors`` names the fields."""


class Throttled(ApiError):
    """Too many requests in a short time; ``retry_after`` [s] is the service's own advice, if it gave one."""


class Unavailable(ApiError):
    """The service is starting, overloaded or past its deadline. The same request may succeed later."""


class ServerError(ApiError):
    """The service failed or sent something that is not an answer."""


_CLASSES: dict[int, type[ApiError]] = {
    400: InvalidInput,
    413: InvalidInput,
    415: InvalidInput,
    422: InvalidInput,
    429: Throttled,
    502: Unavailable,
    503: Unavailable,
    504: Unavailable,
}


def error_class(status: int) -> type[ApiError]:
    """The class of error of an HTTP status that is not a success."""
    return _CLASSES.get(status, ServerError if status >= 500 else ApiError)
