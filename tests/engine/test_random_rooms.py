"""A thousand random rooms, always the same ones: none may bring the engine down or get a pipe that cannot be
laid.

In quick mode, which leaves out the spacing fit, as the full one would take too long here;
``python -m tests.rooms long`` is the full run, of 20,000 rooms.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import get_args

import pytest
from tepidarium_engine.plan.laying.laying import Pattern

from tests.rooms.figures import report
from tests.rooms.outcome import Outcome, outcomes
from tests.rooms.random_rooms import random_room, random_rooms

NUMBERS: dict[Pattern, range] = {"counterflow": range(650), "serpentine": range(650, 1000)}
MOST_REFUSED = 0.005

pytestmark = pytest.mark.long

Found = Sequence[Outcome]


@pytest.fixture(scope="module", params=get_args(Pattern))
def found(request: pytest.FixtureRequest) -> Found:
    rooms = list(outcomes(map(random_room, NUMBERS[request.param]), request.param, quick=True))
    print(*report(rooms, request.param), sep="\n")
    return rooms


def test_the_same_number_is_the_same_room() -> None:
    assert [random_room(seed) for seed in range(40)] == list(random_rooms(40))
    assert len({random_room(seed).outline for seed in range(40)}) == 40


def test_rooms_differ_as_rooms_do() -> None:
    rooms = list(random_rooms(sum(map(len, NUMBERS.values()))))
    assert len(rooms) == 1000
    assert min(Counter(room.kind for room in rooms).values()) >= 150
    assert set(Counter(len(room.voids) for room in rooms)) == {0, 1, 2, 3}
    assert sum(room.in_target_class for room in rooms) >= 500
    assert {room.pipe_spacing for room in rooms} == {0.1, 0.125, 0.15, 0.2, 0.25, 0.3}


def test_nothing_raised(found: Found) -> None:
    assert not [(one.case.name, one.detail) for one in found if one.status == "raised"]


def test_nothing_invalid(found: Found) -> None:
    assert not [(one.case.name, one.detail) for one in found if one.status == "invalid"]


def test_few_refused(found: Found) -> None:
    refused = [(one.case.name, one.detail) for one in found if one.status == "refused"]
    assert len(refused) < MOST_REFUSED * len(found), refused
    assert all(detail != "without a reason" for _, detail in refused)
