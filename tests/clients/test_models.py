"""The generated models against the service's document, and the report layouts against the models."""

from __future__ import annotations

import importlib.util
import json
import typing
from pathlib import Path
from typing import Any

import msgspec
import pytest
from tepidarium_client import Client, models
from tepidarium_client._cli._arguments import CALCULATIONS, parse
from tepidarium_client._cli._layouts import JOINED, LAYOUTS, NESTED
from tepidarium_client._cli._report import PREPARED
from tepidarium_client._operations import Operation, PlanImport

ROOT = Path(__file__).parents[2]
DOCUMENT = json.loads((ROOT / "api" / "openapi.json").read_text())
RESULTS = {
    name.removesuffix("Response"): getattr(models, name) for name in models.__all__ if "Response" in name
}


def generator() -> Any:
    spec = importlib.util.spec_from_file_location("made", ROOT / "clients" / "python" / "generate_models.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_models_agree_with_the_document() -> None:
    assert generator().main(["--check"]) == 0


def test_a_name_with_two_units_is_an_error() -> None:
    def schema(unit: str) -> dict[str, Any]:
        return {"properties": {"length": {"type": "number", "x-unit": unit}}}

    with pytest.raises(ValueError, match="length has two units"):
        generator().units({"One": schema("m"), "Two": schema("mm")})


def posts_of_json() -> dict[str, Any]:
    """The operations by their names, without those that read a file."""
    posts = {
        path.removeprefix("/v1/"): one["post"] for path, one in DOCUMENT["paths"].items() if "post" in one
    }
    return {name: one for name, one in posts.items() if "application/json" in one["requestBody"]["content"]}


def test_what_reads_a_file_has_its_method_and_an_example() -> None:
    posts = {path.removeprefix("/v1/") for path, one in DOCUMENT["paths"].items() if "post" in one}
    assert posts - set(posts_of_json()) == {PlanImport.name}
    operation = DOCUMENT["paths"][f"/v1/{PlanImport.name}"]["post"]
    assert hasattr(Client, operation["operationId"])
    assert (ROOT / "examples" / f"{PlanImport.name}.xml").exists()


def test_every_calculation_of_the_document_has_its_method() -> None:
    posts = posts_of_json()
    assert set(CALCULATIONS) == {name for name in posts if "/" not in name}
    for name, operation in posts.items():
        method = getattr(Client, operation["operationId"])
        assert isinstance(method, Operation)
        reference = operation["requestBody"]["content"]["application/json"]["schema"]["$ref"]
        assert method.request.__name__ == reference.rpartition("/")[2]
        assert (method.name, [method.accept]) == (name, list(operation["responses"]["200"]["content"]))


def test_one_name_for_path_operation_method_command_option_and_example() -> None:
    posts = posts_of_json()
    for name, operation in posts.items():
        calculation, _, form = name.partition("/")
        assert operation["operationId"] == name.replace("-", "_").replace("/", "_")
        assert (ROOT / "examples" / f"{calculation}.json").exists()
        options = parse([calculation, *([f"--{form}"] if form else []), "request.json"], {})
        assert not form or options.form in operation["responses"]["200"]["content"]
        assert form or hasattr(models, calculation.title().replace("-", "") + "Request")


def fields_of(kind: Any) -> dict[str, Any]:
    """The fields of the struct behind an annotation: itself, an arm of a union, or the members of a list."""
    if isinstance(kind, type) and issubclass(kind, msgspec.Struct):
        return typing.get_type_hints(kind)
    return next((found for part in typing.get_args(kind) if (found := fields_of(part))), {})


def follow(kind: Any, path: tuple[str, ...]) -> Any:
    for step in path:
        fields = fields_of(kind)
        assert step in fields, f"{step} of {path} is no field of {kind}"
        kind = fields[step]
    return kind


def response(command: str) -> Any:
    return RESULTS[command.title().replace("-", "")]


@pytest.mark.parametrize(("command", "field"), LAYOUTS, ids=str)
def test_every_column_is_a_field_of_the_answer(command: str, field: str) -> None:
    joined = JOINED.get(command, {}).get(field)
    columns = LAYOUTS[command, field]
    if joined is None:
        rows = follow(response(command), tuple(NESTED.get(command, {}).get(field, field).split(".")))
    else:
        outer = joined.outer.split(".")
        rows = follow(response(command), (*outer, *joined.inner.split(".")))
        follow(response(command), (*outer, joined.source))
        columns = tuple(column for column in columns if column.path != (joined.lead,))
    added = {"designs dates": {"supply"}}.get(f"{command} {field}", {"plot", "changed"})
    for column in columns:
        if (command, field) not in PREPARED or column.name not in added:
            follow(rows, column.path)
