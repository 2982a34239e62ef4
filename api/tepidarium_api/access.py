"""Who may ask, and how often: keys by a file of their hashes, and a rate for each client. Both only by setting."""

from __future__ import annotations

import hashlib
import hmac
from pathlib import Path
from time import monotonic

from .settings import SettingsError

__all__ = ["Keys", "Rates"]

_MOST_CLIENTS = 10_000


class Keys:
    """The keys of a file, one a line: the SHA-256 of the key as 64 hexadecimal digits, and a name of its holder."""

    def __init__(self, file: str) -> None:
        self._names: dict[bytes, str] = {}
        self.wanted = bool(file)
        if not file:
            return
        try:
            lines = Path(file).read_text().splitlines()
        except (OSError, UnicodeDecodeError):
            raise SettingsError("TEPIDARIUM_API_KEYS: the file cannot be read") from None
        for number, line in enumerate(lines, 1):
            digest, _, name = line.partition("#")[0].strip().partition(" ")
            if not digest:
                continue
            try:
                content = bytes.fromhex(digest)
            except ValueError:
                content = b""
            if len(content) != hashlib.sha256().digest_size:
                raise SettingsError(f"TEPIDARIUM_API_KEYS: line {number} does not begin with a SHA-256")
            self._names[content] = name.strip() or digest[:8]

    def holder(self, key: bytes) -> str | None:
        """The name of who holds a key; the comparison takes as long for every key."""
        digest, holder = hashlib.sha256(key).digest(), None
        for known, name in self._names.items():
            if hmac.compare_digest(known, digest):
                holder = name
        return holder


class Rates:
    """So many requests a second for each client, and a burst of two seconds' worth."""

    def __init__(self, rate: float) -> None:
        self._rate = rate
        self._burst = max(1.0, 2.0 * rate)
        self._left: dict[str, tuple[float, float]] = {}

    def allows(self, client: str) -> bool:
        if not self._rate:
            return True
        now = monotonic()
        left, seen = self._left.pop(client, (self._burst, now))
        left = min(self._burst, left + (now - seen) * self._rate)
        allowed = left >= 1.0
        self._left[client] = (left - allowed, now)
        if len(self._left) > _MOST_CLIENTS:  # whoever has not asked for longest has its burst again
            del self._left[next(iter(self._left))]
        return allowed
