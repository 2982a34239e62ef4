"""A server of its own for a benchmark, on a free port of this machine."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

from tests.drills.served import Served, free_port

__all__ = ["server"]


@contextmanager
def server(factory: str, **settings: str) -> Iterator[Served]:
    """A server of one process; it ends with the block."""
    port = free_port()
    program = f"from tepidarium_api.server import serve; serve({factory!r}, '127.0.0.1', {port}, 1)"
    process = subprocess.Popen(
        [sys.executable, "-c", program], stdout=subprocess.DEVNULL, env=os.environ | settings
    )
    try:
        _wait(port)
        yield Served(port, process)
    finally:
        process.terminate()
        process.wait(20)


def _wait(port: int) -> None:
    """Until the server answers, whatever it answers, and its processes have loaded everything."""
    end = time.monotonic() + 60
    while time.monotonic() < end:
        try:
            with socket.create_connection(("127.0.0.1", port), 5.0) as connection:
                connection.sendall(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n")
                if connection.recv(1):
                    time.sleep(3.0)
                    return
        except OSError:
            pass
        time.sleep(0.05)
    raise TimeoutError(f"nothing answers on port {port}")
