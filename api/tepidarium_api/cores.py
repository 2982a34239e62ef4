"""Several cores for one request: processes that a worker process forks for as long as one calculation takes."""

from __future__ import annotations

import ctypes
import os
import signal
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context

from tepidarium_engine.spreading import Spread

__all__ = ["spread_over"]

_PR_SET_PDEATHSIG = 1


@contextmanager
def spread_over(cores: int) -> Iterator[Spread]:
    """A map over so many processes while the block runs; the built-in one where one core is all there is.

    Forked processes share what the worker has loaded, and end with it when it is killed at its deadline. That is
    known to hold on Linux; elsewhere one core does all. Only for processes with a single thread.
    """
    if cores < 2 or sys.platform != "linux":
        yield map
        return
    with ProcessPoolExecutor(cores, get_context("fork"), _end_with, (os.getpid(),)) as pool:
        yield pool.map


def _end_with(parent: int) -> None:
    """Let the system end this process with its parent, and end now where that has happened already."""
    ctypes.CDLL(None, use_errno=True).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != parent:
        os._exit(1)
