"""Several cores for one request: processes that a worker process forks for as long as one calculation takes."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack, contextmanager
from multiprocessing import get_context
from typing import TypeVar

from tepidarium_engine.spreading import Spread

from .parentage import end_with

__all__ = ["spread_over"]

T = TypeVar("T")
R = TypeVar("R")


@contextmanager
def spread_over(cores: int) -> Iterator[Spread]:
    """A map over so many processes while the block runs; the built-in one where one core is all there is.

    Processes are forked when there is something to spread. They share what the worker has loaded, and end with it when
    it is killed at its deadline. That is known to hold on Linux; elsewhere, and where the system refuses processes, one
    core does all. Only for processes with a single thread.
    """
    if cores < 2 or sys.platform != "linux":
        yield map
        return
    with ExitStack() as open_pool:
        yield _Forked(cores, open_pool)


class _Forked:
    """Like ``map``, in processes that are forked for the first items of which there are several."""

    def __init__(self, cores: int, open_pool: ExitStack) -> None:
        self._cores = cores
        self._open_pool = open_pool
        self._map: Spread | None = None

    def __call__(self, job: Callable[[T], R], items: Iterable[T], /) -> Iterable[R]:
        pieces = list(items)
        if len(pieces) < 2:
            return map(job, pieces)
        if self._map is None:
            self._map = self._forked()
        return self._map(job, pieces)

    def _forked(self) -> Spread:
        try:
            pool = ProcessPoolExecutor(self._cores, get_context("fork"), end_with, (os.getpid(),))
            self._open_pool.enter_context(pool)
            pool.submit(os.getpid).result()
        except OSError:
            return map
        return pool.map
