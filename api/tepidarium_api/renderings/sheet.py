"""The sheet of a drawing: format, scale, and where a point of the plan comes to lie on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Literal, NamedTuple

from tepidarium_engine.drawing_sheet import DrawingSheet
from tepidarium_engine.routes import PathPiece

from .marks import Box, Paper, Piece

__all__ = [
    "BINDING",
    "EDGE",
    "INSET",
    "OVERLAP",
    "SCALE_BAR",
    "TEXT_WIDTH",
    "TITLE_BLOCK",
    "Point",
    "Sheet",
    "Tiling",
    "columns_of",
    "extent",
    "sheets_for",
    "tiling",
]

Point = tuple[float, float]

BINDING, EDGE = 20.0, 10.0
"""Margins of ISO 5457 [mm]: left, and the other three."""
COLUMN, INSET = 124.0, 3.0
"""Width of a column of text, and what is kept free at its sides [mm]."""
TEXT_WIDTH = COLUMN - 2.0 * INSET
SURROUND = 24.0
"""Kept free round the plan for walls, dimensions and names [mm]."""
SCALE_BAR = 14.0
"""Kept free below the plan for the scale bar [mm]."""
TITLE_BLOCK = 38.0
"""Height of the title block [mm]."""
BAND = 0.38
"""Share of an upright sheet that the text below the plan takes."""
OVERLAP = 20.0
"""What neighbouring sheets of one plan show twice [mm]."""

_FORMATS = {
    "A4": (297.0, 210.0),
    "A3": (420.0, 297.0),
    "A2": (594.0, 420.0),
    "A1": (841.0, 594.0),
    "A0": (1189.0, 841.0),
}
"""ISO 216, landscape [mm]."""
_BEST = (
    *product(("A3",), (20, 50)),
    *product(("A2", "A1", "A0"), (50,)),
    *product(("A3", "A2", "A1", "A0"), (100,)),
    *product(("A0",), (200, 500, 1000)),
)
"""Format and scale (ISO 5455) in order of preference."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of ``size`` [mm] on which ``scale`` millimetres of the plan take one.

    ``low`` and ``high`` are opposite corners of the plan [m]; its middle stands at ``middle`` [mm]. ``area`` is the
    part of the paper on which the plan is drawn. Of a plan on several sheets this one is in column and row ``tile`` of
    ``tiles``, counted from 0 on the upper left.
    """

    paper: str
    size: Paper
    scale: int
    low: Point
    high: Point
    middle: Paper
    area: Box
    tile: tuple[int, int] = (0, 0)
    tiles: tuple[int, int] = (1, 1)

    def at(self, point: Point) -> Paper:
        """A point of the plan [m] on paper [mm]."""
        x, y = point
        return (
            self.middle[0] + self.length(x - (self.low[0] + self.high[0]) / 2.0),
            self.middle[1] - self.length(y - (self.low[1] + self.high[1]) / 2.0),
        )

    def ring(self, points: Iterable[Point]) -> tuple[Paper, ...]:
        return tuple(map(self.at, points))

    def length(self, length: float) -> float:
        """A length [m] on paper [mm]."""
        return length * 1000.0 / self.scale

    def pieces(self, pieces: Iterable[PathPiece]) -> tuple[Piece, ...]:
        """Straights and arcs of a pipe on paper."""
        return tuple(self._piece(piece) for piece in pieces)

    def _piece(self, piece: PathPiece) -> Piece:
        start, end = self.at(piece.start), self.at(piece.end)
        if piece.radius is None or piece.sweep is None or piece.centre is None:
            return Piece(start, end)
        return Piece(start, end, self.at(piece.centre), self.length(piece.radius), -piece.sweep)

    @property
    def text_beside(self) -> bool:
        """Whether the sheet has room for text beside or below the plan."""
        return self.area == _plan_area(self.size)


@dataclass(frozen=True, slots=True)
class Tiling:
    """How a plan lies on its sheets, on the paper of the first of them [mm]: ``parts`` of the plan that each sheet
    shows up to its match lines, and ``seams`` round match lines, which two sheets show."""

    parts: tuple[Box, ...]
    seams: tuple[Box, ...]


def tiling(tiles: Sequence[Sheet]) -> Tiling:
    first = tiles[0]
    parts, seams = [], []
    half = OVERLAP / 2.0
    for tile in tiles:
        x, y = (first.middle[side] - tile.middle[side] for side in (0, 1))
        left, top, right, bottom = (
            tile.area.left + x,
            tile.area.top + y,
            tile.area.right + x,
            tile.area.bottom + y,
        )
        (column, row), (columns, rows) = tile.tile, tile.tiles
        after, below = column + 1 < columns, row + 1 < rows
        parts.append(
            Box(
                left + half * (column > 0),
                top + half * (row > 0),
                right - half * after,
                bottom - half * below,
            )
        )
        if after:
            seams.append(Box(right - OVERLAP, top, right, bottom))
        if below:
            seams.append(Box(left, bottom - OVERLAP, right, bottom))
    return Tiling(tuple(parts), tuple(seams))


def extent(points: Iterable[Point]) -> tuple[Point, Point]:
    """The least and the greatest corner of points [m]."""
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


class _Wanted(NamedTuple):
    paper: str
    scale: int
    orientation: Literal["landscape", "portrait"]


def sheets_for(corners: tuple[Point, Point], wanted: DrawingSheet, surround: float = SURROUND) -> list[Sheet]:
    """The sheets of one plan: one where a sheet is large enough for it with text beside it, else as many as it takes
    without, row by row.

    What the caller left open is chosen: the first format and scale that take the plan whole.
    """
    ways = list(_ways(wanted))
    whole = (_tiled(corners, way, surround) for way in ways)
    fitting = next((sheets for sheets in whole if sheets[0].text_beside), None)
    return fitting or min((_tiled(corners, way, surround) for way in ways), key=len)


def _ways(wanted: DrawingSheet) -> Iterator[_Wanted]:
    best = (
        _BEST if wanted.scale is None else tuple((paper, wanted.scale) for paper in ("A3", "A2", "A1", "A0"))
    )
    if wanted.paper is not None:
        scales = (20, 50, 100) if wanted.scale is None else (wanted.scale,)
        best = tuple((wanted.paper, scale) for scale in scales)
    for paper, scale in best:
        for orientation in ("landscape", "portrait"):
            if wanted.orientation in (None, orientation):
                yield _Wanted(paper, scale, orientation)


def _tiled(corners: tuple[Point, Point], way: _Wanted, surround: float) -> list[Sheet]:
    size = _FORMATS[way.paper] if way.orientation == "landscape" else _FORMATS[way.paper][::-1]
    low, high = corners
    need = [(high[side] - low[side]) * 1000.0 / way.scale + 2.0 * surround for side in (0, 1)]
    area = _plan_area(size)
    if need[0] > area.width or need[1] > area.height:
        area = Box(BINDING, EDGE, size[0] - EDGE, size[1] - EDGE - TITLE_BLOCK - SCALE_BAR)
    room = (area.width, area.height)
    tiles = tuple(_count(need[side], room[side]) for side in (0, 1))
    middle = ((area.left + area.right) / 2.0, (area.top + area.bottom) / 2.0)
    across, down = (
        middle[side] + (tiles[side] - 1) * (room[side] - OVERLAP) / 2.0 for side in (0, 1)
    )  # of the first sheet: the middle of the plan lies that far to the right and down
    first = Sheet(way.paper, size, way.scale, low, high, (across, down), area, tiles=(tiles[0], tiles[1]))
    return [
        replace(
            first,
            tile=(column, row),
            middle=(across - column * (room[0] - OVERLAP), down - row * (room[1] - OVERLAP)),
        )
        for row in range(tiles[1])
        for column in range(tiles[0])
    ]


def _count(need: float, room: float) -> int:
    count = 1
    while count * (room - OVERLAP) + OVERLAP < need - 1e-6:
        count += 1
    return count


def _plan_area(size: Paper) -> Box:
    if size[0] > size[1]:
        return Box(BINDING, EDGE, size[0] - EDGE - COLUMN, size[1] - EDGE - SCALE_BAR)
    return Box(BINDING, EDGE, size[0] - EDGE, size[1] - EDGE - BAND * size[1] - SCALE_BAR)


def columns_of(size: Paper, beside_plan: bool) -> list[Box]:
    """The columns of text on a sheet: beside or below a plan that has room on it, or over the whole of it."""
    left, right, top, bottom = BINDING, size[0] - EDGE, EDGE, size[1] - EDGE
    if beside_plan and size[0] > size[1]:
        left = right - COLUMN
    elif beside_plan:
        top = bottom - BAND * size[1]
    count = max(1, int((right - left) / COLUMN))
    width = (right - left) / count
    return [Box(left + n * width, top, left + (n + 1) * width, bottom) for n in range(count)]
