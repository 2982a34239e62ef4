"""The estimate of what a light request takes, against the time that it takes."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from typing import NamedTuple

import msgspec
from tepidarium_api.answer import answer
from tepidarium_api.calculations import CALCULATIONS, Calculation
from tepidarium_api.schemas import request_type

from tests.drills.large_requests import LARGE, body

__all__ = ["Effort", "efforts"]

COUNTS = (1, 4, 16, 64, 256)
CALCULATION = {item.name: item for item in CALCULATIONS}


class Effort(NamedTuple):
    """Estimate and time of one request, both over those of the yardstick: a machine may be faster or slower."""

    name: str
    count: int
    estimated: float
    measured: float


def efforts() -> Iterator[Effort]:
    """Every light calculation with growing requests; the yardstick is a request for the flows of 16 circuits."""
    yardstick = CALCULATION["hydraulics"], body("hydraulics", 16)
    estimated, measured = _estimate(*yardstick), _time(*yardstick)
    for name in LARGE:
        for count in COUNTS:
            pair = CALCULATION[name], body(name, count)
            yield Effort(name, count, _estimate(*pair) / estimated, _time(*pair) / measured)


def _estimate(calculation: Calculation, request: object) -> float:
    return calculation.effort(msgspec.convert(request, request_type(calculation.inputs)))


def _time(calculation: Calculation, request: object) -> float:
    """The shortest of several times [s]."""
    sent, times = json.dumps(request).encode(), []
    for _ in range(5):
        began = time.perf_counter()
        answer(calculation, sent, "")
        times.append(time.perf_counter() - began)
    return min(times)
