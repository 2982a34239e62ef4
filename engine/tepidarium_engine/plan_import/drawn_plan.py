"""A plan as it was read, in metres, whatever the format of its file."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from shapely import Polygon

from ..envelope.records import Beyond, Construction, Surface
from ..places import Point
from .records import FileFormat, FoundLayer

__all__ = ["DoorMark", "DrawnPlan", "DrawnRoom", "DrawnStorey", "Face", "Guess", "Source", "without_area"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where in the file something stands: the element by name and id, and its line, if the format has lines."""

    element: str
    line: int | None = None


NOWHERE = Source("")
_AREA = re.compile(
    r"(?:\b[^\W\d]{1,6}\s*[:=]\s*)?\d+(?:[.,]\d+)*\s*(?:m²|m2|m\^2|qm|м²|м2|ft²|ft2|sq\.?\s?(?:ft|m)|sqft|sf)(?!\w)\.?",
    re.IGNORECASE,
)
"""An area as it is lettered in a room, with what stands for it before."""


def without_area(words: str) -> str:
    """The lettering of a room without its area, which the outline gives."""
    return " ".join(_AREA.sub(" ", words).split()).rstrip(" ,;/-")


@dataclass(slots=True)
class DrawnRoom:
    """A room with the parts of its floor as drawn, not yet checked.

    ``level`` [m] is that of its floor, ``height`` [m] the clear one, ``stated_area`` [m2] what the file says beside
    the outline, ``temperature`` [degC], ``air_change`` [1/h]. ``fault`` says why nothing can be made of it.
    """

    id: str
    name: str
    storey: str
    floor: tuple[Polygon, ...]
    source: Source
    level: float = 0.0
    height: float | None = None
    temperature: float | None = None
    heated: bool = True
    stated_area: float | None = None
    air_change: float | None = None
    fault: str = ""


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


@dataclass(frozen=True, slots=True)
class Face:
    """A net area [m2] of a room's envelope; ``construction`` names one of the plan. ``neighbour`` is the id of the
    room beyond."""

    room: str
    surface: Surface
    area: float
    construction: str
    beyond: Beyond
    neighbour: str | None = None


@dataclass(frozen=True, slots=True)
class Guess:
    """What the file does not say: ``where`` is a JSON pointer into the request, or an id of a room."""

    message: str
    source: Source
    where: str = ""


@dataclass
class DrawnPlan:
    """``unit`` is the file's, with ``metres`` in one of it. ``faces`` None: the format knows no envelope.
    ``unlike`` are constructions whose U-value [W/(m2.K)] is not that of their layers: by id, both."""

    format: FileFormat
    unit: str
    metres: float
    storeys: list[DrawnStorey] = field(default_factory=list)
    rooms: list[DrawnRoom] = field(default_factory=list)
    doors: list[DoorMark] = field(default_factory=list)
    layers: list[FoundLayer] = field(default_factory=list)
    guesses: list[Guess] = field(default_factory=list)
    faces: list[Face] | None = None
    constructions: dict[str, tuple[Construction, Source]] = field(default_factory=dict)
    unlike: dict[str, tuple[float, float]] = field(default_factory=dict)
    dropped: list[Guess] = field(default_factory=list)


Side = Literal["floor", "ceiling"]
