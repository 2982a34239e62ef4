"""Jobs done in forked children, a few at once, each with a word to say at its end."""

from __future__ import annotations

import json
import os
import signal
import tempfile
import traceback
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from pathlib import Path
from typing import Any, TypeVar

__all__ = ["WORDS", "each_in_a_child", "said_by_a_child"]

WORDS = ("", "cases", "tests", "crash", "time")
"""What a child can say of a change: by what it is noticed; empty if by nothing."""
_BROKEN = 99
Job = TypeVar("Job")


def each_in_a_child(
    jobs: Iterable[Job], run: Callable[[Job], str], at_once: int
) -> Iterator[tuple[Job, str]]:
    """Every job with the word of its child, in the order in which they end."""
    running: dict[int, Job] = {}
    for job in jobs:
        if len(running) == at_once:
            yield _ended(running)
        running[_child(partial(_coded, run, job))] = job
    while running:
        yield _ended(running)


def said_by_a_child(run: Callable[[], Any]) -> Any:
    """What ``run`` returns in a child, as far as JSON can say it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said"

        def told() -> int:
            path.write_text(json.dumps(run()), encoding="utf-8")
            return 0

        _, status = os.waitpid(_child(told), 0)
        if status:
            raise RuntimeError(f"a child has failed: {status}")
        return json.loads(path.read_text(encoding="utf-8"))


def _coded(run: Callable[[Job], str], job: Job) -> int:
    return WORDS.index(run(job))


def _child(run: Callable[[], int]) -> int:
    pid = os.fork()
    if pid:
        return pid
    code = _BROKEN
    try:
        code = run()
    except Exception:
        traceback.print_exc()
    finally:
        os._exit(code)


def _ended(running: dict[int, Job]) -> tuple[Job, str]:
    pid, status = os.wait()
    job, code = running.pop(pid), os.waitstatus_to_exitcode(status)
    if code == _BROKEN:
        raise RuntimeError(f"could not be tried: {job}")
    if code < 0:
        return job, "time" if -code == signal.SIGXCPU else "crash"
    return job, WORDS[code]
