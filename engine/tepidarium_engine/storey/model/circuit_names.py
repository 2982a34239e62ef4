"""What the circuits of a room are called: like the room, with a number where there are several."""

from __future__ import annotations

from collections.abc import Collection

__all__ = ["circuit_name", "number_prefix"]


def number_prefix(name: str, names: Collection[str]) -> str:
    """What numbers of a room's circuits are put after: its name and a hyphen, with more of them where another of the
    rooms' ``names`` would be that of a circuit."""
    prefix = f"{name}-"
    while any(other.startswith(prefix) and other[len(prefix) :].isdigit() for other in names):
        prefix += "-"
    return prefix


def circuit_name(name: str, prefix: str, number: int, count: int) -> str:
    """Of circuit ``number``, from 1, of so many."""
    return f"{prefix}{number}" if count > 1 else name
