"""Every published case through the engine, over HTTP and through the client: one set of cases, one meaning."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import msgspec
import pytest
from tepidarium_api.calculations import CALCULATIONS, Calculation
from tepidarium_client import Client, InvalidInput, local_service
from tepidarium_engine.errors import InputError

VECTORS = Path(__file__).parents[1] / "vectors"
BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}


def _cases() -> list[Any]:
    cases = []
    for path in sorted(VECTORS.glob("*.json")):
        vectors = json.loads(path.read_text(encoding="utf-8"))
        if vectors.get("calculation") in BY_NAME:
            for case in vectors["cases"]:
                cases.append(pytest.param(vectors["calculation"], case, id=f"{path.stem}: {case['name']}"))
    return cases


CASES = _cases()


@pytest.fixture(scope="module")
def service() -> Iterator[str]:
    with local_service() as url:
        yield url


@pytest.fixture(scope="module")
def client(service: str) -> Iterator[Client]:
    with Client(service) as opened:
        yield opened


@pytest.fixture(scope="module")
def http(service: str) -> Iterator[httpx.Client]:
    with httpx.Client(base_url=service, trust_env=False, timeout=30.0) as opened:
        yield opened


def _at(document: Any, pointer: str) -> Any:
    for step in pointer.split("/")[1:]:
        key = step.replace("~1", "/").replace("~0", "~")
        document = document[int(key)] if isinstance(document, list) else document[key]
    return document


def _inputs(calculation: Calculation, case: dict[str, Any]) -> Any:
    return msgspec.convert(case["request"], calculation.inputs, strict=True)


def _pointers(refusal: BaseException) -> list[str]:
    if isinstance(refusal, InputError):
        return [fault.pointer for fault in refusal.faults]
    return [str(refusal).split("`$")[-1].rstrip("`").replace(".", "/")]


def _compare(case: dict[str, Any], document: Any) -> None:
    for expected in case["expect"]:
        found = _at(document, expected["pointer"])
        if "tolerance" in expected:
            assert abs(found - expected["value"]) <= expected["tolerance"], (expected, found)
        else:
            assert found == expected["value"], (expected, found)


def test_every_calculation_has_published_cases() -> None:
    named = {
        json.loads(path.read_text())["calculation"]
        for path in VECTORS.glob("*.json")
        if "calculation" in json.loads(path.read_text())
    }
    assert set(BY_NAME) <= named


@pytest.mark.parametrize(("name", "case"), CASES)
def test_every_case_names_its_source(name: str, case: dict[str, Any]) -> None:
    assert case["source"].strip()
    assert ("expect" in case) != ("expect_problem" in case)


@pytest.mark.parametrize(("name", "case"), CASES)
def test_engine(name: str, case: dict[str, Any]) -> None:
    calculation = BY_NAME[name]
    if "expect_problem" in case:
        # A word or a date that the engine's types cannot even hold is refused before the engine is reached.
        with pytest.raises((InputError, msgspec.ValidationError)) as refusal:
            calculation.calculate(_inputs(calculation, case))
        assert case["expect_problem"]["pointer"] in _pointers(refusal.value)
    else:
        inputs = _inputs(calculation, case)
        _compare(case, msgspec.json.decode(msgspec.json.encode(calculation.calculate(inputs))))


@pytest.mark.parametrize(("name", "case"), CASES)
def test_http(http: httpx.Client, name: str, case: dict[str, Any]) -> None:
    answer = http.post(f"/v1/{name}", json=case["request"])
    if "expect_problem" in case:
        assert answer.status_code == 422
        assert answer.headers["content-type"] == "application/problem+json"
        assert case["expect_problem"]["pointer"] in [error["pointer"] for error in answer.json()["errors"]]
    else:
        assert answer.status_code == 200, answer.text
        _compare(case, answer.json())


@pytest.mark.parametrize(("name", "case"), CASES)
def test_client(client: Client, name: str, case: dict[str, Any]) -> None:
    method = getattr(client, name.replace("-", "_"))
    if "expect_problem" in case:
        with pytest.raises(InvalidInput) as refusal:
            method(case["request"])
        assert case["expect_problem"]["pointer"] in [error.pointer for error in refusal.value.errors]
    else:
        _compare(case, msgspec.json.decode(msgspec.json.encode(method(case["request"]))))
