"""``python -m tests.drills [name[=number] ...]``: run drills against a served process and print their figures.

The number is how often or of how many: ``killed=100``, ``crowd=170``, ``endurance=2000``.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any

from tests.drills.scenes import LONG, QUICK


def main(asked: list[str]) -> int:
    """Run the named drills, all by default; the number of missed bounds is the exit code."""
    scenes: dict[str, Callable[..., Any]] = {**QUICK, **LONG}
    named = [one.partition("=") for one in asked or scenes]
    if unknown := {name for name, _, _ in named} - scenes.keys():
        sys.exit(f"no such drill: {', '.join(sorted(unknown))}; there are {', '.join(scenes)}")
    missed = 0
    for name, _, number in named:
        for figure in scenes[name](*([int(number)] if number else [])):
            print(figure.line(), flush=True)
            missed += not figure.kept
    return missed


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
