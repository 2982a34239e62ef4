"""Processes that end with the one that started them, however that one ends."""

from __future__ import annotations

import ctypes
import os
import signal
import sys
import threading
import time

__all__ = ["end_with"]

_PR_SET_PDEATHSIG = 1
_LOOK_AGAIN = 1.0


def end_with(parent: int) -> None:
    """Let this process end with its parent, and now where that has happened already.

    On Linux the system does it at once. Elsewhere a thread looks every second who the parent is.
    """
    if sys.platform == "linux":
        ctypes.CDLL(None, use_errno=True).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
        if os.getppid() != parent:
            os._exit(1)
    else:
        threading.Thread(target=_look, args=(parent,), daemon=True).start()


def _look(parent: int) -> None:
    while os.getppid() == parent:
        time.sleep(_LOOK_AGAIN)
    os._exit(1)
