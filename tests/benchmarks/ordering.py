"""Coil plans of sixty circuits, and what order, commissioning and sheets add to the design of a house.

The coil plan is set against one knapsack over all circuits by plain dynamic programming, which any exact method does
many times over; the house against its own design without them.
"""

from __future__ import annotations

import json
import random
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import msgspec
from tepidarium_engine.coil_plan import CircuitToCut, CoilPlanInputs, calculate
from tepidarium_engine.designs import DesignsInputs
from tepidarium_engine.designs import calculate as design

from .ratio import Ratio, medians

__all__ = ["ratios"]

SALES = {
    "all lengths": (50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0),
    "120 and 240 m": (120.0, 240.0),
    "100 and 200 m": (100.0, 200.0),
    "100, 120 and 200 m": (100.0, 120.0, 200.0),
    "feet": (91.44, 152.4, 304.8),
}
SEEDS = 10
HOUSE = Path(__file__).parents[2] / "examples" / "house.json"


def ratios() -> Iterator[Ratio]:
    for name, coils in SALES.items():
        spent, proven = [], 0
        for seed in range(SEEDS):
            asked = sixty(seed, coils)
            started = time.perf_counter()
            proven += calculate(asked).proven
            spent.append(time.perf_counter() - started)
        label = f"60 circuits, {name}"
        print(
            f"{label:<44} {sorted(spent)[SEEDS // 2]:8.3f} s, {max(spent):.3f} s at most, {proven} of {SEEDS} proven"
        )
    own, knapsack = medians(
        5, lambda: calculate(sixty(0, SALES["all lengths"])), lambda: one_knapsack(sixty(0, (600.0,)))
    )
    yield Ratio("coil plan / plain knapsack of one coil", own / knapsack, 1.0, False)
    house = msgspec.convert(json.loads(HOUSE.read_text()), DesignsInputs, strict=True)
    bare = replace(house, ordering=None, commissioning=None, laying_sheets=False)
    with_all, without = medians(3, lambda: design(house), lambda: design(bare))
    yield Ratio("house with order and sheets / without", with_all / without, 1.25, False)


def sixty(seed: int, coils: tuple[float, ...]) -> CoilPlanInputs:
    numbers = random.Random(seed)
    circuits = [numbers.randint(45_000, 110_000) / 1000.0 for _ in range(60)]
    longest = max(coils) - 1.0
    return CoilPlanInputs(
        tuple(CircuitToCut(str(number), min(length, longest)) for number, length in enumerate(circuits)),
        coils,
    )


def one_knapsack(asked: CoilPlanInputs) -> int:
    """The longest that can be cut from the longest coil, in centimetres, by a table in plain Python."""
    capacity = round(max(asked.coil_lengths) * 100)
    best = [0] * (capacity + 1)
    for circuit in asked.circuits:
        size = round(circuit.length * 100)
        for room in range(capacity, size - 1, -1):
            best[room] = max(best[room], best[room - size] + size)
    return best[capacity]
