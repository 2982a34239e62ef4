"""``python -m tests.division [quick] [draw=FILE.png] [name ...]``: divide the invented rooms, print lengths, spread and
complaints, and draw them."""

from __future__ import annotations

import sys
import time
from dataclasses import replace
from pathlib import Path

import numpy as np

from tests.division.check import complaints
from tests.division.fields import FIELDS, SERPENTINES
from tests.division.picture import picture, sheet


def main(words: list[str]) -> None:
    spreads, seconds, drawn = [], [], []
    files = [Path(word.removeprefix("draw=")) for word in words if word.startswith("draw=")]
    quick, words = (
        "quick" in words,
        [word for word in words if word != "quick" and not word.startswith("draw=")],
    )
    for case in (replace(case, quick=quick) for case in (*FIELDS, *SERPENTINES)):
        if words and not any(word in case.name for word in words):
            continue
        start = time.process_time()
        found = case.divided()
        seconds.append(time.process_time() - start)
        drawn.append((case, found))
        line = (
            f"{case.name:34} {len(found.circuits):2} circuits {seconds[-1]:6.2f} s  {found.rounds:2} rounds "
        )
        if found.refusal is not None:
            print(line, found.refusal)
            continue
        spreads.append(found.spread)
        lengths = " ".join(f"{circuit.length:.1f}" for circuit in found.circuits)
        print(
            line, f"spread {100.0 * found.spread:5.2f} %  [{lengths}]", *complaints(case, found), sep="\n    "
        )
    if spreads:
        figures = np.percentile(np.array(spreads) * 100.0, [50.0, 75.0, 100.0])
        print(
            f"{len(spreads)} of {len(seconds)} divided; spread % median, 75 %, most: {np.round(figures, 2)}"
        )
        print(f"s per division: median {np.median(seconds):.2f}, most {max(seconds):.2f}")
    for file in files:
        file.write_bytes(picture(sheet(drawn)))


main(sys.argv[1:])
