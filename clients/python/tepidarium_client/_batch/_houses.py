"""The lines of the input, read one at a time and never more of one than the service would take."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import msgspec

__all__ = ["House", "houses"]

CHUNK = 1 << 20
BYTE_ORDER_MARK = b"\xef\xbb\xbf"


@dataclass(frozen=True, slots=True)
class House:
    """One line: its number from 1, the digest of its bytes, its length [bytes]; ``content`` is None when it is longer
    than allowed."""

    line: int
    digest: str
    length: int
    content: bytes | None

    def key_and_body(self) -> tuple[bytes, bytes]:
        """The key as JSON, and what is sent. What is not a JSON object is sent as it is: the service says what is
        wrong with it."""
        number, content = str(self.line).encode(), self.content or b""
        if b'"key"' not in content:
            return number, content
        try:
            members = msgspec.json.decode(content, type=dict[str, msgspec.Raw])
        except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
            return number, content
        if "key" not in members:
            return number, content
        key = bytes(members.pop("key"))
        return key, msgspec.json.encode(members)


def houses(path: Path, calculation: str, longest: int) -> Iterator[House]:
    """The lines that hold anything; the last one may end without a newline."""
    with path.open("rb") as file:
        number = 0
        while start := file.readline(CHUNK):
            number += 1
            content = (start.removeprefix(BYTE_ORDER_MARK) if number == 1 else start).rstrip(b"\r\n")
            if content.isspace() or not content:
                continue
            digest, length, kept = (
                hashlib.sha256(calculation.encode() + b"\n" + content),
                len(content),
                [content],
            )
            while not start.endswith(b"\n") and (start := file.readline(CHUNK)):
                more = start.rstrip(b"\r\n")
                digest.update(more)
                length += len(more)
                if length <= longest:
                    kept.append(more)
            whole = b"".join(kept) if length <= longest else None
            yield House(number, digest.hexdigest()[:16], length, whole)
