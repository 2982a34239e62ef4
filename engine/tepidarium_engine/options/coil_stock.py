"""Coils with prices, and what circuits cost that are cut from them without joints.

A programme for a whole house cannot count cuts one by one. What every plan of coils keeps bounds its cost from below:
all cuts fit into what is bought, and a coil holds only so many steps of a part of its length as it has.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

__all__ = ["CoilKindPriced", "CoilStock", "CoilsBought", "Cuts"]

_MOST_PARTS = 6
"""Parts of a coil that cuts are counted by."""
_MOST_FIRST = 3
"""Coils of one kind that are filled before those of another."""
_MOST_STEPS = 20_000
"""Of a table of lengths; beyond them the cheapest metre counts."""
_STEP = 10
"""In which coils are filled [mm]."""


class CoilKindPriced(NamedTuple):
    """Coils of one ``length`` [mm], with the ``price`` of each in hundredths."""

    length: int
    price: int


class Cuts(NamedTuple):
    """So many ``circuits`` of equal ``length`` [mm], with what is cut off at both ends."""

    length: int
    circuits: int


class CoilsBought(NamedTuple):
    """The length of each coil [mm], longest first, and what they cost in hundredths."""

    lengths: tuple[int, ...]
    cost: int


@dataclass(frozen=True)
class CoilStock:
    """``kinds`` of coils that can be bought."""

    kinds: tuple[CoilKindPriced, ...]
    _plans: dict[tuple[int, ...], CoilsBought] = field(default_factory=dict, compare=False, repr=False)
    _least: list[int] = field(default_factory=lambda: [0], compare=False, repr=False)

    @property
    def longest(self) -> int:
        return max(kind.length for kind in self.kinds)

    @property
    def thresholds(self) -> tuple[int, ...]:
        """Lengths [mm] by which cuts are counted: parts of each coil."""
        parts = {-(-kind.length // part) for kind in self.kinds for part in range(2, _MOST_PARTS + 1)}
        return tuple(sorted(parts | {kind.length for kind in self.kinds}))

    def steps(self, length: int, threshold: int) -> int:
        """How often a cut [mm] is longer than a threshold [mm]. Two cuts have no more steps than one as long as
        both, so that a coil holds no more of them than it has itself."""
        return sum((piece - 1) // threshold for piece in self._pieces(length))

    def bought(self, cuts: Iterable[Cuts]) -> CoilsBought:
        """The cheapest coils that were found for the cuts; those longer than every coil take one joint after the
        other."""
        whole = sorted(
            (piece for each in cuts for _ in range(each.circuits) for piece in self._pieces(each.length)),
            reverse=True,
        )
        key = tuple(whole)
        if key not in self._plans:
            self._plans[key] = min(
                self._found(key), key=lambda plan: (plan.cost, len(plan.lengths), plan.lengths)
            )
        return self._plans[key]

    def _pieces(self, length: int) -> list[int]:
        whole, rest = divmod(length, self.longest)
        return [self.longest] * whole + ([rest] if rest else [])

    def _found(self, cuts: tuple[int, ...]) -> Iterator[CoilsBought]:
        """Plans in turn, until one costs as little as coils for the mere length."""
        least = self._least_for(sum(cuts))
        for fills in self._fillings(cuts):
            plan = self._priced(fills)
            yield plan
            if plan.cost <= least:
                return

    def _fillings(self, cuts: tuple[int, ...]) -> Iterator[list[int]]:
        """What each coil holds [mm]: of one kind in turn, each as full as it gets, then some of one kind before those
        of another."""
        fitting = [kind.length for kind in self.kinds if kind.length >= (cuts[0] if cuts else 0)]
        for length in fitting:
            yield _in_turn(cuts, length)
        for last in fitting:
            for first in (kind.length for kind in self.kinds):
                for count in range(_MOST_FIRST + 1 if first != last else 1):
                    yield _filled(cuts, [first] * count, last)

    def _least_for(self, length: int) -> int:
        """The least price of coils that hold so much pipe [mm], if it could be cut anyhow."""
        unit = math.gcd(*(kind.length for kind in self.kinds))
        steps = -(-length // unit)
        if steps > _MOST_STEPS:
            return math.floor(length * min(kind.price / kind.length for kind in self.kinds))
        while len(self._least) <= steps:
            place = len(self._least)
            self._least.append(
                min(kind.price + self._least[max(0, place - kind.length // unit)] for kind in self.kinds)
            )
        return self._least[steps]

    def _priced(self, fills: Sequence[int]) -> CoilsBought:
        """Each filling in the cheapest coil that holds it."""
        taken = [
            min(
                (kind for kind in self.kinds if kind.length >= fill),
                key=lambda kind: (kind.price, -kind.length),
            )
            for fill in fills
        ]
        return CoilsBought(
            tuple(sorted((kind.length for kind in taken), reverse=True)), sum(kind.price for kind in taken)
        )


def _in_turn(cuts: Sequence[int], length: int) -> list[int]:
    """Coils of one length, each cut in the fullest that has room for it."""
    fills: list[int] = []
    for cut in cuts:
        place = max(
            (place for place, fill in enumerate(fills) if fill + cut <= length),
            key=fills.__getitem__,
            default=-1,
        )
        if place < 0:
            fills.append(cut)
        else:
            fills[place] += cut
    return fills


def _filled(cuts: Sequence[int], first: Sequence[int], last: int) -> list[int]:
    """Coils of the ``first`` lengths, then as many of the ``last`` as it takes, each as full as it gets."""
    left, fills, lengths = list(cuts), [], iter(first)
    while left:
        held = _fullest(left, next(lengths, last))
        for cut in held:
            left.remove(cut)
        if held:
            fills.append(sum(held))
    return fills


def _fullest(cuts: Sequence[int], length: int) -> list[int]:
    """Of the cuts those that fill a coil best, in steps of a hundredth of a metre; of equal ones the longest."""
    steps, sums = length // _STEP, [1]
    sizes = [-(-cut // _STEP) for cut in cuts]
    mask = (1 << (steps + 1)) - 1
    for size in reversed(sizes):
        sums.append((sums[-1] | (sums[-1] << size)) & mask)
    wanted, held = sums[-1].bit_length() - 1, []
    for place, (cut, size) in enumerate(zip(cuts, sizes, strict=True)):
        rest = sums[len(cuts) - place - 1]
        if wanted >= size and (rest >> (wanted - size)) & 1:
            held.append(cut)
            wanted -= size
    return held
