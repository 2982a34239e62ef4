"""Where on the paper nothing is drawn yet: places for words that must not cover a pipe."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from .marks import Box, Paper, Piece
from .openings import STEP, Openings

__all__ = ["FreeFloor"]

CHORD_AWAY = 0.1
"""Between an arc and what is taken for it, at most [mm]."""


class FreeFloor:
    """The cells of a sheet; each row of them is one integer with a bit for each cell that is taken."""

    def __init__(self, area: Box) -> None:
        self.area = area
        self.columns = int(area.width / STEP) + 1
        self.rows = [0] * (int(area.height / STEP) + 1)
        self.all = (1 << self.columns) - 1

    def _cell(self, place: Paper) -> tuple[int, int]:
        return int((place[0] - self.area.left) / STEP), int((place[1] - self.area.top) / STEP)

    def take_line(self, start: Paper, end: Paper) -> None:
        """The cells under a line."""
        (x, y), (to_x, to_y) = self._cell(start), self._cell(end)
        if y == to_y:
            low, high = max(0, min(x, to_x)), min(self.columns - 1, max(x, to_x))
            if high >= low and 0 <= y < len(self.rows):
                self.rows[y] |= ((1 << (high - low + 1)) - 1) << low
        elif x == to_x:
            self._take_upright(x, min(y, to_y), max(y, to_y))
        else:
            self._take_aslant(x, y, to_x - x, to_y - y)

    def _take_upright(self, column: int, low: int, high: int) -> None:
        if 0 <= column < self.columns:
            for row in range(max(0, low), min(len(self.rows), high + 1)):
                self.rows[row] |= 1 << column

    def _take_aslant(self, x: int, y: int, across: int, down: int) -> None:
        rows, columns, steps = self.rows, self.columns, max(abs(across), abs(down))
        for count in range(steps + 1):
            row, column = y + down * count // steps, x + across * count // steps
            if 0 <= row < len(rows) and 0 <= column < columns:
                rows[row] |= 1 << column

    def thicken(self) -> None:
        """Takes the cells beside those that are taken: lines have a width."""
        wide = [row | row << 1 | row >> 1 for row in self.rows]
        above, below = [0, *wide[:-1]], [*wide[1:], 0]
        self.rows = [a | b | c for a, b, c in zip(above, wide, below, strict=True)]

    def take_pieces(self, pieces: Iterable[Piece]) -> None:
        """The cells under straights and arcs; chords stand for an arc."""
        for piece in pieces:
            for start, end in pairwise([*piece.places(CHORD_AWAY), piece.end]):
                self.take_line(start, end)

    def take_ring(self, ring: Sequence[Paper]) -> None:
        for start, end in pairwise([*ring, ring[0]]):
            self.take_line(start, end)

    def take_box(self, box: Box) -> None:
        (left, top), (right, bottom) = self._cell((box.left, box.top)), self._cell((box.right, box.bottom))
        left, right = max(0, left), min(self.columns - 1, right)
        bits = ((1 << max(0, right - left + 1)) - 1) << left
        for row in range(max(0, top), min(len(self.rows), bottom + 1)):
            self.rows[row] |= bits

    def only(self, box: Box) -> list[int]:
        """The cells of a box, row by row."""
        within = FreeFloor(self.area)
        within.take_box(box)
        return [cells & self.all for cells in within.rows]

    def inside(self, rings: Sequence[Sequence[Paper]]) -> list[int]:
        """The cells inside an odd number of rings, row by row."""
        found = [0] * len(self.rows)
        start, columns = self.area.left, self.columns
        for row, crossings in self._crossings(rings).items():
            crossings.sort()
            for left, right in zip(crossings[::2], crossings[1::2], strict=False):
                low, high = int((left - start) / STEP) + 1, min(columns, int((right - start) / STEP))
                if high > low >= 0:
                    found[row] |= ((1 << (high - low)) - 1) << low
        return found

    def _crossings(self, rings: Sequence[Sequence[Paper]]) -> dict[int, list[float]]:
        """Where the middle of each row crosses rings."""
        found: dict[int, list[float]] = {}
        for ring in rings:
            for (ax, ay), (bx, by) in pairwise([*ring, ring[0]]):
                if ay == by:
                    continue
                slope = (bx - ax) / (by - ay)
                low, high = (self._cell((0.0, y))[1] for y in sorted((ay, by)))
                for row in range(max(0, low), min(len(self.rows), high + 1)):
                    y = self.area.top + (row + 0.5) * STEP
                    if (ay > y) != (by > y):
                        found.setdefault(row, []).append(ax + (y - ay) * slope)
        return found

    def openings(self, allowed: Sequence[int], near: Box | None = None) -> Openings:
        """What is free of ``allowed`` cells, only ``near`` a place where that is given."""
        low, high, left, right = 0, len(allowed), 0, self.columns
        if near is not None:
            (left, low), (right, high) = (
                self._cell((near.left, near.top)),
                self._cell((near.right, near.bottom)),
            )
            low, high, left, right = (
                max(0, low),
                min(len(allowed), high + 1),
                max(0, left),
                min(self.columns, right + 1),
            )
        first = next((row for row in range(low, high) if allowed[row]), low)
        last = next((row for row in range(high - 1, first, -1) if allowed[row]), first)
        within = ((1 << max(0, right - left)) - 1) << left
        taken = zip(self.rows[first : last + 1], allowed[first : last + 1], strict=False)
        rows = [~row & cells & within for row, cells in taken]
        return Openings.of((self.area.left, self.area.top), first, rows)

    def openings_in(self, box: Box) -> Openings:
        """What is free of the cells inside a box."""
        first, end = (max(0, int((y - self.area.top) / STEP + 0.5)) for y in (box.top, box.bottom))
        left = max(0, self._cell((box.left, 0.0))[0] + 1)
        right = min(self.columns, self._cell((box.right, 0.0))[0])
        cells = ((1 << max(0, right - left)) - 1) << left
        rows = [~taken & cells for taken in self.rows[first:end]]
        return Openings.of((self.area.left, self.area.top), first, rows)
