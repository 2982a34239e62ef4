"""A made-up calculation with every kind of field, whose behaviour the text in ``id`` decides."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, Literal

import numpy as np
from tepidarium_api.calculations import Calculation
from tepidarium_engine.checking import Point, check
from tepidarium_engine.errors import FaultList
from tepidarium_engine.glossary import named
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.results import Caution, Finding, Working

FIRST_DAY = date(2026, 3, 1)
PIPE = Pipe(0.017, 0.002)


@dataclass(frozen=True, slots=True)
class SampleInputs:
    pipe_spacing: float
    outline: tuple[Point, ...]
    pipe: Pipe = PIPE
    spare_pipe: Pipe | None = field(default=None, metadata=named("pipe"))
    pipe_spacings: tuple[float, ...] = (0.1, 0.15)
    room_temperature: float = 20.0
    severity: Literal["note", "warning"] = "note"
    whole: int = field(default=3, metadata=named("fixings"))
    day: date = field(default=FIRST_DAY, metadata=named("pour_date"))
    id: str = "plain"


@dataclass(frozen=True, slots=True)
class SampleResult:
    heat_output: float
    limit_heat_output: float | None
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]


def _spin() -> float:
    while True:
        pass


def _die() -> float:
    os._exit(7)


def _raise() -> float:
    raise RuntimeError("secret-of-the-exception")


def _sleep() -> float:
    time.sleep(0.3)
    return 1.0


BEHAVIOURS: dict[str, Callable[[], Any]] = {
    "spin": _spin,
    "die": _die,
    "raise": _raise,
    "sleep": _sleep,
    "nan": lambda: float("nan"),
    "infinite": lambda: float("inf"),
    "numpy": lambda: np.float64(1.0),
    "process": lambda: float(os.getpid()),
    "parent": lambda: float(os.getppid()),
    "grow": lambda: float(len(bytearray(4 * 1024**3))),
}


def calculate(inputs: SampleInputs) -> SampleResult:
    check(inputs)
    faults = FaultList()
    for index in range(30 if inputs.id == "many faults" else 0):
        faults.add(f"/outline/{index % 3}/0", "made_up", f"does not please the {index}th time")
    faults.require(inputs.id != "fault", "/id", "made_up", "does not please", 1.5)
    faults.raise_if_any()
    value = BEHAVIOURS.get(inputs.id, lambda: inputs.pipe_spacing * inputs.room_temperature)()
    limit = float("inf") if inputs.id == "optional infinite" else None
    return SampleResult(value, limit, (), (Caution("made_up", "Mind the step"),))


def workings(inputs: SampleInputs, result: SampleResult) -> tuple[Working, ...]:
    value = float("nan") if inputs.id == "nan in workings" else result.heat_output
    return (Working("q", "heat output", value, "W/m2", "made up", "no source"),)


def _as_text(_inputs: SampleInputs, result: SampleResult) -> bytes:
    return f"heat output,{result.heat_output}\n".encode()


SAMPLE = Calculation(
    name="sample",
    operation_id="sample",
    summary="A made-up calculation",
    description="Serves tests only.",
    inputs=SampleInputs,
    result=SampleResult,
    calculate=calculate,
    workings=workings,
    example={"pipe_spacing": 0.15, "outline": [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0]]},
    renderings={"text/csv": _as_text},
)
HEAVY_SAMPLE = replace(SAMPLE, name="heavy-sample", operation_id="heavy_sample", heavy=True)
SAMPLES = (SAMPLE, HEAVY_SAMPLE)
