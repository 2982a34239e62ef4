"""No storey of hard rooms makes the service fail (``python -m tests.fuzz storeys`` tries more of them)."""

from __future__ import annotations

import pytest

from tests.fuzz.campaign import Campaign

pytestmark = pytest.mark.long

COUNT, EACH = 150, 50


@pytest.mark.parametrize("first", range(0, COUNT, EACH))
def test_storeys_of_hard_rooms_are_answered_or_refused(first: int) -> None:
    campaign = Campaign("storeys", tell=print)
    campaign.run(range(first, first + EACH))
    assert campaign.faults == {}
    assert campaign.answered >= EACH / 2, campaign.codes
