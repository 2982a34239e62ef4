"""The sheet of a drawing: format, scale, and where a point of the room comes to lie on it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from .svg import Paper

__all__ = ["ROOM_SHEETS", "STOREY_SHEETS", "Point", "Sheet", "Sheets", "sheet_for", "sheets_for"]

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


class _Arrangement(NamedTuple):
    """Plans beside or above each other: the size of all at a scale, and where each has its middle [mm]."""

    size: Paper
    middles: tuple[Paper, ...]


def sheet_for(points: Iterable[Point], sheets: Sheets = ROOM_SHEETS, column_height: float = 0.0) -> Sheet:
    """The first format and scale that takes all points, and a column as high as given [mm]."""
    return sheets_for([list(points)], sheets, column_height)[0]


def sheets_for(plans: Sequence[Sequence[Point]], sheets: Sheets, column_height: float = 0.0) -> list[Sheet]:
    """The first format and scale that takes several plans side by side, or one above the other with the first at
    the foot, and a column as high as given [mm]; for each plan the same sheet with its own place."""
    boxes = [_box(points) for points in plans]
    beside = BINDING + EDGE + sheets.column
    for paper, scale in sheets.choices:
        size = _FORMATS[paper]
        free = (size[0] - beside, size[1] - 2.0 * EDGE - SCALE_BAR)
        ways = [_arranged(boxes, scale, sheets.surround, axis) for axis in (0, 1)]
        fitting = [way for way in ways if way.size[0] <= free[0] and way.size[1] <= free[1]]
        if fitting and column_height <= size[1] - 2.0 * EDGE:
            break
    chosen = (fitting or ways)[0]
    middle = (BINDING + free[0] / 2.0, EDGE + free[1] / 2.0)
    return [
        Sheet(paper, size, scale, *box, (middle[0] + x, middle[1] + y), sheets.column)
        for box, (x, y) in zip(boxes, chosen.middles, strict=True)
    ]


def _box(points: Sequence[Point]) -> tuple[Point, Point]:
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def _arranged(boxes: Sequence[tuple[Point, Point]], scale: int, surround: float, axis: int) -> _Arrangement:
    """Along an axis of the paper, which points down: from the left, or from the foot."""
    sizes = [
        tuple((high[side] - low[side]) * 1000.0 / scale + 2.0 * surround for side in (0, 1))
        for low, high in boxes
    ]
    whole, across = sum(size[axis] for size in sizes), max(size[1 - axis] for size in sizes)
    middles: list[Paper] = []
    start = -whole / 2.0
    for size in sizes:
        along = start + size[axis] / 2.0
        middles.append((along, 0.0) if axis == 0 else (0.0, -along))
        start += size[axis]
    return _Arrangement((whole, across) if axis == 0 else (across, whole), tuple(middles))
