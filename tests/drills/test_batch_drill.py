"""A short form of the drill against the real service; ``python -m tests.drills`` is the full one."""

from __future__ import annotations

from pathlib import Path

import pytest
from tepidarium_client import local_service

from tests.drills.batch import batch, killed_batch
from tests.drills.houses import write_houses

pytestmark = pytest.mark.long


def test_a_killed_batch_gives_the_bytes_of_an_undisturbed_one(tmp_path: Path) -> None:
    source = tmp_path / "houses"
    write_houses(source, 150, 6)
    with local_service() as url:
        batch(url, source, tmp_path / "undisturbed")
        expected = (tmp_path / "undisturbed").read_bytes()
        killed_batch(url, source, tmp_path / "killed", len(expected), 3)
    assert expected.count(b"\n") == 156
    assert expected.count(b',"problem":') == 3
    assert (tmp_path / "killed").read_bytes() == expected
