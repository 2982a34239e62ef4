"""Whether published cases and tests notice changes.

A change inside a function is made in a fork of a process that has loaded everything, by giving the function new code,
and tried by what calls that function. A constant of a module is first set in such a fork and tried by the quick checks
of its part; where these do not notice, the module is loaded anew with the change, and tried by all checks of its part.
Each begins with the quickest check and ends with the first that fails.
"""

from __future__ import annotations

import contextlib
import gc
import importlib
import sys
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

import pytest

from .changing import Functions, load_with, set_constants
from .checks import FILES, GROUP, Check, calls, failed, in_tests, measured, muted
from .children import each_in_a_child, said_by_a_child
from .mutants import TOP, Mutant
from .unnoticed import reason_of

__all__ = ["TESTS", "Tests", "try_all"]

AT_ONCE = 2
QUICK = 0.02
"""Checks that take less are quick [s]: cases among them are tried before any test is collected."""
PUBLISHED = ("test_printed_tables.py", "test_single_figures.py")
"""Tests that compare constants with what is published."""
_OURS = ("tepidarium_engine", "tepidarium_api", "tests", "conftest", "__main__")
Report = Callable[[Mutant, str], None]


class Tests(NamedTuple):
    """Groups of published cases, and files of tests."""

    cases: tuple[str, ...]
    files: tuple[str, ...]

    def have(self, check: Check) -> bool:
        if check.name.startswith(GROUP):
            return check.name.removeprefix(GROUP) in self.cases
        return check.name.split("::")[0].rpartition("/test_")[2].removesuffix(".py") in self.files


_SECTION = Tests(
    ("floor_section",),
    (
        "floor_section",
        "floor_section_in_time",
        "section_drawing",
        "single_pipes",
        "finding_thresholds",
        "single_figures",
        "inner_methods",
        "section_on_grids",
    ),
)
"""Of the section, and of the solvers under it."""


TESTS = {
    "thermal": Tests(
        ("heat_output", "supply_temperature", "floor_section", "designs"),
        (
            "heat_output",
            "heat_output_methods",
            "supply_temperature",
            "finding_thresholds",
            "printed_tables",
            "single_figures",
            "parts_by_hand",
            "single_pipes",
            "refusal_figures",
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
            "single_figures",
            "inner_methods",
            "refusal_figures",
        ),
    ),
    "practice": Tests(
        ("curing_plan", "moisture_reading", "insulation_check"),
        (
            "curing_plan",
            "moisture_reading",
            "insulation_check",
            "finding_thresholds",
            "printed_tables",
            "single_figures",
            "parts_by_hand",
        ),
    ),
    "envelope": Tests(
        ("heat_loss", "insulation_check"),
        (
            "heat_loss",
            "insulation_check",
            "finding_thresholds",
            "printed_tables",
            "single_figures",
            "parts_by_hand",
        ),
    ),
    "section": _SECTION,
    "conduction": _SECTION,
    "plan/judging": Tests(
        ("routes",),
        (
            "craft",
            "route_check",
            "route_check_independent",
            "finding_thresholds",
            "single_figures",
            "inner_methods",
            "parts_by_hand",
        ),
    ),
}


def try_all(mutants: Sequence[Mutant], report: Report) -> dict[Mutant, str]:
    """By what each change is noticed. This process must not have loaded the engine."""
    for name in said_by_a_child(_libraries):
        with contextlib.suppress(ImportError):
            importlib.import_module(name)
    gc.collect()
    gc.freeze()
    found = said_by_a_child(lambda: _in_functions(mutants, report))
    checks = [
        Check(name, seconds, frozenset(map(tuple, called))) for name, seconds, called in found["checks"]
    ]
    words = {mutants[number]: word for number, word in found["words"]}
    rest = [mutant for mutant in mutants if mutant not in words]
    for mutant, word in each_in_a_child(rest, lambda mutant: _as_loaded(mutant, checks), AT_ONCE):
        words[mutant] = word
        report(mutant, word)
    return words


def _libraries() -> list[str]:
    """What the engine and its tests load of others, in the order in which it can be loaded."""
    muted()
    import tepidarium_api.calculations  # noqa: F401, PLC0415

    in_tests(lambda _session: None, _paths(FILES))
    return [name for name in sys.modules if name.split(".")[0] not in _OURS]


def _paths(files: Sequence[str]) -> list[str]:
    """Files of tests of the engine, or of the service."""
    found = {path.stem.removeprefix("test_"): str(path) for path in (TOP / "tests").glob("*/test_*.py")}
    return [found[name] for name in files]


def _in_functions(mutants: Sequence[Mutant], report: Report) -> dict[str, Any]:
    """The checks, and what is noticed of the changes without loading anything anew."""
    found: dict[str, Any] = {"words": []}

    def work(session: pytest.Session) -> None:
        sys.settrace(None)
        checks, functions = measured(session, AT_ONCE), Functions()
        seconds = sum(check.seconds for check in checks)
        print(f"{len(checks)} checks take {seconds:.0f} s of a core, measuring them included", flush=True)
        gc.collect()
        gc.freeze()

        def tried(number: int) -> str:
            mutant = mutants[number]
            muted()
            if number in loaded:
                set_constants(mutant)
                return _noticed(session, _quick(mutant, checks))
            functions.change(mutant)
            place = (str(mutant.path), mutant.function)
            return _noticed(session, [check for check in _worth(mutant, checks) if place in check.calls])

        loaded = {
            number
            for number, mutant in enumerate(mutants)
            if mutant.function is None or (str(mutant.path), mutant.function) in loading
        }
        _try_unchanged(session, checks)
        for number, word in each_in_a_child(range(len(mutants)), tried, AT_ONCE):
            if word or number not in loaded:
                found["words"].append((number, word))
                report(mutants[number], word)
        found["checks"] = [(check.name, check.seconds, sorted(check.calls)) for check in checks]

    with calls() as loading:
        import tepidarium_api.calculations  # noqa: F401, PLC0415

        in_tests(work, _paths(FILES))
    return found


def _try_unchanged(session: pytest.Session, checks: Sequence[Check]) -> None:
    """Raises ``RuntimeError`` where quick checks fail in a child although nothing is changed."""

    def tried(_: None) -> str:
        muted()
        return _noticed(session, [check for check in checks if check.seconds < QUICK])

    for _, word in each_in_a_child([None], tried, 1):
        if word:
            raise RuntimeError(f"without any change the {word} fail")


def _as_loaded(mutant: Mutant, checks: Sequence[Check]) -> str:
    muted()
    load_with(mutant)
    part = TESTS[mutant.folder]
    chosen = [check for check in _worth(mutant, checks) if part.have(check)]
    quick = [check for check in chosen if check.word == "cases" and check.seconds < QUICK]
    if _noticed(None, quick):
        return "cases"
    words = ["tests"]
    rest = [check for check in chosen if check not in quick]
    if in_tests(lambda session: words.append(_noticed(session, rest)), _paths(part.files)):
        return words[-1]
    return words[0]


def _worth(mutant: Mutant, checks: Sequence[Check]) -> list[Check]:
    """The checks of the part, then quick ones of others; only quick ones where nobody is expected to notice."""
    part, hopeless = TESTS[mutant.folder], reason_of(mutant) is not None
    own = [check for check in checks if part.have(check) and (check.seconds < QUICK or not hopeless)]
    return [*own, *(check for check in checks if check.seconds < QUICK and not part.have(check))]


def _quick(mutant: Mutant, checks: Sequence[Check]) -> list[Check]:
    """Of the checks of the part those that compare with what is published, and then the quick ones."""
    own = [check for check in checks if TESTS[mutant.folder].have(check)]
    published = [
        check for check in own if check.word == "cases" or check.name.split("::")[0].endswith(PUBLISHED)
    ]
    return [*published, *(check for check in own if check.seconds < QUICK and check not in published)]


def _noticed(session: pytest.Session | None, checks: Sequence[Check]) -> str:
    return next((check.word for check in checks if failed(session, check)), "")
