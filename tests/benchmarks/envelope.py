"""A heat loss of nine rooms by their outlines against the mere check of these outlines."""

from __future__ import annotations

from collections.abc import Iterator

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
from tepidarium_engine.plan.outlines.polygons import room_outline

from .ratio import Ratio, medians

__all__ = ["ratios"]

SIDE = 4.0
AROUND = ((0, -1), (1, 0), (0, 1), (-1, 0))
"""The neighbour beyond each edge."""


def ratios() -> Iterator[Ratio]:
    inputs = _nine_rooms()
    outlines = [room.outline for room in inputs.rooms if room.outline is not None]
    losses, checks = medians(300, lambda: calculate(inputs), lambda: [room_outline(one) for one in outlines])
    print(f"{'heat loss of nine rooms':<44} {losses * 1000:8.2f} ms (should be under 2)")
    yield Ratio("heat loss of nine rooms / their outlines", losses / checks, 6.0, False)


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
