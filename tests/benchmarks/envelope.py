"""A heat loss of nine rooms by their outlines against a plain sum, whose time says how fast the machine is."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Iterator

from tepidarium_engine.heat_loss import (
    Construction,
    HeatLossInputs,
    HeatLossRoom,
    Layer,
    Opening,
    Slab,
    Wall,
    calculate,
)

from .ratio import Ratio

__all__ = ["ratios"]

SIDE = 4.0
AROUND = ((0, -1), (1, 0), (0, 1), (-1, 0))
"""The neighbour beyond each edge."""


PLAIN_SUM = 0.00045
"""Seconds that the sum takes on a quiet core of the kind that the aim of 2 ms is meant for."""


def ratios() -> Iterator[Ratio]:
    inputs = _nine_rooms()
    losses, sums = _fastest(300, lambda: calculate(inputs), lambda: sum(n * n for n in range(10_000)))
    print(f"{'heat loss of nine rooms, fastest of 300':<44} {losses * 1000:8.2f} ms")
    yield Ratio(
        "heat loss of nine rooms on a quiet core [ms]", losses / sums * PLAIN_SUM * 1000.0, 2.0, False
    )


def _fastest(rounds: int, *works: Callable[[], object]) -> list[float]:
    """Seconds of each work, taken in turns: the least, which a neighbour's load disturbs least."""
    times = [math.inf for _ in works]
    for _ in range(rounds):
        for number, work in enumerate(works):
            started = time.process_time()
            work()
            times[number] = min(times[number], time.process_time() - started)
    return times


def _nine_rooms() -> HeatLossInputs:
    layers = (Layer(0.015, 0.7), Layer(0.175, 0.5), Layer(0.16, 0.035), Layer(0.01, 0.8))
    joists = Layer(0.24, 0.035, bridge_share=0.1, bridge_conductivity=0.13)
    return HeatLossInputs(
        external_temperature=-12.0,
        annual_mean_temperature=9.0,
        constructions=(
            Construction("outer", layers=layers),
            Construction("inner", layers=(Layer(0.115, 0.5),)),
            Construction("slab", layers=(Layer(0.12, 0.032), Layer(0.2, 2.3))),
            Construction("roof", layers=(Layer(0.0125, 0.25), joists)),
        ),
        rooms=tuple(_room(column, row) for row in range(3) for column in range(3)),
    )


def _room(column: int, row: int) -> HeatLossRoom:
    x, y = column * SIDE, row * SIDE
    return HeatLossRoom(
        id=f"{column} {row}",
        outline=((x, y), (x + SIDE, y), (x + SIDE, y + SIDE), (x, y + SIDE)),
        walls=tuple(_wall(edge, column + right, row + up) for edge, (right, up) in enumerate(AROUND)),
        floors=(Slab(construction="slab", beyond="ground"),),
        ceilings=(Slab(construction="roof"),),
    )


def _wall(edge: int, column: int, row: int) -> Wall:
    """Towards the room in this place of the three by three, or towards outside."""
    if 0 <= column < 3 and 0 <= row < 3:
        given = "inner" if edge in (1, 2) else None
        return Wall(edge=edge, construction=given, beyond="room", neighbour=f"{column} {row}")
    return Wall(edge=edge, construction="outer", openings=(Opening(0.9, width=1.2, height=1.4),))
