"""``python -m tests.drills [by_area outlines kills]``: the drill of the batch; 10,000 and 300 houses, 3 kills."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tepidarium_client import local_service

from .batch import batch, eight_connections, killed_batch
from .houses import write_houses

RATED = 1000
"""Houses by area of which the rates are measured."""


def main(by_area: int = 10_000, outlines: int = 300, kills: int = 3) -> int:
    """Print what was compared; the exit code is 1 when the results differ."""
    with tempfile.TemporaryDirectory() as name, local_service() as url:
        folder = Path(name)
        write_houses(folder / "rated", min(by_area, RATED), 0)
        rates = [
            (eight_connections(url, folder / "rated"), batch(url, folder / "rated", folder / f"rate{turn}"))
            for turn in range(2)
        ]
        for eight, one in rates:
            print(
                f"by area: batch {one:.1f}/s, eight connections {eight:.1f}/s, ratio {one / eight:.2f}",
                flush=True,
            )
        write_houses(folder / "houses", by_area, outlines)
        rate = batch(url, folder / "houses", folder / "undisturbed")
        print(f"{by_area} by area and {outlines} with outlines: {rate:.1f}/s", flush=True)
        expected = (folder / "undisturbed").read_bytes()
        killed_batch(url, folder / "houses", folder / "killed", len(expected), kills)
        same = (folder / "killed").read_bytes() == expected
        lines = expected.count(b"\n")
        problems = expected.count(b',"problem":')
        print(
            f"{lines} lines, {problems} problems; killed {kills} times: {'same bytes' if same else 'DIFFERENT'}"
        )
    return 0 if same else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
