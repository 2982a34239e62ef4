"""Changes of the physics are made as meant, and a few of them are tried: more takes minutes, by command."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.mutations.mutants import FOLDERS, all_mutants, mutated, sample
from tests.mutations.trial import TESTS

TOP = Path(__file__).parents[2]
TRIED, SEED = 6, 11
"""So few, since each takes several seconds of a core: all others are for the command."""


def test_every_part_has_places_and_tests() -> None:
    assert set(FOLDERS) == set(TESTS)
    assert {mutant.folder for mutant in all_mutants()} == set(FOLDERS)
    for tests in TESTS.values():
        for name in tests.files:
            assert (TOP / "tests" / "engine" / f"test_{name}.py").is_file()
        for group in tests.cases:
            assert (TOP / "tests" / "vectors" / f"{group}.json").is_file()


def test_a_change_changes_one_place() -> None:
    for mutant in sample(20, seed=3):
        before = ast.dump(ast.parse(mutant.path.read_text(encoding="utf-8")))
        assert ast.dump(mutated(mutant)) != before


@pytest.mark.long
def test_a_few_changes_are_noticed() -> None:
    """In a process that has not loaded the engine: each change is loaded by a fork of it."""
    words = [sys.executable, "-m", "tests.mutations", str(TRIED), str(SEED)]
    said = subprocess.run(words, cwd=TOP, capture_output=True, text=True, check=True, timeout=600).stdout
    unnoticed = [
        line for line in said.splitlines() if line.startswith("not noticed") and "rounding" not in line
    ]
    assert unnoticed == []
