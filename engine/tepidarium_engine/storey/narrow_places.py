"""Tails come closer together where their usual pitch leaves some without a way: decided before anything is drawn."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..errors import required
from .circuit_numbers import CircuitNumbers
from .model.tail_records import RoutedTails, UnroutedTail

__all__ = ["least_tail_pitch", "numbers_with_a_way"]

_LEAST_PITCH = 0.04
"""Closer than this no tails are laid: pipe of 16 mm can just be clipped so [m] (common practice, no source)."""
_BETWEEN = 0.25
"""Clear distance between tails at least, in outside diameters (common practice, no source)."""
_STEP = 0.005
"""By which they come closer where no width says by how much [m]."""
_FEW = 40
"""Circuits of a storey up to which a closer pitch is tried, too, where pairs lack room for their bends and not width:
it seldom helps, and the ways of many pairs take long."""
_TRIED = 4
"""Pitches that are tried for one storey, the usual one counted."""


def least_tail_pitch(diameter: float, insulation: float = 0.0) -> float:
    """Closest pitch [m] of tails of a pipe with an outside diameter [m] and so much ``insulation`` [m] between two."""
    return max(_LEAST_PITCH, (1.0 + _BETWEEN) * diameter + insulation)


def numbers_with_a_way(
    numbers: CircuitNumbers, *, last: bool
) -> tuple[CircuitNumbers, tuple[RoutedTails, ...]]:
    """The numbers of circuits and their tails by manifold, at the widest pitch at which all have a way: else at that
    at which most have one. ``last`` as for ``CircuitNumbers.routed``."""
    return _widest(numbers, last, all_or_none=True) or required(
        _widest(numbers, last, all_or_none=False), "tails laid at some pitch"
    )


def _widest(
    numbers: CircuitNumbers, last: bool, *, all_or_none: bool
) -> tuple[CircuitNumbers, tuple[RoutedTails, ...]] | None:
    """The same; with ``all_or_none`` ``None`` where at no pitch all have a way: that takes a quarter of the time."""
    best: tuple[CircuitNumbers, tuple[RoutedTails, ...]] | None = None
    narrow = numbers.narrow
    pitch, fewest = numbers.task.tail_pitch, math.inf
    for _ in range(_TRIED):
        tried = numbers.at_pitch(pitch)
        found = tried.routed(last, all_or_none=all_or_none)
        unrouted = [tail for tails in found for tail in tails.unrouted if tail.is_narrow]
        if len(unrouted) < (1 if all_or_none else fewest):
            best, fewest = (tried, found), len(unrouted)
            tried.narrow = narrow
        narrow = {(tail.named, tail.index): tail for tail in reversed(unrouted)} | narrow
        closer = _closer(pitch, unrouted)
        bends = any(tail.width_needed <= tail.width_there for tail in unrouted)
        if not unrouted or closer < numbers.task.least_tail_pitch or (bends and sum(tried.counts) > _FEW):
            break
        pitch = closer
    return best


def _closer(pitch: float, unrouted: Sequence[UnroutedTail]) -> float:
    """The next pitch to try [m], in whole millimetres: the widest at which all pairs pass each narrow place."""
    fitting = [pitch - (tail.width_needed - tail.width_there) / (2.0 * tail.pairs) for tail in unrouted]
    fitting = [each for each in fitting if _LEAST_PITCH <= each < pitch] or [pitch - _STEP]
    return math.floor(1000.0 * min(fitting) + 1e-6) / 1000.0
