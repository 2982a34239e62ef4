"""How many requests of each client are open: asked for, being answered, or not yet read."""

from __future__ import annotations

__all__ = ["OpenRequests"]


class OpenRequests:
    """Counts until the answer is on its way. A client that asks and does not read holds its requests open."""

    def __init__(self, most: int) -> None:
        self.most = most
        self._of: dict[str, int] = {}

    def begin(self, client: str) -> bool:
        """Count one more request of the client; false where it may have no more. ``end`` follows where it may."""
        count = self._of.get(client, 0)
        if count >= self.most:
            return False
        self._of[client] = count + 1
        return True

    def end(self, client: str) -> None:
        count = self._of[client] - 1
        if count:
            self._of[client] = count
        else:
            del self._of[client]
