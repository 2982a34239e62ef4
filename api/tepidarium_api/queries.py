"""A request in a query string, and the answer's tag for caches."""

from __future__ import annotations

import hashlib
from functools import cache
from typing import Any
from urllib.parse import parse_qsl

import msgspec
from tepidarium_engine import __version__ as engine_version

from .calculations import Calculation
from .schemas import request_type

__all__ = ["CACHED", "body_of", "etag", "is_known", "words"]

CACHED = b"public, max-age=3600"
"""How long an answer may be served from a cache before the service is asked whether it still holds."""


def body_of(calculation: Calculation, query: bytes) -> bytes:
    """The JSON body that says the same, members in order of their names.

    Texts and words stand in the query as they are, everything else as JSON. What is no JSON goes on as text, so that
    it is refused like a body with that text.
    """
    texts = words(request_type(calculation.inputs))
    pairs = parse_qsl(query.decode("latin-1"), keep_blank_values=True)
    members = {name: text if name in texts else _json(text) for name, text in pairs}
    return msgspec.json.encode(members, order="deterministic")


def etag(body: bytes) -> bytes:
    """Weak, as the same answer may be sent compressed."""
    digest = hashlib.sha256(engine_version.encode() + b"\n" + body).hexdigest()
    return f'W/"{digest[:32]}"'.encode()


def is_known(tag: bytes, if_none_match: bytes) -> bool:
    """Whether a caller has the answer with this tag (RFC 9110, section 13.1.2: weak comparison)."""
    return tag.removeprefix(b"W/") in {one.strip().removeprefix(b"W/") for one in if_none_match.split(b",")}


@cache
def words(request: type[msgspec.Struct]) -> frozenset[str]:
    """Fields of a request whose value is text."""
    return frozenset(
        field.encode_name
        for field in msgspec.structs.fields(request)
        if any(map(_is_text, _arms(msgspec.inspect.type_info(field.type))))
    )


def _json(text: str) -> Any:
    try:
        return msgspec.json.decode(text)
    except (msgspec.DecodeError, RecursionError):
        return text


def _arms(kind: Any) -> tuple[Any, ...]:
    """The kinds of a union, or the one."""
    while isinstance(kind, msgspec.inspect.Metadata):
        kind = kind.type
    return kind.types if isinstance(kind, msgspec.inspect.UnionType) else (kind,)


def _is_text(kind: Any) -> bool:
    (kind,) = _arms(kind)
    return isinstance(kind, msgspec.inspect.StrType | msgspec.inspect.LiteralType)
