"""Drafts that no pipe can follow: the repair ends after bounded work and names what it leaves.

That a polyline in a strip narrower than a bend cannot be followed is plain geometry: a turn back of radius R is
2 R wide.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
import shapely
from tepidarium_engine.plan.bends import bend_search
from tepidarium_engine.plan.bends.bend_space import BendSpace
from tepidarium_engine.plan.bends.bend_track import Cut, Track
from tepidarium_engine.plan.bends.bend_trial import Trial
from tepidarium_engine.plan.bends.bending import Bent, bent
from tepidarium_engine.plan.joining.entry import entry_at
from tepidarium_engine.plan.model.field import Draft, Field

SPACING = CLEARANCE = 0.1
RADIUS = 0.08
MOST_CURVES = 2500
"""In vain: 1000 in all, and 1500 at the place at which that is reached."""


class Counter:
    def __init__(self) -> None:
        self.curves = 0

    def __call__(self, track: Track, space: BendSpace, cuts: Sequence[Cut], most: int) -> Trial:
        trial = Trial(track, space, cuts, most)
        self.curves += len(trial.table)
        return trial


@pytest.fixture
def counter(monkeypatch: pytest.MonkeyPatch) -> Counter:
    counter = Counter()
    monkeypatch.setattr(bend_search, "Trial", counter)
    return counter


def zigzag(turns: int) -> Bent:
    """There and back ``turns`` times in a passage as wide as two clearances and half a bend."""
    room = shapely.box(0.0, 0.0, 2.0 * CLEARANCE + RADIUS / 2.0, 40.0)
    where = Field(room, SPACING, CLEARANCE, RADIUS, SPACING, entry_at(room, (0.1, 0.0), SPACING))
    left, right = CLEARANCE, CLEARANCE + RADIUS / 2.0
    corners = [
        (x, 0.5 + 0.06 * turn) for turn in range(turns) for x in ((left, right), (right, left))[turn % 2]
    ]
    return bent(Draft(np.array(corners), "rings", "by hand"), where)


def past_posts(posts: int) -> Bent:
    """Along a passage with posts, each of which leaves less than a clearance to either side of the pipe."""
    tall = 0.8 * (posts + 1)
    ways = [shapely.box(0.17, y - 0.01, 0.4, y + 0.01) for y in heights(posts)]
    room = shapely.box(0.0, 0.0, 0.3, tall).difference(shapely.union_all(ways))
    where = Field(room, SPACING, CLEARANCE, RADIUS, SPACING, entry_at(room, (0.15, 0.0), SPACING))
    jogs = [(0.11 + 0.002 * (index % 2), y) for index, y in enumerate(heights(posts))]
    return bent(Draft(np.array([(0.11, 0.0), *jogs, (0.11, tall - 0.2)]), "rings", "by hand"), where)


def heights(posts: int) -> list[float]:
    return [0.8 * (index + 1) for index in range(posts)]


def test_hopeless_zigzag_is_named() -> None:
    result = zigzag(30)
    assert result.unresolved
    assert all(corner.radius < RADIUS for corner in result.unresolved)


def test_work_is_bounded_however_many_places_are_hopeless(counter: Counter) -> None:
    past_posts(2)
    few = counter.curves
    past_posts(60)
    assert 0 < few < counter.curves - few <= MOST_CURVES < 20 * few


def test_corner_without_diagonal_makes_no_warning() -> None:
    """A draft that runs straight past the corner of a wall, nearer than allowed, with a point there."""
    room = shapely.box(0.0, 0.0, 4.0, 3.0).difference(shapely.box(1.9, 0.0, 2.1, 1.0))
    where = Field(room, SPACING, CLEARANCE, RADIUS, SPACING, entry_at(room, (0.5, 0.0), SPACING))
    corners = [(0.45, 0.0), (0.45, 1.05), (2.0, 1.05), (2.0 + 1e-5, 1.05), (3.5, 1.05), (3.5, 2.5)]
    with np.errstate(all="raise"):
        result = bent(Draft(np.array(corners), "rings", "by hand"), where)
    assert result.path.end == pytest.approx(corners[-1])
