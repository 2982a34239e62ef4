"""Every kind of finding: a table for each stage of the work, in the order in which to deal with them.

Heat that is missing changes spacings and water, hence everything after it; a valve's setting changes nothing else.
"""

from __future__ import annotations

from functools import cache

from . import (
    of_dates,
    of_files,
    of_former,
    of_frost,
    of_heat,
    of_layers,
    of_loads,
    of_options,
    of_orders,
    of_pipe,
    of_plans,
    of_screed,
    of_site_work,
    of_water,
)
from .kind import Kind, Severity

__all__ = ["COVERED_BY", "FINDINGS", "STAGES", "Kind", "Severity", "rank"]

STAGES: dict[str, dict[str, Kind]] = {
    "what the file says": of_files.KINDS,
    "what is known": of_loads.KINDS,
    "the former design": of_former.KINDS,
    "options": of_options.KINDS,
    "heat": of_heat.KINDS,
    "screed": of_screed.KINDS,
    "layers of the floor": of_layers.KINDS,
    "plan": of_plans.KINDS,
    "pipe": of_pipe.KINDS,
    "water": of_water.KINDS,
    "frost and expansion": of_frost.KINDS,
    "order": of_orders.KINDS,
    "site": of_site_work.KINDS,
    "dates": of_dates.KINDS,
}
"""Kinds by stage of the work, then by code."""
FINDINGS: dict[str, Kind] = {code: kind for kinds in STAGES.values() for code, kind in kinds.items()}
"""Kinds by code, in the order of the work."""

COVERED_BY: dict[str, tuple[str, ...]] = {
    "insulation_below_minimum": ("insulation_below_requirement",),
    "more_heat_than_needed": ("tails_give_too_much",),
    "screed_cover_thin": ("screed_too_thin",),
    "supply_above_limit": ("supply_above_screed_limit", "water_too_hot_for_screed"),
    "tails_heat": ("tails_give_too_much", "tails_too_warm"),
    "velocity_low": ("below_meter_range",),
    "water_too_hot_for_screed": ("supply_above_screed_limit",),
}
"""Codes that say the same of a place with other numbers: where one on the right holds, as severe, that on the left is
left out."""

_RANKS = {code: place for place, code in enumerate(FINDINGS)}


@cache
def rank(code: str) -> int:
    """Where a code stands in the order of the work."""
    return _RANKS[code]
