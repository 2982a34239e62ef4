"""What is to be cut from which coils, in whole millimetres, and what a cutting plan is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

__all__ = ["CoilKind", "CutCoil", "CuttingPlan", "CuttingTask", "level_of"]

_USUAL_CUTS = 60


class CoilKind(NamedTuple):
    """Coils of one length [mm]; so many are ``available``, None where they are bought."""

    length: int
    available: int | None = None

    @property
    def bought(self) -> int:
        """Length that one of them adds to what is bought [mm]."""
        return self.length if self.available is None else 0


class CutCoil(NamedTuple):
    """A coil and the lengths cut from it [mm]."""

    kind: CoilKind
    cuts: tuple[int, ...]


@dataclass(frozen=True)
class CuttingTask:
    """``cuts`` [mm], each no longer than the longest coil; ``kinds`` differ from each other."""

    cuts: tuple[int, ...]
    kinds: tuple[CoilKind, ...]

    @classmethod
    def of(cls, cuts: Iterable[int], bought: Iterable[int], at_hand: Iterable[int] = ()) -> CuttingTask:
        """Coils of equal length are one kind; the order of what is given does not count. Of more coils at hand than
        cuts the shortest are left out: whatever is cut from one of them can be cut from a longer one."""
        cuts = list(cuts)
        stock = Counter(sorted(at_hand, reverse=True)[: len(cuts)])
        kinds = [CoilKind(length, stock[length]) for length in sorted(stock, reverse=True)]
        kinds += [CoilKind(length) for length in sorted(set(bought), reverse=True)]
        return cls(tuple(sorted(cuts, reverse=True)), tuple(kinds))

    @cached_property
    def total(self) -> int:
        return sum(self.cuts)

    @cached_property
    def sizes(self) -> tuple[int, ...]:
        """Different cuts, longest first."""
        return tuple(sorted(set(self.cuts), reverse=True))

    @cached_property
    def demands(self) -> tuple[int, ...]:
        """How many of each of ``sizes``."""
        counted = Counter(self.cuts)
        return tuple(counted[size] for size in self.sizes)

    @property
    def effort(self) -> float:
        """Share of the steps that a task of usual size may take: each of them takes longer in a larger one."""
        return min(1.0, _USUAL_CUTS / max(1, len(self.cuts)))

    @cached_property
    def bought_lengths(self) -> tuple[int, ...]:
        return tuple(kind.length for kind in self.kinds if kind.available is None)

    @cached_property
    def at_hand(self) -> tuple[int, ...]:
        """Lengths at hand into which something fits, longest first."""
        least = self.cuts[-1] if self.cuts else 0
        return tuple(
            kind.length
            for kind in self.kinds
            if kind.available and kind.length >= least
            for _ in range(kind.available)
        )


@dataclass(frozen=True)
class CuttingPlan:
    """``least_bought`` [mm] and ``least_coils`` are proven: no plan buys less, none that buys as little as this one
    opens fewer coils."""

    coils: tuple[CutCoil, ...]
    least_bought: int
    least_coils: int

    @property
    def bought(self) -> int:
        return sum(coil.kind.bought for coil in self.coils)

    @property
    def proven(self) -> bool:
        return (self.bought, len(self.coils)) == (self.least_bought, self.least_coils)


def level_of(coils: Sequence[CutCoil]) -> tuple[int, int]:
    """What is compared: length bought [mm], then number of coils."""
    return sum(coil.kind.bought for coil in coils), len(coils)
