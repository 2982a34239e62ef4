"""Problem documents (RFC 9457): the closed list of problem types and the one shape of every error."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal
from uuid import UUID

import msgspec
from msgspec import Meta

__all__ = [
    "MEDIA_TYPE",
    "PROBLEM_TYPES",
    "FieldError",
    "Operation",
    "Problem",
    "ProblemType",
    "Refusal",
    "encode",
    "problem",
]

MEDIA_TYPE = "application/problem+json"
MAXIMUM_ERRORS = 20
MAXIMUM_BYTES = 8 * 1024


class Operation(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One operation of a JSON Patch (RFC 6902)."""

    op: Annotated[Literal["replace", "remove"], Meta(description="What to do with the value at the path")]
    path: Annotated[str, Meta(description="JSON pointer (RFC 6901) into the request")]
    value: Annotated[
        tuple[tuple[float, float], ...] | None,
        Meta(
            description="In place of what is there: the points of an outline [m]; missing where one is removed"
        ),
    ] = None


class FieldError(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One thing wrong with one field of the request. The value that was sent is never repeated."""

    pointer: Annotated[
        str, Meta(description="JSON pointer (RFC 6901) into the request; empty for the whole body")
    ]
    code: Annotated[str, Meta(description="Stable code of the fault")]
    detail: Annotated[str, Meta(description="What is wrong, with the unit of the field where it has one")]
    limit: Annotated[
        float | None, Meta(description="The bound that was missed, in the unit of the field")
    ] = None
    changes: Annotated[
        tuple[Operation, ...],
        Meta(
            description="A JSON Patch (RFC 6902) of the request that mends this fault, and all that belongs to it; "
            "missing where no answer is ready"
        ),
    ] = ()


class Problem(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """What went wrong with one request (RFC 9457)."""

    type: Annotated[str, Meta(description="Type of the problem; a path that answers with an explanation")]
    title: Annotated[str, Meta(description="Name of the type, always the same for the same type")]
    status: Annotated[int, Meta(description="HTTP status code")]
    detail: Annotated[str, Meta(description="What happened this time")]
    instance: Annotated[
        str, Meta(description="The request id as a URN; quote it when you report the problem")
    ] = ""
    errors: Annotated[tuple[FieldError, ...], Meta(description="The faulty fields, at most 20")] = ()


class ProblemType(msgspec.Struct, frozen=True, kw_only=True):
    """One type of problem and what to do about it."""

    slug: Annotated[str, Meta(description="Name of the type in its path")]
    status: Annotated[int, Meta(description="HTTP status code")]
    title: Annotated[str, Meta(description="Name of the type for people")]
    explanation: Annotated[str, Meta(description="What it means and what to do about it")]


def _type(status: int, slug: str, title: str, explanation: str) -> tuple[str, ProblemType]:
    return slug, ProblemType(slug=slug, status=status, title=title, explanation=explanation)


PROBLEM_TYPES: Mapping[str, ProblemType] = dict(
    (
        _type(
            400,
            "unreadable-body",
            "Body cannot be read",
            "The body is empty, cut off, not JSON (RFC 8259), not UTF-8, nested too deeply, or holds a "
            "number beyond the range of an IEEE 754 double. Send one JSON object.",
        ),
        _type(400, "bad-request", "Request not understood", "The request breaks the rules of HTTP."),
        _type(
            401,
            "key-needed",
            "Key missing or not known",
            "Send the key that the operator of this service gave you as X-API-Key.",
        ),
        _type(
            404, "not-found", "No such resource", "Nothing lives at this path. /openapi.json lists all paths."
        ),
        _type(
            405,
            "method-not-allowed",
            "Method not allowed here",
            "The path exists, the method does not. The Allow header lists the methods.",
        ),
        _type(
            406,
            "not-acceptable",
            "No acceptable representation",
            "None of the media types in the Accept header can be produced. The detail lists those that can.",
        ),
        _type(408, "body-timeout", "Body did not arrive in time", "Send the whole body without a pause."),
        _type(
            413,
            "body-too-large",
            "Body too large",
            "The body exceeds the limit published at /v1/limits. Split the work into several requests.",
        ),
        _type(
            415,
            "unsupported-media-type",
            "Media type not supported",
            "Send Content-Type: application/json, in UTF-8 and without a Content-Encoding; a file with a media type "
            "that its path accepts.",
        ),
        _type(
            422,
            "invalid-input",
            "Input cannot be computed",
            "The body is JSON, but fields are missing, unknown, of the wrong type, out of bounds or "
            "contradict each other. The errors point to each field; units and bounds stand in /openapi.json "
            "and /v1/limits.",
        ),
        _type(
            422,
            "unreadable-file",
            "File cannot be read",
            "The file is not of the format that its media type says, is cut off, has a document type, is nested too "
            "deep, or holds not one room that can be taken. The detail says where. Export it again, or send it as "
            "what it is.",
        ),
        _type(
            422,
            "memory-exceeded",
            "Calculation needs too much memory",
            "The calculation was stopped at the memory given at /v1/limits. Send less work in one request.",
        ),
        _type(
            429,
            "too-many-requests",
            "Too many requests of one client",
            "One client may have only a part of the places, and send so many requests a second. Send fewer, and wait "
            "as long as Retry-After says.",
        ),
        _type(
            500,
            "internal-error",
            "Fault of the service",
            "The service failed; the request is not to blame. Report the instance of the problem.",
        ),
        _type(
            499,
            "abandoned",
            "Client has gone",
            "The connection was closed before the answer was there, and the calculation was stopped.",
        ),
        _type(
            500,
            "calculation-lost",
            "Calculation ended without an answer",
            "The process that computed this request died. Other requests are not concerned. "
            "Report the instance of the problem; repeating the same request may end the same way.",
        ),
        _type(
            503,
            "deadline-exceeded",
            "Calculation took too long",
            "The calculation was stopped at the deadline given at /v1/limits. Retry later or send less work.",
        ),
        _type(
            503,
            "overloaded",
            "Too much work at the moment",
            "All processes are busy and the queue is full. Wait as long as Retry-After says and send the "
            "request again: calculations have no effects and may be repeated.",
        ),
        _type(
            503, "not-ready", "Service not ready", "The service is starting or cannot compute at the moment."
        ),
    )
)

_encoder = msgspec.json.Encoder()


def problem(slug: str, detail: str, errors: tuple[FieldError, ...] = ()) -> Problem:
    kind = PROBLEM_TYPES[slug]
    return Problem(
        type=f"/problems/{slug}",
        title=kind.title,
        status=kind.status,
        detail=detail,
        errors=errors[:MAXIMUM_ERRORS],
    )


def encode(document: Problem, request_id: str) -> bytes:
    """The document as JSON, of at most 8 KiB: changes that do not fit are left off, the last first, then errors."""
    document = msgspec.structs.replace(document, instance=UUID(request_id).urn)
    content = _encoder.encode(document)
    while len(content) > MAXIMUM_BYTES:
        document = msgspec.structs.replace(document, errors=_fewer(document.errors))
        content = _encoder.encode(document)
    return content


def _fewer(errors: tuple[FieldError, ...]) -> tuple[FieldError, ...]:
    last = max((place for place, error in enumerate(errors) if error.changes), default=None)
    if last is None:
        return errors[: len(errors) // 2]
    return (*errors[:last], msgspec.structs.replace(errors[last], changes=()), *errors[last + 1 :])


class Refusal(Exception):  # noqa: N818 - a refusal is an answer, not a fault of the service
    """A request is refused with a problem document."""

    def __init__(self, document: Problem, headers: Mapping[str, str] | None = None) -> None:
        self.document = document
        self.headers = dict(headers or {})
        super().__init__(document.type)
