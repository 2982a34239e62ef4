"""Large answers in gzip, for clients that ask for it.

Zstandard would pack faster, but no smaller at a level that is fast: 12.4 kB of a heat loss become 2.5 kB by gzip and
2.7 kB by zstd, 795 kB of a house 135 and 133 kB. Gzip takes 0.04 and 12 ms for them, far less than the calculations,
and every client understands it.
"""

from __future__ import annotations

import gzip

from anyio import to_thread

from .incoming import Fields, fields_of
from .negotiation import gzip_wanted

__all__ = ["encoded"]

Headers = list[tuple[bytes, bytes]]

LEAST_BYTES = 4096
"""To pack less takes as long as the calculation, and saves a packet or two."""
INLINE_BYTES = 32 * 1024
"""Larger bodies are packed in a thread, since that takes milliseconds."""
LEVEL = 5
"""Of 9. The highest makes the answers at most a tenth smaller and takes four times as long."""


async def encoded(asked: Fields, headers: Headers, body: bytes) -> tuple[Headers, bytes]:
    """Headers and body of a response as they are sent: in gzip if the body is large and the request allows it."""
    if len(body) < LEAST_BYTES:
        return headers, body
    kept = [(name, value) for name, value in headers if name not in {b"vary", b"content-length"}]
    vary = b", ".join(filter(None, (fields_of(headers).get(b"vary"), b"accept-encoding")))
    kept.append((b"vary", vary))
    if gzip_wanted(asked.get(b"accept-encoding", b"").decode("latin-1")):
        packed = _packed(body) if len(body) <= INLINE_BYTES else await to_thread.run_sync(_packed, body)
        kept.append((b"content-encoding", b"gzip"))
        body = packed
    kept.append((b"content-length", str(len(body)).encode()))
    return kept, body


def _packed(body: bytes) -> bytes:
    return gzip.compress(body, LEVEL, mtime=0)
