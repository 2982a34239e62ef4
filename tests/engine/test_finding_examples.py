"""A request for each kind of finding, which a calculation answers with that finding."""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import parse_qsl

import msgspec
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS, FILE_READINGS
from tepidarium_api.finding_examples import FindingExample, finding_examples
from tepidarium_api.problems import Problem
from tepidarium_api.reading import SentFile, file_answer
from tepidarium_engine.findings import FINDINGS

EXAMPLES = list({id(one): one for one in finding_examples().values()}.values())
BY_PATH = {offered.path: offered for offered in (*CALCULATIONS, *FILE_READINGS)}
READINGS = {reading.path: reading for reading in FILE_READINGS}


def answered(example: FindingExample) -> Answer | Problem:
    path, _, query = example.path.partition("?")
    if not isinstance(example.body, str):
        return answer(BY_PATH[path], json.dumps(example.body).encode(), "application/json")  # type: ignore[arg-type]
    reading = READINGS[path]
    options = msgspec.convert(dict(parse_qsl(query)), reading.options, strict=False)
    return file_answer(reading, SentFile(reading.formats[example.media_type], options, example.body.encode()))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda one: f"{one.path.partition('?')[0]} {one.codes[0]}")
def test_an_example_has_its_findings(example: FindingExample) -> None:
    name = BY_PATH[example.path.partition("?")[0]].name
    found = answered(example)
    assert isinstance(found, Answer), found
    told: dict[str, Any] = {finding["code"]: finding for finding in json.loads(found.content)["findings"]}
    assert set(example.codes) <= set(told)
    for code, finding in told.items():
        assert name in FINDINGS[code].calculations, code
        assert finding["severity"] in FINDINGS[code].severities, code
        assert finding["message"] == FINDINGS[code].message


def test_every_kind_has_an_example_or_guards_the_engines_own_work() -> None:
    guards = {code for code, kind in FINDINGS.items() if kind.guard}
    assert set(finding_examples()) | guards == set(FINDINGS)
    assert set(finding_examples()) & guards == set()
