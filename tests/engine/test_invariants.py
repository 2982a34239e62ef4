"""What the engine relies on is checked under ``python -O`` too."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
import tepidarium_engine
from tepidarium_engine.errors import InputError, InvariantError, required

SOURCES = sorted(Path(tepidarium_engine.__file__).parent.rglob("*.py"))


def test_no_check_of_the_engine_is_an_assert_statement() -> None:
    assert len(SOURCES) > 100
    stripped = [
        f"{path.name}:{node.lineno}"
        for path in SOURCES
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Assert)
    ]
    assert stripped == []


def test_a_value_that_is_there_goes_through() -> None:
    assert required(0.0, "a number") == 0.0
    assert required(False, "a flag") is False


def test_a_value_that_is_missing_is_a_mistake_of_the_engine_and_none_of_the_inputs() -> None:
    with pytest.raises(InvariantError, match="the length must be known here") as raised:
        required(None, "the length")
    assert not isinstance(raised.value, InputError)
