"""Free cells of a part of the paper, all in one integer: a few shifts of it find the places for boxes of any size."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from operator import or_
from typing import NamedTuple

from .marks import Box, Paper

__all__ = ["ANYWHERE", "STEP", "Openings", "Places"]

ANYWHERE = 1e6
"""Farther than any paper goes [mm]."""
STEP = 0.25
"""Width of a cell [mm]."""


class Openings(NamedTuple):
    """``height`` rows of ``stride`` bytes each, the lowest bits of ``cells`` first, from ``column`` and ``row`` of a
    grid whose corner is at ``corner`` [mm]. The last bit of each row is not set, so that no run goes on into the next.
    """

    corner: Paper
    column: int
    row: int
    height: int
    stride: int
    cells: int

    @classmethod
    def of(cls, corner: Paper, first: int, rows: Sequence[int]) -> Openings:
        """Rows from the ``first`` of the grid on, without the columns before and after all that is free."""
        union = 0
        for row in rows:
            union |= row
        if not union:
            rows = ()
        column = max(0, (union & -union).bit_length() - 1)
        stride = (union.bit_length() - column) // 8 + 1
        data = b"".join((row >> column).to_bytes(stride, "little") for row in rows)
        return cls(corner, column, first, len(rows), stride, int.from_bytes(data, "little"))

    def places(self, size: Paper) -> Places:
        """All places of a box of a ``size`` [mm]."""
        across, down = int(size[0] / STEP) + 1, int(size[1] / STEP) + 1
        starts = _starts(_starts(self.cells, across, 1), down, self.stride * 8)
        if not starts:
            return Places(self, size, (across, down), [])
        data, stride = starts.to_bytes(self.stride * self.height, "little"), self.stride
        rows = [int.from_bytes(data[at : at + stride], "little") for at in range(0, len(data), stride)]
        return Places(self, size, (across, down), rows)

    def nearest(self, size: Paper, target: Paper, within: float = ANYWHERE) -> Box | None:
        """The place of a box of a ``size`` [mm] that is nearest to the target."""
        return self.places(size).nearest(target, within)


class Places(NamedTuple):
    """Where the upper left cell of a box of ``size`` [mm], which covers so many ``cells``, can be; a bit for each, row
    by row."""

    openings: Openings
    size: Paper
    cells: tuple[int, int]
    rows: list[int]

    def nearest(self, target: Paper, within: float = ANYWHERE) -> Box | None:
        """The box whose middle is nearest to the target, and ``within`` so many mm of it; None where there is none."""
        opened, (width, height) = self.openings, self.size
        column, row = self._cell((target[0] - width / 2.0, target[1] - height / 2.0))
        least, best, inside = (within / STEP) ** 2, None, max(0, column)
        aside = min((abs(at - column) for at in _neighbours(reduce(or_, self.rows, 0), inside)), default=0)
        high = len(self.rows) - self.cells[1]
        above = min(max(row, 0), high + 1)
        below = above - 1
        # Outwards from the target's row: a label is looked for in thousands of them.
        while above <= high or below >= 0:
            if below < 0 or (above <= high and above - row <= row - below):
                other, above = above, above + 1
            else:
                other, below = below, below - 1
            down = (other - row) ** 2
            if down + aside**2 >= least:
                break
            starts = self.rows[other]
            for start in _neighbours(starts, inside) if starts else ():
                away = down + (start - column) ** 2
                if away < least:
                    least, best = away, (start, other)
        if best is None:
            return None
        left = opened.corner[0] + (opened.column + best[0]) * STEP
        top = opened.corner[1] + (opened.row + best[1]) * STEP
        return Box(left, top, left + width, top + height)

    def refuse(self, place: Paper) -> None:
        """No box that covers a place."""
        (across, down), (column, row) = self.cells, self._cell(place)
        taken = ((1 << across) - 1) << max(0, column - across + 1) & ((1 << column + 1) - 1)
        for other in range(max(0, row - down + 1), min(len(self.rows), row + 1)):
            self.rows[other] &= ~taken

    def _cell(self, place: Paper) -> tuple[int, int]:
        (left, top), (x, y) = self.openings.corner, place
        return int((x - left) / STEP) - self.openings.column, int((y - top) / STEP) - self.openings.row


def _starts(cells: int, length: int, apart: int) -> int:
    """The cells that begin a run of a ``length``, each of it so many bits after the last."""
    have = 1
    while have < length and cells:
        step = min(have, length - have)
        cells &= cells >> step * apart
        have += step
    return cells


def _neighbours(cells: int, column: int) -> list[int]:
    """The nearest cell at or left of a column from 0 on, and the nearest at or right of it."""
    found: list[int] = []
    if right := cells >> column:
        found.append(column + (right & -right).bit_length() - 1)
        cells ^= right << column
    if cells:
        found.append(cells.bit_length() - 1)
    return found
