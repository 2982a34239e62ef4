"""Every refusal of the tables is reported at the field that causes it, with its code; no code is without a row."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_engine import routes
from tepidarium_engine.refusals import REFUSALS as KINDS

from tests.problems import refusals, refusals_of_fields, refusals_of_places
from tests.problems.refusals import Refusal

BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
ROWS = (*refusals.REFUSALS, *refusals_of_fields.REFUSALS, *refusals_of_places.REFUSALS)
ELSEWHERE = {
    "coordinate": "engine/test_polygons.py",
    "geometry": "engine/test_route_check.py",
    "impossible": "engine/test_heat_output.py",
    "not_drawn": "api/test_storey_drawing.py",
    "range": "engine/test_heat_output.py",
    "shape": "engine/test_heat_output.py",
    "too_dense": "engine/test_route_check.py",
    "unknown_layer": "engine/test_plan_imports_dxf.py",
    "unreadable_file": "engine/test_plan_imports.py",
}
"""Codes that only files, drawings and callers of the engine meet, and the tests that assert them."""


@pytest.fixture(autouse=True)
def _without_remedies(monkeypatch: pytest.MonkeyPatch) -> None:
    """What would help a refused room takes long to find, and has tests of its own."""
    monkeypatch.setattr(routes, "with_remedy", lambda error, *_: error)


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.calculation} {row.pointer} {row.code}" for row in ROWS])
def test_what_is_refused_is_reported_at_its_field(row: Refusal) -> None:
    refused = answer(BY_NAME[row.calculation], json.dumps(row.request).encode(), "application/json")
    assert not isinstance(refused, Answer)
    assert refused.status == 422
    assert (row.pointer, row.code) in [(error.pointer, error.code) for error in refused.errors]
    assert all(error.detail.count("(") == error.detail.count(")") for error in refused.errors)


def test_every_code_has_a_row_or_guards_the_engines_own_work() -> None:
    rows, guards = {row.code for row in ROWS}, {code for code, kind in KINDS.items() if kind.guard}
    assert rows | set(ELSEWHERE) | guards == set(KINDS)
    assert not rows & set(ELSEWHERE) and not rows & guards
    for code, file in ELSEWHERE.items():
        assert f'"{code}"' in (Path(__file__).parents[1] / file).read_text("utf-8")
