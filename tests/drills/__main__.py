"""``python -m tests.drills [name ...]``: run drills against a served process and print their figures."""

from __future__ import annotations

import sys

from tests.drills.scenes import LONG, QUICK


def main(names: list[str]) -> int:
    """Run the named drills, all by default; the number of missed bounds is the exit code."""
    scenes = {**QUICK, **LONG}
    if unknown := set(names) - scenes.keys():
        sys.exit(f"no such drill: {', '.join(sorted(unknown))}; there are {', '.join(scenes)}")
    missed = 0
    for name in names or scenes:
        for figure in scenes[name]():
            print(figure.line(), flush=True)
            missed += not figure.kept
    return missed


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
