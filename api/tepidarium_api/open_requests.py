"""How many requests of each client are open: asked for, being answered, or not yet read."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["OpenRequests"]


class OpenRequests:
    """Counts until the answer is on its way. A client that asks and does not read holds its requests open."""

    def __init__(self, most: int) -> None:
        self.most = most
        self._of: Counter[str] = Counter()

    @contextmanager
    def one_more(self, client: str) -> Iterator[bool]:
        """Whether the client may have one more while the block runs."""
        allowed = self._of[client] < self.most
        self._of[client] += allowed
        try:
            yield allowed
        finally:
            self._of[client] -= allowed
            if not self._of[client]:
                del self._of[client]
