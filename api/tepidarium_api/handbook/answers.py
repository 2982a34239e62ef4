"""The answers to the example requests, which the figures of the handbook come from."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from tepidarium_engine.plan_imports import PlanImportsInputs

from ..answer import answer
from ..calculations import CALCULATIONS, FILE_READINGS, Calculation
from ..negotiation import JSON
from ..problems import Problem
from ..reading import SentFile, file_answer

__all__ = ["TOP", "answered", "calculation_of", "content_as", "request_of"]

TOP = Path(__file__).parents[3]
_BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
_OTHER_NAMES = {"house": "designs", "two-storeys": "designs"}
_PLAN_OPTIONS = PlanImportsInputs(external_temperature=-12.0, annual_mean_temperature=9.0)


def calculation_of(example: str) -> Calculation:
    return _BY_NAME[_OTHER_NAMES.get(example, example)]


def request_of(example: str) -> dict[str, Any]:
    """The body of ``examples/<example>.json``."""
    found: dict[str, Any] = json.loads((TOP / "examples" / f"{example}.json").read_text(encoding="utf-8"))
    return found


@cache
def answered(example: str) -> dict[str, Any]:
    """The whole answer to an example, with workings."""
    made = _read_plan() if example == "plan-imports" else content_as(example, JSON, workings=True)
    found: dict[str, Any] = json.loads(made)
    return found


def content_as(example: str, media_type: str, workings: bool = False) -> bytes:
    """The answer to an example in another form, such as SVG."""
    body = json.dumps(request_of(example) | {"workings": workings}).encode()
    return _content(answer(calculation_of(example), body, media_type))


def _read_plan() -> bytes:
    file = (TOP / "examples" / "plan-imports.xml").read_bytes()
    return _content(file_answer(FILE_READINGS[0], SentFile("gbxml", _PLAN_OPTIONS, file)))


def _content(made: object) -> bytes:
    if isinstance(made, Problem) or not hasattr(made, "content"):
        raise ValueError(f"an example is refused: {made}")
    content: bytes = made.content
    return content
