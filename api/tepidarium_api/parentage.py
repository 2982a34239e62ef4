"""Processes that end with the one that started them, however that one ends."""

from __future__ import annotations

import ctypes
import fcntl
import os
import select
import signal
import sys
import threading
import time

__all__ = ["end_with", "end_with_input"]

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


def end_with_input() -> None:
    """Let this process be told to end (SIGTERM) when its standard input, a pipe, is closed at the other end: by a
    program that is done, or that was killed and can tell nobody."""
    signal.signal(signal.SIGIO, lambda *_: _end_if_closed())
    fcntl.fcntl(sys.stdin, fcntl.F_SETOWN, os.getpid())
    fcntl.fcntl(sys.stdin, fcntl.F_SETFL, fcntl.fcntl(sys.stdin, fcntl.F_GETFL) | os.O_ASYNC)
    _end_if_closed()


def _end_if_closed() -> None:
    looked_at = select.poll()
    looked_at.register(sys.stdin, 0)
    if looked_at.poll(0):
        os.kill(os.getpid(), signal.SIGTERM)


def _look(parent: int) -> None:
    while os.getppid() == parent:
        time.sleep(_LOOK_AGAIN)
    os._exit(1)
