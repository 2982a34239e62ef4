"""One request on several cores: elsewhere indeed, the same bytes, and nothing left behind."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from typing import Any

import msgspec
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.cores import spread_over
from tepidarium_engine.plan.laying import laying

from tests.processes import children, runs

BY_NAME = {item.name: item for item in CALCULATIONS}
DESIGNS = BY_NAME["designs"]
LONG = """
import time
from tepidarium_api.cores import spread_over
with spread_over(2) as spread:
    list(spread(time.sleep, [600.0, 600.0]))
"""
linux_only = pytest.mark.skipif(sys.platform != "linux", reason="one core does all elsewhere")


def _process(_: int) -> int:
    return os.getpid()


@linux_only
def test_pieces_are_computed_in_other_processes() -> None:
    with spread_over(2) as spread:
        assert os.getpid() not in set(spread(_process, range(8)))


def test_one_core_starts_no_process() -> None:
    with spread_over(1) as spread:
        assert set(spread(_process, range(8))) == {os.getpid()}


@linux_only
def test_one_core_does_all_where_processes_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse() -> int:
        raise BlockingIOError("no more processes")

    monkeypatch.setattr(os, "fork", refuse)
    with spread_over(2) as spread:
        assert set(spread(_process, range(8))) == {os.getpid()}


@pytest.mark.parametrize("cores", [2, 3])
def test_same_bytes_on_several_cores(cores: int) -> None:
    body = msgspec.json.encode(DESIGNS.example)
    laying._laid.cache_clear()
    alone, shared = (answer(DESIGNS, body, "", cores=count) for count in (1, cores))
    assert isinstance(alone, Answer)
    assert alone == shared


def _as_it_comes(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever was laid before is remembered."""


def _nothing_known(monkeypatch: pytest.MonkeyPatch) -> None:
    laying._laid.cache_clear()


def _nothing_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(laying, "_laid", laying._laid.__wrapped__)


@pytest.mark.parametrize("name", ["designs", "loop-length", "routes"])
def test_same_bytes_whatever_is_remembered_of_equal_rooms(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A room twice in one request, one laid before, and one that is laid anew each time it is met."""
    calculation = BY_NAME[name]
    body = msgspec.json.encode(
        _equal_rooms(calculation.example) if name == "designs" else calculation.example
    )
    found = []
    for remember in (_nothing_known, _as_it_comes, _nothing_kept):
        remember(monkeypatch)
        found.append(answer(calculation, body, ""))
    assert isinstance(found[0], Answer)
    assert found == found[:1] * 3


def _equal_rooms(house: dict[str, Any]) -> dict[str, Any]:
    """The house with two equal rooms below a hall."""
    parlour, washroom = house["rooms"]
    rooms = [
        {
            **parlour,
            "id": name,
            "outline": [[x, 0.0], [x + 3.0, 0.0], [x + 3.0, 3.0], [x, 3.0]],
            "heat_demand": 400.0,
        }
        for name, x in (("left", 0.0), ("right", 3.1))
    ]
    hall = {**washroom, "id": "hall", "outline": [[0.0, 3.1], [6.1, 3.1], [6.1, 4.6], [0.0, 4.6]]}
    doorways = [
        {"rooms": [name, "hall"], "place": [x, 3.05], "width": 0.8}
        for name, x in (("left", 1.5), ("right", 4.6))
    ]
    return {**house, "rooms": [*rooms, hall], "doorways": doorways, "manifold": {"position": [3.05, 4.6]}}


@linux_only
def test_processes_end_with_the_one_that_forked_them() -> None:
    worker = subprocess.Popen([sys.executable, "-c", LONG])
    forked = _wait(lambda: children(worker.pid), lambda found: len(found) == 2)
    worker.send_signal(signal.SIGKILL)
    worker.wait()
    _wait(lambda: [pid for pid in forked if runs(pid)], lambda left: not left)


def _wait(look: Callable[[], list[int]], enough: Callable[[list[int]], bool]) -> list[int]:
    deadline = time.monotonic() + 60.0
    while not enough(found := look()):
        assert time.monotonic() < deadline, found
        time.sleep(0.02)
    return found
