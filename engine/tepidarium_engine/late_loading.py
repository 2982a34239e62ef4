"""What the engine loads where it is first used: the solvers of scipy, which take as long to load as all the rest."""

from __future__ import annotations

from importlib import import_module

__all__ = ["load_late"]

_LATE = ("scipy.linalg", "scipy.optimize", "scipy.sparse.csgraph", "scipy.spatial")


def load_late() -> None:
    """Load it now: for a process that others are forked from, each of which would load it for itself."""
    for name in _LATE:
        import_module(name)
