"""What is going on, on standard error: a running line on a terminal, plain lines elsewhere."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO

__all__ = ["Progress"]

REDRAW = 0.2
"""[s]."""


class Progress:
    """Tells the steps of a longer command and the time that each takes."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._terminal = stream.isatty()

    @contextmanager
    def step(self, text: str) -> Iterator[None]:
        """Tell a step while it runs, and how it ended."""
        start, ended = time.monotonic(), threading.Event()
        clock = threading.Thread(target=self._run_clock, args=(text, start, ended), daemon=True)
        if self._terminal:
            clock.start()
        outcome = "failed"
        try:
            yield
            outcome = "done"
        finally:
            ended.set()
            if self._terminal:
                clock.join()
            lead = "\r" if self._terminal else ""
            self._write(f"{lead}{text} ... {outcome} ({time.monotonic() - start:.2f} s)\n")

    def _run_clock(self, text: str, start: float, ended: threading.Event) -> None:
        while not ended.wait(REDRAW):
            self._write(f"\r{text} ... {time.monotonic() - start:.1f} s")

    def _write(self, text: str) -> None:
        self._stream.write(text)
        self._stream.flush()
