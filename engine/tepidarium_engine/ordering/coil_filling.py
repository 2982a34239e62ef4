"""Plans of cuts by filling one coil after the other as full as it gets: quick, and nearly always the best.

The longest cut that is left goes into the next coil, with those others that fill it best; which sums they can have is
kept as the bits of a whole number. Tries differ in the order of coils and cuts, by random numbers of a fixed seed.
"""

from __future__ import annotations

import random
from collections.abc import Sequence

__all__ = ["CoilFilling", "filled_coil"]

_TRIES = 40
"""For the same coils."""
_GRID = 10
"""Lengths are rounded to centimetres on the safe side here [mm]: bits are then a tenth."""
_SPREAD = 0.3
"""How far random numbers move a cut in the order."""
_CLOSE_CUTS = 8
"""The longest cuts among which the first of a coil is drawn."""


class CoilFilling:
    """Fills coils until so many cuts have been looked at."""

    def __init__(self, looks: int) -> None:
        self._left = looks

    def packed(self, cuts: Sequence[int], coils: Sequence[int]) -> list[tuple[int, ...]] | None:
        """The cuts of each of ``coils`` [mm], in their order, that together are all ``cuts``, longest first; None
        where no try found that."""
        numbers = random.Random(0)
        for attempt in range(_TRIES):
            if self._left <= 0:
                break
            order = list(range(len(coils)))
            if attempt % 3 == 1:
                order.reverse()
            elif attempt % 3 == 2:
                numbers.shuffle(order)
            taken = self._taken(cuts, [coils[place] for place in order], numbers if attempt > 2 else None)
            if taken is not None:
                by_place = dict(zip(order, taken, strict=False))
                return [by_place.get(place, ()) for place in range(len(coils))]
        return None

    def _taken(
        self, cuts: Sequence[int], coils: Sequence[int], numbers: random.Random | None
    ) -> list[tuple[int, ...]] | None:
        left, taken, spare = list(cuts), [], sum(coils) - sum(cuts)
        for coil in coils:
            own = filled_coil(left, coil, numbers)
            self._left -= len(left)
            taken.append(own)
            spare -= coil - sum(own)
            if spare < 0:
                return None
            for cut in own:
                left.remove(cut)
        return None if left else taken


def filled_coil(cuts: Sequence[int], coil: int, numbers: random.Random | None = None) -> tuple[int, ...]:
    """The longest of ``cuts``, longest first, that fits into a coil [mm], and others that fill it best with it."""
    fitting = [cut for cut in cuts if cut <= coil]
    if not fitting:
        return ()
    first = fitting.pop(0 if numbers is None else numbers.randrange(min(_CLOSE_CUTS, len(fitting))))
    if numbers is not None:
        fitting = [
            cut for _, cut in sorted((-cut * (1.0 + _SPREAD * numbers.random()), cut) for cut in fitting)
        ]
    return (first, *_best_with(fitting, coil - first))


def _best_with(cuts: Sequence[int], room: int) -> list[int]:
    """The cuts that fill ``room`` best, of equal ones those that come first."""
    most = room // _GRID
    mask, reached = (1 << (most + 1)) - 1, [1]
    for cut in cuts:
        reached.append(reached[-1] | reached[-1] << -(-cut // _GRID) & mask)
    total, found = reached[-1].bit_length() - 1, []
    for place in range(len(cuts) - 1, -1, -1):
        if not reached[place] >> total & 1:
            found.append(cuts[place])
            total -= -(-cuts[place] // _GRID)
    return found
