"""The judge of storeys: hand-made pipes, each with one fault that is plain from its geometry."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from tepidarium_engine.plan.pipes.pipe_path import Arc, Line, PipePath
from tepidarium_engine.storey.judging.storey_judge import crowding, fault_of, least_apart

Point = tuple[float, float]
RADIUS, LEAST = 0.1, 0.12
"""Least bend radius and least distance between pipes [m]."""


def up_and_back(radius: float = RADIUS, *, off: Point = (0.0, 0.0)) -> PipePath:
    """Up along x = 0, half a turn to the right, and down; what comes after the turn is moved ``off``."""
    dx, dy = off
    turn = Arc((radius, 1.0), radius, math.pi, -math.pi)
    return PipePath.of(
        (Line((0.0, 0.0), (0.0, 1.0)), turn, Line((2.0 * radius + dx, 1.0 + dy), (2.0 * radius + dx, 0.0)))
    )


def straight(*points: Point) -> PipePath:
    return PipePath.of([Line(one, other) for one, other in pairwise(points)])


def rounded_loop(gap: float) -> PipePath:
    """To the right along y = 0, round to the left and back along y = 1, round and down again to ``gap`` [m] from the
    first straight."""
    return PipePath.of(
        (
            Line((0.0, 0.0), (2.0, 0.0)),
            Arc((2.0, 0.5), 0.5, -math.pi / 2.0, math.pi),
            Line((2.0, 1.0), (1.0, 1.0)),
            Arc((1.0, 0.9), 0.1, math.pi / 2.0, math.pi / 2.0),
            Line((0.9, 0.9), (0.9, gap)),
        )
    )


@pytest.mark.parametrize(
    ("path", "code", "place"),
    [
        (up_and_back(off=(0.0, 0.01)), "gap", (0.2, 1.0)),
        (
            PipePath.of((*up_and_back().pieces[:2], Line((0.2, 1.0), (0.3, 0.0)))),
            "kink",
            (0.2, 1.0),
        ),
        (up_and_back(0.09), "bend_radius", (0.09, 1.09)),
        (rounded_loop(-0.5), "crosses_itself", (0.9, 0.0)),
        (rounded_loop(0.11), "near_itself", (0.9, 0.055)),
    ],
)
def test_a_fault_is_told_with_its_place(path: PipePath, code: str, place: Point) -> None:
    fault = fault_of(path, RADIUS, LEAST)
    assert fault is not None and fault[0] == code
    assert math.dist(fault[1], place) < 0.06


@pytest.mark.parametrize("path", [up_and_back(), rounded_loop(0.125), straight((0.0, 0.0), (1.0, 0.0))])
def test_a_pipe_without_a_fault_passes(path: PipePath) -> None:
    assert fault_of(path, RADIUS, LEAST) is None


@pytest.mark.parametrize(("apart", "near"), [(0.0, True), (0.118, True), (0.1201, False), (0.5, False)])
def test_two_circuits_keep_their_distance(apart: float, near: bool) -> None:
    """Two straight pipes side by side; 0 m apart: one lies on the other."""
    one, other = (straight((0.0, y), (3.0, y)) for y in (0.0, apart))
    found = crowding([one, other], LEAST)
    assert [(each.first, each.second) for each in found] == ([(0, 1)] if near else [])
    assert all(each.distance == pytest.approx(apart, abs=1e-9) for each in found)


def test_two_circuits_that_cross_are_told_where() -> None:
    (found,) = crowding(
        [
            straight((0.0, 0.0), (2.0, 0.0)),
            straight((5.0, 5.0), (6.0, 5.0)),
            straight((1.0, -1.0), (1.0, 1.0)),
        ],
        LEAST,
    )
    assert (found.first, found.second, found.distance) == (0, 2, 0.0)
    assert found.place == pytest.approx((1.0, 0.0))


def test_the_least_distance_is_that_of_fields_or_of_tails() -> None:
    """0.6 spacings of 200 mm are 120 mm; tails at 50 mm may be 5 mm nearer than their pitch."""
    assert least_apart(0.2, 0.5) == pytest.approx(0.12)
    assert least_apart(0.2, 0.05) == pytest.approx(0.045)
