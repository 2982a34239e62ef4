"""Many small random storeys, validated by geometry that knows nothing of how they were laid."""

from __future__ import annotations

import pytest
from tepidarium_engine.storey.storey_layout import laid_storey

from tests.storeys.check import violations
from tests.storeys.small_storeys import small_storey

BY_LOT = 196
"""With the larger ones of ``test_random_storeys`` 200."""
REASONS = {"tails_doorway", "tails_room"}
"""Why a circuit may stay out: some doorways take one pair of pipes, and the tails of two manifolds cannot cross."""


@pytest.mark.parametrize("seed", range(BY_LOT))
def test_small_random_storeys(seed: int) -> None:
    task = small_storey(seed).task()
    layout = laid_storey(task)
    assert not list(violations(task, layout))
    assert {one.code for one in layout.unplaced} <= REASONS
