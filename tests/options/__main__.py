"""What options save beside the rule of designs, on random houses: ``python -m tests.options 0 300``.

For each house: the least pipe, the coldest supply and the least pump power of all options that are no worse than the
house by the rule in everything else; and what 1 K and 3 K more supply are worth in pipe.
"""

from __future__ import annotations

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


def _power(option: DesignOption) -> float:
    return option.pump.hydraulic_power


def _told(name: str, shares: Sequence[float], unit: str) -> None:
    ordered = sorted(shares)
    print(
        f"{name:<58} mean {statistics.fmean(shares):6.1f} {unit}, median {statistics.median(shares):6.1f}, "
        f"best tenth {ordered[-max(1, len(ordered) // 10)]:6.1f}"
    )


def main(first: int, last: int) -> None:
    saved: dict[str, list[float]] = {}
    started = time.process_time()
    proven = 0
    for seed in range(first, last):
        found = calculate(
            DesignOptionsInputs(house(seed, 2 + seed % 11, maximum_circuits=60), maximum_options=40)
        )
        rule = found.by_rule
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
        for name, share in (
            (
                "pipe on the same supply, with strips of 3 m [%]",
                1.0 - _best(with_strips, 0.0, _pipe) / rule.pipe_length,
            ),
            (
                "pipe on a supply 1 K warmer, with strips of 3 m [%]",
                1.0 - _best(with_strips, 1.0, _pipe) / rule.pipe_length,
            ),
            ("pipe on the same supply [%]", 1.0 - _best(found, 0.0, _pipe) / rule.pipe_length),
            ("pipe on a supply 1 K warmer [%]", 1.0 - _best(found, 1.0, _pipe) / rule.pipe_length),
            ("pipe on a supply 3 K warmer [%]", 1.0 - _best(found, 3.0, _pipe) / rule.pipe_length),
            ("pump power, same supply and 5 % more pipe [%]", _saved_power(found, 0.0)),
            ("pump power, 1 K warmer and no more pipe [%]", _saved_power(found, 1.0, pipe=1.0)),
        ):
            saved.setdefault(name, []).append(100.0 * share)
    for name, shares in saved.items():
        _told(name, shares, "")
    count = last - first
    print(
        f"{count} houses, all options proven in {proven}, {(time.process_time() - started) / count:.3f} s each"
    )


def _saved_power(found: DesignOptionsResult, warmer: float, *, pipe: float = 1.05) -> float:
    return 1.0 - _best(found, warmer, _power, pipe=pipe) / _power(found.by_rule)


main(int(sys.argv[1]), int(sys.argv[2]))
