"""Lays storeys and prints what is wrong: ``python -m tests.storeys [small] [seed] [count]`` or ``corpus [name]``."""

from __future__ import annotations

import signal
import sys
import time
import traceback
from collections import Counter

from tepidarium_engine.storey.storey_layout import laid_storey

from tests.storeys.case import StoreyCase
from tests.storeys.check import violations
from tests.storeys.corpus import CORPUS
from tests.storeys.random_storeys import random_storey
from tests.storeys.small_storeys import small_storey

LONGEST = 60.0
"""For one storey [s of processor]; one that takes longer counts as a fault."""


def _too_long(*_: object) -> None:
    raise TimeoutError(f"not done in {LONGEST:.0f} s")


def main(words: list[str]) -> int:
    """Whether there was a storey with faults."""
    if words[:1] == ["corpus"]:
        cases = [case for case in CORPUS if not words[1:] or words[1] in case.name]
    else:
        random_one = small_storey if words[:1] == ["small"] else random_storey
        words = words[words[:1] == ["small"] :]
        first, count = (int(word) for word in (*words, *("0", "20")[len(words) :]))
        cases = [random_one(seed) for seed in range(first, first + count)]
    signal.signal(signal.SIGVTALRM, _too_long)
    counts: Counter[str] = Counter()
    bad = sum(_laid(case, counts) for case in cases)
    placed = counts.pop("placed", 0)
    reasons = ", ".join(f"{code} {count}" for code, count in counts.most_common()) or "none"
    print(f"{placed} circuits placed, {counts.total()} not: {reasons}")
    print(f"{bad} of {len(cases)} storeys with faults")
    return int(bad > 0)


def _laid(case: StoreyCase, counts: Counter[str]) -> bool:
    """Whether it has faults; circuits are counted by what became of them."""
    started = time.process_time()
    signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST)
    try:
        task = case.task()
        layout = laid_storey(task)
        took = time.process_time() - started
        faults = list(violations(task, layout))
    except Exception:
        print(f"{case.name}: raised\n{traceback.format_exc(limit=-6)}", flush=True)
        return True
    signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
    counts["placed"] += len(layout.circuits)
    counts.update(one.code for one in layout.unplaced)
    refused = ", ".join(f"{one.id} {one.code}" for one in layout.unplaced) or "none"
    print(f"{case.name}: {len(layout.circuits)} circuits, {took:.1f} s; refused: {refused}")
    print("".join(f"    {fault}\n" for fault in faults), end="", flush=True)
    return bool(faults)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
