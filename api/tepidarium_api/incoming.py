"""The body of a request on its way in, and what nobody has read of it."""

from __future__ import annotations

import asyncio
from collections.abc import Iterable
from typing import Any

from litestar.types import Receive

__all__ = ["DRAINED_BYTES", "DRAIN_TIME", "Fields", "Incoming", "fields_of"]

Fields = dict[bytes, bytes]
"""The header fields of a message by name."""

DRAINED_BYTES = 16 * 1024 * 1024
"""A larger rest of a body is not read."""
DRAIN_TIME = 2.0
"""Time for the rest of a body to arrive [s]."""


def fields_of(headers: Iterable[tuple[bytes, bytes]]) -> Fields:
    """All at once, as many are asked for; of one that came several times all values, joined as RFC 9110, section 5.3
    says."""
    fields: Fields = {}
    for name, value in headers:
        fields[name] = fields[name] + b", " + value if name in fields else value
    return fields


class Incoming:
    """Passes the messages of a body on and knows whether more of it is to come.

    A server that answers while the client still sends closes the connection with data unread. The client's system
    then throws the answer away, unless the client reads while it sends; most do not. So the rest is read first.
    """

    __slots__ = ("_receive", "_rest_is_left", "pending")

    def __init__(self, fields: Fields, receive: Receive) -> None:
        self._receive = receive
        size = _announced(fields)
        self.pending = size > 0
        """Whether a part of the body has not been read."""
        # a client that expects 100 has not sent anything yet and reads before it does
        self._rest_is_left = size > DRAINED_BYTES or fields.get(b"expect", b"").lower() == b"100-continue"

    async def receive(self) -> Any:
        try:
            message: Any = await self._receive()
        except asyncio.CancelledError:  # whoever waited for the body has given up
            self._rest_is_left = True
            raise
        self.pending = message["type"] == "http.request" and message.get("more_body", False)
        return message

    async def drain(self) -> None:
        """Read what is left, unless it is too much or too slow."""
        if self._rest_is_left:
            return
        size = 0
        try:
            async with asyncio.timeout(DRAIN_TIME):
                while self.pending and size <= DRAINED_BYTES:
                    message = await self.receive()
                    size += len(message.get("body", b""))
        except TimeoutError:
            pass


def _announced(fields: Fields) -> int:
    """Size of the body as far as the headers tell it [bytes]; 1 for a body of unknown size."""
    if fields.get(b"transfer-encoding"):
        return 1
    length = fields.get(b"content-length", b"")
    return int(length[:20]) if length.isdigit() else 0
