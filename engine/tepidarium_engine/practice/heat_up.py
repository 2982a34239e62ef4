"""The first heat-up: when it may start and the supply temperature of each of its days."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from ..elementwise import ROUND_OFF
from .screed import Binder

__all__ = [
    "END_TEMPERATURE",
    "HEATING_OFF_DAYS",
    "MATURITY_EARLIEST_DAYS",
    "STANDARD_START",
    "STEADY_RISE",
    "USUAL_START",
    "HeatUpRule",
    "MakerRules",
    "RuleSet",
    "heat_up_rule",
    "maturity_rule",
    "supply_programme",
]

RuleSet = Literal["standard", "cautious", "maker"]

STANDARD_START = (20.0, 25.0)
"""Supply temperature of the first days [degC], EN 1264-4."""

USUAL_START = (25.0, 30.0)
"""Lowest setting of a mixing set, used for the first 2 to 3 days [degC]; common practice, no source."""

END_TEMPERATURE = 20.0
"""Supply temperature at which a stepped cooling ends [degC]; common practice, no source."""

HEATING_OFF_DAYS = 4
"""Days without heating before the moisture is measured, BS 8203."""

STEADY_RISE = 12.0
"""Rise in a day [K] at the usual 0.5 K/h (texts of the drying trade)."""

MATURITY_EARLIEST_DAYS = MappingProxyType(
    {"cement": 28, "calcium_sulphate": 14, "calcium_sulphate_flowing": 14}
)
"""Days from the pour to the earliest maturity heating; interface guides of the German heating and screed
trades."""

_MATURITY_HOLD_DAYS = 14
_MATURITY_THICKNESS = 0.070
"""Up to this thickness [m] 14 days are allowed, and 3 days for cooling (the same guides)."""
_COOLING_DAYS = 3
_COOLING_STEP = 10.0
"""Greatest fall in a day [K], as protocols of makers of calcium sulphate screed have it."""


@dataclass(frozen=True, slots=True)
class MakerRules:
    """The values of the screed maker's own sheet.

    ``temperature_step`` None: straight from the start temperature to the highest. ``cooling_step`` None:
    heating goes off after the hold. Days count in full 24 hours.
    """

    earliest_heating_days: int
    start_days: int = 3
    temperature_step: float | None = None
    hold_days: int = 4
    cooling_step: float | None = None
    curing_days: int = 3


@dataclass(frozen=True, slots=True)
class HeatUpRule:
    """What a rule set says. ``hold_days_per_metre`` lengthens the hold with the thickness [d/m]."""

    earliest_heating_days: int
    curing_days: int
    start_days: int
    temperature_step: float | None
    hold_days: int
    cooling_step: float | None
    source: str
    hold_days_per_metre: float = 0.0

    def hold(self, thickness: float) -> int:
        """Days at the highest supply temperature for a screed thickness [m]."""
        return max(self.hold_days, math.ceil(thickness * self.hold_days_per_metre - ROUND_OFF))


_EN = "EN 1264-4, initial heating"
_CAUTIOUS = "common practice, no source: longer wait, 5 K a day, one day at the top for each centimetre"

_RULES = MappingProxyType(
    {
        ("standard", "cement"): HeatUpRule(21, 3, 3, None, 4, None, _EN),
        ("standard", "calcium_sulphate"): HeatUpRule(7, 3, 3, None, 4, None, _EN),
        ("standard", "calcium_sulphate_flowing"): HeatUpRule(7, 3, 3, None, 4, None, _EN),
        ("cautious", "cement"): HeatUpRule(28, 7, 3, 5.0, 4, 5.0, _CAUTIOUS, 100.0),
        ("cautious", "calcium_sulphate"): HeatUpRule(14, 7, 3, 5.0, 4, 5.0, _CAUTIOUS, 100.0),
        ("cautious", "calcium_sulphate_flowing"): HeatUpRule(14, 7, 3, 5.0, 4, 5.0, _CAUTIOUS, 100.0),
    }
)


def heat_up_rule(rule_set: RuleSet, binder: Binder, maker: MakerRules | None) -> HeatUpRule:
    """The rule that applies; ``maker`` is there if and only if the rule set is the maker's."""
    if maker is None:
        return _RULES[rule_set, binder]
    return HeatUpRule(
        maker.earliest_heating_days,
        maker.curing_days,
        maker.start_days,
        maker.temperature_step,
        maker.hold_days,
        maker.cooling_step,
        "the screed maker's sheet, values given by the caller",
    )


def maturity_rule(rule: HeatUpRule, binder: Binder, thickness: float, highest: float) -> HeatUpRule:
    """The second heating period: constant supply for 14 days up to 70 mm and a day more for each started
    centimetre beyond, then down by at most 10 K a day and over at least 3 days.

    14 days and the slow cooling come from the interface guides of the German heating and screed trades; the
    addition beyond 70 mm is common practice, no source.
    """
    beyond = math.ceil(max(0.0, thickness - _MATURITY_THICKNESS) * 100.0 - ROUND_OFF)
    fall = max(highest - END_TEMPERATURE, 1.0) / _COOLING_DAYS
    return HeatUpRule(
        MATURITY_EARLIEST_DAYS[binder],
        rule.curing_days,
        1,
        rule.temperature_step,
        _MATURITY_HOLD_DAYS + beyond,
        min(_COOLING_STEP, fall),
        "interface guides of the German heating and screed trades (heating to covering readiness)",
    )


def supply_programme(
    rule: HeatUpRule, start: float, highest: float, hold: int, start_days: int | None = None
) -> tuple[float, ...]:
    """Supply temperature [degC] of every day: start days, rise, hold at ``highest``, fall to 20 degC.

    With a step the rise takes ceil((highest - start)/step) days counted from the last start day, so that
    one start day, 20 to 45 degC at 5 K, 5 days of hold and 5 K down make 15 days. ``start_days`` replaces
    those of the rule; 0 where the floor is already at ``start``.
    """
    days_at_start = rule.start_days if start_days is None else start_days
    if start >= highest:
        temperatures = [highest] * (days_at_start + hold)
    else:
        temperatures = [start] * days_at_start
        step = highest - start if rule.temperature_step is None else rule.temperature_step
        rises = math.ceil((highest - start) / step - ROUND_OFF)
        temperatures += [start + step * rise for rise in range(1, rises)] + [highest] * hold
    if rule.cooling_step is not None:
        end = min(END_TEMPERATURE, start)
        falls = math.ceil((highest - end) / rule.cooling_step - ROUND_OFF)
        temperatures += [max(end, highest - rule.cooling_step * fall) for fall in range(1, falls + 1)]
    return tuple(temperatures)
