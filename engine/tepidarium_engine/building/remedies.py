"""What would help a room whose floor cannot give its heat: each change computed by itself."""

from __future__ import annotations

from collections.abc import Iterator

from ..thermal.characteristic import GREATEST_COVERING, LEAST_SPACING
from .floors import OperatingPoint, RoomToHeat
from .outcome import Remedy

__all__ = ["remedies"]

_THIN_COVERING = 0.01
"""About 10 mm of ceramic tile [m2.K/W]."""
_CLOSE_SPACING = 0.075
_GREATEST_SUPPLY = 55.0
"""What cement and calcium sulphate screeds bear around the pipes [degC] (EN 1264-4, DIN 18560-2)."""
_WORTH_SAYING = 1.005


def remedies(
    heated: RoomToHeat, point: OperatingPoint, supply: float, temperature_drop: float
) -> tuple[Remedy, ...]:
    """Changes that make the floor give at least 0.5 % more, the most helpful first; another emitter last."""
    given = heated.given(point.heat_output)
    found = [
        remedy
        for remedy in _floor_changes(heated, point, supply, temperature_drop)
        if remedy.heat_given > given * _WORTH_SAYING
    ]
    found.sort(key=lambda remedy: -remedy.heat_given)
    demand = heated.heat_demand
    found.append(
        Remedy(
            "other_emitter",
            f"Let another heat emitter in the room give the missing {demand - given:.0f} W.",
            demand,
        )
    )
    return tuple(found)


def _floor_changes(
    heated: RoomToHeat, point: OperatingPoint, supply: float, temperature_drop: float
) -> Iterator[Remedy]:
    choice = point.choice
    covering = heated.build_up.covering_resistance
    demand = heated.required_heat_output
    if covering > _THIN_COVERING:
        lighter = heated.choice(choice.pipe_spacing, _THIN_COVERING)
        most = heated.most_heat_output(lighter, supply, temperature_drop)
        yield Remedy(
            "lighter_covering",
            f"A covering of {_THIN_COVERING:g} m2.K/W (tile) instead of {covering:g} m2.K/W.",
            heated.given(min(most, demand)),
        )
    closer = min(_CLOSE_SPACING, choice.pipe_spacing - 0.025)
    if closer >= LEAST_SPACING and covering <= GREATEST_COVERING:
        most = heated.most_heat_output(heated.choice(closer), supply, temperature_drop)
        yield Remedy(
            "closer_spacing",
            f"Pipes at {closer * 1000:.0f} mm instead of {choice.pipe_spacing * 1000:.0f} mm.",
            heated.given(min(most, demand)),
        )
    reachable = min(demand, choice.limit_heat_output)
    warmer = heated.required_supply(choice, reachable, temperature_drop)
    if supply < warmer <= _GREATEST_SUPPLY:
        yield Remedy(
            "warmer_supply",
            f"A supply of {warmer:.1f} °C instead of {supply:.1f} °C for the whole house.",
            heated.given(reachable),
        )
