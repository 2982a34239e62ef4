"""The coils that a house is cut from: as they are asked for, and as they are answered."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable

from ..building.objective_records import OptionPrices
from ..building.option_records import OptionCoils
from ..ordering.coil_records import CUTTING_ALLOWANCE, CoilOrder
from .coil_stock import CoilKindPriced, CoilStock, Cuts

__all__ = ["coils_of", "cuts_for", "stock_of"]

_MILLIMETRES, _HUNDREDTHS = 1000.0, 100.0
_ROUNDING = 1e-6
"""Of a cut [mm]."""


def stock_of(prices: OptionPrices | None) -> CoilStock | None:
    """The coils with prices, if there are any."""
    coils = () if prices is None else prices.coils
    kinds = sorted(
        CoilKindPriced(round(_MILLIMETRES * coil.length), round(_HUNDREDTHS * coil.coil_price))
        for coil in coils
    )
    return CoilStock(tuple(kinds)) if kinds else None


def cuts_for(length: float, circuits: int) -> Cuts:
    """What is cut for so many circuits, each of a ``length`` [m]."""
    return Cuts(math.ceil(_MILLIMETRES * (length + 2.0 * CUTTING_ALLOWANCE) - _ROUNDING), circuits)


def coils_of(stock: CoilStock, cuts: Iterable[Cuts]) -> OptionCoils:
    """What is bought for the cuts."""
    bought = stock.bought(cuts)
    return OptionCoils(
        tuple(CoilOrder(length / _MILLIMETRES, count) for length, count in Counter(bought.lengths).items()),
        sum(bought.lengths) / _MILLIMETRES,
        bought.cost / _HUNDREDTHS,
    )
