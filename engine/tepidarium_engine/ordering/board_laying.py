"""Insulation boards laid over a floor in courses: how many it takes and what is cut off.

The rest of the last board of a course begins the next one, where it is long enough; the last course is cut along its
length. Boards with an opening are counted whole.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from shapely import Polygon

from .strips import Span, Strip, strips, turned

__all__ = ["BoardLaying", "BoardPiece", "boards_together", "lay_boards"]

LEAST_PIECE = 0.2
"""Shorter rests are thrown away [m] (common practice, no source)."""
_SLACK = 1e-6
_REMEMBERED = 512
"""Floors: rooms of flats that are alike are the same floor."""


class BoardPiece(NamedTuple):
    """A board or a piece of one as it lies, in the frame of the floor [m]; pieces of one ``board`` share its number."""

    board: int
    left: float
    low: float
    right: float
    high: float


@dataclass(frozen=True)
class BoardLaying:
    """``pieces`` cover the floor; ``area`` [m2] is that of the floor, ``bought_area`` [m2] that of the boards; of the
    last board the ``last`` lengths [m] are needed over its whole width."""

    pieces: tuple[BoardPiece, ...]
    boards: int
    area: float
    bought_area: float
    last: tuple[float, ...]

    @property
    def cut_off(self) -> float:
        """What of the boards does not lie on the floor [m2]."""
        return self.bought_area - self.area


@lru_cache(maxsize=_REMEMBERED)
def lay_boards(floor: Polygon, length: float, width: float, *, shifted: bool = False) -> BoardLaying:
    """Boards of ``length`` and ``width`` [m] in the direction that takes fewer; ``shifted`` by half a board against
    the layer below, so that joints do not lie over each other."""
    along = _laid(floor, length, width, shifted)
    across = _laid(turned(floor), length, width, shifted)
    if across.boards >= along.boards:
        return along
    pieces = tuple(BoardPiece(p.board, p.low, p.left, p.high, p.right) for p in across.pieces)
    return BoardLaying(pieces, across.boards, across.area, across.bought_area, across.last)


def boards_together(boards: int, last: Sequence[Sequence[float]], length: float) -> int:
    """How many of ``boards`` of a ``length`` [m] several floors take when the pieces of the ``last`` one of each [m]
    are cut from as few as they fit into: the longest first, each from the first board that has it left."""
    opened: list[float] = []
    for piece in sorted((piece for pieces in last for piece in pieces), reverse=True):
        place = next((place for place, left in enumerate(opened) if piece <= left + _SLACK), None)
        if place is None:
            opened.append(length - piece)
        else:
            opened[place] -= piece
    return boards - max(0, len(last) - len(opened))


def _laid(floor: Polygon, length: float, width: float, shifted: bool) -> BoardLaying:
    _, low, _, high = floor.bounds
    first = low - width / 2.0 if shifted else low
    count = math.ceil((high - first) / width - _SLACK)
    courses = strips(floor, [first + number * width for number in range(count)], width)
    laid = _Courses(length, width, low, high)
    pieces, boards = laid.pieces(courses)
    last = tuple(piece.right - piece.left for piece in pieces if piece.board == boards - 1)
    whole = laid.rest <= 0.0
    return BoardLaying(
        tuple(pieces), boards, float(floor.area), boards * length * width, (length,) if whole else last
    )


class _Courses:
    def __init__(self, length: float, width: float, low: float, high: float) -> None:
        self._length, self._width, self._low, self._high = length, width, low, high
        self._boards = 0
        self._pieces: list[BoardPiece] = []
        self.rest = 0.0

    def pieces(self, courses: list[Strip]) -> tuple[list[BoardPiece], int]:
        for course in courses:
            low, high = max(course.low, self._low), min(course.high, self._high)
            lengthwise = max(1, math.floor(self._width / (high - low) + _SLACK))
            if lengthwise > 1:
                self.rest = 0.0
                self._cut_lengthwise(course, low, high, lengthwise)
            else:
                for span in course.spans:
                    self._lay(span, low, high)
        return self._pieces, self._boards

    def _lay(self, span: Span, low: float, high: float) -> None:
        """Whole boards after the rest of the one before."""
        at = span.start
        while at < span.end - _SLACK:
            if self.rest < LEAST_PIECE:
                self._boards, self.rest = self._boards + 1, self._length
            taken = min(self.rest, span.end - at)
            self._pieces.append(BoardPiece(self._boards - 1, at, low, at + taken, high))
            at, self.rest = at + taken, self.rest - taken

    def _cut_lengthwise(self, course: Strip, low: float, high: float, lengthwise: int) -> None:
        """A narrow course: each board gives several strips of it."""
        left = 0
        for span in course.spans:
            at = span.start
            while at < span.end - _SLACK:
                if left == 0:
                    self._boards, left = self._boards + 1, lengthwise
                taken = min(self._length, span.end - at)
                self._pieces.append(BoardPiece(self._boards - 1, at, low, at + taken, high))
                at, left = at + taken, left - 1
