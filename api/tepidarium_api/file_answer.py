"""Several files as one answer."""

from __future__ import annotations

import io
from collections.abc import Mapping
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

__all__ = ["zipped"]

_DATE = (1980, 1, 1, 0, 0, 0)
"""The first that the format knows: the same files give the same bytes on every day."""


def zipped(files: Mapping[str, bytes]) -> bytes:
    """The files by name as ``application/zip``."""
    packed = io.BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED, compresslevel=6) as archive:
        for name, content in files.items():
            entry = ZipInfo(name, _DATE)
            entry.compress_type, entry.create_system, entry.external_attr = ZIP_DEFLATED, 3, 0o644 << 16
            archive.writestr(entry, content)
    return packed.getvalue()
