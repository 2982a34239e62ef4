"""Every published case beside what the engine answers to it."""

from __future__ import annotations

import importlib
import json
import math
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import msgspec
from tepidarium_engine.errors import InputError

__all__ = ["Line", "groups", "lines"]

VECTORS = Path(__file__).parents[1] / "vectors"


class Line(NamedTuple):
    """One expected value. Without a ``tolerance`` it is a word, a date or a refusal, which must be the same."""

    case: str
    source: str
    pointer: str
    expected: Any
    got: Any
    tolerance: float | None

    @property
    def deviation(self) -> float | None:
        return None if self.tolerance is None else abs(self.got - self.expected)

    @property
    def share(self) -> float:
        """Of the tolerance that is used up; 0 for what must be the same."""
        if self.deviation is None:
            return 0.0
        if self.tolerance:
            return self.deviation / self.tolerance
        return math.inf if self.deviation else 0.0

    @property
    def kept(self) -> bool:
        return self.got == self.expected if self.deviation is None else self.share <= 1.0


def groups() -> list[str]:
    """Names of the files of cases."""
    return [path.stem for path in sorted(VECTORS.glob("*.json")) if "calculation" in _file(path.stem)]


@cache
def _file(group: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((VECTORS / f"{group}.json").read_text(encoding="utf-8"))
    return found


@cache
def lines(group: str) -> tuple[Line, ...]:
    return tuple(_lines(group))


def _lines(group: str) -> Iterator[Line]:
    name = _file(group)["calculation"]
    for case in _file(group)["cases"]:
        own = (case["name"], case["source"])
        if "expect_problem" in case:
            wanted = case["expect_problem"]["pointer"]
            found = _refused(name, case["request"])
            yield Line(*own, "refused at", wanted, wanted if wanted in found else ", ".join(found), None)
            continue
        answer = _answer(name, case["request"])
        for each in case["expect"]:
            got = _at(answer, each["pointer"])
            yield Line(*own, each["pointer"], each["value"], got, each.get("tolerance"))


def _answer(name: str, request: dict[str, Any]) -> Any:
    """By the module of the calculation alone: whoever tries one change after the other loads no more than that."""
    module = importlib.import_module(f"tepidarium_engine.{name.replace('-', '_')}")
    inputs = msgspec.convert(request, getattr(module, f"{name.title().replace('-', '')}Inputs"), strict=True)
    return msgspec.json.decode(msgspec.json.encode(module.calculate(inputs)))


def _refused(name: str, request: dict[str, Any]) -> list[str]:
    try:
        _answer(name, request)
    except InputError as refusal:
        return [fault.pointer for fault in refusal.faults]
    except msgspec.ValidationError as refusal:
        return [str(refusal).split("`$")[-1].rstrip("`").replace(".", "/")]
    return ["nowhere"]


def _at(document: Any, pointer: str) -> Any:
    for step in pointer.split("/")[1:]:
        key = step.replace("~1", "/").replace("~0", "~")
        document = document[int(key)] if isinstance(document, list) else document[key]
    return document
