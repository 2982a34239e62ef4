"""Numbers change together with the version: what is computed is what the record of this version holds."""

from __future__ import annotations

import copy
import re
from pathlib import Path
from typing import Any

import pytest
from tepidarium_engine import __version__

from tests.figures import record

RELEASED = (
    f"{__version__} is released and its numbers have changed: raise __version__, say in engine/CHANGELOG.md which "
    "numbers change and why, and write the new record with python -m tests.figures"
)
GROWING = (
    f"numbers have changed since the record of {__version__} was written: say in engine/CHANGELOG.md which and why, "
    "and write the record again with python -m tests.figures"
)


def test_no_number_has_changed_under_the_same_version() -> None:
    changed = record.differences(record.recorded(), record.computed())
    told = "\n".join(
        [RELEASED if record.is_released() else GROWING, f"{len(changed)} figures:", *changed[:20]]
    )
    assert not changed, told


@pytest.mark.parametrize("part", ["engine", "api"])
def test_the_list_of_changes_begins_with_this_version(part: str) -> None:
    """So that no changed number stands under a version that was given to anybody before."""
    text = (record.TOP / part / "CHANGELOG.md").read_text(encoding="utf-8")
    headings = re.findall(r"^## (.*)$", text, re.M)
    assert headings[0] in (__version__, f"{__version__}, not released yet")
    assert all(re.match(r"\d+\.\d+\.\d+", heading) for heading in headings)


def test_a_version_is_released_once_the_list_of_changes_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    changes = tmp_path / "CHANGELOG.md"
    monkeypatch.setattr(record, "CHANGES", changes)
    for heading, expected in ((f"## {__version__}, not released yet", False), (f"## {__version__}", True)):
        changes.write_text(f"# Changes\n\n{heading}\nWords.\n", encoding="utf-8")
        assert record.is_released() is expected


def _changed(name: str, place: str, value: Any) -> list[str]:
    now = copy.deepcopy(record.recorded())
    if value is None:
        del now[name][place]
    else:
        now[name][place] = value
    return record.differences(record.recorded(), now)


def test_a_difference_is_told_with_its_case_its_place_and_both_numbers() -> None:
    name, place = "example heat-output", "heat_output"
    before = record.recorded()[name][place]
    assert _changed(name, place, before) == []
    assert _changed(name, place, before * (1.0 + 0.5 * record.SAME)) == []
    (told,) = _changed(name, place, before * (1.0 + 3.0 * record.SAME))
    assert told.startswith(f"{name}: {place} is ")
    assert told.endswith(f"recorded is {before}")
    assert len(_changed(name, place, None)) == len(_changed(name, place, [2, before])) == 1
    assert len(_changed(name, "another", 1.0)) == 1


def test_a_list_counts_by_its_length_and_the_sum_of_sizes() -> None:
    name = "example house"
    place, (count, total) = next(
        (place, figure) for place, figure in record.recorded()[name].items() if isinstance(figure, list)
    )
    assert len(_changed(name, place, [count + 1, total])) == 1
    assert len(_changed(name, place, [count, total * 1.001 + 1.0])) == 1


def test_cases_that_come_and_go_are_told() -> None:
    before = record.recorded()
    fewer = {name: figures for name, figures in before.items() if name != "example house"}
    assert record.differences(before, fewer) == ["example house: is recorded and not computed any more"]
    assert record.differences(fewer, before) == ["example house: no figures are recorded"]
