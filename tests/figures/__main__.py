"""Writes the figures of this version again; see ``record``."""

from __future__ import annotations

import sys

from tepidarium_engine import __version__

from .record import RECORD, is_released, write

if is_released() and RECORD.exists():
    sys.exit(
        f"{__version__} is released: raise the version first, and say in engine/CHANGELOG.md what changes"
    )
write()
print(f"wrote {RECORD}")
