"""``python -m tests.validation``: measures what takes minutes, and writes the validation book of the handbook.

``write`` as an argument writes the book from the last measurement. Then ``python -m tepidarium_api.handbook`` makes the
pages.
"""

from __future__ import annotations

import shutil
import sys

from tepidarium_api.handbook.writing import TEXT

from .measuring import measure, write_record
from .writing import book

if __name__ == "__main__":
    if sys.argv[1:] != ["write"]:
        write_record(measure())
    shutil.rmtree(TEXT / "validation", ignore_errors=True)
    for name, content in book().items():
        (TEXT / name).parent.mkdir(parents=True, exist_ok=True)
        (TEXT / name).write_bytes(content)
