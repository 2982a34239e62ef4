"""From a file to the bytes of its answer, in a worker process."""

from __future__ import annotations

from typing import Any, NamedTuple

from tepidarium_engine.errors import InputError, UnreadableFileError

from .answer import Answer, encoded, faulty
from .answer import not_acceptable as none_acceptable
from .calculations import FileReading
from .negotiation import JSON
from .problems import Problem, problem

__all__ = ["SentFile", "file_answer", "not_acceptable"]


class SentFile(NamedTuple):
    """A file as it came: its format by its media type, the engine's options, the content."""

    format: str
    options: Any
    content: bytes


def not_acceptable() -> Problem:
    return none_acceptable((JSON,))


def file_answer(reading: FileReading, file: SentFile) -> Answer | Problem:
    """Read one file. What the sender can mend comes back as a ``Problem``."""
    if not file.content:
        return problem("unreadable-file", "the file is empty")
    try:
        result = reading.read(file.content, file.format, file.options)
    except UnreadableFileError as refusal:
        return problem("unreadable-file", refusal.faults[0].detail)
    except InputError as refusal:
        return faulty(refusal)
    return Answer(JSON, encoded(file.options, result))
