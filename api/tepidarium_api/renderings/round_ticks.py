"""Round numbers along the axes of plots."""

from __future__ import annotations

__all__ = ["round_ticks"]

_STEPS = tuple(
    factor * 10.0**power for power in range(6, -4, -1) for factor in (10.0, 5.0, 2.0) if factor * 10.0**power
)


def round_ticks(ends: tuple[float, float], fewest: int = 4) -> list[float]:
    """Round numbers between the ends of an axis, both included, as few as possible but so many."""
    found: list[float] = []
    for step in _STEPS:
        first = -int(-ends[0] // step)
        found = [round(step * number, 6) + 0.0 for number in range(first, int(ends[1] // step) + 1)]
        if len(found) >= fewest:
            break
    return found
