"""Drills: those that take seconds in every run, the others in the long checks."""

from __future__ import annotations

import pytest

from tests.drills.effort import Effort, efforts
from tests.drills.scenes import LONG, QUICK

LEAST_RATIO, MOST_RATIO = 0.35, 6.0
MUCH = 3.0
"""Efforts above so many yardsticks, half of what the event loop takes, are those that the estimate decides about."""


def test_the_estimate_of_light_work_follows_the_time_it_takes() -> None:
    """Of the yardstick: what is much is not called little, and what is little is not sent away as much. What else the
    machine does makes one measurement wrong, hardly the same one three times."""
    wrong = [{(one.name, one.count) for one in efforts() if not _fits(one)} for _ in range(3)]
    assert set.intersection(*wrong) == set()


def _fits(effort: Effort) -> bool:
    ratio = effort.estimated / effort.measured
    long_enough = ratio > LEAST_RATIO or effort.measured < MUCH or effort.estimated > 2 * MUCH
    return long_enough and (ratio < MOST_RATIO or effort.estimated < MUCH)


@pytest.mark.parametrize("name", QUICK)
def test_a_quick_drill_keeps_its_bounds(name: str) -> None:
    """Times are those of a machine that may do other things: only what they must never be is asked for here."""
    for figure in QUICK[name]():
        assert figure.value <= (20 * figure.most if figure.unit in {"ms", "s"} else figure.most), (
            figure.line()
        )


@pytest.mark.long
@pytest.mark.parametrize("name", [name for name in LONG if name != "crowd"])
def test_a_long_drill_keeps_its_bounds(name: str) -> None:
    for figure in LONG[name]():
        assert figure.value <= (20 * figure.most if figure.unit in {"ms", "s"} else figure.most), (
            figure.line()
        )
