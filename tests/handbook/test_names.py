"""Every public name of engine, client and service stands in the handbook."""

from __future__ import annotations

import pkgutil
from dataclasses import fields

import pytest
import tepidarium_client
import tepidarium_engine
from tepidarium_api.calculations import CALCULATIONS, FILE_READINGS
from tepidarium_api.handbook.names import engine_modules
from tepidarium_api.handbook.writing import TEXT
from tepidarium_api.problems import PROBLEM_TYPES
from tepidarium_api.settings import PREFIX, Settings


def page(name: str) -> str:
    return (TEXT / f"{name}.md").read_text(encoding="utf-8")


def test_modules_of_the_engine_are_public_or_lie_in_a_folder() -> None:
    shown = {module.__name__.rpartition(".")[2] for module in engine_modules()}
    folders = {found.name for found in pkgutil.iter_modules(tepidarium_engine.__path__) if found.ispkg}
    assert {found.name for found in pkgutil.iter_modules(tepidarium_engine.__path__)} - folders <= shown
    assert "glossary" in shown


@pytest.mark.parametrize("module", list(engine_modules()), ids=lambda module: module.__name__)
def test_every_name_of_the_engine(module: object) -> None:
    name = module.__name__.rpartition(".")[2]  # type: ignore[attr-defined]
    (_, _, after) = page("reference/engine").partition(f"\n## {name}\n")
    part = after.partition("\n## ")[0]
    public = module.__all__  # type: ignore[attr-defined]
    assert [each for each in public if f"| `{each}` |" not in part] == []


def test_every_name_of_the_client() -> None:
    text = page("reference/client")
    methods = [name for name in dir(tepidarium_client.Client) if not name.startswith("_")]
    assert [name for name in (*tepidarium_client.__all__, *methods) if f"| `{name}` |" not in text] == []
    assert {name for name in dir(tepidarium_client.AsyncClient) if not name.startswith("_")} >= set(
        methods
    ) - {"close"}


def test_every_path_and_problem_of_the_service() -> None:
    text = page("reference/service")
    for offered in (*CALCULATIONS, *FILE_READINGS):
        assert f"`POST {offered.path}`" in text
    assert [slug for slug in PROBLEM_TYPES if f"| `{slug}` |" not in text] == []


def test_every_setting() -> None:
    text = page("tutorials/operator")
    assert [item.name for item in fields(Settings) if f"`{PREFIX}{item.name.upper()}`" not in text] == []


def test_nothing_is_without_words() -> None:
    for name in ("engine", "client", "service"):
        empty = [line for line in page(f"reference/{name}").splitlines() if line.endswith("|  |")]
        assert empty == []
