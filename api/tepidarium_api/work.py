"""What runs in a process of its own for one heavy calculation."""

from __future__ import annotations

import os
import resource
from collections.abc import Mapping
from pathlib import Path
from time import time_ns
from typing import NamedTuple

import msgspec

from .answer import Answer, answer, prepare
from .calculations import Calculation, FileReading
from .failures import Failure, describe
from .problems import Problem, problem
from .reading import SentFile, file_answer

__all__ = ["FileJob", "Job", "Worked", "confine", "warm_up", "work"]


class Job(NamedTuple):
    """One request; ``cores`` are those that it may use."""

    calculation: str
    body: bytes
    accept: str
    cores: int


class Worked(NamedTuple):
    """What came of a job, in which process, and when it began and ended [ns since 1970]."""

    outcome: Answer | Problem | Failure
    process: int
    began: int
    ended: int


class FileJob(NamedTuple):
    """One file that is to be read."""

    reading: FileReading
    file: SentFile


def work(job: Job | FileJob, by_name: Mapping[str, Calculation]) -> Worked:
    """The answer to a request, whatever happens."""
    began = time_ns()
    outcome = _outcome(job, by_name)
    return Worked(outcome, os.getpid(), began, time_ns())


def _outcome(job: Job | FileJob, by_name: Mapping[str, Calculation]) -> Answer | Problem | Failure:
    try:
        if isinstance(job, FileJob):
            return file_answer(job.reading, job.file)
        return answer(by_name[job.calculation], job.body, job.accept, cores=job.cores)
    except MemoryError:
        return problem("memory-exceeded", "the calculation needs more memory than it may have")
    except Exception as error:
        return describe(error)


def confine(memory_limit: int) -> None:
    """Let this process take so much more memory than it has [bytes], and leave no image of it where it dies.

    On Linux only: elsewhere the system does not say how much address space a process has.
    """
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    size = Path("/proc/self/statm")
    if size.exists():
        pages = int(size.read_text().split()[0])
        most = pages * resource.getpagesize() + memory_limit
        resource.setrlimit(resource.RLIMIT_AS, (most, most))


def warm_up(calculations: tuple[Calculation, ...]) -> None:
    """Load what the calculations need. Light examples are answered in every form that the event loop makes, which loads
    what they share with heavy ones; those would keep the service from its first request for longer than its first
    request gains."""
    for calculation in calculations:
        prepare(calculation)
        for form in ("", *calculation.media_types):
            if not calculation.heavy_for(form):
                answer(calculation, msgspec.json.encode(calculation.example), form)
