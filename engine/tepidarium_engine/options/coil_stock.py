"""Coils with prices, and what circuits cost that are cut from them without joints.

A programme for a whole house cannot count cuts one by one. ``rows`` are what every plan of coils keeps: all cuts fit into
what is bought, and a coil holds only so many cuts of more than a part of its length. The cheapest coils within them bound
the cost from below; ``cost`` is that of a plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from ..ordering.cutting_stock import cutting_plan
from ..ordering.cutting_task import CuttingTask

__all__ = ["CoilKindPriced", "CoilStock", "CoilsBought", "Cuts"]

_MOST_PARTS = 6
"""Parts of a coil that cuts are counted by."""
_FEW_CUTS = 100
"""Of a plan that is looked for beyond filling one coil after the other."""


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

    @property
    def longest(self) -> int:
        return max(kind.length for kind in self.kinds)

    @property
    def thresholds(self) -> tuple[int, ...]:
        """Lengths [mm] by which cuts are counted: parts of each coil."""
        parts = {kind.length // part for kind in self.kinds for part in range(2, _MOST_PARTS + 1)}
        return tuple(sorted(parts | {kind.length for kind in self.kinds}))

    def holds(self, threshold: int) -> list[int]:
        """How many cuts longer than a threshold [mm] each kind of coil holds at most."""
        return [kind.length // (threshold + 1) for kind in self.kinds]

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

    def _found(self, cuts: tuple[int, ...]) -> Iterable[CoilsBought]:
        longest = cuts[0] if cuts else 0
        for kind in self.kinds:
            if kind.length >= longest:
                yield self._priced(_filled(cuts, kind.length))
        if cuts and len(cuts) <= _FEW_CUTS:
            plan = cutting_plan(CuttingTask.of(cuts, [kind.length for kind in self.kinds]))
            yield self._priced([sum(coil.cuts) for coil in plan.coils])

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


def _filled(cuts: Sequence[int], length: int) -> list[int]:
    """Coils of one length filled in turn, each cut in the fullest that has room for it."""
    fills: Counter[int] = Counter()
    for cut in cuts:
        place = max((fill for fill in fills if fill + cut <= length and fills[fill]), default=0)
        if place:
            fills[place] -= 1
        fills[place + cut] += 1
    return sorted(fills.elements(), reverse=True)
