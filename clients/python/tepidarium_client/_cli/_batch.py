"""The command ``batch``: a bar on a terminal while it runs, a summary at the end."""

from __future__ import annotations

import argparse
import asyncio
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib.util import find_spec

import msgspec

from .._batch import Batch, Results
from .._client import AsyncClient

__all__ = ["run_batch"]

FAILED_LINES = 3


def run_batch(options: argparse.Namespace, url: str) -> int:
    """Carry out the batch; returns the exit code."""
    with Results(options.output) as results:
        batch = asyncio.run(_run(options, url, results))
    return _summary(batch, options)


async def _run(options: argparse.Namespace, url: str, results: Results) -> Batch:
    async with AsyncClient(
        url, timeout=options.timeout, retries=options.retries, concurrency=options.concurrency
    ) as client:
        batch = Batch(
            client,
            options.calculation,
            options.source,
            results,
            in_order=not options.as_they_come,
            patience=options.patience,
        )
        await batch.prepare()
        with _bar(batch) as progress:
            await batch.run(progress)
        return batch


@contextmanager
def _bar(batch: Batch) -> Iterator[Callable[[int], object]]:
    """A bar with rate and time left, where there is a terminal and the package that draws it."""
    if not (sys.stderr.isatty() and find_spec("rich")):
        yield lambda _: None
        return
    from ._bar import bar  # noqa: PLC0415 - needs an extra, and only for a terminal

    with bar(batch.lines, batch.done) as advance:
        yield advance


def _summary(batch: Batch, options: argparse.Namespace) -> int:
    good = batch.done - batch.failed
    if options.json:
        counts = {"lines": batch.lines, "results": good, "problems": batch.failed}
        sys.stdout.write(msgspec.json.encode(counts).decode() + "\n")
    else:
        sys.stdout.write(
            f"{batch.lines} lines: {good} with a result, {batch.failed} with a problem, in {options.output}\n"
        )
    return FAILED_LINES if batch.failed else 0
