"""Objects between a process of the server and those that compute for it: pickled, with their size before them."""

from __future__ import annotations

import pickle
import socket
import struct
from asyncio import StreamReader
from typing import Any

__all__ = ["framed", "received", "received_async"]

_SIZE = struct.Struct("!Q")


def framed(value: Any) -> bytes:
    content = pickle.dumps(value, pickle.HIGHEST_PROTOCOL)
    return _SIZE.pack(len(content)) + content


def received(connection: socket.socket) -> Any:
    """The next object; ``EOFError`` where the other side has closed."""
    (size,) = _SIZE.unpack(_exactly(connection, _SIZE.size))
    return pickle.loads(_exactly(connection, size))


def _exactly(connection: socket.socket, size: int) -> bytes:
    content = connection.recv(size, socket.MSG_WAITALL)
    if len(content) < size:
        raise EOFError
    return content


async def received_async(reader: StreamReader) -> Any:
    """The same in the event loop; ``IncompleteReadError`` is an ``EOFError`` too."""
    (size,) = _SIZE.unpack(await reader.readexactly(_SIZE.size))
    return pickle.loads(await reader.readexactly(size))
