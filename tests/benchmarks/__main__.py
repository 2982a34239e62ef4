"""``python -m tests.benchmarks [name ...]``: print ratios of measurements made side by side.

Not part of the tests: times on a shared machine vary. A benchmark is a module with ``ratios()``, named below.
"""

from __future__ import annotations

import importlib
import sys

BENCHMARKS = (
    "engine",
    "envelope",
    "routes",
    "storeys",
    "throughput",
    "section",
    "ordering",
    "documents",
    "growth",
    "scale",
)


def main(names: list[str]) -> int:
    """Run the named benchmarks, all by default; the number of missed bounds is the exit code."""
    if unknown := set(names) - set(BENCHMARKS):
        sys.exit(f"no such benchmark: {', '.join(sorted(unknown))}; there are {', '.join(BENCHMARKS)}")
    missed = 0
    for name in names or BENCHMARKS:
        for ratio in importlib.import_module(f"tests.benchmarks.{name}").ratios():
            print(ratio.line(), flush=True)
            missed += not ratio.kept
    return missed


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
