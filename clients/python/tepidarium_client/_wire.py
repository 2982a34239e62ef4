"""One call on the wire: how it is written, repeated and finished, the same for both clients."""

from __future__ import annotations

import math
import uuid
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

import httpx
import msgspec

from ._answers import Answer, answer_of, error_of_answer, error_without_answer, unreadable
from ._errors import FieldError, InvalidInput, Unavailable
from ._retry import Outcome, pause_before_retry

__all__ = [
    "CAD",
    "CALENDAR",
    "DRAWING",
    "FILES",
    "JSON",
    "PDF",
    "SCHEDULE",
    "WORKBOOK",
    "XML",
    "Call",
    "Exchange",
    "encode",
    "new_request_id",
]

JSON = "application/json"
CALENDAR = "text/calendar"
DRAWING = "image/svg+xml"
CAD = "image/vnd.dxf"
PDF = "application/pdf"
SCHEDULE = "text/csv"
WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
FILES = "application/zip"
XML = "application/xml"

R = TypeVar("R")


def new_request_id() -> str:
    return str(uuid.uuid4())


@dataclass(frozen=True, slots=True)
class Call(Generic[R]):
    """One call: what is asked for, and how the answer is read.

    A call with ``when_unavailable`` takes 503 as an answer, with that value, and is not repeated.
    """

    method: str
    path: str
    read: Callable[[Answer], R]
    accept: str = JSON
    content: bytes | None = None
    request_id: str = field(default_factory=new_request_id)
    when_unavailable: R | None = None
    content_type: str = JSON
    options: Mapping[str, Any] = field(default_factory=dict)

    @property
    def headers(self) -> dict[str, str]:
        headers = {"Accept": f"{self.accept}, application/problem+json", "X-Request-Id": self.request_id}
        if self.content is not None:
            headers["Content-Type"] = self.content_type
        return headers


def encode(request: msgspec.Struct | Mapping[str, Any], request_id: str) -> bytes:
    """The request as JSON. Infinite and undefined numbers have no JSON form; they are refused here rather
    than sent as null."""
    plain = msgspec.to_builtins(request if isinstance(request, msgspec.Struct) else dict(request))
    errors = tuple(
        FieldError(pointer, "must be a finite number", "not_finite") for pointer in _not_finite(plain, "")
    )
    if errors:
        raise InvalidInput("The request was not sent.", request_id=request_id, errors=errors)
    return msgspec.json.encode(plain)


def _not_finite(value: Any, pointer: str) -> Iterator[str]:
    if isinstance(value, float):
        if not math.isfinite(value):
            yield pointer
        return
    members = (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    )
    for key, member in members:
        yield from _not_finite(member, f"{pointer}/{str(key).replace('~', '~0').replace('/', '~1')}")


class Exchange(Generic[R]):
    """The attempts of one call. The client waits out each of ``pauses``, sends ``request`` inside
    ``attempt``, keeps the outcome, and asks for the ``result`` in the end."""

    def __init__(self, call: Call[R], http: httpx.Client | httpx.AsyncClient, retries: int) -> None:
        self.call = call
        self.request = http.build_request(
            call.method, call.path, content=call.content, headers=call.headers, params=call.options or None
        )
        self.retries = retries if call.when_unavailable is None else 0
        self.outcome: Outcome

    def pauses(self) -> Iterator[float]:
        """The pause [s] before each attempt, for as long as there should be another."""
        yield 0.0
        for attempt in range(self.retries):
            pause = pause_before_retry(self.outcome, attempt)
            if pause is None:
                return
            yield pause

    @contextmanager
    def attempt(self) -> Iterator[None]:
        """Keeps a fault of the connection as the outcome of the attempt."""
        try:
            yield
        except httpx.RequestError as fault:
            self.outcome = fault

    def result(self) -> R:
        """The value of the call, or the error its last attempt ended with."""
        outcome, call = self.outcome, self.call
        if isinstance(outcome, httpx.RequestError):
            raise error_without_answer(outcome, self.request, call.request_id) from outcome
        if not outcome.is_success:
            error = error_of_answer(outcome, call.request_id)
            if call.when_unavailable is not None and isinstance(error, Unavailable):
                return call.when_unavailable
            raise error
        answer = answer_of(outcome, call.accept, call.request_id)
        try:
            return call.read(answer)
        except (msgspec.MsgspecError, UnicodeDecodeError) as fault:
            raise unreadable(answer, fault) from fault
