"""Areas laid over each other where the geometry library gives up, and queues of what has no order."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
import tepidarium_engine
from hypothesis import given
from hypothesis import strategies as st
from shapely import MultiPolygon, Polygon, box
from shapely.errors import GEOSException
from tepidarium_engine.plan.outlines.overlays import difference, intersection, placed, sound, union
from tepidarium_engine.queues import Queue

SQUARE = box(0.0, 0.0, 1.0, 1.0)
BOW = Polygon([(0, 0), (2, 2), (2, 0), (0, 2)])
"""Two triangles of 1 m2 each, drawn in one go; the library can make nothing of the whole."""
TWICE = MultiPolygon([box(0, 0, 2, 1), box(1, 0, 3, 1)])
"""Parts that overlap: no valid area, of 3 m2."""


@pytest.mark.parametrize(("area", "size"), [(BOW, 2.0), (TWICE, 3.0), (SQUARE, 1.0)])
def test_what_is_no_valid_area_is_made_one(area: Any, size: float) -> None:
    made = sound(area)
    assert made.is_valid and made.area == pytest.approx(size)
    assert [one.is_valid for one in sound(np.array([area, SQUARE]))] == [True, True]


def test_lines_are_left_alone() -> None:
    line = shapely.LineString([(0, 0), (1, 1), (0, 1), (1, 0)])
    assert sound(line) is line


@pytest.mark.parametrize("area", [BOW, TWICE])
def test_an_overlay_that_fails_is_computed_once_more(monkeypatch: pytest.MonkeyPatch, area: Any) -> None:
    plain, failed = shapely.difference, []

    def refuse(*operands: Any, **options: Any) -> Any:
        if "grid_size" not in options:
            failed.append(operands)
            raise GEOSException("side location conflict")
        return plain(*operands, **options)

    monkeypatch.setattr(shapely, "difference", refuse)
    left = difference(area, box(0.5, -1.0, 4.0, 4.0))
    assert failed and left.is_valid
    assert left.area == pytest.approx(sound(area).area - sound(area).intersection(box(0.5, -1, 4, 4)).area)


def test_all_of_many() -> None:
    assert union([]).is_empty
    assert union(box(x, 0.0, x + 1.0, 1.0) for x in (0.0, 0.5, 1.0)).area == pytest.approx(2.0)
    assert intersection(np.array([SQUARE, SQUARE]), box(0.5, 0.0, 2.0, 2.0))[1].area == pytest.approx(0.5)


def test_an_area_that_rounding_makes_touch_itself_stays_one() -> None:
    """A dumb-bell with a neck of 0.1 um, put on a grid of 1 um: the neck is gone, the larger weight is left."""
    ring = [
        (0, 0),
        (2, 0),
        (2, 2e-7),
        (2.5, 2e-7),
        (2.5, 0),
        (3, 0),
        (3, 1),
        (2.5, 1),
        (2.5, 3e-7),
        (2, 3e-7),
    ]
    weight = Polygon([*ring, (2, 1), (0, 1)])
    assert weight.is_valid
    there = placed(weight, lambda points: np.round(points, 6))
    assert isinstance(there, Polygon) and there.is_valid and there.area == pytest.approx(2.0, abs=1e-5)


def test_no_overlay_is_computed_elsewhere() -> None:
    """What the library gives up on is caught in one place, so nothing may go past it."""
    root = Path(tepidarium_engine.__file__).parent
    past = re.compile(
        r"shapely\.(?:intersection|difference|symmetric_difference|union|union_all|unary_union|intersection_all)\("
        r"(?!.*grid_size)"
    )
    found = [
        f"{file.relative_to(root)}: {line.strip()}"
        for file in sorted(root.rglob("*.py"))
        for line in file.read_text().splitlines()
        if past.search(line) and file.name != "overlays.py"
    ]
    assert found == []


@given(st.lists(st.tuples(st.integers(0, 3), st.floats(0.0, 1.0))))
def test_equals_leave_a_queue_as_they_came(orders: list[tuple[int, float]]) -> None:
    """``object`` has no order, so that comparing two would raise."""
    queue: Queue[tuple[tuple[int, float], int, object]] = Queue()
    for number, order in enumerate(orders):
        queue.push(order, (order, number, object()))
    assert len(queue) == len(orders)
    left = [queue.pop()[:2] for _ in orders]
    assert all(before <= after for before, after in pairwise(left))
