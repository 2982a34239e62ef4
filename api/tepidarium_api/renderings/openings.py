"""Free cells of a part of the paper, all in one integer: a few shifts of it find places for boxes of any size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from .marks import Box, Paper

__all__ = ["ANYWHERE", "STEP", "Openings"]

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
        column = max(0, (union & -union).bit_length() - 1)
        stride = (union.bit_length() - column) // 8 + 1
        data = b"".join((row >> column).to_bytes(stride, "little") for row in rows)
        return cls(corner, column, first, len(rows), stride, int.from_bytes(data, "little"))

    def without(self, place: Paper) -> Openings:
        """All but the cell at a place."""
        column, row = self._cell(place)
        return self._replace(
            cells=self.cells & ~(1 << ((row - self.row) * self.stride * 8 + column - self.column))
        )

    def _cell(self, place: Paper) -> tuple[int, int]:
        return int((place[0] - self.corner[0]) / STEP), int((place[1] - self.corner[1]) / STEP)

    def nearest(self, size: Paper, target: Paper, within: float = ANYWHERE) -> Box | None:
        """The box of a ``size`` [mm] on free cells whose middle is nearest to the target, and ``within`` so many mm of
        it; None where there is none."""
        across, down = int(size[0] / STEP) + 1, int(size[1] / STEP) + 1
        corners = _starts(_starts(self.cells, across, 1), down, self.stride * 8)
        if not corners:
            return None
        data = corners.to_bytes(self.stride * self.height, "little")
        column, row = self._cell((target[0] - size[0] / 2.0, target[1] - size[1] / 2.0))
        column, row = column - self.column, row - self.row
        least, best = (within / STEP) ** 2, None
        for other in _outwards(row, 0, self.height - down):
            if (other - row) ** 2 >= least:
                break
            starts = int.from_bytes(data[other * self.stride : (other + 1) * self.stride], "little")
            for start in _neighbours(starts, max(0, column)):
                away = (other - row) ** 2 + (start - column) ** 2
                if away < least:
                    least, best = away, (start, other)
        if best is None:
            return None
        left = self.corner[0] + (self.column + best[0]) * STEP
        top = self.corner[1] + (self.row + best[1]) * STEP
        return Box(left, top, left + size[0], top + size[1])


def _starts(cells: int, length: int, apart: int) -> int:
    """The cells that begin a run of a ``length``, each of it so many bits after the last."""
    have = 1
    while have < length and cells:
        step = min(have, length - have)
        cells &= cells >> step * apart
        have += step
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
