"""Made by ``python -m tests.estimates calibrate``, not by hand."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["DRAWN", "FACTORS", "FLOOR_AREAS"]

DRAWN: Mapping[str, int] = MappingProxyType(
    dict.fromkeys(("rooms few", "rooms many", "count few", "count many", "area few", "area many"), 1)
)
FLOOR_AREAS = (10.0, 140.0)
FACTORS: Mapping[str, Mapping[str, tuple[float, float, float]]] = MappingProxyType(
    {name: MappingProxyType({}) for name in DRAWN}
)
