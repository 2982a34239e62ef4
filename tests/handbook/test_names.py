"""Every public name of engine, client and service stands in the handbook."""

from __future__ import annotations

import ast
import inspect
import json
import pkgutil
import re
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path
from types import ModuleType

import pytest
import tepidarium_client
import tepidarium_engine
from tepidarium_api.calculations import CALCULATIONS, FILE_READINGS
from tepidarium_api.handbook.names import engine_modules
from tepidarium_api.handbook.writing import TEXT
from tepidarium_api.problems import PROBLEM_TYPES
from tepidarium_api.settings import PREFIX, Settings

TOP = Path(__file__).parents[2]
SCRIPTS = TOP / "clients" / "typescript" / "src"
METHODS = ("get", "post", "put", "patch", "delete")


def page(name: str) -> str:
    return (TEXT / f"{name}.md").read_text(encoding="utf-8")


def test_modules_of_the_engine_are_public_or_lie_in_a_folder() -> None:
    shown = {module.__name__.rpartition(".")[2] for module in engine_modules()}
    folders = {found.name for found in pkgutil.iter_modules(tepidarium_engine.__path__) if found.ispkg}
    assert {found.name for found in pkgutil.iter_modules(tepidarium_engine.__path__)} - folders <= shown
    assert "glossary" in shown


def defined(module: ModuleType) -> Iterator[str]:
    """Names that the module itself gives to something and that do not begin with an underscore."""
    for node in ast.parse(inspect.getsource(module)).body:
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            names = [node.name]
        else:
            targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
            names = [
                each.id
                for target in targets
                if target
                for each in ast.walk(target)
                if isinstance(each, ast.Name)
            ]
        yield from (name for name in names if not name.startswith("_"))


@pytest.mark.parametrize("module", list(engine_modules()), ids=lambda module: module.__name__)
def test_every_name_of_the_engine(module: ModuleType) -> None:
    name = module.__name__.rpartition(".")[2]
    (_, _, after) = page("reference/engine").partition(f"\n## {name}\n")
    part = after.partition("\n## ")[0]
    public = {*module.__all__, *defined(module)}
    assert [each for each in sorted(public) if f"| `{each}` |" not in part] == []


def test_every_name_of_the_client() -> None:
    text = page("reference/client")
    methods = [name for name in dir(tepidarium_client.Client) if not name.startswith("_")]
    modules = [
        found.name for found in pkgutil.iter_modules(tepidarium_client.__path__) if found.name[0] != "_"
    ]
    public = (*tepidarium_client.__all__, *methods, *modules)
    assert [name for name in public if f"| `{name}` |" not in text] == []
    assert {name for name in dir(tepidarium_client.AsyncClient) if not name.startswith("_")} >= set(
        methods
    ) - {"close"}


def test_every_name_of_the_typescript_client() -> None:
    text = page("reference/client").partition("## Names of the TypeScript client")[2]
    exported = re.findall(r"(\w+)\s*[,}]", (SCRIPTS / "index.ts").read_text("utf-8"))
    lines = [
        line
        for name in ("client", "calculations")
        for line in (SCRIPTS / f"{name}.ts").read_text("utf-8").splitlines()
    ]
    methods = [found[1] for line in lines if (found := re.match(r"  (?:async )?(\w+)\(", line))]
    assert {"Client", "dataOf"} <= set(exported) and {"designs", "ready"} <= set(methods)
    public = {*exported, *methods} - {"constructor"}
    assert [name for name in sorted(public) if f"| `{name}` |" not in text] == []


def test_every_path_and_problem_of_the_service() -> None:
    text = page("reference/service")
    for offered in (*CALCULATIONS, *FILE_READINGS):
        assert f"`POST {offered.path}`" in text
    paths = json.loads((TOP / "api" / "openapi.json").read_text("utf-8"))["paths"]
    operations = [
        f"`{method.upper()} {path}`" for path, item in paths.items() for method in item if method in METHODS
    ]
    assert [operation for operation in operations if operation not in text] == []
    assert [slug for slug in PROBLEM_TYPES if f"| `{slug}` |" not in text] == []


def test_every_setting() -> None:
    text = page("tutorials/operator")
    assert [item.name for item in fields(Settings) if f"`{PREFIX}{item.name.upper()}`" not in text] == []


def test_nothing_is_without_words() -> None:
    for name in ("engine", "client", "service"):
        empty = [line for line in page(f"reference/{name}").splitlines() if line.endswith("|  |")]
        assert empty == []
