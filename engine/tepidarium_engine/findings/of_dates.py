"""Curing, first heating and covering."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "too_cold_to_cure": Kind(
        VIOLATION,
        "It is too cold for the screed to cure.",
        "Heat the building by other means; through the floor use 15 to 20 °C supply at most, only "
        "against frost.",
        cause="The building is open or not heated in winter.",
        calculations=("curing-plan", "designs"),
    ),
    "heating_too_early": Kind(
        VIOLATION + WARNING,
        "The heating is planned before the screed may be heated, so it can crack.",
        "Wait: heat does not shorten the curing.",
        cause="The dates on the site are tight.",
        calculations=("curing-plan", "designs"),
    ),
    "heating_earlier_than_standard": Kind(
        VIOLATION,
        "Heating starts earlier than the standard allows, so the screed may crack.",
        "Do so only with the maker's written consent for this screed, never to dry it.",
        cause="The maker's sheet promises a quick screed.",
        calculations=("curing-plan", "designs"),
    ),
    "covering_too_early": Kind(
        WARNING,
        "The covering is planned before the screed can be dry, so it can lift or rot.",
        "Wait, and measure the moisture first.",
        cause="The dates on the site are tight.",
        calculations=("curing-plan", "designs"),
    ),
    "start_outside_standard": Kind(
        WARNING + NOTE,
        "The first heating does not start at the standard's 20 to 25 °C, so the screed may crack.",
        "Many mixing sets cannot go below 25 to 30 °C; never start higher.",
        cause="The mixing set was set by habit.",
        calculations=("curing-plan", "designs"),
    ),
    "shorter_than_standard": Kind(
        WARNING + NOTE,
        "The maker's periods are shorter than those of the standard, so this screed alone may be "
        "heated so early.",
        "Keep the maker's sheet with the records.",
        cause="The maker's sheet promises a quick screed.",
        calculations=("curing-plan", "designs"),
    ),
    "pour_in_cold_season": Kind(
        NOTE,
        "The pour is planned for the northern winter, and a screed that freezes is lost.",
        "Close the building and keep it at 5 °C or more.",
        cause="The pour date lies between November and March.",
        calculations=("curing-plan", "designs"),
    ),
    "rise_over_more_than_a_day": Kind(
        NOTE,
        "The water gets warmer in steps too high for one day.",
        "Raise it by about 0.5 K an hour, and count the hot days from when it is reached.",
        cause="The maker's rules or the rule set heat in large steps.",
        calculations=("curing-plan", "designs"),
    ),
    "covering_limits_surface": Kind(
        NOTE,
        "The covering bears less heat than the floor may give.",
        "Keep the surface to its limit, also at the first heating after laying.",
        cause="Wood, laminate or another covering that bears little heat.",
        calculations=("curing-plan", "designs"),
    ),
    "drying_decides": Kind(
        NOTE,
        "The covering waits for the screed to dry after curing, not for the heating.",
        "Measure the moisture before you cover it.",
        cause="A thick screed, or one that dries slowly.",
        calculations=("curing-plan", "designs"),
    ),
    "no_dates": Kind(
        NOTE,
        "There are no dates for curing and first heating.",
        "Give the screed and its pour date.",
        cause="The screed and its pour date are not given.",
        calculations=("designs",),
    ),
}
