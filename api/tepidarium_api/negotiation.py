"""Choice of the representation by the headers Accept and Accept-Encoding (RFC 9110, section 12.5)."""

from __future__ import annotations

import re
from functools import lru_cache

__all__ = ["JSON", "choose", "gzip_wanted"]

JSON = "application/json"

_DECIMAL = re.compile(r"[0-9]*\.?[0-9]+|[0-9]+\.", re.ASCII)


@lru_cache(maxsize=256)
def choose(accept: str, offered: tuple[str, ...]) -> str | None:
    """The offered media type that the header likes best, of equals the first; ``None`` when none will do.

    A missing or empty header accepts everything. Parameters other than ``q`` are ignored. A ``q`` that is not
    written as a decimal number counts as 0.
    """
    ranges = _ranges(accept)
    if not ranges:
        return offered[0]
    weights = {
        media_type: _weight((media_type, media_type.partition("/")[0] + "/*", "*/*"), ranges)
        for media_type in offered
    }
    best = max(weights.values())
    return next(media_type for media_type in offered if weights[media_type] == best) if best > 0 else None


@lru_cache(maxsize=256)
def gzip_wanted(accept_encoding: str) -> bool:
    """Whether the header allows gzip and does not like the plain bytes better."""
    ranges = _ranges(accept_encoding)
    gzip = _weight(("gzip", "x-gzip", "*"), ranges)
    return gzip > 0 and gzip >= _weight(("identity",), ranges)


def _weight(names: tuple[str, ...], ranges: list[tuple[str, float]]) -> float:
    """The weight of the first of the names that the header holds: the names go from special to general."""
    for wanted in names:
        found = [weight for name, weight in ranges if name == wanted]
        if found:
            return max(found)
    return 0.0


def _ranges(header: str) -> list[tuple[str, float]]:
    """Name and weight of each member of the header."""
    return [_parsed(part) for part in header.split(",") if part.strip()]


def _parsed(part: str) -> tuple[str, float]:
    name, *parameters = (piece.strip().lower() for piece in part.split(";"))
    for parameter in parameters:
        key, _, value = parameter.partition("=")
        if key.strip() == "q":
            return name, _quality(value.strip())
    return name, 1.0


def _quality(text: str) -> float:
    return min(float(text), 1.0) if _DECIMAL.fullmatch(text) else 0.0
