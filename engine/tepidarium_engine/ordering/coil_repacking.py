"""Plans with given numbers of coils: filled one after the other, then mended.

What does not fit goes into the last coil. Then two coils at a time are filled anew, with their cuts and those of the
last one, so that they hold more worth than before, until nothing is too much for the last one. Worth is length, or the
prices of a linear programme where cuts fill coils badly.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from ..elementwise import Array
from .best_patterns import Pattern
from .coil_filling import filled_coil
from .cutting_task import CutCoil, CuttingTask

__all__ = ["CoilRepacking"]

_FREE_CUTS = 12
"""Cuts of three coils that are put in anew at a time."""
_MOST_WAYS = 400
"""Ways to fill a coil that are combined with ways to fill another."""
_MOST_TRIES = 100
_NOISE = 0.6
"""How far random numbers change which patterns are taken."""
_USED = 0.5
_PRICE_STEPS = 1_000_000
"""Worth is compared in whole parts of the greatest."""

_Whole = npt.NDArray[np.int64]


@dataclass
class _Coil:
    kind: int
    cuts: list[int]


class CoilRepacking:
    """Plans of a task with so many coils of each kind; at most so many ``steps`` of mending, ``left`` is the rest."""

    def __init__(self, task: CuttingTask, numbers: Sequence[int], steps: int) -> None:
        self._task, self._numbers, self.left = task, numbers, steps
        self._worth = {size: size for size in task.sizes}
        self._random = random.Random(0)

    def plan(self) -> tuple[CutCoil, ...] | None:
        """A plan, found by the length that coils hold."""
        for attempt in range(_MOST_TRIES):
            coils = self._filled([], self._random if attempt else None)
            if self._mended(coils):
                return self._as_plan(coils)
            if self.left <= 0:
                break
        return None

    def plan_by(self, worth: Array, patterns: Sequence[Pattern], uses: Array) -> tuple[CutCoil, ...] | None:
        """A plan, found by prices of the sizes, with patterns that a programme uses so often."""
        greatest = float(worth.max())
        for size, price in zip(self._task.sizes, worth.tolist(), strict=True):
            self._worth[size] = 1 + int(_PRICE_STEPS * price / greatest)
        used = [
            (use, pattern)
            for use, pattern in zip(uses.tolist(), patterns, strict=True)
            if use > 1.0 / _PRICE_STEPS
        ]
        for attempt in range(_MOST_TRIES):
            drawn = self._drawn(used, _NOISE if attempt else 0.0) if attempt % 2 == 0 else []
            coils = self._filled(drawn, self._random)
            if self._mended(coils):
                return self._as_plan(coils)
            if self.left <= 0:
                break
        return None

    def _as_plan(self, coils: Sequence[_Coil]) -> tuple[CutCoil, ...]:
        kinds = self._task.kinds
        return tuple(
            CutCoil(kinds[coil.kind], tuple(sorted(coil.cuts, reverse=True))) for coil in coils if coil.cuts
        )

    def _drawn(self, used: Sequence[tuple[float, Pattern]], noise: float) -> list[Pattern]:
        """Patterns that are used most, as far as random numbers let them."""
        keyed = [(use + noise * self._random.random(), pattern) for use, pattern in used]
        return [pattern for use, pattern in sorted(keyed, reverse=True) if use > _USED]

    def _filled(self, patterns: Sequence[Pattern], numbers: random.Random | None) -> list[_Coil]:
        """Coils of the patterns that go together, and the others filled well; what is left is in the last one."""
        task, left, free, coils = self._task, list(self._task.cuts), list(self._numbers), []
        for pattern in patterns:
            cuts = [
                size for size, count in zip(task.sizes, pattern.counts, strict=True) for _ in range(count)
            ]
            if free[pattern.kind] and all(left.count(cut) >= cuts.count(cut) for cut in cuts):
                free[pattern.kind] -= 1
                coils.append(_Coil(pattern.kind, cuts))
                for cut in cuts:
                    left.remove(cut)
        order = [kind for kind, count in enumerate(free) for _ in range(count)]
        if numbers is not None:
            numbers.shuffle(order)
        for kind in order:
            coils.append(_Coil(kind, list(filled_coil(left, task.kinds[kind].length, numbers))))
            for cut in coils[-1].cuts:
                left.remove(cut)
        coils[-1].cuts += left
        return coils

    def _mended(self, coils: list[_Coil]) -> bool:
        """Whether no coil holds too much in the end."""
        better = True
        while better and self._over(coils) and self.left > 0:
            better = False
            pairs = list(combinations(coils[:-1], 2))
            self._random.shuffle(pairs)
            for first, second in pairs:
                self.left -= 1
                better = self._refilled(first, second, coils[-1]) or better
                if not self._over(coils) or self.left <= 0:
                    break
        return not self._over(coils)

    def _over(self, coils: Sequence[_Coil]) -> bool:
        return sum(coils[-1].cuts) > self._task.kinds[coils[-1].kind].length

    def _refilled(self, first: _Coil, second: _Coil, last: _Coil) -> bool:
        """Whether two coils could take more worth; what they cannot take goes into the last one."""
        places = [(cut, coil) for coil in (first, second, last) for cut in coil.cuts]
        if len(places) > _FREE_CUTS:
            self._random.shuffle(places)
        moved, kept = places[:_FREE_CUTS], places[_FREE_CUTS:]
        cuts = [cut for cut, _ in moved]
        rooms = [
            self._task.kinds[coil.kind].length - sum(cut for cut, place in kept if place is coil)
            for coil in (first, second)
        ]
        held = sum(self._worth[cut] for cut, coil in moved if coil is not last)
        found = _best_pair(_sums(cuts), _sums([self._worth[cut] for cut in cuts]), rooms, held)
        if found is None:
            return False
        bits = (found[0], found[1], ~(found[0] | found[1]))
        for coil, own in zip((first, second, last), bits, strict=True):
            coil.cuts = [cut for cut, place in kept if place is coil]
            coil.cuts += [cut for number, cut in enumerate(cuts) if own >> number & 1]
        return True


def _sums(values: Sequence[int]) -> _Whole:
    """Sums of every selection of the values; bit n of the place says whether value n is in."""
    sums = np.zeros(1 << len(values), dtype=np.int64)
    for number, value in enumerate(values):
        sums[1 << number : 2 << number] = sums[: 1 << number] + value
    return sums


def _best_pair(lengths: _Whole, worth: _Whole, rooms: Sequence[int], held: int) -> tuple[int, int] | None:
    """Two selections without a common value, each within its room, of the greatest worth together; None where that
    is no more than ``held``."""
    first, second = (np.flatnonzero(lengths <= room) for room in rooms)
    first = _most_worth(first, worth, held - int(worth[second].max(initial=0)))
    second = _most_worth(second, worth, held - int(worth[first].max(initial=0)))
    if not len(first) or not len(second):
        return None
    together = worth[first][:, None] + worth[second][None, :]
    together[(first[:, None] & second[None, :]) != 0] = -1
    row, column = divmod(int(together.argmax()), len(second))
    return (int(first[row]), int(second[column])) if together[row, column] > held else None


def _most_worth(ways: _Whole, worth: _Whole, least: int) -> _Whole:
    """Those worth more than ``least``; of many the best."""
    good = ways[worth[ways] > least]
    if len(good) > _MOST_WAYS:
        good = good[np.argsort(-worth[good], kind="stable")[:_MOST_WAYS]]
    return good
