"""Choice of the representation by the Accept header (RFC 9110, section 12.5.1)."""

from __future__ import annotations

from functools import lru_cache

__all__ = ["JSON", "choose"]

JSON = "application/json"


@lru_cache(maxsize=256)
def choose(accept: str, offered: tuple[str, ...]) -> str | None:
    """The offered media type that the header likes best, of equals the first; ``None`` when none will do.

    A missing or empty header accepts everything. Parameters other than ``q`` are ignored.
    """
    ranges = [_parsed(part) for part in accept.split(",") if part.strip()]
    if not ranges:
        return offered[0]
    weights = {media_type: _weight(media_type, ranges) for media_type in offered}
    best = max(weights.values())
    return next(media_type for media_type in offered if weights[media_type] == best) if best > 0 else None


def _weight(media_type: str, ranges: list[tuple[str, float]]) -> float:
    """The weight of the most specific range that covers the media type."""
    family = media_type.partition("/")[0] + "/*"
    for wanted in (media_type, family, "*/*"):
        found = [weight for name, weight in ranges if name == wanted]
        if found:
            return max(found)
    return 0.0


def _parsed(part: str) -> tuple[str, float]:
    name, *parameters = (piece.strip().lower() for piece in part.split(";"))
    for parameter in parameters:
        key, _, value = parameter.partition("=")
        if key.strip() == "q":
            return name, _quality(value.strip())
    return name, 1.0


def _quality(text: str) -> float:
    try:
        return min(max(float(text), 0.0), 1.0)
    except ValueError:
        return 0.0
