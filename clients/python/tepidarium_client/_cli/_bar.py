"""The bar of a batch on a terminal; needs the extra ``batch``."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import BarColumn, Progress, ProgressColumn, Task, TimeRemainingColumn
from rich.text import Text

__all__ = ["bar"]

RATED = 60.0
"""[s] of the past that rate and time left rest on."""


class _Lines(ProgressColumn):
    def render(self, task: Task) -> Text:
        return Text(f"{int(task.completed)} of {int(task.total or 0)} lines")


class _Rate(ProgressColumn):
    def render(self, task: Task) -> Text:
        speed = task.finished_speed or task.speed
        return Text("" if speed is None else f"{speed:.1f}/s")


@contextmanager
def bar(lines: int, done: int) -> Iterator[Callable[[int], object]]:
    """A bar of so many ``lines``, of which some are ``done``; what is yielded takes the number of new ones."""
    columns = (_Lines(), BarColumn(), _Rate(), TimeRemainingColumn(elapsed_when_finished=True))
    with Progress(*columns, console=Console(stderr=True), speed_estimate_period=RATED) as progress:
        task = progress.add_task("", total=lines, completed=done)
        yield lambda number: progress.advance(task, number)
