"""Clients that others generate from the document: common tools take it as it is, and what they make works.

The tools stand in the development requirements and in ``clients/typescript/package.json``. Every calculation's
example goes through the generated code to a service, and comes back as the service gave it. The types that
openapi-typescript makes are tried in ``tests/typescript``.
"""

from __future__ import annotations

import importlib
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import Any
from xml.etree import ElementTree

import httpx
import pytest
from tepidarium_api.calculations import CALCULATIONS, Calculation
from tepidarium_client import local_service

pytestmark = pytest.mark.long

TOP = Path(__file__).parents[2]
DOCUMENT = TOP / "api" / "openapi.json"
TYPESCRIPT = TOP / "clients" / "typescript"
BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}


def run(*command: str | Path, folder: Path = TYPESCRIPT) -> str:
    """What a tool prints; the test fails with it when the tool does."""
    quiet = {"REDOCLY_TELEMETRY": "off", "REDOCLY_SUPPRESS_UPDATE_NOTICE": "true", "NO_COLOR": "1"}
    # generators look for ruff on the path
    path = os.pathsep.join((str(Path(sys.executable).parent), os.environ["PATH"]))
    done = subprocess.run(
        [str(part) for part in command],
        cwd=folder,
        env={**os.environ, **quiet, "PATH": path},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


_BYTES = "application/octet-stream"
TREATED_AS = {
    "image/svg+xml": "text/plain",
    "application/pdf": _BYTES,
    "application/zip": _BYTES,
    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet": _BYTES,
    "image/vnd.dxf": _BYTES,
    "application/xml": _BYTES,
    "text/xml": _BYTES,
}
"""What openapi-python-client takes types for that it does not know."""


@pytest.fixture(scope="module")
def service() -> Iterator[str]:
    with local_service() as url:
        yield url


@pytest.fixture(scope="module")
def answers(service: str) -> dict[str, Any]:
    """The answer to every example, by calculation."""
    with httpx.Client(base_url=service, trust_env=False, timeout=120.0) as http:
        return {item.name: http.post(item.path, json=dict(item.example)).json() for item in CALCULATIONS}


def test_a_linter_finds_no_fault() -> None:
    found = json.loads(
        run("npm", "run", "--silent", "lint", "--", "--format=json").partition("{")[2].join("{ ")
    )
    assert found["totals"]["errors"] == found["totals"]["warnings"] == 0, found["problems"]


@pytest.fixture(scope="module")
def python_client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ModuleType]:
    """What openapi-python-client makes of the document."""
    folder = tmp_path_factory.mktemp("python")
    # SVG is text, but the generator does not know; without this line it leaves the drawings out of its answers
    (folder / "config.json").write_text(json.dumps({"content_type_overrides": TREATED_AS}))
    run(
        Path(sys.executable).with_name("openapi-python-client"),
        *("generate", "--path", DOCUMENT, "--config", "config.json"),
        *("--output-path", "made", "--meta", "none", "--fail-on-warning"),
        folder=folder,
    )
    sys.path.insert(0, str(folder))
    try:
        yield importlib.import_module("made")
    finally:
        sys.path.remove(str(folder))


def operation_of(name: str) -> Any:
    return importlib.import_module(f"made.api.calculations.{name.replace('-', '_').replace('/', '_')}")


def request_of(item: Calculation) -> Any:
    kind = item.inputs.__name__.removesuffix("Inputs") + "Request"
    return getattr(importlib.import_module("made.models"), kind).from_dict(
        json.loads(json.dumps(item.example))
    )


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_the_generated_python_client_answers_an_example(
    python_client: ModuleType, service: str, answers: dict[str, Any], name: str
) -> None:
    with python_client.Client(base_url=service, timeout=httpx.Timeout(120.0)) as client:
        result = operation_of(name).sync(client=client, body=request_of(BY_NAME[name]))
    assert type(result).__name__.endswith("Response")
    assert result.to_dict() == answers[name]


def test_every_module_of_the_generated_python_client_can_be_imported(python_client: ModuleType) -> None:
    folder = Path(python_client.__path__[0])
    modules = sorted(path.relative_to(folder.parent).with_suffix("") for path in folder.rglob("*.py"))
    assert len(modules) > 200
    for module in modules:
        importlib.import_module(".".join(module.parts).removesuffix(".__init__"))


def test_the_generated_python_client_draws(python_client: ModuleType, service: str) -> None:
    draw, room = operation_of("routes/drawing").sync, request_of(BY_NAME["routes"])
    with python_client.Client(base_url=service, timeout=httpx.Timeout(120.0)) as client:
        drawing = draw(client=client, body=room)
        room.pipe_spacing = 150.0
        refusal = draw(client=client, body=room)
    assert ElementTree.fromstring(drawing).tag == "{http://www.w3.org/2000/svg}svg"
    assert [fault.pointer for fault in refusal.errors] == ["/pipe_spacing"]
