"""A server of its own for a benchmark, on a free port of this machine."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["server"]


@contextmanager
def server(factory: str, **settings: str) -> Iterator[int]:
    """The port of a server of one process; it ends with the block."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    program = f"from tepidarium_api.server import serve; serve({factory!r}, '127.0.0.1', {port}, 1)"
    process = subprocess.Popen(
        [sys.executable, "-c", program], stdout=subprocess.DEVNULL, env=os.environ | settings
    )
    try:
        _wait(port)
        yield port
    finally:
        process.terminate()
        process.wait(20)


def _wait(port: int) -> None:
    end = time.monotonic() + 20
    while time.monotonic() < end:
        try:
            socket.create_connection(("127.0.0.1", port)).close()
        except ConnectionRefusedError:
            time.sleep(0.05)
        else:
            time.sleep(2.0)  # worker processes load in the background
            return
    raise TimeoutError(f"nothing listens on port {port}")
