"""``python -m tests.mutations [count [seed]]``: changes one constant or comparison after the other and prints what no
test notices. Without a count all of them.

Ends with 1 where a change is not noticed without a reason, and where one is noticed that has a reason.
"""

from __future__ import annotations

import resource
import sys
import time
from collections import Counter
from collections.abc import Mapping

from .mutants import Mutant, all_mutants, sample
from .trial import try_all
from .unnoticed import REASONS, reason_of

STEP = 100


class Report:
    """Says what is not as it should be as soon as it is known, and how far the run has come."""

    def __init__(self) -> None:
        self.started = time.monotonic()
        self.count = 0

    @property
    def seconds(self) -> float:
        return time.monotonic() - self.started

    def __call__(self, mutant: Mutant, word: str) -> None:
        self.count += 1
        if not word and reason_of(mutant) is None:
            print(f"not noticed: {mutant}", flush=True)
        if word and mutant.key in REASONS:
            print(f"noticed by {word} although it has a reason not to be: {mutant}", flush=True)
        if self.count % STEP == 0:
            print(f"{self.count} tried after {self.seconds:.0f} s", flush=True)


def summary(words: Mapping[Mutant, str], seconds: float) -> str:
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    by = Counter(words.values())
    share = 100.0 * (len(words) - by[""]) / len(words)
    ways = ", ".join(f"{count} by {word}" for word, count in by.most_common() if word)
    reasons = Counter(reason_of(mutant) or "NO REASON" for mutant, word in words.items() if not word)
    lines = [
        f"{len(words)} of {len(all_mutants())} changes tried in {seconds / 60.0:.0f} min "
        f"({(spent.ru_utime + spent.ru_stime) / 60.0:.0f} min of a core), {share:.1f} % noticed: {ways}",
        *(f"{count} not noticed: {reason}" for reason, count in reasons.most_common()),
    ]
    return "\n".join(lines)


def main(arguments: list[str]) -> int:
    count, seed = [*map(int, arguments), 0, 0][:2]
    chosen = sample(count, seed) if arguments else list(all_mutants())
    report = Report()
    words = try_all(chosen, report)
    print(summary(words, report.seconds))
    wrong = [
        mutant
        for mutant, word in words.items()
        if (mutant.key in REASONS if word else reason_of(mutant) is None)
    ]
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
