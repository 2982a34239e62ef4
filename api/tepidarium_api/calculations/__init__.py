"""The explicit registry of calculations."""

from __future__ import annotations

from ._base import Calculation

__all__ = ["CALCULATIONS", "Calculation"]

CALCULATIONS: tuple[Calculation, ...] = ()
