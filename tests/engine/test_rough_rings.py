"""Rings by offsets against closed forms for rectangles and strips, and against the rings that pipe follows."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from shapely import Polygon
from tepidarium_engine.plan.counterflow.rings import LevelSets, level_sets
from tepidarium_engine.plan.counterflow.rough_rings import offset_rings, rough_level_sets
from tepidarium_engine.plan.outlines.pipe_zone import PipeZone, pipe_zone

from tests.rooms.random_rooms import random_room

SPACING, CLEARANCE = 0.2, 0.075
LEAST_WIDTH = 0.8 * SPACING


def length_of(sets: LevelSets) -> float:
    return math.fsum(part.length for level in sets.levels for part in level.parts)


def zone_of(room: Polygon) -> PipeZone:
    return pipe_zone(room, SPACING, CLEARANCE)


@pytest.mark.parametrize(("width", "depth"), [(5.0, 4.0), (3.27, 2.9), (8.0, 2.03), (0.4, 3.0)])
def test_rings_of_a_rectangle_are_as_long_as_arithmetic_says(width: float, depth: float) -> None:
    """Ring k of a rectangle W by D is 2 (W + D) - 8 (c + k s) long, as long as it is 0.8 spacings wide."""
    expected = []
    while (short := min(width, depth) - 2.0 * (CLEARANCE + len(expected) * SPACING)) >= LEAST_WIDTH:
        long = max(width, depth) - 2.0 * (CLEARANCE + len(expected) * SPACING)
        expected.append(2.0 * (short + long))
    sets = rough_level_sets(zone_of(shapely.box(0, 0, width, depth)), SPACING)
    found = [part.length for level in sets.levels for part in level.parts]
    assert found == pytest.approx(expected, rel=1e-3)


def test_a_narrow_place_gets_a_ring_between_rings_but_not_between_walls() -> None:
    """A strip of 0.7 spacings is widened where rings lie round it: a ring can give way, a wall cannot."""
    narrow = 0.7 * SPACING
    between = shapely.box(0, 0, 4.0, narrow + 2.0 * SPACING)
    first, second = offset_rings([between, between], np.array([0.0, SPACING]), SPACING)
    assert [part.area for part in first] == pytest.approx([between.area], rel=1e-4)
    assert [part.bounds[3] - part.bounds[1] for part in second] == pytest.approx([narrow], rel=1e-3)
    (none,) = offset_rings([shapely.box(0, 0, 4.0, narrow)], np.array([0.0]), SPACING)
    assert none == []


def test_a_void_is_passed_over_until_a_ring_comes_too_near_to_it() -> None:
    room = shapely.box(0, 0, 5, 4).difference(shapely.box(2.2, 1.6, 2.9, 2.3))
    zone = zone_of(room)
    sets = rough_level_sets(zone, SPACING)
    (void,) = zone.voids
    around = [level.index for level in sets.levels if any(part.contains(void) for part in level.parts)]
    beyond = [part for level in sets.levels[len(around) :] for part in level.parts]
    assert around == list(range(len(around))) and len(around) >= 4
    assert beyond and not any(part.intersection(void).area > 1e-4 * void.area for part in beyond)


def test_no_room_gives_no_rings() -> None:
    assert rough_level_sets(zone_of(shapely.box(0, 0, 0.1, 3.0)), SPACING).levels == ()


def test_lengths_are_near_to_those_of_the_rings_that_pipe_follows() -> None:
    """Rings that follow the rules of pipe are bridged and trimmed beside. Asked of the first look are 0.5 % in half of
    the rooms, and 4 % in nine of ten."""
    off = []
    for number in range(9000, 9060):
        case = random_room(number)
        zone = pipe_zone(case.room.polygon, case.pipe_spacing, case.wall_clearance)
        exact = length_of(level_sets(zone, case.pipe_spacing))
        off.append(abs(length_of(rough_level_sets(zone, case.pipe_spacing)) / exact - 1.0))
    assert np.percentile(off, 50) < 0.005
    assert np.percentile(off, 90) < 0.04
