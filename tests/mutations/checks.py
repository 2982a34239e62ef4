"""What can notice a change: groups of published cases, and tests; what each takes, and which functions it calls."""

from __future__ import annotations

import functools
import gc
import json
import os
import resource
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from .children import each_in_a_child
from .mutants import TOP, all_mutants

__all__ = ["FILES", "Check", "calls", "failed", "in_tests", "measured", "muted", "names"]

FILES = (
    "heat_output",
    "heat_output_methods",
    "supply_temperature",
    "single_pipes",
    "floor_section",
    "floor_section_in_time",
    "water_friction",
    "water_fluid",
    "hydraulics",
    "manifold_network",
    "curing_plan",
    "moisture_reading",
    "insulation_check",
    "heat_loss",
    "craft",
    "route_check",
    "route_check_independent",
    "finding_thresholds",
    "printed_tables",
    "parts_by_hand",
    "inner_methods",
    "section_on_grids",
    "single_figures",
    "refusal_figures",
    "section_drawing",
)
"""Test files of the parts that are changed."""
GROUP = "cases of "
PATIENCE, SLOWNESS = 15.0, 10.0
"""How much longer than before a check may take: seconds, and times; then it counts as one that does not end."""
Place = tuple[str, int]
"""A function: its file, and the line at which it begins."""


class Check(NamedTuple):
    """``seconds`` of a core [s]; ``calls``: the functions that it calls."""

    name: str
    seconds: float
    calls: frozenset[Place]

    @property
    def word(self) -> str:
        return "cases" if self.name.startswith(GROUP) else "tests"


@contextmanager
def calls() -> Iterator[set[Place]]:
    """The functions of the changed modules that are called inside."""
    files = {str(mutant.path) for mutant in all_mutants()}
    found: set[Place] = set()

    def trace(frame: Any, _event: str, _arg: object) -> None:
        code = frame.f_code
        if code.co_filename in files:
            found.add((code.co_filename, code.co_firstlineno))

    sys.settrace(trace)
    try:
        yield found
    finally:
        sys.settrace(None)


def in_tests(work: Callable[[pytest.Session], None], files: list[str]) -> bool:
    """Collects the tests of these files and does the work in place of running them; False if that is impossible."""

    class InPlace:
        @staticmethod
        def pytest_runtestloop(session: pytest.Session) -> bool:
            work(session)
            return True

    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    plugins = ["_hypothesis_pytestplugin", "no:cacheprovider", "no:terminal", "no:unraisableexception"]
    words = [
        "--assert=plain",
        "--capture=no",
        *(f"-p{each}" for each in plugins),
        f"--rootdir={TOP}",
        f"-c{TOP / 'pyproject.toml'}",
        "-mnot long",
    ]
    code = pytest.main([*words, *files], plugins=[InPlace()])
    return code in (pytest.ExitCode.OK, pytest.ExitCode.TESTS_FAILED)


def failed(session: pytest.Session | None, check: Check) -> bool:
    """Whether the check fails here; it is killed if it takes far longer than before."""
    end = time.process_time() + PATIENCE + SLOWNESS * check.seconds
    resource.setrlimit(resource.RLIMIT_CPU, (int(end) + 1, resource.RLIM_INFINITY))
    return _failed(session, check.name)


def _failed(session: pytest.Session | None, name: str) -> bool:
    if name.startswith(GROUP):
        from tests.validation.cases import lines  # noqa: PLC0415 - with the change

        try:
            return any(not line.kept for line in lines(name.removeprefix(GROUP)))
        except Exception:
            return True
    assert session is not None
    item = _items(session)[name]
    item.ihook.pytest_runtest_protocol(item=item, nextitem=None)
    return bool(session.testsfailed)


@functools.lru_cache(maxsize=1)
def _items(session: pytest.Session) -> dict[str, pytest.Item]:
    return {item.nodeid: item for item in session.items}


def names(session: pytest.Session) -> list[str]:
    from tests.validation.cases import groups  # noqa: PLC0415 - the engine must not be loaded before

    return [*(GROUP + group for group in groups()), *_items(session)]


def measured(session: pytest.Session, at_once: int) -> list[Check]:
    """All checks, the quickest first, each measured by itself without anything kept from before."""
    with tempfile.TemporaryDirectory() as folder:
        every = names(session)
        jobs = [(Path(folder) / str(number), every[number::at_once]) for number in range(at_once)]
        kept = [each for each in gc.get_objects() if isinstance(each, functools._lru_cache_wrapper)]
        ours = [each for each in kept if (each.__module__ or "").startswith(("tepidarium", "tests"))]

        def measure(job: tuple[Path, list[str]]) -> str:
            job[0].write_text(
                json.dumps([_measured(session, name, ours) for name in job[1]]), encoding="utf-8"
            )
            return ""

        for _ in each_in_a_child(jobs, measure, at_once):
            pass
        found = [each for path, _ in jobs for each in json.loads(path.read_text(encoding="utf-8"))]
    checks = [Check(name, seconds, frozenset(map(tuple, called))) for name, seconds, called in found]
    return sorted(checks, key=lambda check: check.seconds)


def _measured(session: pytest.Session, name: str, kept: list[Any]) -> tuple[str, float, list[Place]]:
    for each in kept:
        each.cache_clear()
    started = time.process_time()
    with calls() as called:
        if _failed(session, name):
            raise RuntimeError(f"fails without any change: {name}")
    return name, time.process_time() - started, sorted(called)


def muted() -> None:
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
