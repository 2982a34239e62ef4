"""Drills that take seconds."""

from __future__ import annotations

from tests.drills.effort import efforts

LEAST_RATIO, MOST_RATIO = 0.35, 6.0
MUCH = 3.0
"""Efforts above so many yardsticks, half of what the event loop takes, are those that the estimate decides about."""


def test_the_estimate_of_light_work_follows_the_time_it_takes() -> None:
    """Of the yardstick: what is much is not called little, and what is little is not sent away as much."""
    for effort in efforts():
        ratio = effort.estimated / effort.measured
        assert ratio > LEAST_RATIO or max(effort[2:]) < MUCH, effort
        assert ratio < MOST_RATIO or effort.estimated < MUCH, effort
