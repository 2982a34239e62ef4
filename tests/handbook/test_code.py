"""The code of the handbook runs as it stands, and the files that it names are there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tepidarium_api.handbook.writing import TEXT
from tepidarium_client import local_service

TOP = Path(__file__).parents[2]
CODE = [
    pytest.param(code, id=f"{path.stem} {place}")
    for path in sorted(TEXT.rglob("*.md"))
    for place, code in enumerate(
        re.findall(r"^```python\n(.*?)^```", path.read_text(encoding="utf-8"), re.M | re.S)
    )
]
NAMED = sorted(
    {
        (path.stem, name)
        for path in TEXT.rglob("*.md")
        for name in re.findall(
            r"\b(?:examples|deploy|api|tests|clients)/[\w./-]*\w", path.read_text(encoding="utf-8")
        )
    }
)


@pytest.fixture(scope="module")
def service() -> Iterator[str]:
    with local_service() as url:
        yield url


@pytest.mark.parametrize("code", CODE)
def test_code_runs(code: str, service: str, monkeypatch: pytest.MonkeyPatch, capsys: Any) -> None:
    monkeypatch.chdir(TOP)
    exec(compile(code.replace("http://127.0.0.1:8000", service), "handbook", "exec"), {})
    assert capsys.readouterr().out.strip()


def test_there_is_code_for_every_way() -> None:
    assert len(CODE) >= 4


@pytest.mark.parametrize(("page", "name"), NAMED)
def test_files_that_are_named_are_there(page: str, name: str) -> None:
    assert (TOP / name).exists()
