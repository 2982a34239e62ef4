"""What an order, its sheets and its pack cost grows no faster than the rooms: counted in calls, which are the same on
every machine, of the flats of ``tests/benchmarks/growth.py``, which measures the processor's time."""

from __future__ import annotations

import cProfile
import pstats
from collections.abc import Callable

import pytest
from tepidarium_engine.designs import calculate

from tests.benchmarks.growth import SEARCHED, flats, tasks


def calls(work: Callable[[], object]) -> int:
    work()  # what is remembered afterwards is no part of it
    profile = cProfile.Profile()
    profile.runcall(work)
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


TWICE = 2.3
"""Calls for twice the rooms, at most."""
NAMES = 2.5
"""On one sheet names of inner rooms lie further from their place the larger the plan is, and are sought further away:
a missed aim, and an eighth of what the pack takes."""


@pytest.mark.long
@pytest.mark.parametrize("one_sheet", [False, True])
def test_twice_the_rooms_take_twice_the_calls(one_sheet: bool) -> None:
    counted = []
    for count in (2, 4):
        inputs = flats(count, one_sheet=one_sheet)
        work = tasks(inputs, calculate(inputs))
        counted.append({name: calls(make) for name, make in work.items() if name not in SEARCHED})
    half, whole = counted
    for name in half:
        most = NAMES if one_sheet and name == "drawing (SVG)" else TWICE
        assert whole[name] <= most * half[name], name
