"""Which supplies are looked at, and in which order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from .room_choices import RoomVariant

__all__ = ["asked_supplies", "coarse_first", "thinned"]

_MOST_SUPPLIES = 48
"""Supplies that are looked at for one drop; of more, some between the others are left out."""


def asked_supplies(variants: Iterable[Sequence[RoomVariant]], temperature_drop: float) -> set[float]:
    """At which a spacing of a room becomes possible [degC], for a drop of the source [K]."""
    return {
        one.heated.required_supply(
            choice, min(one.heated.required_heat_output, choice.limit_heat_output), temperature_drop
        )
        for room in variants
        for one in room
        for choice in one.heated.choices
    }


def thinned(supplies: list[float], kept: float) -> list[float]:
    """Not too many of them, evenly, with the first, the last and ``kept``."""
    if len(supplies) <= _MOST_SUPPLIES:
        return supplies
    step = (len(supplies) - 1) / (_MOST_SUPPLIES - 1)
    return sorted({kept, *(supplies[round(step * place)] for place in range(_MOST_SUPPLIES))}, reverse=True)


def coarse_first(supplies: Sequence[float]) -> list[float]:
    """The ends, the middle, the middles between them and so on."""
    order, step = [0, len(supplies) - 1], len(supplies)
    while step > 1:
        step = (step + 1) // 2
        order += range(step, len(supplies), step)
    return [supplies[place] for place in dict.fromkeys(order)]
