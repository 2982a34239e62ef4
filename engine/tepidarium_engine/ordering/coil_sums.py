"""Which lengths coils add up to: sets of sums as the bits of one whole number."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import islice

__all__ = ["CoilSums"]

_MOST_BITS = 8_000_000
_MOST_COMBINATIONS = 40
"""Combinations of coils that are tried for one sum and number."""


class CoilSums:
    """Sums of any number of coils of given lengths [mm], up to a greatest one."""

    @staticmethod
    def manageable(lengths: Sequence[int], greatest: int) -> bool:
        """Whether the sums take few enough bits; lengths that share no common measure take the most."""
        return greatest // math.gcd(*lengths) <= _MOST_BITS

    def __init__(self, lengths: Sequence[int], greatest: int) -> None:
        self._unit = math.gcd(*lengths)
        self._lengths = sorted({length // self._unit for length in lengths}, reverse=True)
        self._mask = (1 << (greatest // self._unit + 1)) - 1
        self._sums = self._every_sum()

    def _every_sum(self) -> int:
        sums = 1
        for length in self._lengths:
            step = length
            while step < self._mask.bit_length():
                sums |= sums << step & self._mask
                step *= 2
        return sums

    def next_sum(self, least: int) -> int | None:
        """The least sum that is not below ``least`` [mm]."""
        start = -(-max(least, 0) // self._unit)
        higher = self._sums >> start
        return None if higher == 0 else (start + (higher & -higher).bit_length() - 1) * self._unit

    def fewest(self, total: int) -> int:
        """The least number of coils that add up to ``total`` [mm], which is a sum."""
        bit, reached, count = 1 << total // self._unit, 1, 0
        mask = 2 * bit - 1
        while not reached & bit:
            step = 0
            for length in self._lengths:
                step |= reached << length & mask
            reached, count = step, count + 1
        return count

    def combinations(self, total: int, count: int) -> list[tuple[int, ...]]:
        """Ways to make ``total`` [mm] of ``count`` coils, long ones first; the first forty."""
        ways = self._combinations(0, total // self._unit, count, set())
        return [tuple(length * self._unit for length in way) for way in islice(ways, _MOST_COMBINATIONS)]

    def _combinations(
        self, first: int, total: int, count: int, barren: set[tuple[int, int, int]]
    ) -> Iterator[tuple[int, ...]]:
        """``barren``: what was found to have no way."""
        if count == 0:
            if total == 0:
                yield ()
            return
        if (first, total, count) in barren:
            return
        fruitful, shortest = False, self._lengths[-1]
        for place in range(first, len(self._lengths)):
            length = self._lengths[place]
            if length * count < total:
                break
            if length + shortest * (count - 1) <= total:
                for rest in self._combinations(place, total - length, count - 1, barren):
                    fruitful = True
                    yield (length, *rest)
        if not fruitful:
            barren.add((first, total, count))
