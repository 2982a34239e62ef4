"""Throughput of every light endpoint against a bare endpoint of the same framework under the same server."""

from __future__ import annotations

import statistics
from collections.abc import Iterator

import msgspec
from tepidarium_api.calculations import CALCULATIONS

from .load import answers_per_second
from .ratio import Ratio
from .servers import server

__all__ = ["ratios"]

ROUNDS = 3
SECONDS = 0.7
LEAST = 0.80


def ratios() -> Iterator[Ratio]:
    """One ratio for each light calculation, the two servers measured in turns."""
    with (
        server("tepidarium_api.app:create_app") as service,
        server("tests.benchmarks.bare:create_app") as bare,
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
