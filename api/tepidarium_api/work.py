"""What runs in a worker process. Apart from the server's modules, so that such a process starts quickly."""

from __future__ import annotations

import msgspec

from .answer import Answer, answer, prepare
from .calculations import Calculation, FileReading
from .failures import Failure, describe
from .problems import Problem
from .reading import SentFile, file_answer

__all__ = ["probe", "warm_up", "work", "work_on_file"]


def work(calculation: Calculation, body: bytes, accept: str, cores: int) -> Answer | Problem | Failure:
    """One request in a worker process, which may use so many cores for it."""
    try:
        return answer(calculation, body, accept, cores=cores)
    except Exception as error:
        return describe(error)


def work_on_file(reading: FileReading, file: SentFile, _cores: int) -> Answer | Problem | Failure:
    """One file in a worker process, on one core."""
    try:
        return file_answer(reading, file)
    except Exception as error:
        return describe(error)


def warm_up(calculations: tuple[Calculation, ...]) -> int:
    """Load everything in a worker process; the number of calculations is ready to answer.

    The light examples are answered, which loads what they share with the heavy ones; those would keep a process
    from its first request for longer than its first request gains.
    """
    for calculation in calculations:
        prepare(calculation)
        if not calculation.heavy:
            answer(calculation, msgspec.json.encode(calculation.example), "")
    return len(calculations)


def probe() -> bool:
    """A trivial job: a process that can do it has loaded this module, and with it every calculation."""
    return True
