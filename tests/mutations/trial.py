"""Whether the tests notice a change: published cases first, then the tests of the part, until the first failure."""

from __future__ import annotations

import ast
import importlib.util
import os
import signal
import sys
import time
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, SourceFileLoader
from types import CodeType
from typing import NamedTuple

from .mutants import TOP, Mutant, mutated

__all__ = ["TESTS", "Tests", "noticed"]

LONGEST = 240
"""After so many seconds a calculation counts as one that does not end, which nobody overlooks [s]."""


class Tests(NamedTuple):
    """Groups of published cases, and files below tests/engine."""

    cases: tuple[str, ...]
    files: tuple[str, ...]


TESTS = {
    "thermal": Tests(
        ("heat_output", "supply_temperature", "floor_section", "designs"),
        (
            "heat_output",
            "heat_output_methods",
            "supply_temperature",
            "finding_thresholds",
            "single_pipes",
        ),
    ),
    "water": Tests(
        ("friction", "fluid_properties", "hydraulics", "commissioning"),
        (
            "water_friction",
            "water_fluid",
            "hydraulics",
            "manifold_network",
            "finding_thresholds",
            "printed_tables",
        ),
    ),
    "practice": Tests(
        ("curing_plan", "moisture_reading", "insulation_check"),
        ("curing_plan", "moisture_reading", "insulation_check", "finding_thresholds", "printed_tables"),
    ),
    "envelope": Tests(
        ("heat_loss", "insulation_check"),
        ("heat_loss", "insulation_check", "finding_thresholds", "printed_tables"),
    ),
    "section": Tests(
        ("floor_section",), ("floor_section", "floor_section_in_time", "single_pipes", "finding_thresholds")
    ),
    "plan/judging": Tests(("routes",), ("craft", "route_check", "route_check_independent")),
}


class _Changed(SourceFileLoader):
    """Loads one module from its changed tree, without reading or writing compiled files."""

    def __init__(self, name: str, path: str, tree: ast.Module) -> None:
        super().__init__(name, path)
        self.tree = tree

    def get_code(self, fullname: str) -> CodeType:
        return compile(self.tree, self.path, "exec")


class _Finder(MetaPathFinder):
    def __init__(self, mutant: Mutant) -> None:
        self.mutant = mutant

    def find_spec(self, fullname: str, path: object, target: object = None) -> ModuleSpec | None:
        if fullname != self.mutant.module:
            return None
        file = str(self.mutant.path)
        loader = _Changed(fullname, file, mutated(self.mutant))
        return importlib.util.spec_from_file_location(fullname, file, loader=loader)


def noticed(mutant: Mutant) -> str:
    """By what the change is noticed: ``cases``, ``tests``, ``import``, ``time``; empty if by nothing.

    The parent must not have loaded the engine: a forked child loads it with the change.
    """
    pid = os.fork()
    if pid == 0:
        try:
            os._exit(_Exit.of(_tried(mutant)))
        finally:
            os._exit(_Exit.BROKEN)
    started = time.monotonic()
    while time.monotonic() - started < LONGEST:
        done, status = os.waitpid(pid, os.WNOHANG)
        if done:
            return _Exit.words(os.waitstatus_to_exitcode(status))
        time.sleep(0.02)
    os.kill(pid, signal.SIGKILL)
    os.waitpid(pid, 0)
    return "time"


class _Exit:
    """How a child says its word."""

    WORDS = ("", "cases", "tests", "import")
    BROKEN = 99

    @classmethod
    def of(cls, word: str) -> int:
        return cls.WORDS.index(word)

    @classmethod
    def words(cls, code: int) -> str:
        if code == cls.BROKEN:
            raise RuntimeError("a change could not be tried")
        return cls.WORDS[code] if 0 <= code < len(cls.WORDS) else "crash"


def _tried(mutant: Mutant) -> str:
    sys.meta_path.insert(0, _Finder(mutant))
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    try:
        from tests.validation.cases import lines  # noqa: PLC0415 - with the change
    except Exception:
        return "import"
    tests = TESTS[mutant.folder]
    try:
        if any(not line.kept for group in tests.cases for line in lines(group)):
            return "cases"
    except Exception:
        return "cases"
    return "tests" if _failed(tests.files) else ""


def _failed(files: tuple[str, ...]) -> bool:
    import pytest  # noqa: PLC0415 - each child runs its own

    paths = [str(TOP / "tests" / "engine" / f"test_{name}.py") for name in files]
    words = [
        "-x",
        "-q",
        "-m",
        "not long",
        "-p",
        "no:cacheprovider",
        "-p",
        "no:xdist",
        "-p",
        "no:schemathesis",
    ]
    code = pytest.main([*words, f"--rootdir={TOP}", "-c", str(TOP / "pyproject.toml"), *paths])
    if code not in (pytest.ExitCode.OK, pytest.ExitCode.TESTS_FAILED, pytest.ExitCode.INTERRUPTED):
        raise RuntimeError(f"the tests were not run: {code}")
    return code != pytest.ExitCode.OK
