"""Answers that web pages from other origins may read (the Fetch standard's CORS protocol), by setting.

Written here because the framework's own layer replaces the Vary of an answer, and refuses in plain text.
"""

from __future__ import annotations

from .incoming import Fields, fields_of

__all__ = ["CrossOrigin"]

Headers = list[tuple[bytes, bytes]]

_EXPOSED = b"retry-after, x-request-id"
_PREFLIGHT: Headers = [
    (b"access-control-allow-methods", b"GET, HEAD, POST"),
    (b"access-control-allow-headers", b"accept, content-type, traceparent, x-api-key, x-request-id"),
    (b"access-control-max-age", b"600"),
]


class CrossOrigin:
    """The headers for pages from ``origins``; ``*`` stands for all. No cookies are used, so none are allowed."""

    def __init__(self, origins: tuple[str, ...]) -> None:
        self._origins = frozenset(origin.encode() for origin in origins)
        self._all = b"*" in self._origins

    def added(self, asked: Fields, headers: Headers, method: str) -> Headers:
        """``headers`` of a response with those that let the page read it, if it comes from an origin that may."""
        if not self._origins:
            return headers
        if not self._all:  # also where no origin is given: a cache must not serve that answer to a page
            headers = _varying(headers)
        origin = asked.get(b"origin")
        if not origin or not (self._all or origin in self._origins):
            return headers
        allowed = [(b"access-control-allow-origin", b"*" if self._all else origin)]
        if method == "OPTIONS" and asked.get(b"access-control-request-method"):
            return [*headers, *allowed, *_PREFLIGHT]
        return [*headers, *allowed, (b"access-control-expose-headers", _EXPOSED)]


def _varying(headers: Headers) -> Headers:
    kept = [(name, value) for name, value in headers if name != b"vary"]
    return [*kept, (b"vary", b", ".join(filter(None, (fields_of(headers).get(b"vary"), b"origin"))))]
