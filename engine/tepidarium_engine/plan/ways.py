"""The ladder: the ways to lay a field, best hopes first."""

from __future__ import annotations

from collections.abc import Iterator

from .counterflow import counterflow_drafts
from .field import Draft, Field

__all__ = ["ways"]


def ways(field: Field, pattern: str, quick: bool) -> Iterator[Draft]:
    """Drafts of a pattern in the order in which they are worth judging."""
    yield from counterflow_drafts(field)
