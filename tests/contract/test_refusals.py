"""Every refusal of the table is reported at the field that causes it, with its code."""

from __future__ import annotations

import json

import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS

from tests.problems.refusals import REFUSALS, Refusal

BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}


@pytest.mark.parametrize(
    "row", REFUSALS, ids=[f"{row.calculation} {row.pointer} {row.code}" for row in REFUSALS]
)
def test_what_is_refused_is_reported_at_its_field(row: Refusal) -> None:
    refused = answer(BY_NAME[row.calculation], json.dumps(row.request).encode(), "application/json")
    assert not isinstance(refused, Answer)
    assert refused.status == 422
    assert (row.pointer, row.code) in [(error.pointer, error.code) for error in refused.errors]
