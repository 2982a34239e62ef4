"""The body of a request: media type, size and time are checked before anything is decoded."""

from __future__ import annotations

import asyncio
from collections.abc import Coroutine
from typing import Any, TypeVar

from litestar.types import Receive

from .incoming import Fields
from .middleware import state_of
from .problems import Refusal, problem
from .settings import Settings

__all__ = ["read_body", "read_file", "while_present"]

T = TypeVar("T")

_JSON_TYPES = frozenset(
    {b"application/json", b"application/json; charset=utf-8", b"application/json;charset=utf-8"}
)


async def read_body(scope: Any, receive: Receive, settings: Settings) -> tuple[bytes, str]:
    """The whole body and the Accept header; ``Refusal`` when the request does not deserve to be decoded."""
    fields = state_of(scope).fields
    media_type = fields.get(b"content-type", b"")
    if media_type not in _JSON_TYPES and not _is_json(media_type):
        document = problem("unsupported-media-type", "the Content-Type must be application/json in UTF-8")
        raise Refusal(document, {"Accept-Post": "application/json"})
    _check_headers(fields, settings.body_limit)
    body = await _whole(scope, receive, settings.body_limit, settings.body_timeout)
    return body, fields.get(b"accept", b"").decode("latin-1")


async def read_file(
    scope: Any, receive: Receive, settings: Settings, media_types: tuple[str, ...]
) -> tuple[bytes, str, str]:
    """The file, its media type, which is one of these, and the Accept header; parameters of the media type are
    ignored, as a file says itself how it is encoded."""
    fields = state_of(scope).fields
    media_type = fields.get(b"content-type", b"").partition(b";")[0].strip().lower().decode("latin-1")
    if media_type not in media_types:
        offered = ", ".join(media_types)
        document = problem("unsupported-media-type", f"the Content-Type must be one of {offered}")
        raise Refusal(document, {"Accept-Post": offered})
    _check_headers(fields, settings.file_limit)
    content = await _whole(scope, receive, settings.file_limit, settings.file_timeout)
    return content, media_type, fields.get(b"accept", b"").decode("latin-1")


async def while_present(receive: Receive, answering: Coroutine[Any, Any, T]) -> T:
    """The outcome of ``answering``, which is cancelled when the client closes the connection."""
    work, leaving = asyncio.ensure_future(answering), asyncio.ensure_future(_left(receive))
    try:
        await asyncio.wait((work, leaving), return_when=asyncio.FIRST_COMPLETED)
        if not work.done():
            raise Refusal(problem("abandoned", "the connection was closed"))
        return work.result()
    finally:
        for task in (work, leaving):
            task.cancel()
        await asyncio.gather(work, leaving, return_exceptions=True)


async def _left(receive: Receive) -> None:
    while (await receive())["type"] != "http.disconnect":
        pass


async def _whole(scope: Any, receive: Receive, limit: int, seconds: float) -> bytes:
    try:
        async with asyncio.timeout(seconds):
            body = await _received(receive, limit)
    except TimeoutError:
        document = problem("body-timeout", f"the body took longer than {seconds:g} s")
        raise Refusal(document) from None
    state_of(scope).received = len(body)
    return body


def _check_headers(fields: Fields, limit: int) -> None:
    if fields.get(b"content-encoding", b"").strip().lower() not in {b"", b"identity"}:
        document = problem("unsupported-media-type", "the body must not have a Content-Encoding")
        raise Refusal(document, {"Accept-Encoding": "identity"})
    length = fields.get(b"content-length", b"")
    if length.isdigit() and int(length[:20]) > limit:
        raise _too_large(limit)


def _is_json(media_type: bytes) -> bool:
    name, *parameters = (piece.strip().lower() for piece in media_type.split(b";"))
    if name != b"application/json":
        return False
    return all(
        parameter in {b"", b"charset=utf-8", b'charset="utf-8"', b"charset=utf8"} for parameter in parameters
    )


async def _received(receive: Receive, limit: int) -> bytes:
    parts: list[bytes] = []
    size = 0
    while True:
        message = await receive()
        if message["type"] != "http.request":
            raise Refusal(problem("unreadable-body", "the body was cut off"))
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if size > limit:
            raise _too_large(limit)
        if not message.get("more_body", False):
            return b"".join(parts)


def _too_large(limit: int) -> Refusal:
    return Refusal(problem("body-too-large", f"the body may have {limit} bytes"))
