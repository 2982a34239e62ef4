"""The catalogue of findings against the sources that report them, and its words."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
import tepidarium_engine
from tepidarium_engine.findings import COVERED_BY, FINDINGS, STAGES, rank
from tepidarium_engine.findings.undrawn import NOT_DRAWN, REASONS, ROUTE_FAULTS

SOURCES = Path(tepidarium_engine.__file__).parent
SEVERITIES = ("violation", "warning", "note")
CODE = re.compile(r"[a-z0-9]+(?:_[a-z0-9]+)*")
MAKERS = {"Refusal": 0, "RouteFault": 0, "Unplaced": 2, "_Spot": 0}
"""Makers of reasons why pipe is not laid or drawn, and which argument is the reason."""


@cache
def _nodes() -> tuple[ast.AST, ...]:
    paths = [path for path in SOURCES.rglob("*.py") if "findings" not in path.relative_to(SOURCES).parts]
    return tuple(node for path in sorted(paths) for node in ast.walk(ast.parse(path.read_text("utf-8"))))


def _calls(name: str) -> Iterator[ast.Call]:
    last = name.rpartition(".")[2]
    for node in _nodes():
        if not isinstance(node, ast.Call):
            continue
        word = getattr(node.func, "attr", getattr(node.func, "id", None))
        if word == last and ast.unparse(node.func) == name:
            yield node


def _words(node: ast.AST) -> set[str]:
    """The texts that an expression can be: those of a conditional both."""
    arms = (node.body, node.orelse) if isinstance(node, ast.IfExp) else (node,)
    return {arm.value for arm in arms if isinstance(arm, ast.Constant) and isinstance(arm.value, str)}


def test_every_code_in_the_sources_is_in_the_catalogue() -> None:
    written = {code for call in _calls("Finding.at") for code in _words(call.args[0])}
    assert len(written) > 120
    assert written - set(FINDINGS) == set()


def test_every_code_of_the_catalogue_is_in_the_sources() -> None:
    texts = {
        node.value for node in _nodes() if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    made = {*NOT_DRAWN, *ROUTE_FAULTS} - {"not_drawn_no_outline"}
    assert set(FINDINGS) - made - texts == set()


def test_reasons_not_to_lay_pipe_are_those_of_the_sources() -> None:
    made = {
        ("tails_" if name == "_Spot" else "") + reason
        for name, place in MAKERS.items()
        for call in _calls(name)
        if len(call.args) > place
        for reason in _words(call.args[place])
    }
    known = set(REASONS)
    assert made - known == set()
    texts = {text for node in _nodes() for text in _words(node)}
    assert known - made - texts == set()
    assert {code.removeprefix("route_") for code in ROUTE_FAULTS} <= known


def test_the_order_of_the_work_holds_every_code_once() -> None:
    listed = [code for kinds in STAGES.values() for code in kinds]
    assert len(listed) == len(set(listed)) == len(FINDINGS)
    assert [rank(code) for code in listed] == list(range(len(listed)))
    assert set(COVERED_BY) | {code for codes in COVERED_BY.values() for code in codes} <= set(listed)


@pytest.mark.parametrize("code", FINDINGS)
def test_the_words_of_a_kind(code: str) -> None:
    kind = FINDINGS[code]
    assert CODE.fullmatch(code)
    assert list(kind.severities) == [one for one in SEVERITIES if one in kind.severities]
    assert kind.severities and kind.calculations
    for words in (kind.meaning, kind.remedy, kind.cause):
        assert words[:1].isupper() and words.endswith(".") and ". " not in words
    assert len(kind.message) <= 300
