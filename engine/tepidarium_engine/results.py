"""Records that every result carries beside its numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from .checking import Point

__all__ = ["Caution", "Finding", "Severity", "Working"]

Severity = Literal["note", "warning", "violation"]
"""note: worth knowing; warning: have a second look; violation: should not be built like this."""


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that can be computed but should be looked at before it is built.

    ``where`` is a JSON pointer into the inputs, or into the result when it starts with ``/result``.
    ``value`` and ``limit`` are in the SI unit of the quantity concerned; ``place`` [m] is where in the plan, if
    it has one.
    """

    code: str
    severity: Severity
    where: str
    message: str
    value: float | None = None
    limit: float | None = None
    source: str | None = None
    place: Point | None = None


@dataclass(frozen=True, slots=True)
class Caution:
    """A word on people's safety. Local codes and licensed practice decide."""

    code: str
    message: str


@dataclass(frozen=True, slots=True)
class Working:
    """One intermediate value: enough, with its neighbours, to redo the calculation by hand."""

    symbol: str
    name: str
    value: float
    unit: str
    formula: str
    source: str
