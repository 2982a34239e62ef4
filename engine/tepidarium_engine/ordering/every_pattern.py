"""Every pattern that a good enough plan can have, where there are not too many."""

from __future__ import annotations

from collections.abc import Iterator

from .cutting_patterns import CutPrices, Pattern, PatternPool
from .cutting_task import CuttingTask

__all__ = ["every_pattern"]

_MOST_STEPS = 60_000
_ROUNDING = 1.0
"""By how much prices may be off [mm]."""


def every_pattern(task: CuttingTask, prices: CutPrices, bought: int, most: int) -> PatternPool | None:
    """Every full pattern of plans that buy no more than ``bought`` [mm]; None for more than ``most``.

    A pattern is full where no other cut fits in: plans may cut a length twice and drop one. A plan buys the bound and
    what its coils cost above the worth of their cuts, so none of them can cost more above it than is left.
    """
    pool = PatternPool(task)
    for pattern in _Search(task, prices, bought - prices.bound + _ROUNDING).patterns():
        if pattern is None or len(pool.patterns) == most:
            return None
        pool.add(pattern)
    return pool


class _Search:
    """Cuts are added longest first, as long as a coil can still be good enough."""

    def __init__(self, task: CuttingTask, prices: CutPrices, spare: float) -> None:
        self._task, self._worth, self._spare = task, prices.worth, spare
        self._longest = max(kind.length for kind in task.kinds)
        self._steps = 0
        ratios = [worth / size for worth, size in zip(prices.worth, task.sizes, strict=True)]
        self._best_after = [max(ratios[place:]) for place in range(len(ratios))]
        self._costs = [
            kind.bought + (prices.given[number] if kind.available is not None else 0.0)
            for number, kind in enumerate(task.kinds)
        ]

    def patterns(self) -> Iterator[Pattern | None]:
        """None where the search gives up."""
        yield from self._from(0, 0, 0.0, [0] * len(self._worth))

    def _from(self, place: int, load: int, worth: float, counts: list[int]) -> Iterator[Pattern | None]:
        self._steps += 1
        if self._steps > _MOST_STEPS:
            yield None
            return
        yield from self._full(load, worth, counts)
        for number in range(place, len(counts)):
            size = self._task.sizes[number]
            fits = counts[number] < self._task.demands[number] and load + size <= self._longest
            more = worth + self._worth[number]
            if fits and self._promising(load + size, more, self._best_after[number]):
                counts[number] += 1
                yield from self._from(number, load + size, more, counts)
                counts[number] -= 1

    def _promising(self, load: int, worth: float, ratio: float) -> bool:
        return any(
            cost - worth - (kind.length - load) * ratio <= self._spare
            for kind, cost in zip(self._task.kinds, self._costs, strict=True)
            if kind.length >= load
        )

    def _full(self, load: int, worth: float, counts: list[int]) -> Iterator[Pattern]:
        task = self._task
        free = [
            size for size, have, all_of in zip(task.sizes, counts, task.demands, strict=True) if have < all_of
        ]
        least = free[-1] if free else self._longest + 1
        for number, kind in enumerate(task.kinds):
            if load <= kind.length < load + least and self._costs[number] - worth <= self._spare:
                yield Pattern(number, tuple(counts))
