"""``python -m tepidarium_client`` is the command ``tepidarium``."""

from __future__ import annotations

import sys

from ._cli import main

__all__: list[str] = []

if __name__ == "__main__":
    sys.exit(main())
