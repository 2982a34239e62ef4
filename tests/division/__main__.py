"""``python -m tests.division [quick] [name]``: divide the invented rooms, print lengths, spread and complaints."""

from __future__ import annotations

import sys
import time
from dataclasses import replace

import numpy as np

from tests.division.check import complaints
from tests.division.fields import FIELDS


def main(words: list[str]) -> None:
    spreads, seconds = [], []
    quick, words = "quick" in words, [word for word in words if word != "quick"]
    for case in (replace(case, quick=quick) for case in FIELDS):
        if words and not any(word in case.name for word in words):
            continue
        start = time.process_time()
        found = case.divided()
        seconds.append(time.process_time() - start)
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


main(sys.argv[1:])
