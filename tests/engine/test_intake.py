"""Corners on the grid of the room's own frame: against the units in which people measure, and plain geometry."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon
from tepidarium_engine.errors import FaultList
from tepidarium_engine.plan.outlines.intake import on_grid, room_on_grid
from tepidarium_engine.plan.outlines.polygons import room_outline
from tepidarium_engine.plan.outlines.room_frame import room_frame
from tepidarium_engine.plan.tolerances import GRID, LEAST_DISTANCE, stepped
from tepidarium_engine.storey.manifold.plan_input import check_overlaps, sent_rooms

from tests.rooms.random_rooms import random_room

INCH = 0.0254
"""[m], exact (international yard and pound agreement, 1959)."""


def test_steps_are_decimal_numbers() -> None:
    """Not products of them: 3 x 0.1 is not 0.3 in binary."""
    assert stepped(np.array([0.30000004, 1.23456, -0.00001, -2.5]), GRID).tolist() == [0.3, 1.2346, 0.0, -2.5]


@given(count=st.integers(-100_000, 100_000), blur=st.floats(-4e-9, 4e-9))
def test_parts_of_an_inch_do_not_hang_on_the_last_bit(count: int, blur: float) -> None:
    """A quarter of an inch is 6.35 mm: halfway between two steps of 0.1 mm, as are half of all its multiples. The like
    holds for tenths of a millimetre and for a 64th of an inch."""
    for unit in (INCH / 4.0, INCH / 64.0, 1e-4, 5e-5):
        there = stepped(np.array([count * unit, count * unit + blur]), GRID)
        assert there[0] == there[1]


@pytest.mark.parametrize("degrees", [0.0, 0.01, 17.3, 45.0, 89.99, 211.1])
@pytest.mark.parametrize("unit", [12.0 * INCH, INCH, INCH / 4.0, 0.0001, 0.00033], ids="{:g}".format)
def test_walls_square_to_each_other_are_so_exactly(unit: float, degrees: float) -> None:
    """An L with walls of whole units, turned: in its own frame each wall is level or upright to the last bit."""
    lots = [round(each / unit) * unit for each in (5.1234, 4.2, 2.9, 1.7)]
    width, depth, inner, step = lots
    ring = ((0.0, 0.0), (width, 0.0), (width, step), (inner, step), (inner, depth), (0.0, depth))
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    room = room_on_grid(tuple((c * x - s * y, s * x + c * y) for x, y in ring), ())
    corners = shapely.get_coordinates(room_frame(room.polygon).to_local(room.polygon).exterior)
    steps = np.diff(corners, axis=0)
    assert (np.count_nonzero(steps, axis=1) == 1).all()
    assert np.abs(corners / GRID - np.round(corners / GRID)).max() < 1e-6
    assert room.area == pytest.approx(Polygon(ring).area, rel=1e-4)


@pytest.mark.parametrize("seed", range(60))
def test_no_corner_moves_by_more_than_the_grid(seed: int) -> None:
    """Rings stay in order, sound, and what is on the grid stays where it is."""
    case = random_room(seed)
    lot = random.Random(seed)
    far = (lot.uniform(-50.0, 50.0), lot.uniform(-50.0, 50.0))
    rings = [tuple((x + far[0], y + far[1]) for x, y in ring) for ring in (case.outline, *case.voids)]
    found = on_grid(rings[0], rings[1:])
    for ring, there in zip(rings, found, strict=True):
        assert [math.dist(a, b) < 2.0 * GRID for a, b in zip(ring, there, strict=True)] == [True] * len(ring)
    again = on_grid(found[0], found[1:])
    for one, other in zip(found, again, strict=True):
        assert np.abs(np.array(one) - np.array(other)).max() < 1e-9
    assert room_outline(found[0], found[1:]).polygon.is_valid


def test_a_neck_of_the_least_width_stays_open() -> None:
    """A millimetre between two walls, turned by an odd angle: corners move by at most 0.07 mm a time."""
    neck = ((0, 0), (2, 0), (2, 1), (1 + LEAST_DISTANCE, 1), (1 + LEAST_DISTANCE, 2), (2, 2), (2, 3), (0, 3))
    ring = (*neck, (0, 2), (1, 2), (1, 1), (0, 1))
    c, s = math.cos(0.7), math.sin(0.7)
    room = room_on_grid(tuple((c * x - s * y, s * x + c * y) for x, y in ring), ())
    assert room.polygon.is_valid and shapely.minimum_clearance(room.polygon) > 0.8 * LEAST_DISTANCE


@pytest.mark.parametrize("degrees", [0.0, 0.5, 17.3, 61.8])
def test_rooms_that_share_a_long_wall_do_not_overlap(degrees: float) -> None:
    """Halls of 40 m side by side, without a wall between; the third really reaches 2 mm into the first."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

    def ring(low: float, high: float, askew: float = 0.0) -> tuple[tuple[float, float], ...]:
        corners = ((0.0, low), (40.00003, low), (40.00003, high + askew), (0.0, high))
        return tuple((c * x - s * y, s * x + c * y) for x, y in corners)

    faults, first = FaultList(), ring(0.0, 7.00007, 0.31)
    check_overlaps(sent_rooms("ab", ["/a", "/b"], [(first, ()), (ring(-5.00003, 0.0), ())]), faults)
    assert not faults.faults
    check_overlaps(sent_rooms("ac", ["/a", "/c"], [(first, ()), (ring(-5.00003, 0.002), ())]), faults)
    assert [fault.code for fault in faults.faults] == ["rooms_overlap"]
