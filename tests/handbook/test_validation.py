"""The validation book: as it comes out now, nothing missing, and what takes minutes measured again in part."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from tepidarium_api.handbook.writing import TEXT
from tepidarium_engine import __version__

from tests.rooms.corpus import CORPUS
from tests.sections.cases import AT_THE_EDGE, BUILD_UPS
from tests.validation import measuring
from tests.validation.cases import Line, groups, lines
from tests.validation.writing import book

EVERY = 7
"""One build-up in so many is solved again, one room in three times as many laid."""
SAME = 1e-4
"""Share by which a measure may differ from its record; processors do not agree on the last digits."""


@cache
def _book() -> dict[str, bytes]:
    return book()


def test_the_book_is_as_it_comes_out_now() -> None:
    stale = [name for name, content in _book().items() if (TEXT / name).read_bytes() != content]
    assert stale == [], "run python -m tests.validation write"
    assert {path.relative_to(TEXT).as_posix() for path in (TEXT / "validation").rglob("*.md")} == {
        name for name in _book() if name.endswith(".md")
    }


@pytest.mark.parametrize("group", groups())
def test_every_published_value_is_kept(group: str) -> None:
    assert lines(group)
    assert [line for line in lines(group) if not line.kept] == []


def test_a_value_outside_its_tolerance_is_seen() -> None:
    assert not Line("case", "source", "/a", 1.0, 1.2, 0.1).kept
    assert Line("case", "source", "/a", 1.0, 1.05, 0.1).share == pytest.approx(0.5)
    assert not Line("case", "source", "/a", "word", "other", None).kept
    assert not Line("case", "source", "/a", 1.0, 1.1, 0.0).kept


def test_the_record_is_of_this_version_and_of_everything() -> None:
    record = measuring.read_record()
    assert record["engine_version"] == __version__
    assert set(record["sections"]) == set(BUILD_UPS)
    assert set(record["edges"]) == set(AT_THE_EDGE)
    for pattern in measuring.PATTERNS:
        assert set(record["routes"][pattern]) == {case.name for case in CORPUS}


def _differs(now: object, then: object) -> bool:
    if isinstance(now, float) and isinstance(then, float):
        return abs(now - then) > SAME * max(abs(then), 1e-3)
    return now != then


@pytest.mark.long
@pytest.mark.parametrize("name", list(BUILD_UPS)[::EVERY])
def test_sections_come_out_again(name: str) -> None:
    then, now = measuring.read_record()["sections"][name], measuring.measured_section(name)
    assert [key for key in now if key != "moved" and _differs(now[key], then[key])] == []


@pytest.mark.parametrize("name", AT_THE_EDGE)
def test_edges_come_out_again(name: str) -> None:
    then, now = measuring.read_record()["edges"][name], measuring.measured_edge(name)
    assert [key for key in now if _differs(now[key], then[key])] == []


def test_libraries_say_the_same_again() -> None:
    record = measuring.read_record()
    for name, measured in (
        ("fluids", measuring.measured_fluids()),
        ("friction", measuring.measured_friction()),
    ):
        assert np.allclose(_numbers(measured), _numbers(record[name]), atol=2e-3, rtol=0.0), name


def _numbers(found: object) -> list[float]:
    if isinstance(found, dict):
        return [each for name in sorted(found) for each in _numbers(found[name])]
    if isinstance(found, list | tuple):
        return [each for part in found for each in _numbers(part)]
    assert isinstance(found, float)
    return [found]


@pytest.mark.long
def test_routes_come_out_again() -> None:
    record = measuring.read_record()["routes"]
    for pattern in measuring.PATTERNS:
        for case in CORPUS[:: 3 * EVERY]:
            now, then = measuring.measured_room(case, pattern), record[pattern][case.name]
            assert [key for key in now if _differs(now[key], then.get(key))] == [], case.name
