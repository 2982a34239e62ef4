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


@pytest.mark.parametrize(("name", "request_body"), _requests())
def test_findings_of_an_answer(name: str, request_body: dict[str, Any]) -> None:
    found = answer(BY_NAME[name], json.dumps(request_body).encode(), "application/json")
    if isinstance(found, Answer):
        document = json.loads(found.content)
        assert finding_faults(document) == []
        assert wording_faults(document) == []
