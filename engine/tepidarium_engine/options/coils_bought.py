"""The coils that a house is cut from, as they are answered."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from ..ordering.coil_records import CoilOrder
from .coil_stock import CoilStock, Cuts
from .option_records import OptionCoils

__all__ = ["coils_of"]

_MILLIMETRES, _HUNDREDTHS = 1000.0, 100.0


def coils_of(stock: CoilStock, cuts: Iterable[Cuts]) -> OptionCoils:
    """What is bought for the cuts."""
    bought = stock.bought(cuts)
    return OptionCoils(
        tuple(CoilOrder(length / _MILLIMETRES, count) for length, count in Counter(bought.lengths).items()),
        sum(bought.lengths) / _MILLIMETRES,
        bought.cost / _HUNDREDTHS,
    )
