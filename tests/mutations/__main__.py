"""``python -m tests.mutations [count [seed]]``: changes one constant or comparison after the other and prints what no
test notices. Without a count all of them, which takes hours.
"""

from __future__ import annotations

import sys
from collections import Counter
from concurrent.futures import ThreadPoolExecutor

from .mutants import all_mutants, sample
from .trial import noticed

PROCESSES = 2


def main(words: list[str]) -> int:
    chosen = sample(int(words[0]), int(words[1]) if words[1:] else 0) if words else list(all_mutants())
    by: Counter[str] = Counter()
    with ThreadPoolExecutor(PROCESSES) as pool:
        for mutant, word in zip(chosen, pool.map(noticed, chosen), strict=True):
            by[word] += 1
            if not word:
                reason = " (it only absorbs rounding)" if mutant.harmless else ""
                print(f"not noticed: {mutant}{reason}", flush=True)
    share = 100.0 * (len(chosen) - by[""]) / len(chosen)
    ways = ", ".join(f"{count} by {word}" for word, count in by.most_common() if word)
    print(f"{len(chosen)} of {len(all_mutants())} changes tried, {share:.1f} % noticed: {ways}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
