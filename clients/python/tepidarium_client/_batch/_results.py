"""The file of results: whole lines only are added to it, and what is there already is never computed again."""

from __future__ import annotations

import errno
import os
from array import array
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from typing import Self

import msgspec

from ._houses import House

try:
    import fcntl
except ImportError:  # Windows has none; there two batches must not be given the same file
    fcntl = None  # type: ignore[assignment]

__all__ = ["BatchError", "Results", "result_line"]

START = b'{"line":'


class BatchError(Exception):
    """The files do not belong together, or cannot be read or written."""


class _Result(msgspec.Struct):
    engine_version: str = ""


class _Line(msgspec.Struct):
    line: int
    request: str
    result: _Result | None = None
    problem: msgspec.Raw = msgspec.Raw(b"")


def result_line(house: House, key: bytes, member: str, value: bytes) -> bytes:
    """One line of the file, with the newline. ``member``: result or problem, ``value`` its JSON."""
    if b"\n" in value:
        value = msgspec.json.format(value, indent=-1)
    return b'%b%d,"request":"%b","key":%b,"%b":%b}\n' % (
        START,
        house.line,
        house.digest.encode(),
        key,
        member.encode(),
        value,
    )


class Results:
    """Opened, what is there is read: ``done`` lines, ``failed`` ones among them, and their ``engine_version``.

    A torn last line, of a batch that was killed, is cut off. A context manager; one batch at a time has the file.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._digests = array("Q")
        self.done = self.failed = 0
        self.engine_version = ""
        try:
            path.touch()
            if not path.is_file():
                raise OSError(errno.EINVAL, "not a regular file")
            self._file = path.open("r+b", buffering=0)
        except OSError as error:
            raise BatchError(f"{path}: {error.strerror or error}") from error
        try:
            self._lock()
            self._end = self._read()
            self._cut()
        except BaseException:
            self._file.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *exception: object) -> None:
        self._file.close()

    def has(self, house: House) -> bool:
        """Whether the house is done; ``BatchError`` when another request stood in its line then."""
        if house.line >= len(self._digests) or not self._digests[house.line]:
            return False
        if self._digests[house.line] != _number(house.digest):
            raise BatchError(
                f"{self._path} holds results of another input: line {house.line} was a different request. "
                "Name another file for the results."
            )
        return True

    @property
    def last_line(self) -> int:
        """The highest line of the input that has a result."""
        return len(self._digests) - 1 if self._digests else 0

    def add(self, lines: Iterable[bytes]) -> None:
        """Write whole lines. When that fails, as on a full disk, none of a line that is not whole remains."""
        content = memoryview(b"".join(lines))
        written = 0
        try:
            while written < len(content):
                written += self._file.write(content[written:]) or 0
        except OSError as error:
            whole = bytes(content[:written]).rfind(b"\n") + 1
            self._end += whole
            with suppress(OSError):
                self._cut()
            raise BatchError(
                f"{self._path}: {error.strerror or error}. The lines before are whole: when this is mended, give "
                "the same command again, and it goes on from there."
            ) from error
        self._end += written

    def secure(self) -> None:
        """See that the disk has what was written."""
        with suppress(OSError):  # not every file can, a pipe for one
            os.fsync(self._file.fileno())

    def _lock(self) -> None:
        if fcntl is None:
            return
        try:
            fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            raise BatchError(f"{self._path}: another batch writes to this file") from error

    def _cut(self) -> None:
        if self._file.seek(0, os.SEEK_END) != self._end:
            self._file.truncate(self._end)
        self._file.seek(self._end)

    def _read(self) -> int:
        """Read what is there; the end of the last whole line [bytes]."""
        end = 0
        decoder = msgspec.json.Decoder(_Line)
        with self._path.open("rb") as file:
            if not START.startswith(file.read(len(START))):  # a stranger's file may be one endless line
                raise self._stranger(1)
            file.seek(0)
            for number, text in enumerate(file, 1):
                if not text.endswith(b"\n"):
                    if not text.startswith(START) and not START.startswith(text):
                        raise self._stranger(number)
                    break
                try:
                    self._note(decoder.decode(text))
                except (msgspec.MsgspecError, UnicodeDecodeError, ValueError) as error:
                    raise self._stranger(number) from error
                end += len(text)
        return end

    def _note(self, line: _Line) -> None:
        if (line.result is None) != bool(bytes(line.problem)):
            raise ValueError("neither a result nor a problem")
        if line.line < 1 or (line.line < len(self._digests) and self._digests[line.line]):
            raise ValueError("a line that no input has, or twice")
        self._digests.extend([0] * (line.line + 1 - len(self._digests)))
        self._digests[line.line] = _number(line.request)
        self.done += 1
        self.failed += line.result is None
        if line.result is not None and not self.engine_version:
            self.engine_version = line.result.engine_version

    def _stranger(self, number: int) -> BatchError:
        return BatchError(
            f"{self._path}: line {number} is no result of a batch. Name another file for the results."
        )


def _number(digest: str) -> int:
    """A digest in eight bytes, never 0, which stands for a line that is not done."""
    return int(digest, 16) or 1
