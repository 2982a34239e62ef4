"""A queue that hands out the first in order, with a total order whatever waits in it."""

from __future__ import annotations

import heapq
from itertools import count
from typing import Generic, TypeAlias, TypeVar

__all__ = ["Queue"]

_Item = TypeVar("_Item")
_Order: TypeAlias = "float | tuple[_Order, ...]"


class Queue(Generic[_Item]):
    """Items by an ``order`` of numbers, or tuples of them; of equals the one that has waited longest comes first.

    Items are never compared with each other: those that only look alike in order need no order of their own.
    """

    def __init__(self) -> None:
        self._waiting: list[tuple[_Order, int, _Item]] = []
        self._count = count()

    def push(self, order: _Order, item: _Item) -> None:
        heapq.heappush(self._waiting, (order, next(self._count), item))

    def pop(self) -> _Item:
        """Take out the first; ``IndexError`` when nothing waits."""
        return heapq.heappop(self._waiting)[2]

    def __len__(self) -> int:
        return len(self._waiting)
