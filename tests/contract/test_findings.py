"""The findings of every example and vector: pointers that resolve, one matter once, in order, in plain words."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS

from tests.findings.answered import finding_faults, wording_faults

TOP = Path(__file__).parents[2]
BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
FOR_DESIGNS = ("house", "two-storeys")


def _requests() -> list[Any]:
    requests = []
    for path in sorted((TOP / "examples").glob("*.json")):
        name = "designs" if path.stem in FOR_DESIGNS else path.stem
        requests.append(pytest.param(name, json.loads(path.read_text(encoding="utf-8")), id=path.stem))
    for path in sorted((TOP / "tests" / "vectors").glob("*.json")):
        vectors = json.loads(path.read_text(encoding="utf-8"))
        if vectors.get("calculation") in BY_NAME:
            requests += [
                pytest.param(vectors["calculation"], case["request"], id=f"{path.stem}: {case['name']}")
                for case in vectors["cases"]
            ]
    return requests


SOFT = {"thickness": 0.03, "thermal_conductivity": 0.035, "compressibility": 0.012}
SLAB = {"thickness": 0.2, "thermal_conductivity": 2.0}
CHECKED = {
    "below": "outside",
    "temperature_below": -20.0,
    "layers": [SOFT, SLAB],
    "screed": {"screed_cover": 0.03, "imposed_load": 3000.0},
}
ODD_DESIGNS: dict[str, tuple[dict[str, Any], set[str]]] = {
    "cold source": ({"source": {"maximum_supply_temperature": 30.0}}, {"supply_too_cold", "heat_missing"}),
    "little glycol": (
        {"fluid": {"kind": "propylene_glycol", "concentration": 0.15}, "frost_temperature": -10.0},
        {"freezes", "little_glycol"},
    ),
    "heavy load in the cold": (
        {"screed": {"imposed_load": 6000.0, "lowest_air_temperature": -5.0}},
        {"load_outside_table", "insulation_too_soft", "screed_too_thin", "too_cold_to_cure"},
    ),
    "poor floors": (
        {"build_ups": {0: {"covering_resistance": 0.3, "screed_cover": 0.02}, 1: {"resistance_below": 0.3}}},
        {"covering_too_insulating", "insulation_below_minimum", "screed_too_thin"},
    ),
    "checked build-up": (
        {"solve_sections": True, "build_ups": {0: {"insulation": CHECKED}}},
        {"insulation_below_requirement", "colder_than_table", "hardly_insulation", "insulation_too_soft"},
    ),
    "no position": ({"doorways": [], "manifold": {"position": None}}, {"tail_assumed"}),
    "no dates": ({"screed": None, "doorways": []}, {"no_dates"}),
    "short circuits": ({"limits": {"maximum_circuit_length": 30.0}}, {"below_meter_range"}),
    "joint within the floor": (
        {"rooms": {0: {"movement_joints": [[[2.0, 0.0], [2.0, 2.0]]]}}},
        {"crosses_movement_joint"},
    ),
}
"""Changes of the example of ``designs``, and findings that must come of them."""


def _changed(value: Any, change: Any) -> Any:
    if not isinstance(change, dict) or value is None:
        return change
    if isinstance(value, list):
        return [
            _changed(member, change[place]) if place in change else member
            for place, member in enumerate(value)
        ]
    return {**value, **{name: _changed(value.get(name), one) for name, one in change.items()}}


@pytest.mark.parametrize("case", ODD_DESIGNS)
def test_findings_of_an_odd_design(case: str) -> None:
    change, codes = ODD_DESIGNS[case]
    body = _changed(dict(BY_NAME["designs"].example), change)
    found = answer(BY_NAME["designs"], json.dumps(body).encode(), "application/json")
    assert isinstance(found, Answer), found
    document = json.loads(found.content)
    assert codes <= {finding["code"] for finding in document["findings"]}
    assert finding_faults(document) + wording_faults(document) == []
    nested = [plan["plan"] for plan in document["curing_plans"]] + [
        part
        for one in document["build_up_checks"]
        for part in (one["insulation"], one["section"])
        if part is not None
    ]
    assert all(part["findings"] == part["cautions"] == [] for part in nested)


@pytest.mark.parametrize(("name", "request_body"), _requests())
def test_findings_of_an_answer(name: str, request_body: dict[str, Any]) -> None:
    found = answer(BY_NAME[name], json.dumps(request_body).encode(), "application/json")
    if isinstance(found, Answer):
        document = json.loads(found.content)
        assert finding_faults(document) == []
        assert wording_faults(document) == []
