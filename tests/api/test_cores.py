"""One request on several cores: elsewhere indeed, the same bytes, and nothing left behind."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.cores import spread_over

DESIGNS = {item.name: item for item in CALCULATIONS}["designs"]
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


def test_same_bytes_on_several_cores() -> None:
    body = msgspec.json.encode(DESIGNS.example)
    alone, shared = (answer(DESIGNS, body, "", cores=cores) for cores in (1, 2))
    assert isinstance(alone, Answer)
    assert alone == shared


@linux_only
def test_processes_end_with_the_one_that_forked_them() -> None:
    worker = subprocess.Popen([sys.executable, "-c", LONG])
    forked = _wait(lambda: _children(worker.pid), lambda found: len(found) == 2)
    worker.send_signal(signal.SIGKILL)
    worker.wait()
    _wait(lambda: [pid for pid in forked if _runs(pid)], lambda left: not left)


def _wait(look: Callable[[], list[int]], enough: Callable[[list[int]], bool]) -> list[int]:
    deadline = time.monotonic() + 60.0
    while not enough(found := look()):
        assert time.monotonic() < deadline, found
        time.sleep(0.02)
    return found


def _children(pid: int) -> list[int]:
    return [int(child) for child in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]


def _runs(pid: int) -> bool:
    status = Path(f"/proc/{pid}/stat")
    return status.exists() and status.read_text().rpartition(")")[2].split()[0] not in "ZX"
