"""A plan as it was read, in metres, whatever the format of its file."""

from __future__ import annotations

from dataclasses import dataclass, field

import shapely

from ..places import Point
from ..results import Finding, Severity
from .envelope_parts import Envelope
from .records import FileFormat, FoundLayer, PlanImportsInputs

__all__ = ["DoorMark", "DrawnPlan", "DrawnRoom", "DrawnStorey", "Source"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where in the file something stands: the element by name and id, and its line, if the format has lines."""

    element: str
    line: int | None = None

    def __str__(self) -> str:
        return self.element if self.line is None else f"{self.element}, line {self.line}"


@dataclass(slots=True)
class DrawnRoom:
    """A room with its floor as drawn, not yet checked. ``level`` [m] is that of its floor, ``height`` [m] the clear one,
    ``stated_area`` [m2] what the file says beside the outline."""

    id: str
    name: str
    storey: str
    floor: shapely.Geometry
    source: Source
    level: float = 0.0
    height: float | None = None
    temperature: float | None = None
    heated: bool = True
    stated_area: float | None = None


@dataclass(frozen=True, slots=True)
class DrawnStorey:
    id: str
    name: str
    level: float | None


@dataclass(frozen=True, slots=True)
class DoorMark:
    """A doorway as drawn: its middle, its clear ``width`` [m] and its two ``rooms`` (ids), as far as the file says."""

    place: Point
    source: Source
    width: float | None = None
    rooms: tuple[str, str] | None = None


@dataclass
class DrawnPlan:
    """``unit`` is the file's, with ``metres`` in one of it. ``notes`` are findings about what was read."""

    format: FileFormat
    inputs: PlanImportsInputs
    unit: str
    metres: float
    storeys: list[DrawnStorey] = field(default_factory=list)
    rooms: list[DrawnRoom] = field(default_factory=list)
    doors: list[DoorMark] = field(default_factory=list)
    layers: list[FoundLayer] = field(default_factory=list)
    notes: list[Finding] = field(default_factory=list)
    guesses: list[str] = field(default_factory=list)
    envelope: Envelope | None = None
    external_temperature: tuple[float, Source] | None = None

    def note(
        self,
        code: str,
        severity: Severity,
        message: str,
        *,
        where: str = "",
        detail: str = "",
        subject: str = "",
        point: Point | None = None,
        value: float | None = None,
        limit: float | None = None,
        quantity: str | None = None,
    ) -> None:
        """A finding about the file; ``where`` is a pointer into the answer."""
        self.notes.append(
            Finding.at(
                code,
                severity,
                where,
                message,
                detail=detail,
                subject=subject,
                point=point,
                value=value,
                limit=limit,
                quantity=quantity,
                where_in="answer",
            )
        )
