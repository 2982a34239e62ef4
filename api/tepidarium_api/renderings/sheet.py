"""The sheet of a drawing: format, scale, and where a point of the room comes to lie on it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from .svg import Paper

__all__ = ["ROOM_SHEETS", "STOREY_SHEETS", "Sheet", "Sheets", "sheet_for"]

Point = tuple[float, float]

BINDING, EDGE = 20.0, 10.0
"""Margins of ISO 5457 [mm]: left, and the other three."""
COLUMN = 92.0
"""Width of the column on the right with legend, notes and title block [mm]."""
ROUND_DRAWING = 24.0
"""Kept free round the room for walls, dimensions and the ends of the pipe [mm]."""
SCALE_BAR = 14.0
"""Kept free at the bottom for the scale bar [mm]."""

_FORMATS = {"A4": (297.0, 210.0), "A3": (420.0, 297.0), "A2": (594.0, 420.0), "A1": (841.0, 594.0)}
"""ISO 216, landscape [mm]."""


class Sheets(NamedTuple):
    """Formats and scales (ISO 5455) to choose from, in order of preference; width of the column on the right
    and what is kept free round the drawing [mm]."""

    choices: tuple[tuple[str, int], ...]
    column: float
    surround: float


ROOM_SHEETS = Sheets(
    (
        ("A4", 20),
        ("A3", 20),
        ("A4", 50),
        ("A3", 50),
        ("A3", 100),
        ("A3", 200),
        ("A3", 500),
        ("A3", 1000),
    ),
    COLUMN,
    ROUND_DRAWING,
)
STOREY_SHEETS = Sheets(
    (
        ("A3", 20),
        ("A3", 50),
        ("A2", 50),
        ("A1", 50),
        ("A1", 100),
        ("A1", 200),
        ("A1", 500),
        ("A1", 1000),
    ),
    124.0,
    ROUND_DRAWING,
)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of ``size`` [mm] on which ``scale`` millimetres of the room take one.

    ``low`` and ``high`` are opposite corners of what is drawn [m]; its middle stands at ``middle`` [mm].
    """

    paper: str
    size: Paper
    scale: int
    low: Point
    high: Point
    middle: Paper
    column_width: float = COLUMN

    def at(self, point: Point) -> Paper:
        """A point of the room [m] on paper [mm]."""
        x, y = point
        return (
            self.middle[0] + self.length(x - (self.low[0] + self.high[0]) / 2.0),
            self.middle[1] - self.length(y - (self.low[1] + self.high[1]) / 2.0),
        )

    def ring(self, points: Iterable[Point]) -> list[Paper]:
        return [self.at(point) for point in points]

    def length(self, length: float) -> float:
        """A length [m] on paper [mm]."""
        return length * 1000.0 / self.scale

    @property
    def column(self) -> tuple[float, float, float]:
        """Left edge, top and bottom of the column on the right [mm]."""
        return (self.size[0] - EDGE - self.column_width, EDGE, self.size[1] - EDGE)


def sheet_for(points: Iterable[Point], sheets: Sheets = ROOM_SHEETS, column_height: float = 0.0) -> Sheet:
    """The first format and scale that takes all points, and a column as high as given [mm]."""
    xs, ys = zip(*points, strict=True)
    low, high = (min(xs), min(ys)), (max(xs), max(ys))
    width, height = high[0] - low[0], high[1] - low[1]
    beside, round_it = BINDING + EDGE + sheets.column, 2.0 * sheets.surround
    for paper, scale in sheets.choices:
        size = _FORMATS[paper]
        free = (size[0] - beside - round_it, size[1] - 2.0 * EDGE - SCALE_BAR - round_it)
        fits = max(width * 1000.0 / free[0], height * 1000.0 / free[1]) <= scale
        if fits and column_height <= size[1] - 2.0 * EDGE:
            break
    middle = (
        BINDING + (size[0] - beside) / 2.0,
        EDGE + (size[1] - 2.0 * EDGE - SCALE_BAR) / 2.0,
    )
    return Sheet(paper, size, scale, low, high, middle, sheets.column)
