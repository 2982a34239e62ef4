"""Whole random storeys, validated by geometry that knows nothing of how they were laid."""

from __future__ import annotations

import pytest
from tepidarium_engine.storey.storey_layout import laid_storey

from tests.storeys.check import violations
from tests.storeys.random_storeys import random_storey

BY_LOT = 4
"""Random storeys here, a few, since each takes seconds; ``python -m tests.storeys 0 200`` lays more and counts."""
REASONS_BY_LOT = {"tails_doorway", "tails_room"}
"""Why a circuit of a random storey may stay out: doorways there are 0.8 m wide, and most rooms have one way in."""


@pytest.mark.parametrize("seed", range(BY_LOT))
def test_random_storeys(seed: int) -> None:
    task = random_storey(seed).task()
    layout = laid_storey(task)
    assert not list(violations(task, layout))
    assert {one.code for one in layout.unplaced} <= REASONS_BY_LOT
