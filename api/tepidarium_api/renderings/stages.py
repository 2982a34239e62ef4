"""The stages of a screed as people call them, and temperatures that a person can set."""

from __future__ import annotations

__all__ = ["STAGE_TITLES", "settable"]

STAGE_TITLES = {
    "pour": "Pour the screed",
    "curing": "Screed curing: protect it",
    "waiting": "Screed hardening: heating off",
    "first_heat_up": "First heat-up",
    "maturity_heating": "Maturity heating",
    "drying": "Screed drying",
    "heating_off": "Heating off before the moisture test",
    "moisture_test": "Moisture test",
    "covering": "Earliest day for the covering",
}


def settable(temperature: float) -> int:
    """The supply temperature in whole degrees; never above what was asked for, which may be a limit."""
    return int(temperature + 1e-6)
