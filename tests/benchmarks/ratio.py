"""One measured ratio and the bound that it should keep."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

__all__ = ["Ratio", "medians"]


@dataclass(frozen=True, slots=True)
class Ratio:
    """``value`` is of two measurements made side by side; it should be at least or at most ``bound``."""

    name: str
    value: float
    bound: float
    at_least: bool

    @property
    def kept(self) -> bool:
        return self.value >= self.bound if self.at_least else self.value <= self.bound

    def line(self) -> str:
        relation = ">=" if self.at_least else "<="
        verdict = "kept" if self.kept else "MISSED"
        return f"{self.name:<44} {self.value:8.3f}   {relation} {self.bound:g}   {verdict}"


def medians(rounds: int, *works: Callable[[], Any]) -> list[float]:
    """Seconds of each work, measured in turns, so that a neighbour's load falls on all."""
    times: list[list[float]] = [[] for _ in works]
    for _ in range(rounds):
        for work, spent in zip(works, times, strict=True):
            started = time.perf_counter()
            work()
            spent.append(time.perf_counter() - started)
    return [statistics.median(spent) for spent in times]
