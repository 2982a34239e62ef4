"""What options save beside the rule of designs, on random houses: ``python -m tests.options 0 300``.

For each house: the least pipe and the coldest supply of all options that lack no more heat than the house by the rule,
with strips, too; what 1 K and 3 K more supply are worth in pipe; and the least pump power for a little more of either.
"""

from __future__ import annotations

import math
import statistics
import sys
import time
from collections.abc import Callable, Sequence

from tepidarium_engine.design_options import (
    DesignOption,
    DesignOptionsInputs,
    DesignOptionsResult,
    StripOption,
    calculate,
)
from tepidarium_engine.designs import PeripheralStrip

from .houses import house

_HEAT, _SUPPLY = 1.0, 1e-6
_STRIP = 3.0
"""Length of the strip that each room may have [m], 1 m wide at 100 mm."""


def _best(
    found: DesignOptionsResult, warmer: float, value: Callable[[DesignOption], float], *, pipe: float = 1.0
) -> float:
    """The least value of the options that lack no more heat than the rule, on a supply at most so much warmer."""
    rule = found.by_rule
    return min(
        value(option)
        for option in (*found.options, rule)
        if option.heat_missing <= rule.heat_missing + _HEAT
        and option.supply_temperature <= rule.supply_temperature + warmer + _SUPPLY
        and option.pipe_length <= pipe * rule.pipe_length
    )


def _pipe(option: DesignOption) -> float:
    return option.pipe_length


def _supply(option: DesignOption) -> float:
    return option.supply_temperature


def _power(option: DesignOption) -> float:
    return option.pump.hydraulic_power


def _told(name: str, shares: Sequence[float]) -> None:
    ordered = sorted(shares)
    print(
        f"{name:<58} mean {statistics.fmean(shares):6.2f}, median {statistics.median(shares):6.2f}, "
        f"best tenth {ordered[-max(1, len(ordered) // 10)]:6.2f}"
    )


def main(first: int, last: int) -> None:
    saved: dict[str, list[float]] = {}
    started = time.process_time()
    proven = 0
    for seed in range(first, last):
        found = calculate(
            DesignOptionsInputs(house(seed, 2 + seed % 11, maximum_circuits=60), maximum_options=40)
        )
        proven += all(option.proven for option in found.options)
        strips = tuple(
            StripOption(room.id, PeripheralStrip(0.1, length=_STRIP))
            for room in house(seed, 2 + seed % 11).rooms
            if room.use != "bathroom"
        )
        with_strips = calculate(
            DesignOptionsInputs(
                house(seed, 2 + seed % 11, maximum_circuits=60), maximum_options=40, strips=strips
            )
        )
        for name, value in {**_saved(found, ""), **_saved(with_strips, ", with strips of 3 m")}.items():
            saved.setdefault(name, []).append(value)
    for name, shares in saved.items():
        _told(name, shares)
    count = last - first
    print(
        f"{count} houses, all options proven in {proven}, {(time.process_time() - started) / count:.3f} s each"
    )


def _saved(found: DesignOptionsResult, how: str) -> dict[str, float]:
    """What the options save beside the rule, in per cent or kelvin."""
    rule = found.by_rule
    pipe = {
        f"pipe on {supply}{how} [%]": 100.0 * (1.0 - _best(found, warmer, _pipe) / rule.pipe_length)
        for supply, warmer in (
            ("the same supply", 0.0),
            ("a supply 1 K warmer", 1.0),
            ("one 3 K warmer", 3.0),
        )
    }
    supply = {
        f"supply for {words}{how} [K]": rule.supply_temperature - _best(found, 0.0, _supply, pipe=most)
        for words, most in (("no more pipe", 1.0), ("any pipe", math.inf))
    }
    if how:
        return {**pipe, **supply}
    power = {
        f"pump power, {words} [%]": 100.0 * (1.0 - _best(found, warmer, _power, pipe=most) / _power(rule))
        for words, warmer, most in (("5 % more pipe", 0.0, 1.05), ("1 K warmer, no more pipe", 1.0, 1.0))
    }
    return {**pipe, **supply, **power}


main(int(sys.argv[1]), int(sys.argv[2]))
