"""Changes of the physics are made as meant, and a sample of them is tried; all of them by command."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.mutations.checks import FILES
from tests.mutations.mutants import FOLDERS, all_mutants, mutated, sample
from tests.mutations.trial import TESTS
from tests.mutations.unnoticed import REASONS

TOP = Path(__file__).parents[2]
TRIED, SEED = 60, 11


def test_every_part_has_places_and_tests() -> None:
    assert set(FOLDERS) == set(TESTS)
    assert {mutant.folder for mutant in all_mutants()} == set(FOLDERS)
    for tests in TESTS.values():
        for name in tests.files:
            assert name in FILES
        for group in tests.cases:
            assert (TOP / "tests" / "vectors" / f"{group}.json").is_file()


def test_a_change_changes_one_place() -> None:
    for mutant in sample(20, seed=3):
        before = ast.dump(ast.parse(mutant.path.read_text(encoding="utf-8")))
        assert ast.dump(mutated(mutant)) != before


def test_every_reason_is_that_of_a_change() -> None:
    assert set(REASONS) <= {mutant.key for mutant in all_mutants()}


@pytest.mark.long
def test_a_sample_of_changes_is_noticed() -> None:
    """In a process that has not loaded the engine: each change is made in a fork of it."""
    words = [sys.executable, "-m", "tests.mutations", str(TRIED), str(SEED)]
    done = subprocess.run(words, cwd=TOP, capture_output=True, text=True, check=False, timeout=1800)
    assert done.returncode == 0, done.stdout + done.stderr
