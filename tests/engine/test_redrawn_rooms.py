"""The same room drawn by other people: no circuit more or less, and no length that anybody would notice."""

from __future__ import annotations

import math

import pytest

from tests.rooms.redrawn import differs, plain_room, redrawn, three_inches


def test_drawings_differ_by_what_they_say() -> None:
    room = plain_room(3)
    shaken = dict(redrawn(room.outline, 3))["shaken"]
    assert 0.0 < max(map(math.dist, room.outline, shaken)) <= 0.0004
    feet, millimetres = three_inches(room.outline)
    assert all(abs(x / 0.0762 - round(x / 0.0762)) < 1e-9 for corner in feet for x in corner)
    assert 0.0 < max(map(math.dist, feet, millimetres)) < 0.00071


@pytest.mark.parametrize("number", [0, 2, 3, 4, 5, 6, 7])
def test_the_same_circuits_however_the_room_is_drawn(number: int) -> None:
    assert not list(differs(number, quick=True))


@pytest.mark.long
def test_more_rooms() -> None:
    assert not [line for number in range(100, 122) for line in differs(number, quick=number % 3 > 0)]
