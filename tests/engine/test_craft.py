"""Measures of craft at both sides of each of their thresholds, counted by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely import Polygon, box
from tepidarium_engine.plan.judging.craft import Craft, craft_of, wall_directions
from tepidarium_engine.plan.pipes.turns import Turns

SQUARE = np.array([0.0, math.pi / 2.0])
"""Directions of the walls of a rectangle [rad]."""


def crafted(*degrees: float, first: float = 0.0, straight: float = 1.0) -> Craft:
    """Of a pipe that starts in the direction ``first`` [deg] and turns by each of ``degrees``, with bends of 80 mm and
    ``straight`` pipe [m] between them, on 5 m2 between square walls."""
    angle = np.radians(degrees)
    after = math.radians(first) + np.cumsum(angle)
    return craft_of(
        Turns(angle, after - angle, after, np.full(len(degrees), straight)),
        SQUARE,
        bend_radius=0.08,
        area=5.0,
    )


@pytest.mark.parametrize(
    ("degrees", "slight"),
    [(2.99, 0), (3.0, 0), (3.01, 1), (30.0, 1), (59.9, 1), (60.0, 0), (60.1, 0), (90.0, 0)],
)
def test_turns_between_3_and_60_degrees_are_slight(degrees: float, slight: int) -> None:
    """Away from every wall: the pipe starts at 10 degrees to one. Turning left and turning right are alike."""
    assert crafted(degrees, first=10.0).slight_turns == slight
    assert crafted(-degrees, first=80.0).slight_turns == slight


@pytest.mark.parametrize(("off", "slight"), [(0.0, 0), (3.97, 0), (4.03, 1)])
def test_a_wall_asks_for_a_turn_when_both_legs_run_along_walls(off: float, slight: int) -> None:
    """Walls at 0 and 30 degrees; legs within 4 degrees of a wall run along it, whichever way the pipe flows."""
    walls = np.radians([0.0, 30.0])
    for way in (0.0, 180.0):
        for legs in ((off, 30.0), (-off, 30.0), (0.0, 30.0 + off), (0.0, 30.0 - off)):
            before, after = (np.radians([way + leg]) for leg in legs)
            turns = Turns(after - before, before, after, np.ones(1))
            assert craft_of(turns, walls, bend_radius=0.08, area=5.0).slight_turns == slight


@pytest.mark.parametrize(("degrees", "opposite"), [(29.9, 0), (30.0, 1), (30.1, 1), (90.0, 1)])
def test_bends_of_opposite_hand_count_from_30_degrees_on(degrees: float, opposite: int) -> None:
    """The lesser of the two decides; bends of the same hand never count."""
    for pair in ((degrees, -90.0), (-90.0, degrees), (-degrees, 90.0)):
        assert crafted(*pair, straight=0.05).short_straights == opposite
    assert crafted(degrees, 90.0, straight=0.05).short_straights == 0


@pytest.mark.parametrize(("straight", "short"), [(0.159, 1), (0.16, 0), (0.161, 0)])
def test_straights_shorter_than_two_bend_radii_are_short(straight: float, short: int) -> None:
    """Two radii of 80 mm are 160 mm. Three bends that alternate have two straights between them."""
    assert crafted(90.0, -90.0, straight=straight).short_straights == short
    assert crafted(90.0, -90.0, 90.0, straight=straight).short_straights == 2 * short


def test_all_turning_is_told_in_right_angles_for_each_square_metre() -> None:
    """90 + 90 + 45 degrees are 2.5 right angles; on 5 m2 that is 0.5 for each."""
    assert crafted(90.0, -90.0, 45.0).right_angles == pytest.approx(0.5, abs=1e-12)


def test_walls_and_edges_of_voids_have_their_directions() -> None:
    """A rectangle with its corner cut at 45 degrees and a square void on its tip: 0, 45, 90 and 135 degrees."""
    room = Polygon([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (3.0, 4.0), (0.0, 4.0)])
    tip = Polygon([(1.0, 1.5), (1.5, 1.0), (2.0, 1.5), (1.5, 2.0)])
    assert wall_directions(box(0.0, 0.0, 4.0, 4.0)) == pytest.approx(SQUARE, abs=1e-12)
    assert wall_directions(room) == pytest.approx(np.radians([0.0, 90.0, 135.0]), abs=1e-12)
    assert np.unique(wall_directions(room.difference(tip)).round(9)) == pytest.approx(
        np.radians([0.0, 45.0, 90.0, 135.0]), abs=1e-8
    )
