"""A load generator that costs little: the same request over a few connections, answers counted by their bytes."""

from __future__ import annotations

import selectors
import socket
import time

__all__ = ["LoadError", "answers_per_second"]

CONNECTIONS = 8


class LoadError(RuntimeError):
    """The service did not answer as it should."""


def answers_per_second(
    port: int, path: str, body: bytes, seconds: float, connections: int = CONNECTIONS
) -> float:
    """Completed requests per second on loopback with so many connections kept alive."""
    head = (
        f"POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
        f"Content-Length: {len(body)}\r\n\r\n"
    )
    request = head.encode() + body
    size = _answer_size(port, request)
    selector = selectors.DefaultSelector()
    received: dict[socket.socket, int] = {}
    for _ in range(connections):
        connection = socket.create_connection(("127.0.0.1", port))
        connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        selector.register(connection, selectors.EVENT_READ)
        received[connection] = 0
        connection.sendall(request)
    try:
        return _pump(selector, received, request, size, seconds)
    finally:
        for connection in received:
            connection.close()
        selector.close()


def _pump(
    selector: selectors.BaseSelector,
    received: dict[socket.socket, int],
    request: bytes,
    size: int,
    seconds: float,
) -> float:
    done = 0
    began = time.perf_counter()
    while (elapsed := time.perf_counter() - began) < seconds or not done:
        for key, _ in selector.select(timeout=1.0):
            connection: socket.socket = key.fileobj  # type: ignore[assignment]
            data = connection.recv(65536)
            received[connection] += len(data)
            if not data or received[connection] > size:
                raise LoadError("an answer differs from the first one")
            if received[connection] == size:
                received[connection] = 0
                done += 1
                connection.sendall(request)
    return done / elapsed


def _answer_size(port: int, request: bytes) -> int:
    """Bytes of one whole answer, which must be a 200."""
    with socket.create_connection(("127.0.0.1", port)) as connection:
        connection.sendall(request)
        data = connection.recv(65536)
        head, _, _ = data.partition(b"\r\n\r\n")
        if not head.startswith(b"HTTP/1.1 200"):
            raise LoadError(head.partition(b"\r\n")[0].decode())
        length = next(line for line in head.lower().split(b"\r\n") if line.startswith(b"content-length:"))
        return len(head) + 4 + int(length.partition(b":")[2])
