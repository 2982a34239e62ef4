"""The sheet of a drawing: format, scale, and where a point of the room comes to lie on it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .svg import Paper

__all__ = ["Sheet", "sheet_for"]

Point = tuple[float, float]

BINDING, EDGE = 20.0, 10.0
"""Margins of ISO 5457 [mm]: left, and the other three."""
COLUMN = 92.0
"""Width of the column on the right with legend, notes and title block [mm]."""
ROUND_DRAWING = 24.0
"""Kept free round the room for walls, dimensions and the ends of the pipe [mm]."""
SCALE_BAR = 14.0
"""Kept free at the bottom for the scale bar [mm]."""

_FORMATS = {"A4": (297.0, 210.0), "A3": (420.0, 297.0)}
"""ISO 216, landscape [mm]."""
_CHOICES = (
    ("A4", 20),
    ("A3", 20),
    ("A4", 50),
    ("A3", 50),
    ("A3", 100),
    ("A3", 200),
    ("A3", 500),
    ("A3", 1000),
)
"""In order of preference; scales of ISO 5455."""


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
        return (self.size[0] - EDGE - COLUMN, EDGE, self.size[1] - EDGE)


def sheet_for(points: Iterable[Point]) -> Sheet:
    """The first format and scale that takes all points."""
    xs, ys = zip(*points, strict=True)
    low, high = (min(xs), min(ys)), (max(xs), max(ys))
    width, height = high[0] - low[0], high[1] - low[1]
    for paper, scale in _CHOICES:
        size = _FORMATS[paper]
        free = (
            size[0] - BINDING - EDGE - COLUMN - 2.0 * ROUND_DRAWING,
            size[1] - 2.0 * EDGE - SCALE_BAR - 2.0 * ROUND_DRAWING,
        )
        if max(width * 1000.0 / free[0], height * 1000.0 / free[1]) <= scale:
            break
    middle = (
        BINDING + (size[0] - BINDING - EDGE - COLUMN) / 2.0,
        EDGE + (size[1] - 2.0 * EDGE - SCALE_BAR) / 2.0,
    )
    return Sheet(paper, size, scale, low, high, middle)
