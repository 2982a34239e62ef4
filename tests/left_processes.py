"""``python -m tests.left_processes COMMAND ...``: run a command, then look whether a process of its is left.

Linux only: processes that lose their parent come to this one, so that none escapes by becoming a daemon.
"""

from __future__ import annotations

import ctypes
import os
import subprocess
import sys
import time
from pathlib import Path

PR_SET_CHILD_SUBREAPER = 36
PATIENCE = 5.0
"""Processes that are ending have so long [s]."""


def main(command: list[str]) -> int:
    """The exit code of the command, or 1 when it leaves processes behind."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(PR_SET_CHILD_SUBREAPER, 1)
    code = subprocess.run(command, check=False).returncode
    end = time.monotonic() + PATIENCE
    while (left := _left()) and time.monotonic() < end:
        time.sleep(0.1)
    for process in left:
        words = Path(f"/proc/{process}/cmdline").read_bytes().replace(b"\0", b" ").decode(errors="replace")
        print(f"process {process} is left: {words}", file=sys.stderr)
    return code or bool(left)


def _left() -> list[int]:
    """Processes that have come to this one, those that have ended taken off."""
    left = Path(f"/proc/self/task/{os.getpid()}/children")
    found = [int(child) for child in left.read_text().split()] if left.exists() else []
    return [child for child in found if os.waitpid(child, os.WNOHANG) == (0, 0)]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
