"""Throughput of every light endpoint against a bare endpoint of the same framework under the same server."""

from __future__ import annotations

import socket
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

import msgspec
from tepidarium_api.calculations import CALCULATIONS

from .load import answers_per_second
from .ratio import Ratio

__all__ = ["ratios"]

ROUNDS = 3
SECONDS = 0.7
LEAST = 0.80


def ratios() -> Iterator[Ratio]:
    """One ratio for each light calculation, the two servers measured in turns."""
    with (
        _server("tepidarium_api.app:create_app") as service,
        _server("tests.benchmarks.bare:create_app") as bare,
    ):
        for item in CALCULATIONS:
            if not item.heavy:
                body = msgspec.json.encode(item.example)
                pairs = [
                    (_rate(service, item.path, body), _rate(bare, item.path, body)) for _ in range(ROUNDS)
                ]
                value = statistics.median(mine / other for mine, other in pairs)
                other = statistics.median(other for _, other in pairs)
                yield Ratio(f"{item.path} / bare endpoint ({other:.0f}/s)", value, LEAST, at_least=True)


def _rate(port: int, path: str, body: bytes) -> float:
    return answers_per_second(port, path, body, SECONDS)


@contextmanager
def _server(factory: str) -> Iterator[int]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    program = f"from tepidarium_api.__main__ import serve; serve({factory!r}, '127.0.0.1', {port}, 1)"
    process = subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.DEVNULL)
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
