"""The explicit registry of calculations."""

from __future__ import annotations

from ._base import Calculation
from .curing_plan import CURING_PLAN
from .designs import DESIGNS
from .loop_length import LOOP_LENGTH

__all__ = ["CALCULATIONS", "Calculation"]

CALCULATIONS: tuple[Calculation, ...] = (CURING_PLAN, LOOP_LENGTH, DESIGNS)
