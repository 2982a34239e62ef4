"""What comes back: a value, or the right error."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import httpx
import msgspec

from ._errors import (
    ApiError,
    FieldError,
    ServerError,
    TepidariumError,
    TimedOut,
    TransportError,
    error_class,
)
from ._retry import retry_after

__all__ = ["Answer", "answer_of", "error_of_answer", "error_without_answer", "unreadable"]


@dataclass(frozen=True, slots=True)
class Answer:
    """A successful answer as it came: body, media type and request id."""

    content: bytes
    media_type: str
    request_id: str


def answer_of(response: httpx.Response, accept: str, request_id: str) -> Answer:
    """The answer in the media type asked for; a page of some other server is an error, not a result."""
    media_type = response.headers.get("Content-Type", "").partition(";")[0].strip().lower()
    answer = Answer(response.content, media_type, response.headers.get("X-Request-Id", request_id))
    if media_type != accept:
        raise unreadable(answer, f"it is {media_type or 'of no declared type'}, not {accept}")
    return answer


def unreadable(answer: Answer, reason: object) -> ServerError:
    """The error for a success that is no result."""
    return ServerError(f"The answer cannot be read: {reason}", request_id=answer.request_id, status=200)


_FAULTS: tuple[tuple[type[httpx.RequestError], type[TepidariumError], str], ...] = (
    (httpx.TimeoutException, TimedOut, "No answer in time"),
    (httpx.DecodingError, ServerError, "The answer cannot be read"),
    (httpx.RequestError, TransportError, "No answer"),
)


def error_without_answer(
    fault: httpx.RequestError, request: httpx.Request, request_id: str
) -> TepidariumError:
    """The error for a fault of the connection."""
    kind, text = next((kind, text) for known, kind, text in _FAULTS if isinstance(fault, known))
    place = f"{request.url.scheme}://{request.url.netloc.decode()}"
    return kind(f"{text} from {place}: {str(fault) or type(fault).__name__}", request_id=request_id)


def error_of_answer(response: httpx.Response, request_id: str) -> ApiError:
    """The error a problem document, or any other refusal, stands for."""
    problem = _problem(response)
    message = problem.get("detail") or problem.get("title") or response.reason_phrase or "no reason given"
    return error_class(response.status_code)(
        f"{response.status_code}: {message}",
        request_id=response.headers.get("X-Request-Id", request_id),
        status=response.status_code,
        problem=problem,
        errors=tuple(_field_errors(problem.get("errors"))),
        retry_after=retry_after(response),
    )


def _problem(response: httpx.Response) -> dict[str, Any]:
    """The problem document; empty when a proxy or a stranger answered with something else."""
    try:
        return msgspec.json.decode(response.content, type=dict[str, Any])
    except (msgspec.MsgspecError, UnicodeDecodeError):
        return {}


def _field_errors(found: object) -> Iterator[FieldError]:
    for item in found if isinstance(found, list) else ():
        try:
            yield msgspec.convert(item, FieldError)
        except msgspec.ValidationError:
            yield FieldError("", str(item))
