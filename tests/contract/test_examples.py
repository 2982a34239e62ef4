"""Every file of the examples is computed; the README's lines of Python run as they stand."""

from __future__ import annotations

import json
import re
from itertools import product
from pathlib import Path

import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_client import local_service

TOP = Path(__file__).parents[2]
EXAMPLES = TOP / "examples"
BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
OTHERS = {"house": "designs", "two-storeys": "designs"}
"""Examples beyond the one of each calculation, and the calculation they are for."""


def test_every_example_belongs_to_a_calculation_and_every_calculation_has_one() -> None:
    assert {path.stem for path in EXAMPLES.glob("*.json")} == set(BY_NAME) | set(OTHERS)


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_file_and_registry_agree(name: str) -> None:
    assert json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8")) == BY_NAME[name].example


@pytest.mark.parametrize(
    ("stem", "workings"),
    [*product(sorted(BY_NAME), (False, True)), *((stem, True) for stem in sorted(OTHERS))],
)
def test_examples_compute_to_the_same_bytes_twice(stem: str, workings: bool) -> None:
    body = json.loads((EXAMPLES / f"{stem}.json").read_text(encoding="utf-8"))
    calculation = BY_NAME[OTHERS.get(stem, stem)]
    sent = json.dumps({**body, "workings": workings}).encode()
    first, second = (
        answer(calculation, sent, "application/json"),
        answer(calculation, sent, "application/json"),
    )
    assert isinstance(first, Answer), first
    assert first == second
    document = json.loads(first.content)
    assert {"inputs", "findings", "cautions", "engine_version"} <= set(document)
    assert document["cautions"]
    chain = document.get("workings")
    assert bool(chain) == workings
    for step in chain or ():
        assert step["symbol"]
        assert step["unit"]
        assert step["formula"]
        assert step["source"]


def test_the_readmes_python_runs(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    (code,) = re.findall(r"```python\n(.*?)```", (TOP / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert len([line for line in code.splitlines() if line.strip()]) <= 10
    monkeypatch.chdir(TOP)
    with local_service() as url:
        exec(compile(code.replace("http://127.0.0.1:8000", url), "README.md", "exec"), {})
    printed = capsys.readouterr().out
    assert "kg/h" in printed
    assert "supply" in printed
