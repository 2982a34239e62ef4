"""The catalogue of refusals against the sources that refuse, and its words."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import pytest
import tepidarium_api
import tepidarium_engine
from tepidarium_engine.findings.undrawn import NO_DIVISION, NO_ROUTE, REASONS
from tepidarium_engine.refusals import REFUSALS

SOURCES = (Path(tepidarium_engine.__file__).parent, Path(tepidarium_api.__file__).parent)
PLACE_OF_CODE = {"Fault": 1, "add": 1, "fault": 1, "require": 2}
"""Makers of faults, and which argument is the code."""
PREFIXED = {f"no_route_{reason}" for reason in NO_ROUTE} | {f"no_division_{reason}" for reason in NO_DIVISION}


@cache
def _nodes() -> tuple[ast.AST, ...]:
    return tuple(
        node
        for folder in SOURCES
        for path in sorted(folder.rglob("*.py"))
        if "refusals" not in path.relative_to(folder).parts
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    )


def _texts(node: ast.AST) -> set[str]:
    arms = (node.body, node.orelse) if isinstance(node, ast.IfExp) else (node,)
    return {arm.value for arm in arms if isinstance(arm, ast.Constant) and isinstance(arm.value, str)}


def _written() -> set[str]:
    """Codes that stand in a call that makes a fault."""
    codes: set[str] = set()
    for node in _nodes():
        if not isinstance(node, ast.Call):
            continue
        maker = getattr(node.func, "attr", getattr(node.func, "id", ""))
        place = PLACE_OF_CODE.get(maker)
        if place is not None and len(node.args) > place + 1:
            codes |= _texts(node.args[place])
        if maker == "FieldError":
            codes |= {text for word in node.keywords if word.arg == "code" for text in _texts(word.value)}
    return codes


def test_every_code_in_the_sources_is_in_the_catalogue() -> None:
    written = _written()
    assert len(written) > 110
    assert written - set(REFUSALS) == set()


def test_every_code_of_the_catalogue_is_in_the_sources() -> None:
    texts = {text for node in _nodes() for text in _texts(node)}
    assert set(REFUSALS) - PREFIXED - texts == set()
    assert set(REFUSALS) >= PREFIXED
    assert {*NO_ROUTE, *NO_DIVISION} <= set(REASONS)


@pytest.mark.parametrize("code", REFUSALS)
def test_the_words_of_a_refusal(code: str) -> None:
    kind = REFUSALS[code]
    for words in (kind.meaning, kind.remedy):
        assert words[:1].isupper() and words.endswith(".") and ". " not in words
        assert "_" not in words
