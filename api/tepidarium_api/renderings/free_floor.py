"""Where on the paper nothing is drawn yet: places for words that must not cover a pipe."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise

from .marks import Box, Paper, Piece

__all__ = ["ANYWHERE", "FreeFloor"]

ANYWHERE = 1e6
"""Farther than any paper goes [mm]."""
CHORD_AWAY = 0.1
"""Between an arc and what is taken for it, at most [mm]."""
STEP = 0.25
"""Width of a cell [mm]."""


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
            low, high = sorted((y, to_y))
            self._take_upright(x, low, high)
        else:
            steps = max(abs(to_x - x), abs(to_y - y))
            for count in range(steps + 1):
                row = y + (to_y - y) * count // steps
                self._take_upright(x + (to_x - x) * count // steps, row, row)

    def _take_upright(self, column: int, low: int, high: int) -> None:
        if 0 <= column < self.columns:
            for row in range(max(0, low), min(len(self.rows), high + 1)):
                self.rows[row] |= 1 << column

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

    def without(self, cells: Sequence[int], place: Paper) -> list[int]:
        """Cells but for the one at a place."""
        column, row = self._cell(place)
        return [*cells[:row], cells[row] & ~(1 << column), *cells[row + 1 :]]

    def inside(self, rings: Sequence[Sequence[Paper]]) -> list[int]:
        """The cells inside an odd number of rings, row by row."""
        found = [0] * len(self.rows)
        edges = [(a, b) for ring in rings for a, b in pairwise([*ring, ring[0]]) if a[1] != b[1]]
        heights = [y for ring in rings for _, y in ring]
        low, high = (self._cell((0.0, y))[1] for y in (min(heights), max(heights)))
        for row in range(max(0, low), min(len(found), high + 1)):
            y = self.area.top + (row + 0.5) * STEP
            crossings = sorted(
                a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
                for a, b in edges
                if (a[1] > y) != (b[1] > y)
            )
            for left, right in zip(crossings[::2], crossings[1::2], strict=False):
                low, high = self._cell((left, y))[0] + 1, min(self.columns, self._cell((right, y))[0])
                if high > low >= 0:
                    found[row] |= ((1 << (high - low)) - 1) << low
        return found

    def nearest(
        self, size: Paper, target: Paper, allowed: Sequence[int], within: float = ANYWHERE
    ) -> Box | None:
        """The box of a ``size`` [mm] that covers nothing that is taken, on ``allowed`` cells, with its middle as near
        the target as possible and ``within`` so many mm; None where there is none."""
        across, down = int(size[0] / STEP) + 1, int(size[1] / STEP) + 1
        aim = self._cell((target[0] - size[0] / 2.0, target[1] - size[1] / 2.0))
        first = next((row for row, cells in enumerate(allowed) if cells), None)
        if first is None:
            return None
        last = next((row for row in range(len(allowed) - 1, first, -1) if allowed[row]), first)
        steps = _steps(across)

        @cache
        def free(row: int) -> int:
            return _runs(~self.rows[row] & allowed[row] & self.all, steps)

        least = (within / STEP) ** 2
        best: tuple[int, int] | None = None
        for row in _outwards(aim[1], first, last - down + 1):
            if (row - aim[1]) ** 2 >= least:
                break
            cells = free(row)
            for other in range(row + 1, row + down):
                if not cells:
                    break
                cells &= free(other)
            for column in _neighbours(cells, max(0, aim[0])):
                away = (row - aim[1]) ** 2 + (column - aim[0]) ** 2
                if away < least:
                    least, best = away, (column, row)
        if best is None:
            return None
        left, top = self.area.left + best[0] * STEP, self.area.top + best[1] * STEP
        return Box(left, top, left + size[0], top + size[1])


def _steps(length: int) -> list[int]:
    """Shifts after which a bit stands for a run of so many."""
    steps, have = [], 1
    while have < length:
        steps.append(min(have, length - have))
        have += steps[-1]
    return steps


def _runs(cells: int, steps: Sequence[int]) -> int:
    """The cells that begin a run."""
    for step in steps:
        if not cells:
            break
        cells &= cells >> step
    return cells


def _outwards(middle: int, low: int, high: int) -> Iterator[int]:
    """The whole numbers from ``low`` to ``high``, those nearest to ``middle`` first."""
    above = min(max(middle, low), high + 1)
    below = above - 1
    while above <= high or below >= low:
        if below < low or (above <= high and above - middle <= middle - below):
            yield above
            above += 1
        else:
            yield below
            below -= 1


def _neighbours(cells: int, column: int) -> list[int]:
    """The nearest cell at or left of a column, and the nearest at or right of it."""
    found: list[int] = []
    if not cells:
        return found
    if left := cells & ((1 << (column + 1)) - 1):
        found.append(left.bit_length() - 1)
    if right := cells >> column:
        found.append(column + (right & -right).bit_length() - 1)
    return found
