"""A request for each kind of finding, which a calculation answers with that finding."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_engine.findings import FINDINGS
from tepidarium_engine.findings.undrawn import NOT_DRAWN, ROUTE_FAULTS

EXAMPLES: list[dict[str, Any]] = [
    json.loads(line)
    for line in (Path(__file__).parents[1] / "findings" / "examples.ndjson").read_text("utf-8").splitlines()
]
"""Each with ``calculation``, ``request`` and the ``codes`` that it is here for."""
WITHOUT = {
    "former_not_kept",
    "former_of_another_house",
    "former_version_differs",
    "objective_met_by_rule",
    "supply_kept",
    "room_size_unlikely",
    "room_left_out",
    "storey_in_parts",
    "floor_area_unlike_file",
    "u_value_unlike_layers",
    "floor_insulation_low",
    "edge_insulation_not_counted",
    "option_not_proven",
    "supplies_left_out",
    "options_by_area",
    "tails_give_too_much",
    "design_not_settled",
    "crosses_movement_joint",
    "manifold_added",
    "tail_without_way",
    "doorway_narrower",
    "not_divided",
    "several_manifolds",
    "position_found",
    "manifold_without_rooms",
    "entry_moved",
    "sleeves_due",
    "strip_not_closer",
    "two_circuits_better",
    "unequal_circuits",
    "closer_spacing_kept",
}
"""Kinds that have no example: their requests take files, many rooms or a hard plan."""
BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda one: f"{one['calculation']} {one['codes'][0]}")
def test_an_example_has_its_findings(example: dict[str, Any]) -> None:
    name = example["calculation"]
    found = answer(BY_NAME[name], json.dumps(example["request"]).encode(), "application/json")
    assert isinstance(found, Answer), found
    told = {finding["code"]: finding for finding in json.loads(found.content)["findings"]}
    assert set(example["codes"]) <= set(told)
    for code, finding in told.items():
        assert name in FINDINGS[code].calculations, code
        assert finding["severity"] in FINDINGS[code].severities, code
        assert finding["message"] == FINDINGS[code].message


def test_every_other_kind_has_an_example() -> None:
    shown = {code for example in EXAMPLES for code in example["codes"]}
    plain = {code for code, kind in FINDINGS.items() if not kind.guard} - {*NOT_DRAWN, *ROUTE_FAULTS}
    assert plain - shown == WITHOUT
