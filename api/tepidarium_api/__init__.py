"""The HTTP service over the engine: strict JSON in, results or problem documents out. It holds no formula."""

from __future__ import annotations

__all__: list[str] = []
