"""What is selected from: the candidates of each room, and what couples them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from .coil_stock import CoilStock, Cuts

__all__ = ["Candidate", "Coils", "SelectionTask"]


class Candidate(NamedTuple):
    """What a choice of a room comes to, in whole numbers: its ``measures`` in the order in which they are weighed, the
    ``ports`` that it takes on a ``manifold``, its ``flow``, and what is ``cut`` from coils for it."""

    measures: tuple[int, ...]
    manifold: int
    ports: int
    flow: int
    cut: Cuts = Cuts(0, 0)


class Coils(NamedTuple):
    """The ``stock`` that circuits are cut from; what is bought adds to the measure at ``place``."""

    stock: CoilStock
    place: int


@dataclass(frozen=True)
class SelectionTask:
    """``rooms``: the candidates of each room, those before others preferred where they are equal. ``ports``: what each
    manifold has, None where it does not matter; ``flow``: the most in all; ``nodes``: of one programme. ``coils``: none
    are bought by the house without them."""

    rooms: tuple[tuple[Candidate, ...], ...]
    ports: tuple[int, ...] | None
    flow: int | None
    nodes: int
    coils: Coils | None = None

    @property
    def parted(self) -> bool:
        """Whether every room has one manifold only, so that manifolds do not depend on each other."""
        return all(len({one.manifold for one in room}) == 1 for room in self.rooms)

    def fits(self, taken: Sequence[int]) -> bool:
        """Whether ports and flow allow the candidates of these numbers."""
        chosen = [room[number] for room, number in zip(self.rooms, taken, strict=True)]
        if self.flow is not None and sum(one.flow for one in chosen) > self.flow:
            return False
        if self.ports is None:
            return True
        used = [0] * len(self.ports)
        for one in chosen:
            used[one.manifold] += one.ports
        return all(own <= most for own, most in zip(used, self.ports, strict=True))

    def measure(self, taken: Sequence[int], place: int) -> int:
        """What the candidates of these numbers come to in the measure at ``place``."""
        chosen = [room[number] for room, number in zip(self.rooms, taken, strict=True)]
        bought = 0
        if self.coils is not None and self.coils.place == place:
            bought = self.coils.stock.bought(one.cut for one in chosen).cost
        return bought + sum(one.measures[place] for one in chosen)
