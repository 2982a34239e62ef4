"""Valves by their flow coefficient kv: m3/h of water that pass at a drop of 1 bar."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from ..elementwise import ROUND_OFF
from .inputs import ValveSetting

__all__ = ["kv_for_drop", "kv_in_series", "resistance", "setting_for_kv"]

_BAR = 1e5
_SECONDS_PER_HOUR = 3600.0


def resistance(kv: float, relative_density: float = 1.0) -> float:
    """Pressure drop over squared volume flow [Pa.s2/m6] of a valve with ``kv`` [m3/h].

    ``relative_density`` is that of the fluid against water (IEC 60534-2-1). For water it is taken as 1 at any
    temperature, as valve charts do; at 35 degC that is 0.6 % on the drop.
    """
    return _BAR * relative_density * (_SECONDS_PER_HOUR / kv) ** 2


def kv_for_drop(volume_flow: float, pressure_drop: float, relative_density: float = 1.0) -> float:
    """The kv [m3/h] at which ``volume_flow`` [m3/s] takes ``pressure_drop`` [Pa]; inverse of
    ``resistance``."""
    return volume_flow * _SECONDS_PER_HOUR * math.sqrt(relative_density * _BAR / pressure_drop)


def kv_in_series(*kvs: float) -> float:
    """The kv [m3/h] of valves one behind the other: 1/kv2 is the sum of their 1/kv2."""
    return 1.0 / math.sqrt(math.fsum(1.0 / (kv * kv) for kv in kvs))


def setting_for_kv(table: Sequence[ValveSetting], kv: float) -> float | None:
    """Setting at which a valve has ``kv`` [m3/h], linear in ln kv between the lines of its table.

    ``table`` rises in both columns. ``None`` outside of it, apart from rounding.
    """
    if not table[0].kv * (1.0 - ROUND_OFF) <= kv <= table[-1].kv * (1.0 + ROUND_OFF):
        return None
    for low, high in pairwise(table):
        if kv <= high.kv:
            share = math.log(max(kv, low.kv) / low.kv) / math.log(high.kv / low.kv)
            return low.setting + share * (high.setting - low.setting)
    return table[-1].setting
