"""``python -m tests.estimates draw FILE [count] [rooms]``: see DEVELOPERS.md."""

from __future__ import annotations

import sys
from pathlib import Path

from tests.estimates.drawing import draw, rooms_of


def main(words: list[str]) -> int:
    path, count = Path(words[1]), int(words[2]) if words[2:] else 500
    draw(path, count, rooms_of(Path(words[3])) if words[3:] else [])
    return 0


sys.exit(main(sys.argv[1:]))
