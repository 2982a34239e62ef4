"""Sets of places for the manifolds of a house that were tried, and the best of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from .circuits import DividedRoom
from .drawn_house import Draughtsman

__all__ = ["TriedPlaces", "best_places"]


class TriedPlaces(NamedTuple):
    """Places of the manifolds of some storeys, by ``numbers``; ``left``: circuits that were not drawn from them, where
    they were drawn."""

    draughtsman: Draughtsman
    numbers: tuple[int, ...]
    divided: Sequence[DividedRoom]
    left: int | None = None

    def count(self, fewer_than: float) -> int:
        """Circuits that are not drawn, or have no way; not fully counted where they are not ``fewer_than`` so many."""
        if self.left is not None:
            return self.left
        found = 0
        for number in self.numbers:
            found += self.draughtsman.without_way(number, self.divided, fewer_than - found)
        return found


def best_places(tried: Sequence[TriedPlaces]) -> TriedPlaces:
    """The first ones from which all is drawn, else those from which most is. Circuits without a way are counted only
    then, and only as long as there are fewer of them than from the best places so far."""
    best, fewest = tried[0], 1.0 + min((one.left for one in tried if one.left is not None), default=math.inf)
    for one in sorted(tried, key=lambda one: one.left != 0):
        count = one.count(fewest)
        if count < fewest:
            best, fewest = one, count
        if not fewest:
            break
    return best
