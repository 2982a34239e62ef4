"""Patterns that are worth most, for given prices of cuts: a knapsack on a grid, with every cut in turn put in first.

What fits before a cut and what fits after it are two tables; together they give the best pattern with that cut, so
that one knapsack finds as many patterns as there are cuts. Lengths of cuts are rounded down to the grid, which keeps
the most that a coil can hold on the safe side of a bound.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from ..elementwise import Array
from .cutting_task import CuttingTask

__all__ = ["BestPatterns", "Pattern"]


class Pattern(NamedTuple):
    """Number of the kind of coil and how many of each size are cut from it."""

    kind: int
    counts: tuple[int, ...]


class BestPatterns:
    """Knapsacks of a task, each cut as often as it is in demand, with so many ``cells`` for the longest coil."""

    def __init__(self, task: CuttingTask, cells: int) -> None:
        self._task = task
        longest = max(kind.length for kind in task.kinds)
        self._grid = -(-longest // cells)
        self._cells = longest // self._grid + 1
        self._items = [number for number, demand in enumerate(task.demands) for _ in range(demand)]
        self._room = [kind.length // self._grid for kind in task.kinds]
        self._tables: Array = np.empty((0, 0, 0))
        self._steps = [max(1, task.sizes[number] // self._grid) for number in self._items]

    def most(self, worth: Array) -> list[float]:
        """The most that each kind of coil can hold."""
        best = np.zeros(self._cells)
        for number, step in zip(self._items, self._steps, strict=True):
            if step < self._cells:
                best[step:] = np.maximum(best[step:], best[:-step] + worth[number])
        return [float(best[room]) for room in self._room]

    def with_each_cut(self, worth: Array, kinds: Sequence[int]) -> Iterator[Pattern]:
        """For each of ``kinds`` and each size the best pattern that has it, or one close to that."""
        if not len(self._tables):
            self._tables = np.zeros((2, len(self._items) + 1, self._cells))
        before, after = self._tables
        self._fill(before, worth, range(len(self._items)))
        self._fill(after, worth, self._backwards())
        for kind in kinds:
            for place, number in enumerate(self._items):
                room = self._room[kind] - self._steps[place]
                if room < 0 or (place and self._items[place - 1] == number):
                    continue
                first, last = before[place], after[len(self._items) - place - 1]
                share = int(np.argmax(first[: room + 1] + last[room::-1]))
                counts = [0] * len(self._task.sizes)
                counts[number] = 1
                self._trace(before, range(place), share, counts)
                self._trace(after, self._backwards(place), room - share, counts)
                yield Pattern(kind, self._fitting(kind, counts))

    def _backwards(self, place: int = -1) -> range:
        return range(len(self._items) - 1, place, -1)

    def _fill(self, table: Array, worth: Array, places: Sequence[int]) -> None:
        """The most worth within every length: in row n of the first n of ``places``; row 0 is zero."""
        for row, place in enumerate(places):
            step = self._steps[place]
            table[row + 1] = table[row]
            if step < self._cells:
                more = table[row][:-step] + worth[self._items[place]]
                np.maximum(table[row][step:], more, out=table[row + 1][step:])

    def _trace(self, table: Array, places: Sequence[int], room: int, counts: list[int]) -> None:
        """Count what the table put into ``room`` of the first ``places``."""
        for row in range(len(places), 0, -1):
            if table[row, room] != table[row - 1, room]:
                place = places[row - 1]
                counts[self._items[place]] += 1
                room -= self._steps[place]

    def _fitting(self, kind: int, counts: list[int]) -> tuple[int, ...]:
        """Without the shortest cuts of what only rounding let in."""
        sizes = self._task.sizes
        over = (
            sum(size * count for size, count in zip(sizes, counts, strict=True))
            - self._task.kinds[kind].length
        )
        for number in range(len(counts) - 1, -1, -1):
            while over > 0 and counts[number]:
                counts[number] -= 1
                over -= sizes[number]
        return tuple(counts)
