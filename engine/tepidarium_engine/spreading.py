"""Work in pieces that do not depend on each other, spread over cores by whoever calls.

The engine starts no processes. What it can spread takes a ``Spread``; by default the built-in ``map`` does one piece
after the other. Whoever has cores passes a map over processes: the pieces, and so the bytes, stay the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Protocol, TypeVar

__all__ = ["Spread", "largest_first"]

_T = TypeVar("_T")
_R = TypeVar("_R")


class Spread(Protocol):
    """Like ``map`` of one iterable: results in the order of the items. Jobs are module-level functions, and items
    and results can be pickled."""

    def __call__(self, job: Callable[[_T], _R], items: Iterable[_T], /) -> Iterable[_R]: ...


def largest_first(
    spread: Spread, job: Callable[[_T], _R], items: Sequence[_T], sizes: Sequence[float]
) -> list[_R]:
    """Results in the order of ``items``, which are begun in descending order of ``sizes``, so that no long one begins
    last and keeps one core alone."""
    order = sorted(range(len(items)), key=lambda number: -sizes[number])
    found = dict(zip(order, spread(job, [items[number] for number in order]), strict=True))
    return [found[number] for number in range(len(items))]
